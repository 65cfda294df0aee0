"""`shedbook cards DIR --out DIR` makes pictures of phrases for the screen."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path, names_in


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("source", metavar="DIR", type=Path, help="the manuscript's folder, or a phrase file")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, required=True,
        help="where the pictures go: a new or empty folder, or one that shedbook made",
    )  # fmt: skip
    parser.add_argument(
        "--phrases", metavar="NUMBERS", default="", help="only these phrases: 3,7 or 5-8 (default: all)"
    )
    parser.add_argument(
        "--screen", metavar="NAMES", default="",
        help="wide (1920 by 1080), upright (1080 by 1920), square (default: all three)",
    )  # fmt: skip
    parser.add_argument("--key", metavar="TONIC", default="", help="the key, such as Bb (default: its own)")
    parser.add_argument("--edition", metavar="NAME", default="concert", help="for whom (default: concert)")
    parser.add_argument(
        "--marks", choices=("all", "none", "build-up"), default="all",
        help="the marks of the account: all, none, or a card each for plain, landings, figures, links",
    )  # fmt: skip
    parser.add_argument(
        "--transparent", action="store_true", help="no ground, to lay the card over something else"
    )
    parser.add_argument(
        "--ink", choices=("black", "white"), default="black", help="what is printed (default: black)"
    )
    parser.add_argument("--title", metavar="TEXT", help='in the place of the phrase\'s title; "" for none')
    parser.add_argument("--author", metavar="NAME", help='in the place of the book\'s author; "" for none')
    parser.epilog = "Beside the pictures of each phrase lies a text that says what is on them."


def run(options: argparse.Namespace) -> int:
    """Make the cards, print where they are, and return 0."""
    from shedbook.book.ground.progress import Step
    from shedbook.book.verbs.cards import CardsOrder, make_cards

    def tell(step: Step) -> None:
        if step.of > 1:
            print(f"{step.done + 1} of {step.of}: {step.said}", file=sys.stderr, flush=True)

    order = CardsOrder(
        options.source, options.out, names_in(options.phrases), names_in(options.screen), options.key,
        options.edition, options.marks, options.transparent, options.ink, options.title, options.author,
    )  # fmt: skip
    for path in make_cards(order, tell):
        print(path)
    return 0
