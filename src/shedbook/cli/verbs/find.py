"""`shedbook find DIR` looks for phrases in a folder of books."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path
from shedbook.cli.batch import print_json
from shedbook.errors import ShedbookError

if TYPE_CHECKING:
    from shedbook.catalogue.asked import Asked
    from shedbook.catalogue.index_file import IndexFile
    from shedbook.catalogue.keeping import UpToDate
    from shedbook.catalogue.search import Found


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    add_catalogue(parser)
    line = parser.add_argument_group("the line")
    line.add_argument(
        "--melody", metavar="NOTES", default="", help='notes in a row, in any key: "d5 f ab c6"'
    )
    line.add_argument(
        "--wrong", metavar="N", type=int, default=0, help="so many of them may be others (0 to 4)"
    )
    line.add_argument("--in-its-key", action="store_true", help="the melody at these very pitches")
    line.add_argument("--contour", metavar="WORDS", default="", help='where it goes: "up up down same"')
    line.add_argument("--rhythm", metavar="VALUES", default="", help='note values: "1/8 1/8 1/4. -1/8 1/8"')
    phrase = parser.add_argument_group("the phrase")
    phrase.add_argument(
        "--changes", metavar="TEXT", default="", help='these chords, in any key: "Dm7b5 | G7 | Cm"'
    )
    for kind in ("progression", "scale", "device"):
        phrase.add_argument(f"--{kind}", metavar="NAME", action="append", default=[], help=f"this {kind}")
    phrase.add_argument("--level", metavar="N", default="", help="of these levels, 1 to 5: 2 or 2-3")
    phrase.add_argument("--words", metavar="WORDS", default="", help="all these words in title or commentary")
    parser.add_argument("--most", metavar="N", type=int, default=20, help="at most so many (default: 20)")
    parser.epilog = (
        "Everything that is asked must be so, and what is asked of the line begins at one note. What is "
        "known of the books is kept in one file, made again from the text at any time. Ends with status 1 if "
        "nothing is found."
    )


def add_catalogue(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of every verb that asks a catalogue."""
    parser.add_argument("dir", metavar="DIR", type=Path, help="a folder with manuscripts in it, however deep")
    parser.add_argument(
        "--index", metavar="FILE", type=named_path, default=None,
        help="the file in which the catalogue is kept (default: one among your cache files)",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print one JSON array")


def run(options: argparse.Namespace) -> int:
    """Search and print; return 1 if nothing was found or something could not be read, else 0."""
    from shedbook.catalogue.keeping import open_catalogue
    from shedbook.catalogue.search import Searcher
    from shedbook.cli.progress import Progress

    with open_catalogue(options.dir, options.index, processes=2, tell=Progress()) as (index, news):
        found = Searcher(index).search(_asked(options, index), most=options.most)
    if options.json:
        print_json([_item(one) for one in found])
    else:
        for one in found:
            print(_text(one), end="\n\n")
        print("Nothing found." if not found else f"{len(found)} found.", file=sys.stderr)
    return max(tell_unread(news), 0 if found else 1)


def tell_unread(news: UpToDate) -> int:
    """Print on standard error what could not be read; return 1 if anything, else 0."""
    from shedbook.cli.error_text import error_text

    for one in news.unread:
        print(f"{one.folder}: {error_text(one.error)}", file=sys.stderr)
    return 1 if news.unread else 0


def _asked(options: argparse.Namespace, index: IndexFile) -> Asked:
    """Return what the options ask."""
    from shedbook.catalogue.asked import (
        Asked,
        read_chords,
        read_contour,
        read_levels,
        read_melody,
        read_rhythm,
        read_words,
        wrong_notes,
    )
    from shedbook.catalogue.entry import KINDS
    from shedbook.catalogue.search import known_name

    melody = read_melody(options.melody) if options.melody else ()
    asked = Asked(
        melody,
        options.in_its_key,
        wrong_notes(options.wrong, melody),
        read_contour(options.contour) if options.contour else "",
        read_rhythm(options.rhythm) if options.rhythm else b"",
        read_chords(options.changes) if options.changes else "",
        read_words(options.words),
        tuple(known_name(index, kind, name) for kind in KINDS for name in getattr(options, kind)),
        read_levels(options.level) if options.level else (),
    )
    if asked == Asked(in_its_key=asked.in_its_key):
        raise ShedbookError("Nothing is asked.", hint='Say what to look for, such as --melody "d5 f ab c6".')
    return asked


def _item(found: Found) -> dict[str, object]:
    item: dict[str, object] = {**found._asdict()}
    if found.spot is not None:
        spot = found.spot
        item["spot"] = {
            "note": spot.note, "bar": spot.bar, "quarters": str(spot.quarters),
            "semitones": spot.semitones, "wrong": spot.wrong,
        }  # fmt: skip
    return item


def _text(found: Found) -> str:
    """Return what a person reads of one phrase."""
    level = f", level {found.level}" if found.level else ""
    lines = [
        f"{found.title}  ({found.key}{level})",
        f"  {found.folder}/{found.file}, number {found.number} of {found.book}",
        f"  {found.changes}",
    ]
    if found.spot is not None:
        lines.append(f"  {', '.join(_spot(found.spot.bar, found.spot.semitones, found.spot.wrong))}")
    return "\n".join(lines)


def _spot(bar: int, semitones: int, wrong: int) -> Iterable[str]:
    yield "from the pick-up" if bar == 0 else f"from bar {bar}"
    if semitones:
        steps = "half step" if abs(semitones) == 1 else "half steps"
        yield f"{abs(semitones)} {steps} {'higher' if semitones > 0 else 'lower'}"
    if wrong:
        yield "one note is another" if wrong == 1 else f"{wrong} notes are others"
