"""`shedbook lesson DIR --phrases 3,7,12 --out DIR` writes the plan of a lesson."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path, names_in

_SLOWEST, _FASTEST = 60, 260


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("source", metavar="DIR", type=Path, help="the manuscript's folder, or a phrase file")
    parser.add_argument(
        "--phrases", metavar="NUMBERS", default="", help="only these phrases: 3,7 or 5-8 (default: all)"
    )
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, required=True,
        help="where lesson.txt and lesson.pdf go: a new or empty folder, or that of an earlier run",
    )  # fmt: skip
    parser.add_argument(
        "--instrument", metavar="NAME", default="", help="yours: the notes stand for it beside concert pitch"
    )
    parser.add_argument(
        "--words-a-minute", metavar="N", type=_rate, default=140,
        help="how fast you speak, for the running time (default: 140)",
    )  # fmt: skip
    parser.epilog = (
        "Edit lesson.txt as you like: a new run keeps your words, says what changed beneath them, and sets "
        "the PDF from your text. What stands in [brackets] is done and not said."
    )


def _rate(text: str) -> int:
    if not text.isdecimal() or not _SLOWEST <= int(text[:6]) <= _FASTEST:
        raise argparse.ArgumentTypeError(
            f"{text[:20]!r} is not a rate of speech from {_SLOWEST} to {_FASTEST}"
        )
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Write the plan, print where it is and what changed beneath the author's words, and return 0."""
    from shedbook.book.verbs.lesson import LessonOrder, make_lesson
    from shedbook.lesson.timing import clock

    made = make_lesson(
        LessonOrder(
            options.source, options.out, names_in(options.phrases), options.instrument, options.words_a_minute
        )
    )
    for path in made.files:
        print(path)
    print(f"Running time about {clock(made.seconds)}.", file=sys.stderr)
    if made.own:
        places = "place" if made.own == 1 else "places"
        print(f"Your own words were kept in {made.own} {places}.", file=sys.stderr)
    for one in made.beneath:
        print(f"\nUnder “{one.head}” your words stand, but beneath them something changed.", file=sys.stderr)
        for name, texts in (("yours", one.mine), ("before", one.before), ("now", one.now)):
            print(f"  {name + ':':8}{' / '.join(texts) or '(nothing)'}", file=sys.stderr)
    return 0
