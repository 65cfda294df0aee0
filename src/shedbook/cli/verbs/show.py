"""`shedbook show FILE --out x.png` draws one score, to look at."""

from __future__ import annotations

import argparse
from pathlib import Path

from shedbook.cli.argument_types import named_path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("file", metavar="FILE", type=Path, help="a phrase file, or a manuscript's folder")
    parser.add_argument("--key", metavar="TONIC", default="", help="the key, such as Bb (default: its own)")
    parser.add_argument("--phrase", metavar="N|TITLE", default="", help="which phrase (default: the first)")
    parser.add_argument(
        "--edition", metavar="NAME", default="concert", help="for whom it is written (default: concert)"
    )
    parser.add_argument(
        "--out", metavar="PICTURE", type=named_path, required=True, help="a .png or .svg file"
    )


def run(options: argparse.Namespace) -> int:
    """Draw the score, print where it is, and return 0."""
    from shedbook.book.verbs.show import show

    show(options.file, options.out, key=options.key, phrase=options.phrase, edition=options.edition)
    print(options.out)
    return 0
