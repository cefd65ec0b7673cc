"""Counts checks and keeps what failed, so that one run reports every fault."""

from __future__ import annotations

import sys


class Tally:
    """Checks of one run. `where` is put before every failure: the folder and file being read."""

    def __init__(self) -> None:
        self.passed = 0
        self.failed = 0
        self.skipped = 0
        self.where = ""
        # Greatest deviation seen by kind of check, with its limit: said at the end, so that a tolerance can be judged.
        self.greatest: dict[str, tuple[float, float, str]] = {}

    def check(self, is_right: bool, what: str) -> bool:
        """Counts a check; says `what` when it fails."""
        if is_right:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED {self.where}: {what}", file=sys.stderr)
        return bool(is_right)

    def within(self, kind: str, deviation: float, limit: float, what: str, unit: str = "mm") -> bool:
        """Counts a deviation against its limit; `kind` groups what is said at the end. NaN fails."""
        if not deviation <= self.greatest.get(kind, (-1.0, 0.0, ""))[0]:
            self.greatest[kind] = (deviation, limit, unit)
        return self.check(deviation <= limit, f"{kind}: {what}: off by {deviation:.4f} {unit}, limit {limit} {unit}")

    def add(self, other: Tally) -> None:
        """Takes in what another tally counted."""
        self.passed += other.passed
        self.failed += other.failed
        self.skipped += other.skipped
        for kind, greatest in other.greatest.items():
            if not greatest[0] <= self.greatest.get(kind, (-1.0, 0.0, ""))[0]:
                self.greatest[kind] = greatest

    def skip(self, what: str) -> None:
        """Says loudly that something was not checked."""
        self.skipped += 1
        print(f"SKIPPED {self.where}: {what}", file=sys.stderr)

    def closing(self) -> str:
        """The line a test runner's reader looks for."""
        skipped = f", {self.skipped} skipped" if self.skipped else ""
        return f"{self.passed} passed, {self.failed} failed{skipped}"
