"""`shedbook import FILE… --into DIR` brings in phrases from MusicXML and MIDI files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "files",
        metavar="FILE",
        type=Path,
        nargs="+",
        help="MusicXML (.musicxml, .xml, .mxl) or MIDI files (.mid, .rmi)",
    )
    parser.add_argument(
        "--into", metavar="DIR", type=named_path, required=True,
        help="the manuscript's folder; a new or empty one becomes a manuscript",
    )  # fmt: skip
    parser.add_argument(
        "--split", metavar="HOW", default="",
        help="where a line is divided into phrases: double-bars, rehearsal-marks, system-breaks, rests, or "
        "none, or all (default: double-bars,rehearsal-marks); a change of metre always divides",
    )  # fmt: skip
    parser.add_argument(
        "--part", metavar="NAME", default="", help="which part, by name or number (default: the first)"
    )
    parser.add_argument(
        "--changes", metavar="TEXT", default="",
        help='the changes, in place of those of the file: "Dm7b5 | G7b9 | Cm6 | %%"; they begin anew at each '
        "phrase, in a MIDI file at each change of metre, and are repeated under a longer line",
    )  # fmt: skip
    parser.add_argument(
        "--cut", metavar="WHAT", default="",
        help='cut long lines into passages, best first: a progression, such as "minor ii-V-i" or "2-5-1", '
        'several with commas, "all" of them, or "rests"; without --split the line is then divided nowhere '
        "else",
    )  # fmt: skip
    parser.add_argument(
        "--key", metavar="KEY", default="", help='the home key, such as "C minor" (default: from the changes)'
    )
    parser.add_argument(
        "--preview", action="store_true", help="print what would be written, and write nothing"
    )
    parser.epilog = "Nothing that is there is written over. What could not be kept is listed for each file."


def run(options: argparse.Namespace) -> int:
    """Bring phrases in, print what was written and what was lost; return 1 if nothing was found, else 0."""
    from shedbook.book.verbs.bring_in import BringInOrder, bring_in

    order = BringInOrder(
        files=tuple(options.files),
        into=options.into,
        split=options.split,
        key=options.key,
        part=options.part,
        changes=options.changes,
        cut=options.cut,
        preview=options.preview,
    )
    brought = bring_in(order)
    for new in brought.phrases:
        if options.preview:
            print(f"# {new.path}\n# from {new.source}, bars {new.first_bar} to {new.last_bar}\n{new.text}")
        else:
            print(new.path)
    for report in brought.reports:
        for remark in report.remarks:
            print(f"{report.name}: {remark}", file=sys.stderr)
    for notice in brought.notices:
        print(f"{notice}.", file=sys.stderr)
    return 0 if brought.phrases else 1
