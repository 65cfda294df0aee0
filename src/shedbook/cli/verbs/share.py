"""`shedbook share DIR` lists the phrases that a book takes from other books, and pins them."""

from __future__ import annotations

import argparse
import dataclasses
from pathlib import Path

from shedbook.cli.argument_types import names_in
from shedbook.cli.batch import print_json

_EPILOG = """\
A phrase file with the key  from = "../harbour#low-tide"  takes the phrase with that id from another book.
  shedbook share my-book             what is taken from where, and what has gone on meanwhile
  shedbook share my-book --pin       keep all as they are now, whatever happens to their books
  shedbook share my-book --follow 3  let phrase 3 go in step with its source again
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument("dir", metavar="DIR", type=Path, help="the manuscript's folder")
    what = parser.add_mutually_exclusive_group()
    what.add_argument(
        "--pin", metavar="PHRASES", nargs="?", const="", help="keep them as they are now (default: all)"
    )
    what.add_argument(
        "--follow", metavar="PHRASES", nargs="?", const="", help="in step with their sources again"
    )
    parser.add_argument("--json", action="store_true", help="print a JSON array, an object for each phrase")


def run(options: argparse.Namespace) -> int:
    """Print what is shared; return 0."""
    from shedbook.book.verbs.share import follow, pin, shared_phrases

    if options.pin is not None:
        found = pin(options.dir, names_in(options.pin))
    elif options.follow is not None:
        found = follow(options.dir, names_in(options.follow))
    else:
        found = shared_phrases(options.dir)
    if options.json:
        print_json([dataclasses.asdict(one) for one in found])
        return 0
    for one in found:
        version = one.pinned or one.version
        print(f"{one.number:3}  {one.title}: {one.reference}, {one.state}, version {version}")
    if not found:
        print("This book takes no phrase from another.")
    return 0
