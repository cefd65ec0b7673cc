#!/usr/bin/env python3
"""Measures the studio as a maker meets it, and writes docs/benchmarks-studio.md: start, memory, a handle under the hand, long work, many
clients, and a program that is killed.

    tools/benchmarks --studio

Needs Node, Chromium and the packages of web/ (`npm ci`). Nothing else should run.
"""

import argparse
import http.client
import json
import os
import socket
import statistics
import subprocess
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs/benchmarks-studio.md"
SUIT = "example-14"
LAID = "example-15"


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


class Studio:
    """The program on a folder; `ready` is the time from its start to its first answered page, in ms."""

    def __init__(self, program, folder):
        self.port = free_port()
        began = time.monotonic()
        command = [program, "studio", "--port", str(self.port), "--data", str(folder), "--no-open"]
        self.process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        while True:
            try:
                status, _ = self.ask("GET", "/api/v1/home")
                if status == 200:
                    break
            except OSError:
                pass
            if self.process.poll() is not None or time.monotonic() - began > 60:
                raise SystemExit("the studio did not start")
            time.sleep(0.002)
        self.ready = 1000 * (time.monotonic() - began)

    def ask(self, method, path, body=None):
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=120)
        try:
            line.request(method, path, None if body is None else json.dumps(body),
                         {"content-type": "application/json", "x-slackwater": "1"})
            reply = line.getresponse()
            text = reply.read()
            return reply.status, json.loads(text) if text else None
        finally:
            line.close()

    def work(self, path, body):
        """Starts a job and waits for its end."""
        status, started = self.ask("POST", path, body)
        if status != 202:
            raise SystemExit(f"{path}: {status} {started}")
        while True:
            _, job = self.ask("GET", f"/api/v1/jobs/{started['job']}")
            if job["state"] not in ("running", "waiting"):
                return job["state"]
            time.sleep(0.1)

    def memory(self):
        """Resident now and at most, MB."""
        lines = dict(line.split(":", 1) for line in Path(f"/proc/{self.process.pid}/status").read_text().splitlines())
        return tuple(int(lines[key].split()[0]) / 1024 for key in ("VmRSS", "VmHWM"))

    def end(self):
        self.process.terminate()
        self.process.wait(30)


def table(rows):
    """Dictionaries as a Markdown table."""
    keys = list(rows[0])
    lines = ["| " + " | ".join(keys) + " |", "| " + " | ".join("---" for _ in keys) + " |"]
    return lines + ["| " + " | ".join(str(row[key]) for key in keys) + " |" for row in rows]


def start_and_memory(program, times):
    lines = ["## Start", ""]
    with tempfile.TemporaryDirectory() as folder:
        first = Studio(program, folder)
        fresh = first.ready
        first.end()
        again = []
        for _ in range(times):
            studio = Studio(program, folder)
            again.append(studio.ready)
            studio.end()
        again.sort()
        lines += [f"From the start of the program to the first answered page: {fresh:.0f} ms with a new folder (the example is drafted and kept), "
                  f"then {statistics.median(again):.0f} ms in the middle and {again[-1]:.0f} ms at most of {times} starts.", "",
                  "## Memory", ""]
        studio = Studio(program, folder)
        time.sleep(2)
        rows = [{"after": "start", "resident MB": f"{studio.memory()[0]:.0f}", "at most": f"{studio.memory()[1]:.0f}"}]
        for words, path, body in [("a suit put on its form", f"/api/v1/suits/{SUIT}/worn", {}),
                                  ("a finer mesh", f"/api/v1/suits/{SUIT}/worn", {"mesh": "fine"}),
                                  ("a lay packed for 10 s", f"/api/v1/suits/{LAID}/lay/shell/pack", {"seconds": 10, "afresh": False})]:
            state = studio.work(path, body)
            if state != "done":
                raise SystemExit(f"{words}: {state}")
            time.sleep(1)
            now, most = studio.memory()
            rows.append({"after": words, "resident MB": f"{now:.0f}", "at most": f"{most:.0f}"})
        studio.end()
    return lines + table(rows)


def in_the_browser(program):
    with tempfile.NamedTemporaryFile(suffix=".json") as out:
        subprocess.run(["node", "web/test/latency.mjs"], cwd=ROOT, check=True, env=os.environ | {"SLACKWATER": program, "FIGURES": out.name})
        figures = json.loads(Path(out.name).read_text())
    return ["## A handle under the hand", "",
            "In Chromium: 60 moves of a handle, 16 ms apart. From the request to the redrawn pieces in the page.", "", *table(figures["rows"]),
            "", "## Long work", "", *table(figures["jobs"])]


def many_clients(load):
    said = subprocess.run(load, cwd=ROOT, capture_output=True, text=True)
    print(said.stdout, said.stderr)
    if said.returncode != 0:
        raise SystemExit("the load bench failed")
    return ["## Many hands at once", "", "```text", said.stdout.strip(), "```"]


def killed(program, kills):
    said = subprocess.run(["node", "--test", "--test-reporter=tap", "web/test/journeys/killed.mjs"], cwd=ROOT, capture_output=True, text=True,
                          env=os.environ | {"SLACKWATER": program, "KILLS": str(kills)})
    print(said.stdout)
    if said.returncode != 0:
        raise SystemExit("an edit was lost")
    told = [line.lstrip("#\\ ") for line in said.stdout.splitlines() if " kills, " in line]
    return ["## Killed", "", "SIGKILL in the middle of edits, then a new start: every edit that was answered must be there.", "", *(f"{line}." for line in told)]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--load", nargs="+", required=True)
    parser.add_argument("--starts", type=int, default=20)
    parser.add_argument("--kills", type=int, default=100)
    args = parser.parse_args()
    program = str(Path(args.program).resolve())
    lines = ["# Benchmarks of the studio", "",
             "Made by `tools/benchmarks --studio` on a release build: a machine of "
             f"{os.cpu_count()} cores, client, browser and studio on it together, nothing else running (load before: {os.getloadavg()[0]:.1f}).", ""]
    for part in (lambda: start_and_memory(program, args.starts), lambda: in_the_browser(program), lambda: many_clients(args.load),
                 lambda: killed(program, args.kills)):
        lines += part() + [""]
    PAGE.write_text("\n".join(lines).rstrip() + "\n")


if __name__ == "__main__":
    main()
