"""What becomes of an author's work when something breaks: `python tools/breakage.py [WHAT…] [--times N]`.

    kills      the program killed (SIGKILL) at a random moment of each piece of work, N times in all
    writes     each call that changes a file failing in turn: disk full, no permission, read-only, I/O error
    bits       a bit flipped in a file of every kind that a build keeps or makes
    together   two builds at once; a build while phrases are saved
    clock      files from the future and from 1971, a clock that goes backwards between builds
    names      folders and phrases named in any script
    slow       each call that changes a file taking ten milliseconds longer

After each: what the author wrote is whole; every finished file is whole, the old one or the new; what is
said is for people; and the next run gives what an undisturbed run gives, byte for byte. Prints a line for
each kind of work, and every breach of this; ends with status 1 if there is one. Everything is invented.
"""

from __future__ import annotations

import argparse
import contextlib
import errno
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve().parent
FAILING = str(HERE / "failing_disk.py")
LINES = (
    "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/2 eb4 1/4 c4 - | 1/1 c4",
    "1/8 d4 f a c5 b4 d5 f e | d b4 g f e d c b3 | 1/2 c4 1/4 e g | 1/1 c5",
)
ERRORS = (errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO)
SAVE = """
import sys, pathlib
from shedbook.book.verbs.edit import Desk, PhraseRef
desk = Desk(pathlib.Path("book"), pathlib.Path("desk"))
ref = PhraseRef("phrases/00.toml")
before = desk.fields(ref).get("commentary")
for number in range(40):
    now = f"Said {number}."
    desk.save(ref, {"commentary": (before, now)})
    before = now
"""
Files = dict[str, bytes]


@dataclass(frozen=True)
class Work:
    """A piece of work: what is run, and which files it must give when nothing disturbs it."""

    name: str
    command: tuple[str, ...]
    results: tuple[str, ...]


WORKS = (
    Work("build", ("build", "book", "--out", "out", "--quiet"), ("out/*.pdf",)),
    Work("import", ("import", "line.musicxml", "--into", "taken"), ("taken/**/*.toml",)),
    Work("index", ("find", ".", "--index", "index.sqlite", "--words", "line"), ("found.txt",)),
    Work("save", ("-c", SAVE), ("book/phrases/*.toml",)),
    Work(
        "bundle",
        ("build", "book", "--out", "out", "--keys", "C", "--tracks", "play-along", "--bundle", "--quiet"),
        ("out/*.pdf", "out/tracks/*", "out/bundle/**/*"),
    ),
)
BUILD, _, INDEX, _, BUNDLE = WORKS


def new_folder(folder: Path, phrases: int = 2) -> None:
    """Write a book and a file to import."""
    (folder / "book" / "phrases").mkdir(parents=True)
    settings = 'title = "Small water"\neditions = ["concert"]\nkeys = "C Eb"\n'
    (folder / "book" / "manuscript.toml").write_text(settings)
    for number in range(phrases):
        changes = ("Dm7b5 | G7b9 | Cm6 | %", "Dm7 | G7 | Cmaj7 | %")[number % 2]
        text = f'# kept\ntitle = "Line {number}"\nchanges = "{changes}"\nline = "{LINES[number % 2]}"\n'
        (folder / "book" / "phrases" / f"{number:02}.toml").write_text(text)
    run(folder, ("export", "book/phrases/00.toml", "--format", "musicxml", "--out", "scores"))
    next((folder / "scores").rglob("*.musicxml")).rename(folder / "line.musicxml")


def argv(command: Sequence[str]) -> list[str]:
    """Return the command line of some work."""
    return [sys.executable, *(() if command[0] == "-c" else ("-m", "shedbook")), *command]


def run(folder: Path, command: Sequence[str]) -> subprocess.CompletedProcess[str]:
    """Run some work to its end."""
    found = subprocess.run(argv(command), cwd=folder, capture_output=True, text=True, check=False)
    if command[0] == "find":
        (folder / "found.txt").write_text(found.stdout)
    return found


def results(folder: Path, work: Work) -> Files:
    """Return the files that some work gave."""
    found = {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for pattern in work.results
        for path in folder.glob(pattern)
        if path.is_file() and not path.name.startswith(".")
    }
    return {name: content for name, content in found.items() if not name.endswith(".part")}


def breaches(folder: Path, work: Work, clean: Files, author: Files) -> Iterator[str]:
    """Yield what is not whole after something broke."""
    for name, content in author.items():
        now = (folder / name).read_bytes() if (folder / name).exists() else b""
        if work.name == "save":
            yield from _lost(name, content, now)
        elif now != content:
            yield f"{name} is not what the author wrote"
    for name, content in results(folder, work).items():
        if work.name == "build" and name.endswith(".pdf") and content != clean.get(name):
            yield f"{name} is neither the old book nor the new"
        if work.name in ("import", "bundle") and name in clean and content != clean[name]:
            yield f"{name} is not whole"


def _lost(name: str, before: bytes, now: bytes) -> Iterator[str]:
    """Yield what a phrase that was being saved has lost."""
    try:
        fields = tomllib.loads(now.decode())
    except ValueError:
        yield f"{name} is not whole"
        return
    fields.pop("commentary", None)
    if fields != tomllib.loads(before.decode()):
        yield f"{name} has lost a key"


def next_run(folder: Path, work: Work, clean: Files) -> Iterator[str]:
    """Yield what is wrong with the run after it."""
    if work.name == "import" and any(
        results(folder, work).get(name) == clean[name] for name in clean if "phrases" in name
    ):
        return  # it had been taken in; a second run would take it in twice, as it should
    done = run(folder, work.command)
    if done.returncode:
        yield f"the next run ends with {done.returncode}: {done.stderr.strip()[-300:]}"
        return
    now = results(folder, work)
    missing = sorted(name for name in clean if now.get(name) != clean[name])
    if missing:
        yield f"the next run gives another {', '.join(missing[:3])}"


def fresh(base: Path, into: Path) -> Files:
    """Copy the untouched folder, and return the author's files."""
    shutil.rmtree(into, ignore_errors=True)
    shutil.copytree(base, into)
    return {
        path.relative_to(into).as_posix(): path.read_bytes()
        for path in sorted((into / "book").rglob("*.toml"))
    }


class Told:
    """Counts what was tried and keeps what was breached."""

    def __init__(self) -> None:
        self.bad = 0

    def line(self, what: str, tried: int, found: Sequence[str]) -> None:
        """Print a line, and the breaches below it."""
        self.bad += len(found)
        print(f"{what}: {tried} tried, {len(found)} breaches", flush=True)
        for one in found[:8]:
            print(f"    {one}", flush=True)


def clean_results(base: Path, work: Work, scratch: Path) -> tuple[Files, float]:
    """Return what undisturbed work gives, and how long it takes."""
    fresh(base, scratch)
    started = time.monotonic()
    done = run(scratch, work.command)
    if done.returncode:
        raise SystemExit(f"{work.name}: {done.stderr}")
    return results(scratch, work), time.monotonic() - started


def kills(
    base: Path, scratch: Path, works: Sequence[Work], times: int, told: Told, dice: random.Random
) -> None:
    """Kill each piece of work at random moments; every second time over what an earlier run left."""
    for work in works:
        clean, seconds = clean_results(base, work, scratch)
        found: list[str] = []
        struck = 0
        for turn in range(times):
            author = fresh(base, scratch)
            if turn % 2 and work.name != "import":
                run(scratch, work.command)
                if work.name in ("build", "bundle"):
                    for kind in ("svg", "build"):
                        shutil.rmtree(scratch / "out" / ".store" / kind)
            process = subprocess.Popen(
                argv(work.command), cwd=scratch, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                start_new_session=True,
            )  # fmt: skip
            time.sleep(dice.uniform(0, seconds))
            if process.poll() is None:
                struck += 1
            with contextlib.suppress(ProcessLookupError):
                os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            found += [f"kill {turn}: {one}" for one in breaches(scratch, work, clean, author)]
            found += [f"kill {turn}: {one}" for one in next_run(scratch, work, clean)]
        told.line(f"killed, {work.name} ({struck} while at work)", times, found)


def writes(base: Path, scratch: Path, works: Sequence[Work], times: int, told: Told) -> None:
    """Let each call that changes a file fail in turn; SQLite writes by itself, so its files may not grow."""
    for work in works:
        if work.name == "index":
            _limits(base, scratch, work, told)
            continue
        clean, _ = clean_results(base, work, scratch)
        fresh(base, scratch)
        calls = _failing(scratch, work, 0, errno.EIO)[1]
        found: list[str] = []
        told_of = 0
        places = range(1, calls + 1)
        step = max(1, calls * len(ERRORS) // times) if times else 1
        tries = [(nth, error) for nth in places for error in ERRORS][::step]
        for nth, error in tries:
            author = fresh(base, scratch)
            done, _ = _failing(scratch, work, nth, error)
            name = f"call {nth} of {calls}, {errno.errorcode[error]}"
            if "Traceback" in done.stderr and work.name != "save":
                found.append(f"{name}: no words for people: {done.stderr.strip()[-200:]}")
            if done.returncode:
                told_of += 1
            elif {n: c for n, c in clean.items() if results(scratch, work).get(n) != c}:
                found.append(f"{name}: not told, and not whole")
            found += [f"{name}: {one}" for one in breaches(scratch, work, clean, author)]
            found += [f"{name}: {one}" for one in next_run(scratch, work, clean)]
        told.line(f"write failing, {work.name} ({calls} calls, {told_of} told of)", len(tries), found)


def _limits(base: Path, scratch: Path, work: Work, told: Told) -> None:
    """Make the index while no file may become longer than so many bytes."""
    clean, _ = clean_results(base, work, scratch)
    size = (scratch / "index.sqlite").stat().st_size
    found: list[str] = []
    told_of = 0
    limits = range(0, size + 4096, max(2048, size // 24))
    for limit in limits:
        author = fresh(base, scratch)
        command = (
            "import resource, sys; from shedbook.cli.main import main; "
            f"resource.setrlimit(resource.RLIMIT_FSIZE, ({limit}, {limit})); sys.exit(main(sys.argv[1:]))"
        )
        done = subprocess.run(
            [sys.executable, "-c", command, *work.command],
            cwd=scratch, capture_output=True, text=True, check=False,
        )  # fmt: skip
        (scratch / "found.txt").write_text(done.stdout)
        if "Traceback" in done.stderr:
            found.append(f"{limit} bytes: no words for people: {done.stderr.strip()[-200:]}")
        if done.returncode:
            told_of += 1
        elif results(scratch, work) != clean:
            found.append(f"{limit} bytes: not told, and not whole")
        found += [f"{limit} bytes: {one}" for one in breaches(scratch, work, clean, author)]
        found += [f"{limit} bytes: {one}" for one in next_run(scratch, work, clean)]
    told.line(f"files that may not grow, {work.name} ({told_of} told of)", len(limits), found)


def _failing(folder: Path, work: Work, nth: int, error: int) -> tuple[subprocess.CompletedProcess[str], int]:
    log = folder.parent / "calls.txt"
    if work.command[0] == "-c":
        code = (
            f"import sys; sys.path.insert(0, {str(HERE)!r})\n"
            "import os, pathlib, failing_disk\nimport shedbook.book.verbs.edit\n"
            f"counter = failing_disk.fail_at({nth}, {error}, os.getcwd())\n"
            "try:\n    exec(compile(SOURCE, 'save', 'exec'))\nfinally:\n"
            f"    open({str(log)!r}, 'w').write(str(counter.value))\n"
        ).replace("SOURCE", repr(work.command[1]))
        command = [sys.executable, "-c", code]
    else:
        command = [sys.executable, FAILING, str(nth), str(error), str(log), "--", *work.command]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if work.name == "index":
        (folder / "found.txt").write_text(done.stdout)
    return done, int(log.read_text())


def bits(base: Path, scratch: Path, told: Told, dice: random.Random, each: int = 6) -> None:
    """Flip a bit in a file of every kind that a build keeps or makes, and in the index."""
    work = BUNDLE
    clean, _ = clean_results(base, work, scratch)
    kinds: dict[str, list[Path]] = {}
    for path in sorted((scratch / "out").rglob("*")):
        if path.is_file() and path.stat().st_size:
            kinds.setdefault(f"{path.parent.name}/*{path.suffix or path.name}", []).append(path)
    for kind, paths in kinds.items():
        found: list[str] = []
        for turn in range(each):
            path = dice.choice(paths)
            content = bytearray(path.read_bytes())
            at = dice.randrange(len(content))
            content[at] ^= 1 << dice.randrange(8)
            path.write_bytes(content)
            done = run(scratch, work.command)
            now = results(scratch, work)
            if done.returncode:
                found.append(f"flip {turn} in {path.name}: {done.stderr.strip()[-200:]}")
                fresh(base, scratch)
                run(scratch, work.command)
            elif now != clean:
                wrong = sorted(name for name in clean if now.get(name) != clean[name])
                found.append(f"flip {turn} in {path.name}, byte {at}: {', '.join(wrong[:3])} wrong")
        told.line(f"a bit flipped in {kind}", each, found)
    index = INDEX
    clean, _ = clean_results(base, index, scratch)
    found = []
    for turn in range(each):
        path = scratch / "index.sqlite"
        content = bytearray(path.read_bytes())
        content[dice.randrange(len(content))] ^= 1 << dice.randrange(8)
        path.write_bytes(content)
        done = run(scratch, index.command)
        if "Traceback" in done.stderr or (done.returncode == 0 and results(scratch, index) != clean):
            found.append(f"flip {turn}: {(done.stderr or done.stdout).strip()[-200:]}")
        path.unlink(missing_ok=True)
        run(scratch, index.command)
    told.line("a bit flipped in the index", each, found)


def together(base: Path, scratch: Path, times: int, told: Told) -> None:
    """Two builds at once, and a build while phrases are saved."""
    work = BUILD
    clean, _ = clean_results(base, work, scratch)
    found: list[str] = []
    for turn in range(times):
        author = fresh(base, scratch)
        pair = [
            subprocess.Popen(
                argv(work.command), cwd=scratch, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL
            )
            for _ in range(2)
        ]
        said = [one.communicate()[1].decode() for one in pair]
        found += [
            f"pair {turn}: ends with {one.returncode}: {text[-200:]}"
            for one, text in zip(pair, said, strict=True)
            if one.returncode
        ]
        found += [f"pair {turn}: {one}" for one in breaches(scratch, work, clean, author)]
        found += [f"pair {turn}: {one}" for one in next_run(scratch, work, clean)]
    told.line("two builds at once", times, found)
    found = []
    for turn in range(times):
        fresh(base, scratch)
        saver = subprocess.Popen(argv(("-c", SAVE)), cwd=scratch, stderr=subprocess.PIPE)
        done = run(scratch, work.command)
        _, error = saver.communicate()
        if done.returncode or saver.returncode:
            found.append(f"turn {turn}: {done.stderr[-200:]} {error.decode()[-200:]}")
        run(scratch, work.command)
        text = (scratch / "book" / "phrases" / "00.toml").read_text()
        if 'commentary = "Said 39."' not in text or "# kept" not in text:
            found.append(f"turn {turn}: the last thing that was saved is not there")
        other = scratch.parent / "other"
        shutil.rmtree(other, ignore_errors=True)
        shutil.copytree(scratch / "book", other / "book")
        run(other, work.command)
        ours, theirs = results(scratch, work), results(other, work)
        if any(ours.get(name) != theirs[name] for name in theirs):
            found.append(f"turn {turn}: the book after it is not the book of what was saved")
    told.line("a build while phrases are saved", times, found)


def clock(base: Path, scratch: Path, told: Told) -> None:
    """Give files times from the future and the past, and change a phrase without its time moving on."""
    work = BUILD
    clean, _ = clean_results(base, work, scratch)
    found: list[str] = []
    tries = 0
    for moment in (1e9, 4e9, 3e7, time.time() - 86_400):
        fresh(base, scratch)
        run(scratch, work.command)
        for path in [*scratch.rglob("*")]:
            if path.is_file():
                os.utime(path, (moment, moment))
        found += [f"at {moment:.0f}: {one}" for one in next_run(scratch, work, clean)]
        phrase = scratch / "book" / "phrases" / "00.toml"
        kept = phrase.stat()
        phrase.write_text(phrase.read_text().replace("1/1 c4", "1/1 g4"))
        os.utime(phrase, ns=(kept.st_atime_ns, kept.st_mtime_ns))
        run(scratch, work.command)
        if any(
            results(scratch, work).get(name) == content
            for name, content in clean.items()
            if name.endswith(".pdf")
        ):
            found.append(f"at {moment:.0f}: a phrase that was changed is not in the book")
        tries += 2
    told.line("clocks", tries, found)


NAMES = ("Füße", "água", "Ж", "水", "נהר", "a b'c", "%41&", "…", "é", "x" * 120)
"""Names of folders and phrases in several scripts, one in decomposed letters."""


def names(base: Path, scratch: Path, told: Told) -> None:
    """Build, find and import under names of any script."""
    found: list[str] = []
    for name in NAMES:
        shutil.rmtree(scratch, ignore_errors=True)
        shutil.copytree(base, scratch / name)
        folder = scratch / name
        (folder / "book" / "phrases" / "00.toml").rename(folder / "book" / "phrases" / f"{name}.toml")
        (folder / "book").rename(folder / f"book {name}")
        for command in (
            ("build", f"book {name}", "--out", f"out {name}", "--quiet"),
            ("find", ".", "--index", f"{name}.sqlite", "--words", "line"),
            ("import", "line.musicxml", "--into", f"taken {name}"),
        ):
            done = run(folder, command)
            if done.returncode:
                found.append(f"{name}: {command[0]}: {done.stderr.strip()[-200:]}")
        if not list((folder / f"out {name}").glob("*.pdf")):
            found.append(f"{name}: no book")
    told.line("names in any script", len(NAMES) * 3, found)
    fresh(base, scratch)
    for number, title in enumerate(("Tide", "TIDE", "tide")):
        phrase = scratch / "book" / "phrases" / f"1{number}.toml"
        phrase.write_text(f'title = "{title}"\nchanges = "Cm6"\nline = "1/4 c4 eb g a"\n')
    run(scratch, ("build", "book", "--out", "out", "--tracks", "play-along", "--keys", "C", "--quiet"))
    run(scratch, ("export", "book", "--format", "musicxml", "--out", "sheets"))
    made = [path.relative_to(scratch).as_posix() for path in scratch.rglob("*") if path.is_file()]
    folded = [name.casefold() for name in made]
    told.line(
        "files whose names differ only in case", len(made),
        [name for name in made if folded.count(name.casefold()) > 1],
    )  # fmt: skip


def slow(base: Path, scratch: Path, works: Sequence[Work], told: Told) -> None:
    """Let each call that changes a file take ten milliseconds longer."""
    for work in works:
        clean, _ = clean_results(base, work, scratch)
        fresh(base, scratch)
        done, calls = _failing(scratch, work, 0, -10)
        now = results(scratch, work)
        found = [done.stderr[-200:]] if done.returncode else []
        found += [name for name, content in clean.items() if now.get(name) != content]
        told.line(f"a slow disk, {work.name}", calls, found)


def main() -> int:
    """Run what is asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument(
        "what", nargs="*", default=["kills", "writes", "bits", "together", "clock", "names", "slow"]
    )
    parser.add_argument(
        "--times", type=int, default=200, help="how many kills in all, and writes of each work"
    )
    parser.add_argument("--only", default="", help="only these pieces of work, with commas")
    options = parser.parse_args()
    works = [one for one in WORKS if not options.only or one.name in options.only.split(",")]
    told, dice = Told(), random.Random(1)
    with tempfile.TemporaryDirectory(prefix="shedbook-breakage-") as name:
        base, scratch = Path(name) / "base", Path(name) / "scratch"
        new_folder(base)
        does: Mapping[str, Callable[[], None]] = {
            "kills": lambda: kills(base, scratch, works, options.times // len(works), told, dice),
            "writes": lambda: writes(base, scratch, works, options.times, told),
            "bits": lambda: bits(base, scratch, told, dice),
            "together": lambda: together(base, scratch, 5, told),
            "clock": lambda: clock(base, scratch, told),
            "names": lambda: names(base, scratch, told),
            "slow": lambda: slow(base, scratch, works, told),
        }
        for what in options.what:
            does[what]()
    return 1 if told.bad else 0


if __name__ == "__main__":
    sys.exit(main())
