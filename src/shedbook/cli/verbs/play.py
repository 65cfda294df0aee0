"""`shedbook play FILE --out x.mp3` makes a track of one phrase, to hear at once."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path

_PARTS = ("line", "trio", "both")
_PLAYERS = ("line", "bass", "piano", "drums")
_CLICKS = ("beats", "2 and 4", "1", "thinning")
_COUNTS = ("struck", "spoken", "both")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("file", metavar="FILE", type=Path, help="a phrase file, or a manuscript's folder")
    parser.add_argument("--phrase", metavar="N|TITLE", default="", help="which phrase (default: the first)")
    parser.add_argument("--key", metavar="TONIC", default="", help="the key, such as Bb (default: its own)")
    parser.add_argument("--tempo", metavar="N", type=int, help="beats a minute (default: its own)")
    parser.add_argument(
        "--parts", choices=_PARTS, default="both", help="the line alone, the trio without it, or both"
    )
    parser.add_argument("--rounds", metavar="N", type=int, default=1, help="how often (default: once)")
    parser.add_argument("--minutes", metavar="N", type=_minutes, help="how long, in the place of --rounds")
    parser.add_argument(
        "--ramp", metavar="STEPS", default="",
        help='faster from round to round: "60%% to 100%% by 5%%", or "80 to 120 by 10"',
    )  # fmt: skip
    parser.add_argument("--bars", metavar="N|N-N", default="", help="only this bar, or these")
    parser.add_argument("--feel", metavar="NAME", default="", help="another feel than the phrase's")
    parser.add_argument("--seed", metavar="N", type=int, help="another number gives another band")
    parser.add_argument("--count-in", metavar="N", type=int, default=1, help="bars counted in (default: 1)")
    parser.add_argument(
        "--count", choices=_COUNTS, default="", help="strokes, a voice (espeak-ng), or both count in"
    )
    parser.add_argument(
        "--loop", action="store_true", help="no count-in, no ending: the end joins the beginning"
    )
    parser.add_argument("--answers", action="store_true", help="every second round is left to you")
    parser.add_argument("--sides", action="store_true", help="the bass left and the piano right")
    parser.add_argument(
        "--without", metavar="PLAYER", action="append", choices=_PLAYERS, default=[],
        help="leave a player out: line, bass, piano or drums; may be said again",
    )  # fmt: skip
    parser.add_argument("--alone", choices=_PLAYERS, default="", help="this player and no other")
    parser.add_argument("--click", choices=_CLICKS, default="", help="a click with the line alone")
    parser.add_argument(
        "--bass", choices=("two", "four"), default="", help="how many notes of the bass in a bar"
    )
    parser.add_argument("--drums", choices=("brushes", "sticks"), default="", help="what the drums play with")
    for role, who in (("line", "the line"), ("comping", "the chords"), ("bass", "the bass")):
        parser.add_argument(
            f"--{role}-instrument", metavar="NAME", default="", help=f"who plays {who}: electric piano, …"
        )
    parser.add_argument("--font", metavar="FILE", type=Path, help="a SoundFont of your own (.sf2)")
    parser.add_argument(
        "--out", metavar="FILE", type=named_path,
        help="the file to write: .mid, .wav, .flac, .mp3 or .opus (default: played at once)",
    )  # fmt: skip
    parser.epilog = "The track begins with one bar counted in and ends at a bar line."


def _minutes(text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = 0
    if not 0 < number <= 30:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number of minutes, at most 30")
    return number


def run(options: argparse.Namespace) -> int:
    """Make the track, print where it is, how long and how loud, and return 0."""
    from shedbook.book.verbs.play import PlayRequest, play

    played = play(
        PlayRequest(
            file=options.file,
            out=options.out,
            phrase=options.phrase,
            key=options.key,
            tempo_bpm=options.tempo,
            parts=options.parts,
            rounds=options.rounds,
            font=options.font,
            feel=options.feel,
            seed=options.seed,
            count_in=options.count_in,
            loop=options.loop,
            answers=options.answers,
            sides=options.sides,
            without=tuple(options.without),
            click=options.click,
            bass=options.bass,
            count=options.count,
            minutes=options.minutes,
            ramp=options.ramp,
            bars=options.bars,
            alone=options.alone,
            drums=options.drums,
            line_instrument=options.line_instrument,
            comping_instrument=options.comping_instrument,
            bass_instrument=options.bass_instrument,
        )
    )
    for line in played.said:
        print(line, file=sys.stderr)
    if played.out is not None:
        print(played.out)
    said = [f"{played.seconds:.1f} s"]
    if played.levels is not None:
        said.append(f"{played.levels.lufs:.1f} LUFS, true peak {played.levels.peak_dbtp:.1f} dBTP")
    if played.played_with:
        said.append(played.played_with)
    print("; ".join(said), file=sys.stderr)
    return 0
