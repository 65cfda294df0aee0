"""`shedbook drill NAME…` writes scale drills: a scale and a pattern, or a pattern through changes."""

from __future__ import annotations

import argparse
import sys

from shedbook.cli.argument_types import named_path, tempo_of

_EPILOG = """\
  shedbook drill "mixolydian in thirds" "altered 1 3 2 5"
  shedbook drill "1 2 3 5 through ii-V-I in Bb"
  shedbook drill "dorian up and down" --root D --instrument "alto saxophone"
A book has a chapter of drills where its manuscript.toml lists them: drills = ["mixolydian in thirds"].
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "names", metavar="NAME", nargs="*", help='a scale and a pattern: "mixolydian in thirds"'
    )
    parser.add_argument("--list", action="store_true", help="list the patterns")
    parser.add_argument("--root", metavar="NOTE", default="C", help="the root in concert pitch (default C)")
    parser.add_argument(
        "--instrument", metavar="NAME", default="", help="over the whole range of an instrument"
    )
    parser.add_argument(
        "--tempo", metavar="BPM", type=tempo_of, default=100, help="beats a minute (default 100)"
    )
    parser.add_argument("--feel", metavar="FEEL", default="swing", help="the feel (default swing)")
    parser.add_argument("--json", action="store_true", help="print one JSON array, an object for each drill")
    parser.add_argument("--into", metavar="DIR", type=named_path, help="write phrase files into this folder")


def run(options: argparse.Namespace) -> int:
    """Print the drills; return 1 where none was asked for, else 0."""
    from shedbook.book.verbs.draft import phrase_text
    from shedbook.book.verbs.drill import DrillRequest, drill_json, pattern_lines, write_drills
    from shedbook.cli.batch import print_json

    if options.list:
        print("\n".join(pattern_lines()))
        return 0
    if not options.names:
        print(
            'Name a drill: shedbook drill "mixolydian in thirds". --list lists the patterns.', file=sys.stderr
        )
        return 1
    answer = write_drills(
        DrillRequest(
            tuple(options.names), options.root, options.instrument, options.tempo, options.feel, options.into
        )
    )
    if options.json:
        print_json([drill_json(one) for one in answer.drills])
        return 0
    for one in answer.drills:
        print(f"{one.title}\n{phrase_text(one)}\n{one.commentary}\n")
    for path in answer.files:
        print(path)
    return 0
