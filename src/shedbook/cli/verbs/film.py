"""`shedbook film DIR --out DIR` makes score videos."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path, names_in, tempo_of

_SLOWEST, _FASTEST = 10, 60


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("source", metavar="DIR", type=Path, help="the manuscript's folder, or a phrase file")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, required=True,
        help="where the videos go: a new or empty folder, or that of an earlier run, which goes on",
    )  # fmt: skip
    parser.add_argument(
        "--phrases", metavar="NUMBERS", default="", help="only these phrases: 3,7 or 5-8 (default: all)"
    )
    parser.add_argument("--key", metavar="TONIC", default="", help="the key, such as Bb (default: its own)")
    parser.add_argument("--edition", metavar="NAME", default="concert", help="for whom (default: concert)")
    parser.add_argument(
        "--screen", metavar="NAME", default="wide",
        help="wide (1920 by 1080, the default), upright (1080 by 1920), square",
    )  # fmt: skip
    parser.add_argument(
        "--parts", choices=("both", "trio", "line"), default="both",
        help="what is heard: the line with the trio, the trio alone, the line alone (default: both)",
    )  # fmt: skip
    parser.add_argument(
        "--rounds",
        metavar="N",
        type=int,
        default=0,
        help="how often (default: as often as its captions need)",
    )
    parser.add_argument("--tempo", metavar="N", type=tempo_of, help="beats a minute (default: its own)")
    parser.add_argument(
        "--recording",
        metavar="FILE",
        type=Path,
        help="your own recording of the one phrase, in place of a track",
    )
    parser.add_argument(
        "--offsets", metavar="FILE", type=Path,
        help="when its notes sound (default: beside it, its name with .notes.json)",
    )  # fmt: skip
    parser.add_argument(
        "--fps", metavar="N", type=_rate, default=30, help="pictures a second, 10 to 60 (default: 30)"
    )
    parser.add_argument(
        "--encoder", metavar="NAME", default="av1",
        help="av1 (the default) and vp9 are free to use; h264 plays anywhere, see docs/lesson.md",
    )  # fmt: skip
    parser.add_argument("--no-captions", action="store_true", help="no talking points in the picture")
    parser.add_argument("--no-marks", action="store_true", help="no degrees, landings and links in the score")
    parser.add_argument("--title", metavar="TEXT", help='in the place of the phrase\'s title; "" for none')
    parser.add_argument("--author", metavar="NAME", help='in the place of the book\'s author; "" for none')
    parser.epilog = (
        "Beside each video lie its captions and chapters. Videos are called as the links in the book expect: "
        "see videos_address in docs/manuscript.md."
    )


def _rate(text: str) -> int:
    if not text.isdecimal() or not _SLOWEST <= int(text[:6]) <= _FASTEST:
        raise argparse.ArgumentTypeError(f"{text[:20]!r} is not a number from {_SLOWEST} to {_FASTEST}")
    return int(text)


def unshown_lines(unshown: tuple[str, ...]) -> tuple[str, ...]:
    """Return what is said of talking points for which no round was left."""
    if not unshown:
        return ()
    find, are, them = ("s find", "are", "them") if len(unshown) > 1 else (" finds", "is", "it")
    return (
        f"{len(unshown)} talking point{find} no round in this video and {are} not shown; say {them}, or let "
        "the phrase be played more often:",
        *(f"  {one}" for one in unshown),
    )


def run(options: argparse.Namespace) -> int:
    """Make the videos, print where each is as soon as it is there, and return 0."""
    from shedbook.book.ground.progress import Step
    from shedbook.book.verbs.film import FilmOrder, make_films

    def tell(step: Step) -> None:
        if step.of > 1 and step.done < step.of:
            print(f"{step.done + 1} of {step.of}: {step.said}", file=sys.stderr, flush=True)

    order = FilmOrder(
        options.source, options.out, names_in(options.phrases), options.key, options.edition, options.screen,
        options.parts, options.rounds, options.tempo, options.fps, options.encoder, not options.no_captions,
        not options.no_marks, options.recording, options.offsets, options.title, options.author,
    )  # fmt: skip
    for film in make_films(order, tell):
        print(film.file, flush=True)
        said = [f"{film.seconds:.1f} s", film.recording, "" if film.made else "as it was"]
        print("; ".join(one for one in said if one), file=sys.stderr, flush=True)
        for line in unshown_lines(film.unshown):
            print(line, file=sys.stderr, flush=True)
    return 0
