"""Measure the processor seconds of the tests, a room at a time: their own and those of what they start.

Usage: python tools/suite_seconds.py [FOLDER …]   (folders of tests; all without any)

Each folder runs in one process of its own. The rows are printed as a table with the heaviest test files.
Where this account may make a control group of Linux (version 1), the group counts: then the processes of a
browser, which nobody waits for, are in the sum. Elsewhere they are not.
"""

from __future__ import annotations

import os
import resource
import sys
from collections import Counter
from multiprocessing import forkserver
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
_HEAVIEST = 12


_GROUPS = Path("/sys/fs/cgroup/cpuacct")
"""Here Linux counts the nanoseconds of a group of processes (kernel documentation, cpuacct)."""


def _group() -> Path | None:
    """Put this process into a control group of its own and return it; None where that is not allowed."""
    group = _GROUPS / f"shedbook-tests-{os.getpid()}"
    try:
        group.mkdir()
        (group / "tasks").write_text(str(os.getpid()))
    except OSError:
        return None
    return group


def _seconds(group: Path | None) -> float:
    """Return the processor seconds of a group; without one, of this process and what it has waited for."""
    if group is not None:
        return int((group / "cpuacct.usage").read_text()) / 1e9
    spent = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(one.ru_utime + one.ru_stime for one in spent)


class Meter:
    """A plug-in of pytest that adds up processor seconds by test file."""

    def __init__(self, group: Path | None) -> None:
        self.group, self.begun, self.tests = group, _seconds(group), 0
        self.files: Counter[str] = Counter()

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        """Add what the test took to its file."""
        now = _seconds(self.group)
        self.files[nodeid.partition("::")[0]] += now - self.begun  # type: ignore[assignment]
        self.tests += 1
        self.begun = now


def measured(folder: str) -> None:
    """Run the tests of a folder and print its row."""
    group = _group()
    meter, started = Meter(group), _seconds(group)
    quiet = os.dup(1)
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    status = pytest.main(["-q", "-p", "no:xdist", "-p", "no:cacheprovider", folder], plugins=[meter])
    forkserver._forkserver._stop()  # type: ignore[attr-defined]  # so that what its workers took is counted
    os.dup2(quiet, 1)
    heavy = ", ".join(
        f"{Path(name).relative_to(folder)} {spent:.0f}" for name, spent in meter.files.most_common(_HEAVIEST)
        if spent >= 1
    )  # fmt: skip
    said = "" if status == 0 else f" (ended with {int(status)})"
    print(f"| {folder}{said} | {meter.tests} | {_seconds(group) - started:.0f} | {heavy} |", flush=True)


def main(folders: list[str]) -> None:
    """Print the table."""
    os.chdir(ROOT)
    rooms = [path for path in Path("tests").iterdir() if any(path.rglob("test_*.py"))]
    print("| tests | how many | processor seconds | the heaviest files |\n|---|---|---|---|", flush=True)
    for folder in folders or sorted(map(str, rooms)):
        child = os.fork()
        if child == 0:
            measured(folder)
            os._exit(0)
        os.waitpid(child, 0)


if __name__ == "__main__":
    main(sys.argv[1:])
