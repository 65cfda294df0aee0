"""`shedbook export DIR|FILE --format musicxml --out DIR` writes phrases for other programs."""

from __future__ import annotations

import argparse
from pathlib import Path

from shedbook.cli.argument_types import named_path, names_in

_FORMATS = ("musicxml", "mxl", "midi", "mei", "svg", "png")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "source", metavar="DIR|FILE", type=Path, help="a manuscript's folder, or a phrase file"
    )
    parser.add_argument(
        "--format", metavar="NAME", choices=_FORMATS, required=True, help=f"one of {', '.join(_FORMATS)}"
    )
    parser.add_argument(
        "--key",
        metavar="KEYS",
        default="",
        help='the key, such as Bb, or several: "C F Bb" (default: its own)',
    )
    parser.add_argument("--edition", metavar="NAME", default="concert", help="for whom (default: concert)")
    parser.add_argument("--phrase", metavar="N|TITLE", default="", help="only this phrase (default: all)")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, required=True,
        help="where the files go: a new or empty folder, or one that shedbook made; files that you have "
        "changed there are not written over",
    )  # fmt: skip
    parser.add_argument(
        "--study-marks", action="store_true", help="MusicXML: show the scale over each chord and degrees"
    )
    parser.add_argument(
        "--one-file", action="store_true", help="MusicXML: the whole book in one file, a section a phrase"
    )
    parser.epilog = "One file a phrase, named by its number and title."


def run(options: argparse.Namespace) -> int:
    """Write the files, print where they are, and return 0."""
    from shedbook.book.verbs.export import ExportOrder, export

    order = ExportOrder(
        manuscript=options.source,
        format=options.format,
        out=options.out,
        keys=names_in(options.key),
        edition=options.edition,
        phrase=options.phrase,
        study_marks=options.study_marks,
        one_file=options.one_file,
    )
    for path in export(order):
        print(path)
    return 0
