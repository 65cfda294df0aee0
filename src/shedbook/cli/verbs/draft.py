"""`shedbook draft` proposes phrases over changes; the author chooses."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import metre_of, named_path, tempo_of

if TYPE_CHECKING:
    from shedbook.book.verbs.draft import DraftAnswer, DraftRequest

_EPILOG = """\
Nothing lands in a manuscript: phrase files are written only into the folder of --into.
  shedbook draft --changes "Dm7b5 | G7b9 | Cm6 | %" --count 3
  shedbook draft --changes "Dm7 | G7 | Cmaj7 | %" --cover G7 --to E5 --shape arch
docs/drafts.md lists the rules that --without leaves out and the leanings of --lean.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    parser.epilog = _EPILOG
    parser.add_argument(
        "--changes", metavar="TEXT", required=True, help='the changes: "Dm7 | G7 | Cmaj7 | %%"'
    )
    parser.add_argument(
        "--scales", metavar="TEXT", default="", help="the scales, as in a phrase (default: chosen)"
    )
    parser.add_argument(
        "--metre", metavar="METRE", type=metre_of, default=None, help="the metre (default 4/4)"
    )
    parser.add_argument("--key", metavar="KEY", default="", help="the key that names notes (default: found)")
    parser.add_argument(
        "--tempo", metavar="BPM", type=tempo_of, default=132, help="beats a minute (default 132)"
    )
    parser.add_argument("--feel", metavar="FEEL", default="swing", help="the feel (default swing)")
    _add_rules(parser)
    _add_wishes(parser)
    parser.add_argument("--count", metavar="N", type=int, default=5, help="how many (default 5, at most 200)")
    parser.add_argument(
        "--seed", metavar="N", type=int, default=1, help="what the dice begin with (default 1)"
    )
    parser.add_argument(
        "--best", action="store_true", help="the likeliest lines of each rhythm, not drawn ones"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    parser.add_argument("--into", metavar="DIR", type=named_path, help="write phrase files into this folder")


def _add_rules(parser: argparse.ArgumentParser) -> None:
    group = parser.add_argument_group("what must be")
    group.add_argument(
        "--from", dest="first", metavar="NOTES", default="", help='the first note: "Eb", "Eb5 F5"'
    )
    group.add_argument("--to", dest="last", metavar="NOTES", default="", help="the last note")
    group.add_argument("--low", metavar="NOTE", default="", help="the lowest note (default G3)")
    group.add_argument("--high", metavar="NOTE", default="", help="the highest note (default A5)")
    group.add_argument(
        "--instrument", metavar="NAME", default="", help="its comfortable range, and its fingering"
    )
    group.add_argument(
        "--fix", metavar="BAR:BEAT=NOTE", action="append", default=[], help="a note that must stand: 2:1=eb5"
    )
    group.add_argument(
        "--cover",
        metavar="CHORD",
        action="append",
        default=[],
        help="a chord whose whole scale must sound, or all",
    )
    group.add_argument(
        "--leap", metavar="N", type=int, default=9, help="the largest leap in half steps (default 9)"
    )
    group.add_argument(
        "--run", metavar="N", type=int, default=5, help="moves in one direction at most (default 5)"
    )
    group.add_argument("--without", metavar="RULE", action="append", default=[], help="leave out a hard rule")
    group.add_argument(
        "--level", metavar="1-5", type=int, choices=range(1, 6), default=0, help="how hard it may be"
    )


def _add_wishes(parser: argparse.ArgumentParser) -> None:
    group = parser.add_argument_group("what had better be")
    group.add_argument("--shape", metavar="SHAPE", default="", help="arch, bowl, rise, fall or wave")
    group.add_argument(
        "--like", metavar="FILE", type=named_path, help="a phrase whose moves and rhythm are liked"
    )
    group.add_argument("--unlike", metavar="DIR", type=named_path, help="phrases that must not be copied")
    group.add_argument(
        "--weights", metavar="TABLE", default="both",
        help="learnt from real lines, author, or both (default both)",
    )  # fmt: skip
    group.add_argument(
        "--lean", metavar="NAME=N", action="append", default=[],
        help='lean more to a soft rule, in hundredths: "thirds=80"',
    )  # fmt: skip


def run(options: argparse.Namespace) -> int:
    """Print the drafts, or what would have to be relaxed; return 1 where there is none, else 0."""
    from shedbook.book.verbs.draft import DraftRequest, draft_json, draft_phrases
    from shedbook.cli.batch import print_json

    request = DraftRequest(
        changes=options.changes, scales=options.scales, metre=options.metre, key=options.key,
        count=options.count, seed=options.seed, first=options.first, last=options.last,
        low=options.low, high=options.high,
        instrument=options.instrument, fix=tuple(options.fix), cover=tuple(options.cover),
        without=tuple(options.without), leap=options.leap, run=options.run, shape=options.shape,
        weights=options.weights, leans=_leans(options.lean), like=options.like, unlike=options.unlike,
        level=options.level, tempo=options.tempo, feel=options.feel, best=options.best, into=options.into,
    )  # fmt: skip
    answer = draft_phrases(request)
    if options.json:
        drafts = [draft_json(one) for one in answer.drafts]
        head = {
            "rhythms": str(answer.rhythms), "drawn": answer.drawn, "offered": answer.offered,
            "relax": list(answer.relaxed), "drafts": drafts, "files": [str(one) for one in answer.files],
        }  # fmt: skip
        print_json([head])
    else:
        _print(answer, request)
    return 0 if answer.drafts else 1


def _leans(texts: list[str]) -> dict[str, int]:
    from shedbook.errors import NotationError

    found = {}
    for text in texts:
        name, _, number = text.rpartition("=")
        if not name or not number.strip().lstrip("+-").isdecimal() or len(number) > 5:
            raise NotationError(
                f'"{text[:40]}" is no leaning.', hint='Write a name and hundredths: "thirds=80".'
            )
        found[name.strip()] = int(number)
    return found


def _print(answer: DraftAnswer, request: DraftRequest) -> None:
    from shedbook.book.verbs.draft import phrase_text, why_none
    from shedbook.draft.reasons import reasons

    for one in answer.drafts:
        said = " ".join(reasons(one.account, one.motif))
        print(
            f"{one.phrase.title}, level {one.account.difficulty.level}\n{phrase_text(one.phrase)}\n{said}\n"
        )
    for path in answer.files:
        print(path)
    if answer.drafts:
        count = answer.drafts[0].space.count
        print(
            f"{answer.drawn} lines drawn over {answer.rhythms:.3g} rhythms; {answer.offered} had an ending, "
            f"a peak, a motif and breath. Over the first rhythm the rules allow {count:.3g} lines.",
            file=sys.stderr,
        )
    else:
        print(why_none(answer.relaxed, answer.drawn), file=sys.stderr)
    if answer.drafts and len(answer.drafts) < request.count:
        print(f"Only {len(answer.drafts)} differ enough from one another.", file=sys.stderr)
