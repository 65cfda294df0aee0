"""`shedbook twins DIR` lists phrases of a folder of books that are nearly the same."""

from __future__ import annotations

import argparse
import sys

from shedbook.cli.batch import print_json
from shedbook.cli.verbs.find import add_catalogue, tell_unread


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    add_catalogue(parser)
    parser.add_argument(
        "--alike", metavar="PERCENT", type=int, default=75, choices=range(50, 101),
        help="list what has so many of its notes in common, 50 to 100 (default: 75)",
    )  # fmt: skip
    parser.epilog = "Key and octave do not matter, nor where in the bar a line begins."


def run(options: argparse.Namespace) -> int:
    """Compare and print; return 1 if something could not be read, else 0."""
    from fractions import Fraction

    from shedbook.catalogue.keeping import open_catalogue
    from shedbook.catalogue.search import phrases_by_row
    from shedbook.catalogue.twins import twins
    from shedbook.cli.progress import Progress

    with open_catalogue(options.dir, options.index, processes=2, tell=Progress()) as (index, news):
        found = twins(index, least=Fraction(options.alike, 100))
        phrases = phrases_by_row(index, {row for pair in found for row in (pair.one, pair.other)})
    if options.json:
        print_json(
            [
                {
                    "alike": float(pair.alike),
                    "phrases": [
                        {"folder": one.folder, "file": one.file, "number": one.number, "title": one.title}
                        for one in (phrases[pair.one], phrases[pair.other])
                    ],
                }
                for pair in found
            ]
        )
        return tell_unread(news)
    for pair in found:
        print(f"{int(100 * pair.alike)} of 100 notes alike")
        for one in (phrases[pair.one], phrases[pair.other]):
            print(f"  {one.title}  {one.folder}/{one.file}, number {one.number}")
        print()
    many = len(found)
    print("No twins." if not many else f"{many} pair{'s' * (many > 1)}.", file=sys.stderr)
    return tell_unread(news)
