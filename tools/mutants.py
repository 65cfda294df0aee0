"""Plant small faults into a room, one at a time, and count how many the room's tests find.

Usage: python tools/mutants.py ROOM [--count 300] [--seed 1] [--jobs 2] [--minutes 8] [--most 15]
           [--survivors] [--all]

The faults are drawn by `faults.py`. cosmic-ray's own runner is not used: it writes each fault into the source
file itself and starts all tests anew, which takes 20 s and more a fault; mutmut copies the tree and cannot
import tests by `importlib`. Here one process reads all tests of the room once and forks for each fault; the
fork exchanges the code of the functions concerned and runs the tests that run the line, up to the first that
fails. A fault in what runs as modules are read (tables, constants) is planted before they are read. A fault
that ends the test program, or makes it take five times its processor seconds, counts as found. A build does
its jobs in the process of its test (`one_process.py`), so that a fault is in all that it runs; tests that
build dozens of books, and those in a browser, are left out.

What came of each fault is kept under build/mutants, and a further call goes on where the last one stopped;
`--survivors` asks again those that survived, `--all` with all tests of the room. The figures are in
docs/tests.md.
"""

from __future__ import annotations

import argparse
import gc
import hashlib
import importlib.abc
import importlib.machinery
import importlib.util
import json
import math
import os
import resource
import signal
import sys
import time
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import _lru_cache_wrapper, partial
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import NamedTuple

import pytest

from equivalent_faults import EQUIVALENT
from faults import ROOT, SOURCES, Fault, drawn
from one_process import OneProcess
from tests_by_line import Record, Recorder, ask, chosen, read_records

KEPT = ROOT / "build" / "mutants"

_WHOLE_BAND = ("tests/sound/test_band_golden.py", "tests/sound/test_table_halves.py")
ROOMS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "theory": (("theory",), ("tests/theory",)),
    "phrase": (("phrase",), ("tests/phrase",)),
    "analysis": (("analysis",), ("tests/analysis",)),
    "editions": (("editions",), ("tests/editions",)),
    "sound": (
        ("sound/players", "sound/arranging", "sound/feels", "sound/score"),
        (*(f"tests/sound/{part}" for part in ("players", "arranging", "feels", "score")), *_WHOLE_BAND),
    ),  # what is played, as notes: the tests of audio are left out, which take most of the time
    "book": (
        ("book",),
        tuple(
            f"tests/book/{part}"
            for part in (
                "building",
                "bundle",
                "editing",
                "ground",
                "lessons",
                "manuscript",
                "pages",
                "practice",
                "reading_back",
                "scores",
                "tracks",
                "verbs",
                "workshop",
            )
        ),
    ),
    "manuscript": (("book/manuscript", "book/ground"), ("tests/book/manuscript", "tests/book/ground")),
    "pages": (("book/pages",), ("tests/book/pages",)),
    "exchange": (("exchange",), ("tests/exchange",)),
    "lattice": (("lattice", "dense_chains"), ("tests/lattice", "tests/dense_chains")),
}
"""Name of a room to its folders under src/shedbook, and to the folders of its tests."""

_BATCH = 300
_LOADED_ONCE = ("mido", "numpy", "scipy", "hypothesis", "lxml.etree", "pikepdf", "pypdf", "typst", "verovio")
"""Libraries that the tests of most rooms read: loaded before the forks."""
_NOWHERE = 98
"""The status of a fork that could not exchange the code: the fault is planted before the module is read."""
_QUIET = ["-x", "-q", "--assert=plain", "-p", "no:cacheprovider", "-p", "no:xdist", "--no-header"]
_LEFT_OUT = (
    "test_what_depends.py", "test_check_files.py", "test_build_tracks.py",
    "practice/test_page.py", "practice/test_page_for_everyone.py", "practice/test_progress.py",
    "practice/test_recorded.py", "practice/test_schedule.py", "practice/test_teacher_sheet.py",
    "practice/test_tracks_beside.py",
)  # fmt: skip
"""Tests that are not asked: whole builds by the dozen, and those in a browser. They would only find more."""
_QUIET += [f"--ignore-glob=*/{one}" for one in _LEFT_OUT]


class Task(NamedTuple):
    """One fault to be planted, by a name of its own; the tests to ask, and how long they should take."""

    name: str
    fault: Fault
    text: str
    tests: list[str]
    expected: float
    as_read: bool


# Planting.


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module a changed text in place of its file."""

    def __init__(self, path: Path, text: str) -> None:
        self.name, self.path, self.text = module_of(path), path, text

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Return where the changed module comes from, None for every other one."""
        if fullname != self.name:
            return None
        inner = [str(self.path.parent)] if self.path.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(
            fullname, self.path, loader=self, submodule_search_locations=inner
        )

    def exec_module(self, module: ModuleType) -> None:
        """Run the changed text."""
        exec(compile(self.text, str(self.path), "exec"), module.__dict__)


def module_of(path: Path) -> str:
    """Return the dotted name of a module of ours."""
    parts = path.relative_to(SOURCES.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield from _codes(inner)


def _by_place(whole: CodeType) -> dict[tuple[str, int], list[CodeType]]:
    """Return all code of a module by what it is called and where it begins; two lambdas may share a place."""
    found: dict[tuple[str, int], list[CodeType]] = {}
    for code in _codes(whole):
        found.setdefault((code.co_qualname, code.co_firstlineno), []).append(code)
    return found


def exchangeable() -> list[FunctionType | _lru_cache_wrapper[object]]:
    """Return all functions and caches of this process."""
    return [one for one in gc.get_objects() if isinstance(one, (FunctionType, _lru_cache_wrapper))]


def exchanged(path: Path, text: str, held: Iterable[FunctionType | _lru_cache_wrapper[object]]) -> bool:
    """Give the functions of a module that is read the code of a changed text; say whether that could be done.

    What was kept in caches is forgotten.
    """
    old = _by_place(compile(path.read_text(encoding="utf-8"), str(path), "exec"))
    new = _by_place(compile(text, str(path), "exec"))
    count = 0
    for one in held:
        if isinstance(one, _lru_cache_wrapper):
            one.cache_clear()
        elif one.__code__.co_filename == str(path):
            place = (one.__code__.co_qualname, one.__code__.co_firstlineno)
            if len(old.get(place, ())) != 1 or len(new.get(place, ())) != 1:
                return False
            (other,) = new[place]
            if other != one.__code__:
                one.__code__ = other
                count += 1
    return count > 0


# Processes.


def in_child(work: Callable[[], int], seconds: float | None = None) -> int:
    """Start a function in a forked process with so many processor seconds; return the process's number."""
    child = os.fork()
    if child:
        return child
    os.setsid()
    said = os.open(KEPT / f"said-{os.getppid()}.txt", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(said, 1)
    os.dup2(said, 2)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if seconds is not None:
        resource.setrlimit(resource.RLIMIT_CPU, (math.ceil(seconds), math.ceil(seconds) + 5))
    try:
        status = work()
    except BaseException:
        (KEPT / f"failure-{os.getpid()}.txt").write_text(traceback.format_exc(), encoding="utf-8")
        status = 99
    os._exit(status)


def waited(child: int, seconds: float) -> int | None:
    """Return the status of a process, None if it took too long and was ended."""
    end = time.monotonic() + seconds
    try:
        while time.monotonic() < end:
            done, status = os.waitpid(child, os.WNOHANG)
            if done:
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.01)
    except BaseException:  # this program is stopped: what it started ends with it
        os.killpg(child, signal.SIGKILL)
        raise
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def planted_as_read(task: Task) -> int:
    """Read the tests with the fault in one module and run them; return pytest's status."""
    sys.meta_path.insert(0, Changed(task.fault.path, task.text))
    files = sorted({test.partition("::")[0] for test in task.tests})
    return int(pytest.main([*_QUIET, *files], plugins=[Asked(task.tests), OneProcess()]))


class Asked:
    """A plug-in of pytest that runs some of the tests collected, in a given order."""

    def __init__(self, tests: Sequence[str]) -> None:
        self.place = {test: number for number, test in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Leave the tests that are asked."""
        items[:] = sorted(
            (item for item in items if item.nodeid in self.place), key=lambda item: self.place[item.nodeid]
        )


class Server:
    """A plug-in of pytest that, once the tests are read, plants one fault after the other in forks."""

    def __init__(self, tasks: Sequence[Task], report: Callable[[Task, int | None], None]) -> None:
        self.tasks, self.report = tasks, report

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Plant the faults in place of running the tests."""
        items = {item.nodeid: item for item in session.items}
        held = exchangeable()
        gc.freeze()  # what is never collected is never copied by a fork
        for task in self.tasks:
            asked = [items[test] for test in task.tests if test in items]

            def plant(task: Task = task, asked: list[pytest.Item] = asked) -> int:
                return int(ask(asked)) if exchanged(task.fault.path, task.text, held) else _NOWHERE

            self.report(task, waited(in_child(plant, 5 * task.expected + 10), 20 * task.expected + 60))
        return True


def work_through(tasks: Sequence[Task], folders: Sequence[str], kept: Path, end: float) -> int:
    """Plant faults in the order in which they were drawn until the time is over; write each outcome."""

    def report(task: Task, status: int | None) -> None:
        if status != 99:
            with kept.open("a", encoding="utf-8") as file:
                file.write(json.dumps({"name": task.name, "status": status}) + "\n")
        if time.monotonic() > end:
            os._exit(0)

    for first in range(0, len(tasks), _BATCH):
        batch = tasks[first : first + _BATCH]
        _exchange_all([task for task in batch if not task.as_read], folders, report, end)
        known = outcomes(kept, (task.name for task in batch))
        for task in batch:
            if task.as_read or known.get(task.name) == _NOWHERE:
                child = in_child(partial(planted_as_read, task), 5 * task.expected + 30)
                report(task, waited(child, 20 * task.expected + 90))
    return 0


def _exchange_all(
    tasks: Sequence[Task], folders: Sequence[str], report: Callable[[Task, int | None], None], end: float
) -> None:
    """Plant the faults whose code can be exchanged, all in forks of one process that reads the tests once."""
    if tasks:
        server = Server(tasks, report)
        served = in_child(lambda: int(pytest.main([*_QUIET, *folders], plugins=[server, OneProcess()])))
        waited(served, max(30.0, end + 120 - time.monotonic()))
    if time.monotonic() > end:
        os._exit(0)


# The whole.


def record_of(room: str) -> Record:
    """Return what was recorded of a room's tests, now of each folder that has changed or whose modules have.

    A test that fails although nothing is changed is not asked.
    """
    folders, tests = ROOMS[room]
    return read_records([_recorded(room, folders, one) for one in tests])


def _recorded(room: str, folders: Sequence[str], tests: str) -> Path:
    state = _state((*(f"src/shedbook/{one}" for one in folders), tests))
    out = KEPT / f"{room}-{tests.replace('/', '-')}-{state}.json"
    if not out.exists():

        def record() -> int:
            quiet = [one for one in _QUIET if one != "-x"]
            return int(pytest.main([*quiet, tests], plugins=[Recorder(out, folders), OneProcess()]))

        status = waited(in_child(record), 3600)
        if status not in (0, 1) or not out.exists():
            out.unlink(missing_ok=True)
            sys.exit(f"{tests} ends with {status} although nothing is changed.")
    return out


def outcomes(kept: Path, names: Iterable[str]) -> dict[str, int | None]:
    """Return the last status of each of these faults by its name."""
    rows = kept.read_text(encoding="utf-8").splitlines() if kept.exists() else []
    found = {row["name"]: row["status"] for row in map(json.loads, rows)}
    return {name: found[name] for name in names if name in found}


def done(known: dict[str, int | None]) -> dict[str, int | None]:
    """Return the outcomes without those of faults that are still to be planted before modules are read."""
    return {name: status for name, status in known.items() if status != _NOWHERE}


def interval(found: int, of: int) -> tuple[float, float]:
    """Return Wilson's interval of a share, with a certainty of 95 %."""
    z, share = 1.96, found / of
    middle = (share + z * z / (2 * of)) / (1 + z * z / of)
    half = z * math.sqrt(share * (1 - share) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return middle - half, middle + half


def told(room: str, faults: dict[str, Fault], statuses: dict[str, int | None]) -> Iterator[str]:
    """Yield what survives, and the share that was found."""
    for name in sorted(
        (name for name, status in statuses.items() if status == 0 and name not in EQUIVALENT),
        key=faults.__getitem__,
    ):
        fault = faults[name]
        yield f"{name} survives: {fault.where()} {fault.operator}\n{fault.difference()}"
    same = sum(name in EQUIVALENT for name in statuses)
    found, of = sum(status != 0 for status in statuses.values()), len(statuses) - same
    slow = sum(status is None for status in statuses.values())
    if of:
        low, high = interval(found, of)
        share = f"{found / of:.0%} ({low:.0%} to {high:.0%})"
        yield f"{room}: {found} of {of} found, {share}, {slow} of them too slow; {same} more change nothing"


def tasks_of(faults: dict[str, Fault], texts: dict[str, str], record: Record, most: float) -> Iterator[Task]:
    """Yield what is to be done for each fault."""
    for name, fault in faults.items():
        tests, expected = chosen(fault, record, most)
        direct = record.tests_of(fault)
        yield Task(name, fault, texts[name], tests, expected, as_read=not direct or "" in direct)


def name_of(fault: Fault, text: str) -> str:
    """Return a name that a fault keeps as long as its module stays as it is."""
    return hashlib.sha256(f"{fault.where()}{text}".encode()).hexdigest()[:8]


def drawn_once(room: str, count: int, seed: int) -> tuple[dict[str, Fault], dict[str, str]]:
    """Return the faults of a draw by their names, and the changed texts; kept while our source files stay."""
    folders = ROOMS[room][0]
    out = KEPT / f"{room}-{seed}-{count}-{_state([f'src/shedbook/{one}' for one in folders])}.draw.json"
    if not out.exists():
        rows = [(str(one.path), *one[1:], one.text()) for one in drawn(folders, count, seed)]
        out.write_text(json.dumps(rows), encoding="utf-8")
    faults, texts = {}, {}
    for path, *rest, text in json.loads(out.read_text(encoding="utf-8")):
        fault = Fault(Path(path), *rest)
        name = name_of(fault, text)
        faults[name], texts[name] = fault, text
    return faults, texts


def _state(folders: Iterable[str]) -> str:
    """Return a short text that changes with the modules under some folders."""
    found = hashlib.sha256()
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*.py")):
            found.update(str(path).encode() + path.read_bytes())
    return found.hexdigest()[:12]


def main() -> None:
    """Plant the faults of one room and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("room", choices=ROOMS)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--minutes", type=float, default=8)
    parser.add_argument("--survivors", action="store_true", help="ask again those that survived")
    parser.add_argument("--all", action="store_true", help="ask all tests of the room")
    parser.add_argument("--most", type=float, default=15, help="seconds of tests for a fault, about")
    parser.add_argument("--told", action="store_true", help="plant nothing, tell what is known")
    options = parser.parse_args()
    end = time.monotonic() + 60 * options.minutes
    os.chdir(ROOT)
    os.environ["SHEDBOOK_EXAMPLES"] = "planted faults"
    sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests")]
    sys.dont_write_bytecode = True
    KEPT.mkdir(parents=True, exist_ok=True)
    signal.signal(signal.SIGTERM, lambda number, frame: sys.exit(1))
    _, folders = ROOMS[options.room]
    faults, texts = drawn_once(options.room, options.count, options.seed)
    kept = KEPT / f"{options.room}-{options.seed}-{options.count}.jsonl"
    if not options.told:
        record, known = record_of(options.room), done(outcomes(kept, faults))
        wanted = {
            name: fault
            for name, fault in faults.items()
            if (known.get(name, 1) == 0 if options.survivors else name not in known)
            and name not in EQUIVALENT
        }
        tasks = list(tasks_of(wanted, texts, record, math.inf if options.all else options.most))
        for name in _LOADED_ONCE:
            importlib.import_module(name)
        shares = [tasks[job :: options.jobs] for job in range(options.jobs)]
        children = [in_child(partial(work_through, share, folders, kept, end)) for share in shares]
        for child in children:
            waited(child, max(60.0, end + 180 - time.monotonic()))
    for line in told(options.room, faults, done(outcomes(kept, faults))):
        print(line)


if __name__ == "__main__":
    main()
