"""`shedbook transcribe RECORDING` writes a recorded line down as a draft."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import metre_of, named_path, second_of, tempo_of
from shedbook.cli.terminal_text import harmless

if TYPE_CHECKING:
    from shedbook.book.verbs.transcribe import Transcribed

_DRAFT = (
    "This is a draft: in trials one line in four had a note wrong, missing or too many, and "
    "rhythm and bar lines are less sure than notes. Compare it by ear (--copy FILE), and mend it before it "
    "goes into a book."
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "recording", metavar="RECORDING", type=Path,
        help="a recording of one instrument that plays one note at a time: WAV, FLAC, MP3, Ogg, Opus",
    )  # fmt: skip
    parser.add_argument(
        "--tempo", metavar="BPM", type=tempo_of, default=0,
        help="the tempo in quarter notes a minute (default: it is found, which is less sure)",
    )  # fmt: skip
    parser.add_argument(
        "--click", metavar="SECONDS", type=second_of, default=None,
        help="the second at which a click at --tempo has beat 1 of bar 1: then no beat is looked for",
    )  # fmt: skip
    parser.add_argument(
        "--changes", metavar="TEXT", default="",
        help='the changes under it: "Dm7b5 | G7b9 | Cm6 | %%"; they are repeated under a longer line',
    )  # fmt: skip
    parser.add_argument(
        "--metre", metavar="METRE", type=metre_of, default=None, help="the metre (default: 4/4)"
    )
    parser.add_argument(
        "--key", metavar="KEY", default="", help='the home key, such as "C minor" (default: from the changes)'
    )
    parser.add_argument(
        "--cut", metavar="WHAT", default="",
        help='cut the line into passages: a progression such as "2-5-1", "all", or "rests" (default: only '
        "where it is longer than sixteen bars)",
    )  # fmt: skip
    parser.add_argument(
        "--into", metavar="DIR", type=named_path, default=None,
        help="write the phrases into this manuscript (default: print them)",
    )  # fmt: skip
    parser.add_argument(
        "--copy", metavar="FILE", type=named_path, default=None,
        help="write the recording on the left and a synthesised copy on the right, to compare by ear",
    )  # fmt: skip
    parser.epilog = (
        "Pitches are at concert pitch. The recording stays on this machine; ask whoever is recorded. "
        "Nothing that is there is written over by --into."
    )


def run(options: argparse.Namespace) -> int:
    """Write down a line; print the phrases, then what to look at; return 1 where nothing came of it."""
    from shedbook.book.verbs.transcribe import TranscribeOrder, transcribe

    done = transcribe(
        TranscribeOrder(
            options.recording,
            options.tempo,
            options.changes,
            options.metre,
            options.key,
            options.cut,
            options.into,
            options.click,
        )
    )
    for new in done.brought.phrases:
        if options.into is None:
            print(f"# bars {harmless(new.first_bar)} to {harmless(new.last_bar)}")
            print(harmless(new.text, lines=True))
        else:
            print(harmless(str(new.path)))
    _say_what_to_look_at(done)
    if options.copy is not None:
        _write_copy(options.copy, options.recording, done)
    print(_DRAFT, file=sys.stderr)
    return 0 if done.brought.phrases else 1


def _say_what_to_look_at(done: Transcribed) -> None:
    from shedbook.book.verbs.takes_report import sound_words

    print(f"{len(done.notes)} notes heard; {sound_words(done.heard)}", file=sys.stderr)
    for remark in (*map(str, done.remarks), *(f"{notice}." for notice in done.brought.notices)):
        print(harmless(remark), file=sys.stderr)
    for one in done.unsure:
        where = f" ({one.where})" if one.where else ""
        print(f"look at {harmless(one.name)} at {one.at_s:.2f} s{where}: {one.why}", file=sys.stderr)


def _write_copy(out: Path, recording: Path, done: Transcribed) -> None:
    from shedbook.book.ground.writing import write_whole
    from shedbook.book.verbs.transcribe import comparison
    from shedbook.sound.audio.formats import format_of
    from shedbook.sound.audio.soundfile_door import encode

    row = format_of(out.suffix)
    write_whole(out, encode(comparison(recording, done), row))
    print(harmless(str(out)), file=sys.stderr)
