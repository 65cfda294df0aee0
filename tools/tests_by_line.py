"""Which tests run which line, and how long each takes: recorded once for a room, and asked for each fault."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import coverage
import pytest
from _pytest.runner import runtestprotocol

from faults import ROOT, SOURCES, Fault


class Record(NamedTuple):
    """For each file the tests by line ("" for what runs as modules are read), and the seconds by test."""

    lines: dict[str, dict[str, list[str]]]
    seconds: dict[str, float]

    def tests_of(self, fault: Fault) -> list[str]:
        """Return the tests that run the line of a fault, "" among them if it runs as modules are read."""
        return self.lines.get(str(fault.path.relative_to(ROOT)), {}).get(str(fault.line), [])

    def tests_naming(self, fault: Fault) -> set[str]:
        """Return the tests whose file imports the module of a fault."""
        path = fault.path.parent if fault.path.stem == "__init__" else fault.path.with_suffix("")
        name = ".".join(path.relative_to(SOURCES.parent).parts)
        files = {test.partition("::")[0] for test in self.seconds}
        naming = {file for file in files if f"{name} import" in (ROOT / file).read_text(encoding="utf-8")}
        return {test for test in self.seconds if test.partition("::")[0] in naming}

    def tests_near(self, fault: Fault) -> set[str]:
        """Return the tests that run anything of the module of a fault, or of those that import it."""
        name = fault.path.stem if fault.path.stem != "__init__" else fault.path.parent.name
        near = {str(fault.path.relative_to(ROOT))}
        near |= {file for file in self.lines if f"{name} import" in (ROOT / file).read_text(encoding="utf-8")}
        return {
            test for file in near for tests in self.lines.get(file, {}).values() for test in tests if test
        }


def read_records(paths: Iterable[Path]) -> Record:
    """Return records that were written as one."""
    lines: dict[str, dict[str, list[str]]] = {}
    seconds: dict[str, float] = {}
    for path in paths:
        written = json.loads(path.read_text(encoding="utf-8"))
        seconds |= written["seconds"]
        for file, by_line in written["lines"].items():
            known = lines.setdefault(file, {})
            for line, tests in by_line.items():
                known.setdefault(line, []).extend(tests)
    return Record(lines, seconds)


class Recorder:
    """A plug-in of pytest that notes for each test which lines of ours it runs, and how long it takes."""

    def __init__(self, out: Path, folders: Sequence[str]) -> None:
        self.out = out
        self.coverage = coverage.Coverage(data_file=None, source=[str(SOURCES / one) for one in folders])
        self.coverage.start()
        self.seconds: dict[str, float] = {}
        self.failed: set[str] = set()

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        """Note that what runs now is of this test."""
        self.coverage.switch_context(nodeid)

    def pytest_runtest_logreport(self, report: Any) -> None:
        """Add up the seconds of a test, and note whether it fails although nothing is changed."""
        self.seconds[report.nodeid] = self.seconds.get(report.nodeid, 0) + report.duration
        if report.failed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        """Write what was recorded; a test that fails is never asked."""
        self.coverage.stop()
        data = self.coverage.get_data()
        lines = {
            str(Path(name).relative_to(ROOT)): {
                line: [test for test in tests if test not in self.failed]
                for line, tests in data.contexts_by_lineno(name).items()
            }
            for name in data.measured_files()
        }
        seconds = {test: spent for test, spent in self.seconds.items() if test not in self.failed}
        self.out.write_text(json.dumps({"lines": lines, "seconds": seconds}), encoding="utf-8")
        for test in sorted(self.failed):
            print(f"{test} fails although nothing is changed, and is not asked.", file=sys.__stderr__)


def chosen(fault: Fault, record: Record, most: float) -> tuple[list[str], float]:
    """Return the tests to ask about a fault in order, and the seconds they should take, about `most`.

    First those that run its line, then those whose file imports the module (a test of a table runs no line of
    it), then others of the same module: what one test has kept in a cache is not run by the next one, and yet
    makes it fail. Last the rest of the room. Tests of one file stay together, the quickest file first.
    """
    direct = {test for test in record.tests_of(fault) if test}
    named = record.tests_naming(fault) - direct
    near = record.tests_near(fault) - direct - named
    rest = set(record.seconds) - direct - named - near
    tests: list[str] = []
    spent = 0.0
    for group in (direct, named, near, rest):
        for test in _in_order(group, record.seconds):
            takes = record.seconds.get(test, 0.0)
            if tests and spent + takes > most:
                continue
            tests.append(test)
            spent += takes
    return tests, spent


def _in_order(tests: set[str], seconds: dict[str, float]) -> Iterator[str]:
    files: dict[str, list[str]] = {}
    for test in tests:
        files.setdefault(test.partition("::")[0], []).append(test)
    whole = {file: sum(seconds.get(test, 0) for test in inside) for file, inside in files.items()}
    for file in sorted(files, key=lambda file: (whole[file], file)):
        yield from sorted(files[file], key=lambda test: (seconds.get(test, 0), test))


def ask(items: Sequence[pytest.Item]) -> bool:
    """Run tests that are collected, up to the first that fails; say whether one did."""
    following = [*items[1:], None]
    for item, after in zip(items, following, strict=True):
        if any(report.failed for report in runtestprotocol(item, log=False, nextitem=after)):
            return True
    return False
