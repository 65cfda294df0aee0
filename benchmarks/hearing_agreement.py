"""How real lines are heard: notes without a reason, scales that another would have bettered, and numerals.

Give a manuscript of lines that nobody here wrote, and if there is one a file of chord triples with an
analyst's degrees ({"triples": [{"key", "chords", "degrees", "count"}]}, the degrees as numerals). The folder
and the file stay where they are: only the figures are printed. Run it with
`python benchmarks/hearing_agreement.py MANUSCRIPT [TRIPLES]`.
"""

from __future__ import annotations

import json
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

from shedbook.analysis.account import Account, account
from shedbook.analysis.account.note_account import notes_by_span
from shedbook.errors import ShedbookError
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.chord_function import numerals
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import degree_interval
from shedbook.theory.progression import infer_key

COMMON = {
    "dominant": ("2 4 5 7 9 10", "2 4 6 7 9 10", "1 4 5 7 8 10", "2 4 5 7 8 10", "1 3 4 6 7 9 10",
                 "1 3 4 6 8 10", "2 4 6 8 10"),
    "minor": ("2 3 5 7 9 10", "2 3 5 7 8 10", "1 3 5 7 8 10", "2 3 5 7 9 11", "2 3 5 7 8 11"),
    "major": ("2 4 5 7 9 11", "2 4 6 7 9 11"),
}  # fmt: skip
"""The common scales over a plain chord, in half steps above its root, without the root [common practice]."""

PLAIN = {("3", "5", "b7"): "dominant", ("b3", "5", "b7"): "minor", ("3", "5", "7"): "major",
         ("3", "5", "6"): "major", ("3", "5", ""): "major"}  # fmt: skip
FEWEST_NOTES, WORSE_BY = 4, 2
_NUMERAL = re.compile(r"([b#]?)(VII|VI|V|IV|III|II|I)([b#]?)", re.IGNORECASE)
_STEPS = {"I": "1", "II": "2", "III": "3", "IV": "4", "V": "5", "VI": "6", "VII": "7"}


def read_all(folder: Path) -> Iterable[Account]:
    """Yield the account of every phrase of a folder that can be read."""
    for path in sorted((folder / "phrases").glob("*.toml")):
        try:
            yield account(phrase_from_fields(tomllib.loads(path.read_text(encoding="utf-8"))))
        except ShedbookError as error:
            print(f"{path.name}: {error.message}", file=sys.stderr)


def misfits(one: Account) -> tuple[int, int]:
    """Return over how many plain chords another scale holds two notes more, and of how many."""
    worse = regions = 0
    for notes in notes_by_span(one.notes).values():
        chord = notes[0].span.heard
        kind = PLAIN.get((chord.third, chord.fifth, chord.seventh))
        if kind is None or chord.tensions or chord.root is None or len(notes) < FEWEST_NOTES:
            continue
        regions += 1
        above = [(note.midi - chord.root.pitch_class) % 12 for note in notes]
        left = min(sum(step not in {0, *map(int, row.split())} for step in above) for row in COMMON[kind])
        worse += left <= sum(not note.inside for note in notes) - WORSE_BY
    return worse, regions


def degree(text: str) -> int | None:
    """Return a numeral's half steps above the tonic, or None where it cannot be read."""
    found = _NUMERAL.match(text)
    if found is None:
        return None
    before, numeral, after = found.groups()
    return degree_interval(f"{before or after}{_STEPS[numeral.upper()]}").semitones % 12


def show_numerals(path: Path) -> None:
    """Print how often the numerals of chords are the analyst's, weighted by how often the chords occur."""
    weight: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for row in json.loads(path.read_text(encoding="utf-8"))["triples"]:
        chords = [parse_chord(symbol) for symbol in row["chords"]]
        found = [degree(one) for one in numerals(chords, infer_key(chords))]
        for part in ("all", row["key"].split("-")[-1]):
            weight[part] += row["count"]
            right[part] += row["count"] * (found == [degree(one) for one in row["degrees"]])
    for part, total in weight.items():
        print(f"numerals as the analyst's, {part}: {right[part] / total:.1%} of {total}")


def main(folder: Path, triples: Path | None) -> None:
    roles: Counter[str] = Counter()
    details: Counter[str] = Counter()
    worse = regions = 0
    for one in read_all(folder):
        roles.update(note.role for note in one.notes)
        details.update(f"{note.role}, {note.detail}" for note in one.notes if note.detail and not note.inside)
        there = misfits(one)
        worse, regions = worse + there[0], regions + there[1]
    total = roles.total() or 1
    print(f"{total} notes; {roles['unaccounted'] / total:.2%} unaccounted")
    print(f"{worse / max(1, regions):.2%} of {regions} plain chords have a scale that another betters")
    for role, count in roles.most_common():
        print(f"  {role}: {count / total:.2%}")
    print("outside notes by their detail:")
    for detail, count in details.most_common():
        print(f"  {detail}: {count / total:.2%}")
    if triples is not None:
        show_numerals(triples)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]) if len(sys.argv) > 2 else None)
