"""Fuzz one of the readers for a bounded time, guided by coverage.

    python tools/fuzz.py midi --seconds 120
    python tools/fuzz.py musicxml --seconds 120 --seeds FOLDER --keep

Needs `atheris`, which is for this script alone and no dependency of the project. An input that makes a
reader do anything but read or raise a `ShedbookError`, or take longer than a few seconds, is written to
the working folder, and the script ends with status 1. With `--keep` the smallest inputs that reach lines that
`tests/exchange/corpus` does not reach yet are added to it, at most a few dozen at a time.
"""

from __future__ import annotations

import argparse
import hashlib
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any

import atheris

with atheris.instrument_imports(include=["shedbook.exchange"]):
    from shedbook.errors import ShedbookError
    from shedbook.exchange.midi.reader import read_midi
    from shedbook.exchange.musicxml.reader import read_musicxml

ROOT = Path(__file__).resolve().parents[1]
CORPUS = ROOT / "tests" / "exchange" / "corpus"
READERS: dict[str, tuple[Callable[..., object], str]] = {
    "midi": (read_midi, ".mid"),
    "musicxml": (read_musicxml, ".musicxml"),
}
_MOST_KEPT = 24
_LONGEST = 4096
_SLOWEST_S = 10


def main() -> int:
    """Fuzz one reader in a process of its own, then keep what it found."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("reader", choices=sorted(READERS))
    parser.add_argument("--seconds", type=int, default=60)
    parser.add_argument("--seeds", type=Path, default=None, help="a folder of valid files to start from")
    parser.add_argument("--keep", action="store_true", help="put what was found into the tests")
    parser.add_argument("--work", type=Path, default=None, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.work is not None:
        fuzz(options.reader, options.work, options.seconds)
    suffix = READERS[options.reader][1]
    work = Path(tempfile.mkdtemp(prefix="fuzz-"))
    found = work / "found"
    found.mkdir()
    for folder in (CORPUS, options.seeds):
        for path in sorted(folder.glob(f"*{suffix}")) if folder is not None else ():
            (found / path.name).write_bytes(path.read_bytes()[:_LONGEST])
    print(f"working in {work}", file=sys.stderr)
    child = [sys.executable, __file__, options.reader, "--seconds", str(options.seconds), "--work", str(work)]
    status = subprocess.run(child, check=False).returncode
    if options.keep:
        keep(options.reader, found)
    return 1 if status else 0


def fuzz(reader: str, work: Path, seconds: int) -> None:
    """Fuzz; the library ends the process."""
    read = READERS[reader][0]

    def one(data: bytes) -> None:
        try:
            read(data, "fuzzed")
        except ShedbookError as error:
            if not error.message:
                raise AssertionError("an error without a message") from error

    limits = [
        f"-max_total_time={seconds}", f"-max_len={_LONGEST}", f"-timeout={_SLOWEST_S}",
        "-rss_limit_mb=2048", "-print_final_stats=1", f"-artifact_prefix={work}/", str(work / "found"),
    ]  # fmt: skip
    atheris.Setup([sys.argv[0], *limits], one)
    atheris.Fuzz()


def keep(reader: str, found: Path) -> None:
    """Put the smallest files that together reach what the tests' corpus does not yet reach into it."""
    read, suffix = READERS[reader]
    seen: set[tuple[str, int]] = set()
    for path in CORPUS.glob(f"*{suffix}"):
        seen |= reached(read, path.read_bytes())
    kept = 0
    for path in sorted(found.iterdir(), key=lambda path: (path.stat().st_size, path.name)):
        data = path.read_bytes()
        lines = reached(read, data)
        if lines <= seen or kept >= _MOST_KEPT:
            continue
        seen |= lines
        kept += 1
        name = hashlib.sha256(data).hexdigest()[:12]
        CORPUS.mkdir(parents=True, exist_ok=True)
        (CORPUS / f"{name}{suffix}").write_bytes(data)
    print(f"added {kept} files; all of them reach {len(seen)} lines", file=sys.stderr)


def reached(read: Callable[..., object], data: bytes) -> set[tuple[str, int]]:
    """Return the lines of the readers that an input reaches."""
    lines: set[tuple[str, int]] = set()

    def trace(frame: FrameType, event: str, _: Any) -> Any:
        name = frame.f_code.co_filename
        if "shedbook/exchange" not in name:
            return None
        lines.add((name, frame.f_lineno))
        return trace

    sys.settrace(trace)
    try:
        read(data, "fuzzed")
    except ShedbookError:
        pass
    finally:
        sys.settrace(None)
    return lines


if __name__ == "__main__":
    sys.exit(main())
