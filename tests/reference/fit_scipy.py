#!/usr/bin/env python3
"""Worn cloth solved again with numpy and scipy: the same problem, the same Newton's method, another program.

The example `bench` of `slackwater-solve` writes a case (mesh, cloth, elastic, body, start) and its own answer as raw numbers. Here energy, forces
and matrix are put together from the formulas by whole-array numpy, and every step is solved by SuperLU (`scipy.sparse.linalg.splu`,
symmetric mode). Both start where the suit is placed and stop at the same largest force; neither begins on a coarse mesh. The answers must
agree to 0.1 %: energy, stretch, contact force, and every point to 0.1 % of the suit's height. Prints both times and their ratio.

    tools/benchmarks --fit            builds, measures, writes docs/benchmarks-fit.md
    fit_scipy.py --program BENCH      only this comparison
"""

import argparse
import json
import os
import subprocess
import tempfile
import time
from pathlib import Path

import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs/benchmarks-fit.md"
LIMIT = 1e-3
N_PER_MM = 1e-3


class Case:
    """A case as the example wrote it."""

    def __init__(self, folder):
        def read(name, columns):
            return np.fromfile(folder / f"{name}.f64", "<f8").reshape(-1, columns)

        self.about = json.loads((folder / "case.json").read_text())
        self.corners = read("corners", 3).astype(int)
        self.gradients = read("gradients", 6).reshape(-1, 3, 2)
        self.areas = read("areas", 1)[:, 0]
        bars = read("bars", 4)
        self.ends, self.rest, self.stiffness = bars[:, :2].astype(int), bars[:, 2], bars[:, 3]
        self.held = read("held", 3).astype(bool).ravel()
        self.touching = read("touching", 1)[:, 0]
        self.start = read("start", 3)
        self.found = read("found", 3)
        if "radius_mm" in self.about["body"]:
            self.field = Cylinder(self.about["body"]["radius_mm"])
        else:
            values = np.fromfile(folder / "field.f64", "<f8")
            self.field = Grid(self.about["body"], values)


class Cylinder:
    def __init__(self, radius):
        self.radius = radius

    def value(self, x):
        return np.hypot(x[:, 0], x[:, 2]) - self.radius

    def sample(self, x):
        rho = np.hypot(x[:, 0], x[:, 2])
        c, s = x[:, 0] / rho, x[:, 2] / rho
        zero = np.zeros_like(c)
        around = np.stack([-s, zero, c], axis=1)
        hessian = around[:, :, None] * around[:, None, :] / rho[:, None, None]
        return rho - self.radius, np.stack([c, zero, s], axis=1), hessian


class Grid:
    """Uniform cubic B-splines on a grid."""

    def __init__(self, about, values):
        self.origin, self.cell = np.array(about["origin"]), about["cell_mm"]
        self.size = np.array(about["size"])
        self.values = values.reshape(self.size[::-1])

    def nodes(self, x):
        q = np.clip((x - self.origin) / self.cell, 1.0, self.size - 3.000001)
        cell = np.floor(q).astype(int) - 1
        t = q - np.floor(q)
        four = np.arange(4)
        i, j, k = (cell[:, a, None] + four for a in range(3))
        return self.values[k[:, :, None, None], j[:, None, :, None], i[:, None, None, :]], t

    @staticmethod
    def weights(t):
        u = 1 - t
        plain = np.stack([u**3, 3 * t**3 - 6 * t**2 + 4, 3 * u**3 - 6 * u**2 + 4, t**3], axis=-1) / 6
        first = np.stack([-(u**2), 3 * t**2 - 4 * t, -3 * u**2 + 4 * u, t**2], axis=-1) / 2
        second = np.stack([u, 3 * t - 2, 3 * u - 2, t], axis=-1)
        return plain, first, second

    def value(self, x):
        nodes, t = self.nodes(x)
        plain, _, _ = self.weights(t)
        rows = np.einsum("nkji,ni->nkj", nodes, plain[:, 0])
        return np.einsum("nk,nk->n", np.einsum("nkj,nj->nk", rows, plain[:, 1]), plain[:, 2])

    def sample(self, x):
        nodes, t = self.nodes(x)
        w = self.weights(t)
        rows = [np.einsum("nkji,ni->nkj", nodes, w[a][:, 0]) for a in range(3)]

        def derivative(a, b, c):
            return np.einsum("nk,nk->n", np.einsum("nkj,nj->nk", rows[a], w[b][:, 1]), w[c][:, 2])

        gradient = np.stack([derivative(1, 0, 0), derivative(0, 1, 0), derivative(0, 0, 1)], axis=1) / self.cell
        xx, yy, zz = derivative(2, 0, 0), derivative(0, 2, 0), derivative(0, 0, 2)
        xy, xz, yz = derivative(1, 1, 0), derivative(1, 0, 1), derivative(0, 1, 1)
        hessian = np.stack([xx, xy, xz, xy, yy, yz, xz, yz, zz], axis=1).reshape(-1, 3, 3) / self.cell**2
        return derivative(0, 0, 0), gradient, hessian


class Law:
    """Equivalent strain of cloth that is taut, wrinkled along the best direction, or slack."""

    def __init__(self, k1, k2, nu, beta):
        self.kb, self.beta = np.sqrt(k1 * k2), beta
        shear = self.kb / (2 * (1 + nu))
        self.a = np.array([[self.kb / k1, -nu, 0], [-nu, self.kb / k2, 0], [0, 0, self.kb / shear]])
        self.d = np.linalg.inv(self.a)
        self.root = np.sqrt([self.a[0, 0], self.a[1, 1]])

    def equivalent(self, e, with_second=True):
        """N, dN/de and d2N/de2 at strains e = (E11, E22, 2 E12)."""
        de = e @ self.d
        largest = (e[:, 0] + e[:, 1]) / 2 + np.hypot((e[:, 0] - e[:, 1]) / 2, e[:, 2] / 2)
        is_pulled = largest > 0
        is_taut = is_pulled & (de[:, 0] >= 0) & (de[:, 1] >= 0) & (de[:, 0] * de[:, 1] >= de[:, 2] ** 2)
        n = np.sqrt(np.maximum(np.einsum("ni,ni->n", e, de), 0))
        safe = np.maximum(n, 1e-300)[:, None]
        first = de / safe
        # With this shear the best direction is the greatest principal one of the scaled strain.
        half, shear = (e[:, 0] / self.root[0] - e[:, 1] / self.root[1]) / 2, e[:, 2] / 2
        radius = np.maximum(np.hypot(half, shear), 1e-300)
        c2, s2 = half / radius, shear / radius
        m = np.stack([(1 + c2) / 2 / self.root[0], (1 - c2) / 2 / self.root[1], s2 / 2], axis=1)
        first = np.where(is_taut[:, None], first, m)
        n = np.where(is_taut, n, np.einsum("ni,ni->n", e, m))
        n, first = np.where(is_pulled, n, 0), np.where(is_pulled[:, None], first, 0)
        if not with_second:
            return n, first, None
        g = np.stack([-s2 / 2 / self.root[0], s2 / 2 / self.root[1], c2 / 2], axis=1)
        wrinkled = g[:, :, None] * g[:, None, :] / radius[:, None, None]
        taut = (self.d - first[:, :, None] * first[:, None, :]) / safe[:, :, None]
        second = np.where(is_taut[:, None, None], taut, wrinkled)
        return n, first, np.where(is_pulled[:, None, None], second, 0)

    def energy(self, n):
        return self.kb * (n**2 / 2 + self.beta * n**4 / 4)

    def pull(self, n):
        return self.kb * (n + self.beta * n**3)

    def pull_slope(self, n):
        return self.kb * (1 + 3 * self.beta * n**2)


class Problem:
    """Energy, forces and matrix of a case."""

    def __init__(self, case):
        self.case, self.law = case, Law(*case.about["law"])
        self.count = len(case.start)
        self.delta = case.about["slack_pull"] * self.law.kb
        self.penalty = case.about["penalty"]
        self.multipliers = np.zeros(self.count)
        size = 3 * self.count
        # Where each element's numbers go in the matrix: worked out once.
        of_triangles = (3 * case.corners[:, :, None] + np.arange(3)).reshape(-1, 9)
        of_bars = (3 * case.ends[:, :, None] + np.arange(3)).reshape(-1, 6)
        of_points = 3 * np.arange(self.count)[:, None] + np.arange(3)
        self.unknowns = of_triangles, of_bars, of_points
        rows = np.concatenate([np.repeat(u, u.shape[1], axis=1).ravel() for u in self.unknowns])
        columns = np.concatenate([np.tile(u, u.shape[1]).ravel() for u in self.unknowns])
        keys, self.places = np.unique(columns * size + rows, return_inverse=True)
        self.rows, of_keys = keys % size, keys // size
        self.starts = np.searchsorted(of_keys, np.arange(size + 1))
        self.is_diagonal = self.rows == of_keys
        self.is_free = ~(case.held[self.rows] | case.held[of_keys])

    def deformation(self, x):
        at = x[self.case.corners]
        f = np.einsum("nai,naj->nij", at, self.case.gradients)
        c = np.einsum("nij,nik->njk", f, f)
        return f, np.stack([(c[:, 0, 0] - 1) / 2, (c[:, 1, 1] - 1) / 2, c[:, 0, 1]], axis=1)

    def energy(self, x):
        f, e = self.deformation(x)
        n, _, _ = self.law.equivalent(e, with_second=False)
        weak = self.delta * np.einsum("nij,nij->n", f, f) / 2
        cloth = np.sum(self.case.areas * (self.law.energy(n) + weak)) * N_PER_MM
        y = np.maximum(0, self.multipliers - self.penalty * self.case.field.value(x))
        return cloth + self.bars_energy(x) + self.contact_energy(y)

    def bars_energy(self, x):
        ends = x[self.case.ends]
        stretch = np.maximum(0, np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) / self.case.rest - 1)
        return np.sum(self.case.stiffness * self.case.rest * stretch**2) / 2

    def contact_energy(self, y):
        return np.sum(self.case.touching * (y**2 - self.multipliers**2)) / (2 * self.penalty)

    def assemble(self, x):
        case, law = self.case, self.law
        f, e = self.deformation(x)
        n, first, second = law.equivalent(e)
        scale = case.areas * N_PER_MM
        energy = np.sum(scale * (law.energy(n) + self.delta * np.einsum("nij,nij->n", f, f) / 2))
        s = law.pull(n)[:, None] * first
        s[:, :2] += self.delta
        tangent = law.pull_slope(n)[:, None, None] * first[:, :, None] * first[:, None, :]
        tangent += law.pull(n)[:, None, None] * second
        stress = np.stack([s[:, 0], s[:, 2], s[:, 2], s[:, 1]], axis=1).reshape(-1, 2, 2)
        g = case.gradients
        forces = np.einsum("n,nij,njk,nak->nai", scale, f, stress, g)
        # Strain by corner and coordinate: (n, 3, 9).
        by = np.stack(
            [
                g[:, :, 0, None] * f[:, None, :, 0],
                g[:, :, 1, None] * f[:, None, :, 1],
                g[:, :, 0, None] * f[:, None, :, 1] + g[:, :, 1, None] * f[:, None, :, 0],
            ],
            axis=1,
        ).reshape(-1, 3, 9)
        blocks = np.transpose(by, (0, 2, 1)) @ (tangent @ by)
        stiff = g @ stress @ np.transpose(g, (0, 2, 1))
        blocks += (stiff[:, :, None, :, None] * np.eye(3)[None, None, :, None, :]).reshape(-1, 9, 9)
        blocks *= scale[:, None, None]

        ends = x[case.ends]
        between = ends[:, 1] - ends[:, 0]
        length = np.linalg.norm(between, axis=1)
        stretch = length / case.rest - 1
        pulls = stretch > 0
        along = np.where(pulls, case.stiffness / case.rest, 0)
        pull = np.where(pulls, case.stiffness * stretch, 0)
        to = between / length[:, None]
        square = (pull / length)[:, None, None] * np.eye(3)
        square = square + (along - pull / length)[:, None, None] * to[:, :, None] * to[:, None, :]
        sign = np.array([[1, -1], [-1, 1]])
        bars = (sign[None, :, None, :, None] * square[:, None, :, None, :]).reshape(-1, 6, 6)
        on_ends = pull[:, None] * to
        energy += self.bars_energy(x)

        gap, slope, bend = case.field.sample(x)
        y = np.maximum(0, self.multipliers - self.penalty * gap)
        energy += self.contact_energy(y)
        touches = (y > 0) & (case.touching > 0)
        own = self.penalty * slope[:, :, None] * slope[:, None, :] - y[:, None, None] * bend
        own = np.where(touches[:, None, None], case.touching[:, None, None] * own, 0)
        push = -(case.touching * y)[:, None] * slope

        forces = [forces.reshape(-1, 9), np.concatenate([-on_ends, on_ends], axis=1), push]
        where = np.concatenate([u.ravel() for u in self.unknowns])
        gradient = np.bincount(where, np.concatenate([p.ravel() for p in forces]), 3 * self.count)
        numbers = np.concatenate([blocks.ravel(), bars.ravel(), own.ravel()])
        values = np.bincount(self.places, numbers, len(self.rows))
        return energy, gradient, values

    def keep_pushes(self, x):
        y = np.maximum(0, self.multipliers - self.penalty * self.case.field.value(x))
        self.multipliers = np.where(self.case.touching > 0, y, 0)


def factored(problem, values):
    """A factor, or nothing when the matrix is not definite."""
    size = 3 * problem.count
    matrix = csc_matrix((values, problem.rows, problem.starts), shape=(size, size))
    try:
        factor = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError:
        return None
    return factor if np.all(factor.U.diagonal() > 0) else None


def minimise(problem, x, residual_n, largest_move):
    """Damped Newton's method with Armijo's rule; the shape and the steps."""
    held = problem.case.held
    damping, steps = 0.0, 0
    while True:
        energy, gradient, values = problem.assemble(x)
        free = np.where(held, 0, gradient)
        if np.max(np.linalg.norm(free.reshape(-1, 3), axis=1)) < residual_n:
            return x, energy, steps
        if steps >= 300:
            raise SystemExit("scipy's solve did not come to its end in 300 steps")
        mean = np.mean(values[problem.is_diagonal])
        values = np.where(problem.is_free, values, np.where(problem.is_diagonal, mean, 0))
        while True:
            factor = factored(problem, values + damping * mean * problem.is_diagonal)
            if factor is not None:
                break
            damping = max(4 * damping, 1e-4)
        move = factor.solve(-free)
        slope = move @ gradient
        moves = move.reshape(-1, 3)
        cap = min(1.0, largest_move / max(np.max(np.linalg.norm(moves, axis=1)), 1e-300))
        share = cap
        while problem.energy(x + share * moves) > energy + 1e-4 * share * slope + 1e-13 * abs(energy):
            share /= 2
            if share < cap * 2**-30:
                raise SystemExit("scipy's solve found no step that lowers the energy")
        x = x + share * moves
        steps += 1
        part = share / cap
        damping = damping * 0.1 if part > 0.9 else damping * 2 if part >= 0.2 else max(4 * damping, 1e-5)
        if damping < 1e-9:
            damping = 0.0


def compare(program, name, edge):
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        command = [program, "--dump", str(folder), "--case", name, "--edge", str(edge)]
        subprocess.run(command, check=True, capture_output=True, text=True)
        case = Case(folder)
    about = case.about
    began, before = time.monotonic(), time.process_time()
    problem = Problem(case)
    x, steps = case.start, 0
    for number in range(about["augmented_passes"] + 1):
        if number:
            problem.keep_pushes(x)
        x, energy, more = minimise(problem, x, about["residual_n"], about["largest_move_mm"])
        steps += more
    seconds, processor_s = time.monotonic() - began, time.process_time() - before

    ours = about["ours"]

    def reading(at):
        _, e = problem.deformation(at)
        stretch = np.sqrt(2 * e[:, :2] + 1)
        return np.average(stretch, axis=0, weights=case.areas)

    height = np.ptp(case.found[:, 1])
    off = {
        "energy": abs(energy / ours["energy"] - 1),
        "stretch": np.max(np.abs(reading(x) / reading(case.found) - 1)),
        "points": np.max(np.linalg.norm(x - case.found, axis=1)) / height,
    }
    wrong = {k: v for k, v in off.items() if not v <= LIMIT}
    if wrong:
        raise SystemExit(f"{name} at {edge} mm: the answers differ: {wrong}")
    return {
        "case": name,
        "points": about["points"],
        "ours_s": ours["seconds"],
        "ours_processor_s": ours["processor_s"],
        "ours_steps": ours["steps"],
        "scipy_s": seconds,
        "scipy_processor_s": processor_s,
        "scipy_steps": steps,
        "ratio": seconds / ours["seconds"],
        "processor_ratio": processor_s / ours["processor_s"],
        "off": max(off.values()),
    }


def lines(program, cases):
    yield "| case | points | ours, s | steps | scipy, s | steps | scipy / ours | of the processors | largest difference |"
    yield "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"
    for name, edge in cases:
        row = compare(program, name, edge)
        yield (
            f"| {row['case']} | {row['points']} | {row['ours_s']:.2f} ({row['ours_processor_s']:.2f}) "
            f"| {row['ours_steps']} | {row['scipy_s']:.2f} ({row['scipy_processor_s']:.2f}) | {row['scipy_steps']} "
            f"| {row['ratio']:.1f} | {row['processor_ratio']:.1f} | {row['off']:.0e} |"
        )


def page(program, cases):
    """docs/benchmarks-fit.md: our table and this comparison, with how busy the machine was."""
    load = [os.getloadavg()[0]]
    ours = subprocess.run([program, "--table"], check=True, capture_output=True, text=True).stdout
    theirs = "\n".join(lines(program, cases))
    load.append(os.getloadavg()[0])
    cores = os.cpu_count()
    busy = max(load) > 1.2 * cores
    said = (
        f"**Measured on a machine of {cores} cores busy with other work (load {min(load):.0f} to {max(load):.0f}): the seconds on the clock "
        "are too long by that. Read the steps, the processor seconds in brackets and the ratios.**"
        if busy
        else f"Measured on a machine of {cores} cores with nothing else to do (load up to {max(load):.1f})."
    )
    text = PAGE.read_text()
    before, rest = text.split("<!-- measured -->\n", 1)
    _, after = rest.split("<!-- end -->", 1)
    made = f"<!-- measured -->\n{said}\n\n## By the size of the mesh\n\n{ours}\n## Beside scipy\n\n{theirs}\n\n<!-- end -->"
    PAGE.write_text(before + made + after)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", default="target/release/examples/bench")
    # Edges for about 4k and 8k points.
    parser.add_argument("--cases", nargs="+", default=["tube:6.1", "tube:4.3", "suit:7.9", "suit:5.6"])
    parser.add_argument("--page", action="store_true", help="measure all and write docs/benchmarks-fit.md")
    args = parser.parse_args()
    cases = [(c.split(":")[0], float(c.split(":")[1])) for c in args.cases]
    if args.page:
        page(args.program, cases)
        return
    for line in lines(args.program, cases):
        print(line, flush=True)


if __name__ == "__main__":
    main()
