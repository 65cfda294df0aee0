"""`shedbook import FILE… --into DIR` brings in phrases from MusicXML and MIDI files."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import metre_of, named_path, tempo_of
from shedbook.cli.error_text import error_text
from shedbook.cli.terminal_text import harmless


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
        "--tempo", metavar="BPM", type=tempo_of, default=0,
        help="the tempo in quarter notes a minute, for playing without a click or a file that says another",
    )  # fmt: skip
    parser.add_argument(
        "--metre", metavar="METRE", type=metre_of, default=None,
        help='the metre of playing, and of scores that give none, such as "3/4"',
    )  # fmt: skip
    parser.add_argument(
        "--preview", action="store_true", help="print what would be written, and write nothing"
    )
    parser.add_argument(
        "--all-or-nothing", action="store_true",
        help="write nothing where one of the files cannot be read; otherwise the rest is read",
    )  # fmt: skip
    parser.epilog = (
        "Nothing that is there is written over. What could not be kept is listed for each file. "
        "The exit status is 1 where a file could not be read, or nothing was found."
    )


def run(options: argparse.Namespace) -> int:
    """Bring phrases in, print what was written and what was lost.

    Return 1 where a file could not be read or nothing was found, else 0.
    """
    from shedbook.book.verbs.bring_in import BringInOrder, bring_in

    order = BringInOrder(
        files=tuple(options.files),
        into=options.into,
        split=options.split,
        key=options.key,
        part=options.part,
        changes=options.changes,
        cut=options.cut,
        tempo=options.tempo,
        metre=options.metre,
        preview=options.preview,
        all_or_nothing=options.all_or_nothing,
    )
    progress = _Progress()
    try:
        brought = bring_in(order, progress)
    finally:
        progress.close()
    for new in brought.phrases:
        if options.preview:
            head = f"# {new.path}\n# from {new.source}, bars {new.first_bar} to {new.last_bar}\n"
            print(f"{harmless(head, lines=True)}{harmless(new.text, lines=True)}")
        else:
            print(harmless(str(new.path)))
    for report in brought.reports:
        for remark in report.remarks:
            _say(f"{report.name}: {remark}")
    for notice in brought.notices:
        _say(f"{notice}.")
    for refused in brought.refused:
        print(error_text(refused.error), file=sys.stderr)
    if brought.refused:
        files = len(order.files)
        _say(f"{len(brought.refused)} of {files} files could not be read; the reasons stand above.")
    return 0 if brought.phrases and not brought.refused else 1


def _say(text: str) -> None:
    print(harmless(text), file=sys.stderr)


class _Progress:
    """Says on a terminal which file is read, on one line that changes; elsewhere it says nothing of that."""

    def __init__(self) -> None:
        self._moves = sys.stderr.isatty()
        self._open = 0

    def reading(self, done: int, of: int, path: Path) -> None:
        """Show which file is read next."""
        if self._moves:
            text = f"reading {done + 1} of {of}: {harmless(path.name)[:60]}"
            print(f"\r{text:<{self._open}}", end="", file=sys.stderr, flush=True)
            self._open = len(text)

    def warned(self, notice: str) -> None:
        """Print what the author should know before anything is written."""
        self.close()
        _say(f"{notice}.")

    def close(self) -> None:
        """Clear the line that is still open."""
        if self._open:
            print(f"\r{'':<{self._open}}\r", end="", file=sys.stderr, flush=True)
            self._open = 0
