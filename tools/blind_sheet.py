"""A blind sheet: `python tools/blind_sheet.py BOOK OUT [--each N] [--seed N]`: phrases and drafts.

Writes OUT/sheet.txt, numbered lines over their changes without any name, and OUT/key.json, which says which
are drafts. A draft stands over the changes of a phrase of the book that is not on the sheet, in its metre,
tempo and feel. All are written in the normal form and without marks, so that only the music tells.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import sys
from collections.abc import Sequence
from pathlib import Path

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.draft import phrase_text
from shedbook.draft.drafting import draft
from shedbook.draft.ground import ground_of
from shedbook.draft.order import Order
from shedbook.phrase.changes_text import print_changes, print_scales
from shedbook.phrase.model import Phrase

_MARKS = re.compile(r"\.[a-z]+(?=[\s.)]|$)")
"""Articulations and ghost notes, which only people have written so far."""


def _plain(phrase: Phrase) -> str:
    """Return a phrase as text without marks, ghost notes and slurs."""
    changes, _, line = phrase_text(phrase).partition("\n")
    return f"{changes}\n{_MARKS.sub('', line).replace('(', '').replace(')', '')}"


def drafted(phrase: Phrase, book: Sequence[Phrase], seed: int) -> Phrase | None:
    """Return a draft over the changes of a phrase, None where there is none."""
    changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    scales = print_scales(phrase.scales, phrase.changes, phrase.full_bars)
    ground = ground_of(changes, scales, metre=phrase.metre, key=phrase.key)
    order = Order(count=1, seed=seed, unlike=tuple(book), tempo=phrase.tempo_bpm, feel=phrase.feel)
    found = draft(ground, order).drafts
    return found[0].phrase if found else None


def sheet(book: Sequence[Phrase], each: int, dice: random.Random) -> list[tuple[Phrase, bool]]:
    """Return phrases in any order, each with whether it is a draft."""
    four = [one for one in book if 2 <= one.full_bars <= 6 and str(one.metre) == "4/4"]
    chosen = dice.sample(four, min(len(four), 2 * each + 10))
    written, models = chosen[:each], chosen[each:]
    made: list[Phrase] = []
    for number, model in enumerate(models):
        found = drafted(model, book, number + 1)
        if found is not None and len(made) < each:
            made.append(found)
    mixed = [(one, False) for one in written] + [(one, True) for one in made]
    dice.shuffle(mixed)
    return mixed


def main() -> int:
    """Write the sheet and its key."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("book", type=Path)
    parser.add_argument("out", type=Path)
    parser.add_argument("--each", type=int, default=20)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    book = [read_phrase(one) for one in open_manuscript(options.book).phrases]
    mixed = sheet(book, options.each, random.Random(options.seed))
    options.out.mkdir(parents=True, exist_ok=True)
    parts = [
        f"{number}. {one.feel or 'swing'}, {one.tempo_bpm} beats a minute, key {one.key}\n{_plain(one)}\n"
        for number, (one, _) in enumerate(mixed, 1)
    ]
    (options.out / "sheet.txt").write_text("\n".join(parts), encoding="utf-8")
    key = [number for number, (_, is_draft) in enumerate(mixed, 1) if is_draft]
    (options.out / "key.json").write_text(json.dumps(key))
    print(f"{len(mixed)} lines, {len(key)} of them drafts")
    return 0


if __name__ == "__main__":
    sys.exit(main())
