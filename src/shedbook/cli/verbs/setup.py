"""`shedbook setup` says what is installed, what is missing, and what to do about it."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.colour import coloured

if TYPE_CHECKING:
    from shedbook.book.verbs.setup import Part


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "--font", metavar="SF2", type=Path, help="your own SoundFont, to see whether it is one"
    )
    parser.add_argument("--json", action="store_true", help="print what was found as one JSON array")
    parser.epilog = (
        "Nothing is changed. Ends with status 1 where books or tracks cannot be made whole, else with 0."
    )


def run(options: argparse.Namespace) -> int:
    """Print what was found; return 1 if a part is missing without which something cannot be made, else 0."""
    from shedbook.book.verbs.setup import setup

    found = setup(options.font)
    if options.json:
        from dataclasses import asdict

        from shedbook.cli.batch import print_json

        print_json([asdict(part) for part in found.parts])
        return 0 if found.whole else 1
    print(f"System: {found.system}")
    for part in found.parts:
        print(_line(part))
    print("Everything that is needed is there." if found.whole else "Something is missing; see above.")
    return 0 if found.whole else 1


def _line(part: Part) -> str:
    if part.found:
        return f"{coloured('there  ', 'ok', sys.stdout)}  {part.name} {part.found}  ({part.serves})"
    word = coloured("missing", "error" if part.needed else "warning", sys.stdout)
    return f"{word}  {part.name}: {part.serves}\n         {part.mend}"
