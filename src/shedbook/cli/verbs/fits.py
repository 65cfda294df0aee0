"""`shedbook fits DIR` says which phrases of a book fit where in some changes, and in which key."""

from __future__ import annotations

import argparse
import sys

from shedbook.cli.argument_types import metre_of, named_path

_EPILOG = """\
  shedbook fits my-book --changes "blues in F"
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "source",
        metavar="DIR",
        type=named_path,
        help="a manuscript's folder, a folder of phrase files, or a file",
    )
    parser.add_argument(
        "--changes", metavar="CHANGES", required=True, help="the form: text, a file, or a name"
    )
    parser.add_argument("--key", metavar="KEY", default="", help='the key of a stock form: "Bb major"')
    parser.add_argument(
        "--metre", metavar="METRE", type=metre_of, default=None, help="the metre (default 4/4)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON array, an object for each fit")


def run(options: argparse.Namespace) -> int:
    """Print every fit, in the order of the changes; return 1 where there is none, else 0."""
    from shedbook.book.verbs.etude import EtudeRequest, find_fits, fit_words
    from shedbook.cli.batch import print_json

    answer = find_fits(EtudeRequest(options.changes, options.source, options.key, options.metre))
    if options.json:
        print_json(
            [
                {
                    "phrase": answer.phrases[one.source].title, "first_bar": one.first_bar, "bars": one.bars,
                    "at": one.at, "half_steps_up": one.up, "cost": round(one.cost, 2), "cut": one.cut,
                }
                for one in answer.fits
            ]
        )  # fmt: skip
    else:
        for one in answer.fits:
            print(fit_words(one, answer.phrases))
    if not answer.fits:
        print("None of the phrases fits in these changes.", file=sys.stderr)
    return 0 if answer.fits else 1
