"""A stretched tube solved again, with a general minimiser and a law written anew.

The program's example `tube` meshes a tube and solves it by Newton's method with a sparse factor; its contact is a penalty with augmented
passes. Here the same tube is solved from the formulas alone: energy of every triangle by numpy, the shape of least
energy by scipy's bounded L-BFGS-B, and the cylinder as a bound on the radius: in polar coordinates the body is
`radius >= R`, so contact needs no penalty. Nothing is shared but the arguments.

    cargo build -p slackwater-fit --example tube
    .venv/bin/python tests/reference/check_tube.py target/debug/examples/tube

Agreement: 0.1 % in hoop and axial tension, energy, end force and pressure.
"""

import json
import subprocess
import sys

import numpy as np
from scipy.optimize import minimize

LIMIT = 1e-3
CASES = [
    # radius, height, girth stretch, length stretch, k1, k2, nu, beta, around, rows
    (150, 200, 1.2, 1.05, 160, 110, 0.35, 0.3, 48, 6),
    (90, 60, 1.35, 1.0, 360, 200, 0.3, 1.0, 40, 4),
    (140, 80, 1.0, 1.2, 160, 110, 0.35, 0.3, 40, 4),
]


def ours(program, case):
    names = ["radius", "height", "girth-stretch", "length-stretch", "k1", "k2", "nu", "beta", "around", "rows"]
    words = [w for name, value in zip(names, case) for w in (f"--{name}", str(value))]
    words += ["--passes", "6"]
    found = json.loads(subprocess.run([program, *words], check=True, capture_output=True, text=True).stdout)
    assert found["stop"] == "solved", found["stop"]
    return found


class Tube:
    """The tube's triangles, its law, its energy and forces in polar coordinates."""

    def __init__(self, radius, height, girth_stretch, length_stretch, k1, k2, nu, beta, around, rows):
        self.radius, self.height, self.around, self.rows = radius, height, around, rows
        self.beta = beta
        self.kb = np.sqrt(k1 * k2)
        self.a = np.array([self.kb / k1, self.kb / k2])
        shear = self.kb / (2 * (1 + nu))
        block = np.array([[self.kb / k1, -nu, 0], [-nu, self.kb / k2, 0], [0, 0, self.kb / shear]])
        self.d = np.linalg.inv(block)
        self.block = block
        width = 2 * np.pi * radius / girth_stretch / around
        rise = height / length_stretch / rows
        self.width, self.rise = width, rise
        triangles, rest = [], []
        for row in range(rows):
            for i in range(around):
                a, b = row * around + i, row * around + (i + 1) % around
                d, c = a + around, b + around
                flat = {a: (0, 0), b: (0, width), c: (rise, width), d: (rise, 0)}
                halves = [(a, b, d), (b, c, d)] if (row + i) % 2 == 0 else [(a, b, c), (a, c, d)]
                for t in halves:
                    triangles.append(t)
                    rest.append([flat[v] for v in t])
        self.triangles = np.array(triangles)
        rest = np.array(rest, float)
        edges = np.stack([rest[:, 1] - rest[:, 0], rest[:, 2] - rest[:, 0]], axis=2)
        self.inverse = np.linalg.inv(edges)
        self.area = np.abs(np.linalg.det(edges)) / 2
        angles = 2 * np.pi * np.arange(around) / around
        self.start = np.concatenate(
            [
                np.full(around * (rows + 1), radius * 1.02),
                np.tile(angles, rows + 1),
                np.repeat(np.linspace(0, height, rows + 1), around),
            ]
        )

    def law(self, e):
        """Equivalent strain N and its gradient by e, by the definition: taut, or the best direction of a wrinkle."""
        de = e @ self.d.T
        taut = (de[:, 0] >= 0) & (de[:, 1] >= 0) & (de[:, 0] * de[:, 1] >= de[:, 2] ** 2)
        largest = (e[:, 0] + e[:, 1]) / 2 + np.hypot((e[:, 0] - e[:, 1]) / 2, e[:, 2] / 2)
        n = np.sqrt(np.maximum(np.sum(e * de, axis=1), 0))
        gradient = np.where(n[:, None] > 0, de / np.maximum(n, 1e-300)[:, None], 0)
        wrinkled = ~taut & (largest > 0)
        if np.any(wrinkled):
            ew = e[wrinkled]
            theta = np.linspace(0, np.pi, 181)[:-1]

            def m_of(t):
                c, s = np.cos(t), np.sin(t)
                return np.stack([c * c, s * s, c * s], axis=-1)

            def value(t):
                m = m_of(t)
                return np.sum(m * ew, axis=1) / np.sqrt(np.einsum("ij,jk,ik->i", m, self.block, m))

            m = m_of(theta)
            all_values = (ew @ m.T) / np.sqrt(np.einsum("ij,jk,ik->i", m, self.block, m))
            best = theta[np.argmax(all_values, axis=1)]
            low, high = best - np.pi / 180, best + np.pi / 180
            ratio = (np.sqrt(5) - 1) / 2
            for _ in range(60):
                p, q = high - ratio * (high - low), low + ratio * (high - low)
                up = value(p) > value(q)
                high, low = np.where(up, q, high), np.where(up, low, p)
            m = m_of((low + high) / 2)
            root = np.sqrt(np.einsum("ij,jk,ik->i", m, self.block, m))
            n[wrinkled] = np.sum(m * ew, axis=1) / root
            gradient[wrinkled] = m / root[:, None]
        slack = largest <= 0
        n[slack] = 0
        gradient[slack] = 0
        return n, gradient

    def shape(self, x):
        count = len(x) // 3
        rho, theta, y = x[:count], x[count : 2 * count], x[2 * count :]
        return np.stack([rho * np.cos(theta), y, rho * np.sin(theta)], axis=1)

    def strains(self, points):
        p = points[self.triangles]
        edges = np.stack([p[:, 1] - p[:, 0], p[:, 2] - p[:, 0]], axis=2)
        f = edges @ self.inverse
        c = np.einsum("nij,nik->njk", f, f)
        e = np.stack([(c[:, 0, 0] - 1) / 2, (c[:, 1, 1] - 1) / 2, c[:, 0, 1]], axis=1)
        return f, e

    def energy(self, x):
        """Energy in N mm and its gradient."""
        points = self.shape(x)
        f, e = self.strains(points)
        n, dn = self.law(e)
        energy = np.sum(self.area * self.kb * (n**2 / 2 + self.beta * n**4 / 4)) * 1e-3
        s = (self.kb * (n + self.beta * n**3))[:, None] * dn * 1e-3
        stress = np.stack([s[:, [0, 2]], s[:, [2, 1]]], axis=1)
        force = (f @ stress) @ np.transpose(self.inverse, (0, 2, 1)) * self.area[:, None, None]
        out = np.zeros_like(points)
        np.add.at(out, self.triangles[:, 1], force[:, :, 0])
        np.add.at(out, self.triangles[:, 2], force[:, :, 1])
        np.add.at(out, self.triangles[:, 0], -force[:, :, 0] - force[:, :, 1])
        count = len(points)
        rho, theta = x[:count], x[count : 2 * count]
        by_rho = out[:, 0] * np.cos(theta) + out[:, 2] * np.sin(theta)
        by_theta = rho * (-out[:, 0] * np.sin(theta) + out[:, 2] * np.cos(theta))
        return energy, np.concatenate([by_rho, by_theta, out[:, 1]])

    def solve(self):
        count = len(self.start) // 3
        ring = np.arange(count) // self.around
        held = (ring == 0) | (ring == self.rows)
        bounds = [(self.radius, None)] * count
        bounds += [(t, t) if v == 0 else (None, None) for v, t in enumerate(self.start[count : 2 * count])]
        bounds += [(y, y) if h else (None, None) for h, y in zip(held, self.start[2 * count :])]
        options = {"maxiter": 20000, "maxfun": 40000, "ftol": 1e-15, "gtol": 1e-9, "maxcor": 40}
        found = minimize(self.energy, self.start, jac=True, method="L-BFGS-B", bounds=bounds, options=options)
        energy, gradient = self.energy(found.x)
        _, e = self.strains(self.shape(found.x))
        n, dn = self.law(e)
        s = (self.kb * (n + self.beta * n**3))[:, None] * dn
        l1, l2 = np.sqrt(2 * e[:, 0] + 1), np.sqrt(2 * e[:, 1] + 1)

        def mean(v):
            return float(np.sum(v * self.area) / np.sum(self.area))

        # What the bound pushes with, over the strip of skin each inner vertex stands for.
        inner = (ring > 0) & (ring < self.rows)
        chord = 2 * self.radius * np.sin(np.pi / self.around)
        share = chord * self.height / self.rows
        return {
            "hoop_tension_nominal_n_per_m": mean(l2 * s[:, 1]),
            "axial_tension_nominal_n_per_m": mean(l1 * s[:, 0]),
            "energy_n_mm": float(energy),
            "end_force_n": float(np.sum(gradient[2 * count :][ring == self.rows])),
            "pressure_kpa": float(np.mean(gradient[:count][inner])) / share * 1e3,
        }, found


def main():
    program = sys.argv[1]
    failed = 0
    for case in CASES:
        mine, run = Tube(*case).solve()
        theirs = ours(program, case)
        print(f"tube {case}: {run.nit} iterations there, {theirs['steps']} steps here")
        scale = max(abs(v) for k, v in mine.items() if "tension" in k)
        for name, value in mine.items():
            floor = scale if "tension" in name else abs(value)
            off = abs(theirs[name] - value) / max(abs(value), 0.05 * floor)
            verdict = "ok" if off <= LIMIT else "FAILED"
            failed += off > LIMIT
            print(f"  {name}: {theirs[name]:.6g} against {value:.6g}, {off:.1e} of {LIMIT:.0e}  {verdict}")
    print(f"{len(CASES) * 5 - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
