"""`shedbook takes DIR RECORDING…` listens to recordings of the book's phrases."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path, second_of, tempo_of
from shedbook.cli.error_text import error_text
from shedbook.cli.terminal_text import harmless

if TYPE_CHECKING:
    from shedbook.book.verbs.takes import Take

_ENDINGS = (".wav", ".flac")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("book", metavar="DIR", type=Path, help="the manuscript's folder")
    parser.add_argument(
        "recordings", metavar="RECORDING", type=Path, nargs="+",
        help="recordings of one instrument that plays one note at a time: WAV, FLAC, MP3, Ogg, Opus",
    )  # fmt: skip
    parser.add_argument(
        "--phrase", metavar="N|TITLE", default="", help="what was meant to be played (default: it is found)"
    )
    parser.add_argument(
        "--key", metavar="TONIC", default="", help="the key that was meant to sound, at concert pitch"
    )
    parser.add_argument(
        "--session", metavar="DIR", type=Path, default=None,
        help="the folder of the session whose slates sound (default: the list beside each recording)",
    )  # fmt: skip
    parser.add_argument(
        "--a4",
        metavar="HZ",
        type=_a4,
        default=440.0,
        help="the A4 that tuning is told against (default: 440)",
    )
    parser.add_argument(
        "--click", metavar="SECONDS", type=second_of, default=None,
        help="the second at which the click or the band has beat 1 of bar 1, in each recording's first take",
    )  # fmt: skip
    parser.add_argument(
        "--click-tempo", metavar="BPM", type=tempo_of, default=None,
        help="the tempo of that click (default: the phrase's)",
    )  # fmt: skip
    parser.add_argument(
        "--pictures", metavar="DIR", type=named_path, default=None, help="write a picture of each take (SVG)"
    )
    parser.add_argument(
        "--keep", action="store_true",
        help="file the best take of each phrase, key and tempo: trimmed, at a book's loudness, tagged, into "
        "media/ and manuscript.toml, with the JSON that says when each note sounds",
    )  # fmt: skip
    parser.add_argument("--format", choices=_ENDINGS, default=".wav", help="of the files that are kept")
    parser.add_argument(
        "--replace", action="store_true", help="put new takes in the place of recordings that are there"
    )
    parser.add_argument("--json", action="store_true", help="print all of it as JSON")
    parser.epilog = (
        "Nothing is written without --keep or --pictures, and no recording leaves this machine. Ask whoever "
        "is recorded, and for minors their parents. What is heard can be wrong: listen before you judge a "
        "player by it. The exit status is 1 where a recording could not be listened to or holds no take."
    )


def _a4(text: str) -> float:
    try:
        hertz = float(text)
    except ValueError:
        hertz = 0.0
    if not 380 <= hertz <= 480:
        raise argparse.ArgumentTypeError(f'"{text[:20]}" is no A4: write a number of hertz, 380 to 480')
    return hertz


def run(options: argparse.Namespace) -> int:
    """Listen, print what was heard, write what is asked for; return 1 where something held no take."""
    from shedbook.book.verbs.keep_takes import KeepOrder, keep_takes
    from shedbook.book.verbs.takes import TakesOrder, takes
    from shedbook.book.verbs.takes_report import CONSENT, recording_lines, take_lines, takes_json

    order = TakesOrder(
        options.book, tuple(options.recordings), options.phrase, options.key, options.a4, options.click,
        options.click_tempo, options.session,
    )  # fmt: skip
    found = takes(order, _say_progress)
    if options.json:
        from shedbook.cli.batch import print_json

        print_json([takes_json(found)])
    else:
        for sentence in found.unread:
            print(harmless(sentence), file=sys.stderr)
        for one in found.recordings:
            _print_block(recording_lines(one))
        for take in found.takes:
            _print_block(take_lines(take))
    for _, error in found.refused:
        print(error_text(error), file=sys.stderr)
    if options.pictures is not None:
        _write_pictures(found.takes, options.pictures)
    if options.keep:
        for kept in keep_takes(found, KeepOrder(options.format, options.replace)):
            print(harmless(f"{kept.path}"), file=sys.stderr if options.json else sys.stdout)
        print(CONSENT, file=sys.stderr)
    return 0 if found.takes and not found.refused else 1


def _write_pictures(takes: tuple[Take, ...], folder: Path) -> None:
    from shedbook.book.ground.writing import write_whole
    from shedbook.book.verbs.takes_report import picture_of

    for take in takes:
        name = folder / f"{take.recording.stem}-take-{take.number:02}.svg"
        write_whole(name, picture_of(take).encode())
        print(harmless(str(name)), file=sys.stderr)


def _say_progress(done: int, of: int, path: Path) -> None:
    if sys.stderr.isatty() and of > 1:
        print(f"listening to {done + 1} of {of}: {harmless(path.name)[:60]}", file=sys.stderr)


def _print_block(lines: tuple[str, ...]) -> None:
    first, *rest = lines
    print(harmless(first))
    for line in rest:
        print(f"  {harmless(line)}")
    print()
