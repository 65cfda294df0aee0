"""`shedbook errata OLD NEW` lists what changed between two editions of a manuscript."""

from __future__ import annotations

import argparse
import contextlib
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.cli.batch import print_json

if TYPE_CHECKING:
    from shedbook.book.manuscript.opening import Manuscript
    from shedbook.catalogue.errata import Difference, Errata, Erratum


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    parser.add_argument(
        "old", metavar="OLD", help="the manuscript as it was: a folder, or FOLDER@VERSION of git"
    )
    parser.add_argument("new", metavar="NEW", help="the manuscript as it is, likewise")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.epilog = "Ends with status 0 whether or not something changed."


def run(options: argparse.Namespace) -> int:
    """Compare and print; return 0."""
    from shedbook.catalogue.errata import errata

    with contextlib.ExitStack() as stack:
        found = errata(_opened(options.old, stack), _opened(options.new, stack))
    if options.json:
        print_json([_json(found)])
    else:
        print(_text(found))
    return 0


def _opened(text: str, stack: contextlib.ExitStack) -> Manuscript:
    from shedbook.book.manuscript.opening import open_manuscript
    from shedbook.catalogue.errata import folder_at

    folder, at, version = text.rpartition("@")
    if not at or Path(text).exists():
        return open_manuscript(text)
    return open_manuscript(stack.enter_context(folder_at(Path(folder), version)))


def _json(found: Errata) -> dict[str, object]:
    return {
        "phrases": [
            {
                "happened": one.happened,
                "number": one.number,
                "was_number": one.was_number,
                "title": one.title,
                "anew": sorted(one.anew),
                "differences": [
                    {"what": each.what, "bar": each.bar, "beat": each.beat, "was": each.was, "now": each.now}
                    for each in one.differences
                ],
            }
            for one in found.errata
        ],
        "settings": list(found.settings),
    }


def _text(found: Errata) -> str:
    """Return what a person reads."""
    parts = [_phrase(one) for one in found.errata]
    if found.settings:
        parts.append(f"Settings of the book: {', '.join(found.settings)}.")
    if not parts:
        return "Nothing changed."
    if found.any_scores:
        parts.append("Every edition that holds one of these phrases must be had anew.")
    return "\n\n".join(parts)


def _phrase(one: Erratum) -> str:
    heads = {
        "new": f"{one.number}. {one.title} is new.",
        "gone": f"{one.was_number}. {one.title} is gone.",
        "moved": f"{one.number}. {one.title} was number {one.was_number}.",
        "changed": f"{one.number}. {one.title}",
    }
    lines = [heads[one.happened]]
    if one.happened == "changed" and one.was_number != one.number:
        lines[0] += f", number {one.was_number} before"
    lines += [f"  {_difference(each)}" for each in one.differences]
    anew = {"scores": "scores in every key", "tracks": "tracks", "words": "words on its pages"}
    if one.anew:
        lines.append(f"  Made anew: {', '.join(anew[name] for name in anew if name in one.anew)}.")
    return "\n".join(lines)


def _difference(one: Difference) -> str:
    place = "" if one.bar is None else f"bar {one.bar}, beat {one.beat}: "
    return f"{place}{one.what} {one.was or 'nothing'} is now {one.now or 'nothing'}"
