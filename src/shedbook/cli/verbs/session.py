"""`shedbook session DIR --out DIR` prepares a recording session."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from shedbook.cli.argument_types import named_path, names_in, tempo_of

_MOST_ROUNDS = 12


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument("source", metavar="DIR", type=Path, help="the manuscript's folder, or a phrase file")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path, required=True,
        help="where sheet, guides and slates go: a new or empty folder, or that of an earlier run",
    )  # fmt: skip
    parser.add_argument(
        "--phrases", metavar="NUMBERS", default="", help="only these phrases: 3,7 or 5-8 (default: all)"
    )
    parser.add_argument(
        "--keys", metavar="KEYS", default="", help='the keys, by tonic: "C F Bb" (default: each its own)'
    )
    parser.add_argument(
        "--tempos", metavar="TEMPOS", type=_tempos, default=(), help='the tempos: "90 120" (default: its own)'
    )
    parser.add_argument(
        "--instrument", metavar="NAME", default="concert",
        help="yours: the sheet has your keys, and what lies high for it is reckoned as hard",
    )  # fmt: skip
    parser.add_argument(
        "--rounds",
        metavar="N",
        type=_rounds,
        default=1,
        help="how often a take plays the phrase (default: 1)",
    )
    parser.add_argument("--sheet-only", action="store_true", help="neither guides nor slates")
    parser.epilog = (
        "A guide has count-in and click in the left ear, the trio in the right one. Keep headphones low, "
        "rest where the sheet says so, and see a teacher or a doctor about pain or ringing that stays."
    )


def _tempos(text: str) -> tuple[int, ...]:
    return tuple(tempo_of(one) for one in names_in(text))


def _rounds(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text[:4]) <= _MOST_ROUNDS:
        raise argparse.ArgumentTypeError(f"{text[:20]!r} is not a number from 1 to {_MOST_ROUNDS}")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Prepare the session, print where everything is, and return 0."""
    from shedbook.book.ground.progress import Step
    from shedbook.book.verbs.session import SessionOrder, make_session

    def tell(step: Step) -> None:
        print(f"take {step.done} of {step.of}: {step.said}", file=sys.stderr, flush=True)

    made = make_session(
        SessionOrder(
            options.source, options.out, names_in(options.phrases), names_in(options.keys), options.tempos,
            options.instrument, options.rounds, not options.sheet_only,
        ),
        tell,
    )  # fmt: skip
    for path in made.files:
        print(path)
    count = len(made.session.takes)
    print(
        f"{count} take{'s' * (count != 1)}, about {made.session.minutes} minutes with rests.", file=sys.stderr
    )
    for line in made.said:
        print(line, file=sys.stderr)
    return 0
