"""`shedbook gaps DIR` says what a folder of books lacks."""

from __future__ import annotations

import argparse

from shedbook.cli.batch import print_json
from shedbook.cli.verbs.find import add_catalogue, tell_unread


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    add_catalogue(parser)
    parser.add_argument("--most", metavar="N", type=int, default=30, help="at most so many (default: 30)")


def run(options: argparse.Namespace) -> int:
    """Look and print; return 1 if something could not be read, else 0."""
    from shedbook.catalogue.gaps import gaps
    from shedbook.catalogue.keeping import open_catalogue
    from shedbook.cli.progress import Progress

    with open_catalogue(options.dir, options.index, processes=2, tell=Progress()) as (index, news):
        found = gaps(index)[: options.most]
    if options.json:
        print_json([gap._asdict() for gap in found])
        return tell_unread(news)
    for gap in found:
        if gap.level:
            there = f"{gap.phrases} phrases at other levels"
            print(f"No {gap.scale} over {gap.progression} at level {gap.level}; {there}.")
        else:
            print(f"Nothing over {gap.progression}.")
    return tell_unread(news)
