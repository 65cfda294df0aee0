"""`shedbook tidy DIR` says how large the store of a book is and how old, and throws away what is not used."""

from __future__ import annotations

import argparse
import dataclasses
import time
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path
from shedbook.cli.batch import print_json

if TYPE_CHECKING:
    from collections.abc import Sequence

    from shedbook.book.workshop.store import Holding

_DAY_S = 86_400
_SAYS = {
    "card": "what was read of phrases",
    "svg": "pictures of scores",
    "piece": "pages of phrases",
    "sound": "the sound of tracks",
    "build": "records of builds",
    "unfinished": "left half-written",
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("dir", metavar="DIR", type=Path, help="the manuscript's folder")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, help="where the books are (default: as in shedbook build)"
    )
    parser.add_argument(
        "--keep", metavar="N", type=int, help="throw away what none of the N latest builds used; 0 for all"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.epilog = "Without --keep nothing is thrown away. Books and tracks are never touched."


def run(options: argparse.Namespace) -> int:
    """Print what the store holds; return 0."""
    from shedbook.book.manuscript.request import book_name
    from shedbook.book.verbs.tidy import holdings, tidy
    from shedbook.book.workshop.output_folder import default_output
    from shedbook.errors import OutputError

    if options.keep is not None and options.keep < 0:
        raise OutputError(f"{options.keep} is no number of builds.", hint="Write 0 or more.")
    out = options.out or default_output(options.dir, book_name(options.dir))
    if options.keep is None:
        before = after = holdings(out)
    else:
        done = tidy(out, options.keep)
        before, after = done.before, done.after
    freed = _bytes(before) - _bytes(after)
    if options.json:
        print_json([{"store": [dataclasses.asdict(one) for one in after], "freed_bytes": freed}])
        return 0
    for one in after:
        if one.files:
            age = max(0, round((time.time() - one.oldest_s) / _DAY_S))
            days = f"{age} {'day' if age == 1 else 'days'}"
            files = f"{one.files} {'file' if one.files == 1 else 'files'}"
            print(f"{_SAYS[one.kind]}: {files}, {_size(one.bytes)}, the oldest {days} old")
    print(f"{out}: the store holds {_size(_bytes(after))}.")
    if options.keep is not None:
        print(f"{_size(freed)} thrown away.")
    return 0


def _bytes(found: Sequence[Holding]) -> int:
    return sum(one.bytes for one in found)


def _size(number: float) -> str:
    for unit in ("bytes", "kB", "MB"):
        if number < 1000:
            return f"{number:.0f} {unit}" if unit == "bytes" or number >= 10 else f"{number:.1f} {unit}"
        number /= 1000
    return f"{number:.1f} GB"
