"""Plant small faults into a room, one at a time, and count how many the room's tests find.

Usage: python tools/mutants.py ROOM [--count 300] [--seed 1] [--only NUMBER]   (ROOM: a name of `ROOMS`)

The faults are those of cosmic-ray (`pip install cosmic-ray`), and two of our own: min for max, all for any.
Its own runner is not used: it writes each fault into the source file itself and starts all tests anew, which
takes 20 s and more a fault; mutmut copies the tree and cannot import tests by `importlib`. Here the place of
a fault is drawn first, each place alike, then the fault; what stands in an annotation is left out, because it
is never run. The tests that run the line are asked, the shortest first, in a
forked process that takes the changed text of the one module in place of the file. A fault that ends a test
program, or makes it five times as slow, counts as found.

What survives is printed as a difference. The figures are in docs/tests.md.
"""

from __future__ import annotations

import argparse
import ast
import difflib
import hashlib
import importlib.abc
import importlib.util
import json
import math
import os
import random
import signal
import sys
import time
import traceback
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import cosmic_ray.plugins as plugins
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.operator import Operator

ROOT = Path(__file__).resolve().parents[1]
KEPT = ROOT / "build" / "mutants"

ROOMS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "theory": (("theory",), ("tests/theory",)),
    "phrase": (("phrase",), ("tests/phrase",)),
    "analysis": (("analysis",), ("tests/analysis",)),
    "editions": (("editions",), ("tests/editions",)),
    "sound": (("sound/players", "sound/arranging", "sound/feels", "sound/score"), ("tests/sound",)),
    "book": (("book",), ("tests/book",)),
    "manuscript": (
        ("book/ground", "book/manuscript", "book/scores", "book/workshop"),
        ("tests/book/ground", "tests/book/manuscript", "tests/book/scores", "tests/book/workshop"),
    ),
    "exchange": (("exchange",), ("tests/exchange",)),
    "lattice": (("lattice", "dense_chains"), ("tests/lattice", "tests/dense_chains")),
}
"""Name of a room to its folders under src/shedbook, and to the folders of its tests."""

_NOT_ASKED = ("VariableInserter", "VariableReplacer", "ExceptionReplacer", "RemoveDecorator")
"""Faults that need to be told names, or that only change how errors are called or values are kept."""

_MOST_EXPECTED = 60
_LEAST_SECONDS, _MOST_SECONDS = 90, 300


class _Swap(Operator):
    """Write one name of a built-in function in place of another."""

    pair = ("", "")

    def mutation_positions(self, node):  # type: ignore[no-untyped-def]
        if node.type == "name" and node.value in self.pair:
            after = node.get_next_leaf()
            if after is not None and after.value == "(":
                yield node.start_pos, node.end_pos

    def mutate(self, node, index):  # type: ignore[no-untyped-def]
        one, other = self.pair
        node.value = other if node.value == one else one
        return node

    @classmethod
    def examples(cls):  # type: ignore[no-untyped-def]
        return ()


class MinMax(_Swap):
    """min for max, and the other way round."""

    pair = ("min", "max")


class AnyAll(_Swap):
    """any for all, and the other way round."""

    pair = ("any", "all")


OWN = {"own/MinMax": MinMax, "own/AnyAll": AnyAll}


class Fault(NamedTuple):
    """One fault: the file, the line, the operator of cosmic-ray and which of its places in the file."""

    path: Path
    line: int
    column: int
    operator: str
    occurrence: int

    def text(self) -> str:
        """Return the text of the module with the fault."""
        made = mutate_code(self.path.read_text(encoding="utf-8"), operator_of(self.operator), self.occurrence)
        return str(made or "")


def operator_of(name: str) -> Operator:
    """Return an operator of cosmic-ray, or one of ours."""
    return OWN[name]() if name in OWN else plugins.get_operator(name)()


def faults_in(path: Path) -> Iterator[Fault]:
    """Yield every fault that a module can have, except in annotations."""
    text = path.read_text(encoding="utf-8")
    unread = _annotations(text)
    tree = get_ast(text)
    for name in (*sorted(plugins.operator_names()), *OWN):
        if name.rpartition("/")[2] in _NOT_ASKED:
            continue
        operator, occurrence = operator_of(name), 0
        for node in ast_nodes(tree):
            for (line, column), _ in operator.mutation_positions(node):
                if not any(first <= (line, column) < last for first, last in unread):
                    yield Fault(path, line, column, name, occurrence)
                occurrence += 1


def _annotations(text: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Return where annotations begin and end, and the names of types in calls."""
    found = []
    for node in ast.walk(ast.parse(text)):
        for part in (getattr(node, "annotation", None), getattr(node, "returns", None)):
            if isinstance(part, ast.expr):
                end = (part.end_lineno or 0, part.end_col_offset or 0)
                found.append(((part.lineno, part.col_offset), end))
    return found


def drawn(folders: Sequence[str], count: int, seed: int) -> list[Fault]:
    """Return faults by chance: a place first, then one of the faults that it can have."""
    places: dict[tuple[Path, int, int], list[Fault]] = {}
    for folder in folders:
        for path in sorted((ROOT / "src" / "shedbook" / folder).rglob("*.py")):
            for fault in faults_in(path):
                places.setdefault((path, fault.line, fault.column), []).append(fault)
    chance = random.Random(seed)
    chosen = chance.sample(sorted(places), min(count, len(places)))
    return [chance.choice(places[place]) for place in chosen]


# Running tests in a forked process.


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module a changed text in place of its file."""

    def __init__(self, name: str, path: Path, text: str) -> None:
        self.name, self.path, self.text = name, path, text

    def find_spec(self, fullname, path=None, target=None):  # type: ignore[no-untyped-def]
        if fullname != self.name:
            return None
        inner = [str(self.path.parent)] if self.path.name == "__init__.py" else None
        spec = importlib.util.spec_from_file_location(
            fullname, self.path, loader=self, submodule_search_locations=inner
        )
        return spec

    def exec_module(self, module):  # type: ignore[no-untyped-def]
        exec(compile(self.text, str(self.path), "exec"), module.__dict__)


def module_of(path: Path) -> str:
    """Return the dotted name of a module of ours."""
    parts = path.relative_to(ROOT / "src").with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def run_tests(arguments: list[str], changed: Changed | None, plugin: object | None = None) -> int:
    """Run tests in this process, silently, and return pytest's exit status."""
    import pytest

    quiet = os.open(KEPT / f"said-{os.getppid()}.txt", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    if changed is not None:
        sys.meta_path.insert(0, changed)
    options = ["-x", "-q", "--assert=plain", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header"]
    return int(pytest.main([*options, *arguments], plugins=[plugin] if plugin else None))


def _in_child(work) -> int | None:  # type: ignore[no-untyped-def]
    """Run a function in a forked process; return its status."""
    child = os.fork()
    if child == 0:
        os.setsid()
        try:
            status = work()
        except BaseException:
            (KEPT / "failure.txt").write_text(traceback.format_exc(), encoding="utf-8")
            status = 99
        os._exit(status)
    return child


def waited(child: int, seconds: float) -> int | None:
    """Return the status of a process, None if it took too long and was ended."""
    end = time.monotonic() + seconds
    try:
        while time.monotonic() < end:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.02)
    except BaseException:  # this program is stopped: what it started ends with it
        os.killpg(child, signal.SIGKILL)
        raise
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


# Which tests run which line.


class Recorder:
    """A plug-in of pytest that notes for each test which lines of ours it runs, and how long it takes."""

    def __init__(self, out: Path) -> None:
        import coverage

        self.out = out
        self.coverage = coverage.Coverage(data_file=None, source=[str(ROOT / "src" / "shedbook")])
        self.coverage.start()
        self.seconds: dict[str, float] = {}

    def pytest_runtest_logstart(self, nodeid, location):  # type: ignore[no-untyped-def]
        self.coverage.switch_context(nodeid)

    def pytest_runtest_logreport(self, report):  # type: ignore[no-untyped-def]
        self.seconds[report.nodeid] = self.seconds.get(report.nodeid, 0) + report.duration

    def pytest_sessionfinish(self) -> None:
        self.coverage.stop()
        data = self.coverage.get_data()
        lines = {
            str(Path(name).relative_to(ROOT)): {
                line: [test for test in tests if test]
                for line, tests in data.contexts_by_lineno(name).items()
            }
            for name in data.measured_files()
        }
        self.out.write_text(json.dumps({"lines": lines, "seconds": self.seconds}), encoding="utf-8")


def _state(room: str) -> str:
    """Return a short text that changes with our source files and with the tests of a room."""
    found = hashlib.sha256()
    for folder in ("src/shedbook", *ROOMS[room][1]):
        for path in sorted((ROOT / folder).rglob("*.py")):
            found.update(str(path).encode() + path.read_bytes())
    return found.hexdigest()[:12]


def record_of(room: str) -> dict:  # type: ignore[type-arg]
    """Return what was recorded of a room's tests, recorded now if they or our source files have changed."""
    KEPT.mkdir(parents=True, exist_ok=True)
    out = KEPT / f"{room}-{_state(room)}.json"
    if not out.exists():
        child = _in_child(lambda: run_tests(list(ROOMS[room][1]), None, Recorder(out)))
        status = waited(child, 3600)
        if status != 0:
            out.unlink(missing_ok=True)
            sys.exit(f"The tests of {room} end with {status} although nothing is changed.")
    return json.loads(out.read_text(encoding="utf-8"))


def tests_for(fault: Fault, record: dict) -> list[str]:  # type: ignore[type-arg]
    """Return the tests that run the line of a fault, or else its module; the shortest first.

    The longest are left out where all together would take more than `_MOST_EXPECTED` seconds.
    """
    lines = record["lines"].get(str(fault.path.relative_to(ROOT)), {})
    named = lines.get(str(fault.line), [])
    if not named:
        named = {test for tests in lines.values() for test in tests}
    if not named:  # a table: its lines are run once, before any test
        named = record["seconds"]
    chosen, spent = [], 0.0
    for test in sorted(named, key=lambda test: (record["seconds"].get(test, 0), test)):
        spent += record["seconds"].get(test, 0)
        if chosen and spent > _MOST_EXPECTED:
            break
        chosen.append(test)
    return chosen


class Chosen:
    """A plug-in of pytest that runs only some of the tests collected, in a given order."""

    def __init__(self, tests: Sequence[str]) -> None:
        self.place = {test: number for number, test in enumerate(tests)}

    def pytest_collection_modifyitems(self, items):  # type: ignore[no-untyped-def]
        items[:] = sorted(
            (item for item in items if item.nodeid in self.place), key=lambda item: self.place[item.nodeid]
        )


def is_found(fault: Fault, record: dict) -> bool:  # type: ignore[type-arg]
    """Say whether a test fails with the fault."""
    tests = tests_for(fault, record)
    text = fault.text()
    if not tests or not text:
        return False
    expected = sum(record["seconds"].get(test, 0) for test in tests)
    files = sorted({test.partition("::")[0] for test in tests})
    changed = Changed(module_of(fault.path), fault.path, text)
    child = _in_child(lambda: run_tests(files, changed, Chosen(tests)))
    return waited(child, min(_MOST_SECONDS, max(_LEAST_SECONDS, 5 * expected))) != 0


def interval(found: int, of: int) -> tuple[float, float]:
    """Return Wilson's interval of a share, with a certainty of 95 %."""
    z, share = 1.96, found / of
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z * math.sqrt(share * (1 - share) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return middle - half, middle + half


def _difference(fault: Fault) -> str:
    old = fault.path.read_text(encoding="utf-8").splitlines()
    rows = difflib.unified_diff(old, fault.text().splitlines(), lineterm="", n=0)
    return "\n".join(["  " + row for row in rows if row[:1] in "+-" and row[:3] not in ("+++", "---")])


def main() -> None:
    """Plant the faults of one room and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("room", choices=ROOMS)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", type=int, default=None, help="plant only the fault of this number")
    options = parser.parse_args()
    os.chdir(ROOT)
    os.environ["SHEDBOOK_EXAMPLES"] = "the same each time"
    sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests")]
    for name in ("pytest", "hypothesis", "mido", "numpy"):
        importlib.import_module(name)
    faults = drawn(ROOMS[options.room][0], options.count, options.seed)
    record = record_of(options.room)
    wanted = [one for number, one in enumerate(faults) if options.only in (None, number)]
    signal.signal(signal.SIGTERM, lambda number, frame: sys.exit(1))
    found = done = 0
    try:
        for fault in wanted:
            killed = is_found(fault, record)
            found, done = found + killed, done + 1
            if not killed:
                where = f"{fault.path.relative_to(ROOT / 'src' / 'shedbook')}:{fault.line}"
                print(
                    f"{faults.index(fault)} survives: {where} {fault.operator}\n{_difference(fault)}",
                    flush=True,
                )
    finally:
        if done:
            low, high = interval(found, done)
            share = f"{found / done:.0%} ({low:.0%} to {high:.0%})"
            print(f"{options.room}, seed {options.seed}: {found} of {done} found, {share}", flush=True)


if __name__ == "__main__":
    main()
