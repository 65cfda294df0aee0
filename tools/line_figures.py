"""Fits the figures by which the proof-reader tells a slip from a real line, and writes them as tables.

Run it from the root of the repository with the path of the data (see `benchmarks/real_lines.py`):

    python -m tools.line_figures PATH/real-lines.json.gz

It takes two thirds of the solos, puts slips of every kind into their phrases, one at a time, and fits by
logistic regression how much each feature (`analysis/proof/slips/note_features.py`, `chord_features.py`)
speaks for the line that was meant and against the one that is written. A figure is a hundredth of a natural
logarithm of odds. Only these sums over tens of thousands of notes are written, no line.
"""

from __future__ import annotations

import argparse
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import numpy.typing as npt
from benchmarks.real_lines import split_lines
from scipy import sparse
from scipy.optimize import minimize

from shedbook.analysis.account import Account, account
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.proof.slips import candidates as can
from shedbook.analysis.proof.slips import chord_features as chf
from shedbook.analysis.proof.slips.note_features import Feature, note_features, octave_features, surroundings
from shedbook.analysis.proof.slips.typed_line import Shapes, TypedLine, chord_kind, shapes_of, typed_line
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import parse_chord

TABLES = Path("src/shedbook/analysis/proof/slips/tables")
SLIPS = (
    "slips planted in phrases of the Weimar Jazz Database (Pfleiderer et al., Inside the Jazzomat,\n"
    "2017; Open Database Licence), two thirds of half of its solos"
)
SHRINK = {"note": 30.0, "octave": 3.0, "quality": 2.0, "place": 10.0}
"""How strongly the figures of each model are held near zero, so that rare features say little."""

Features = Iterable[Feature] | Mapping[Feature, int]
"""Features with their signs, or each once."""
Floats = npt.NDArray[np.float64]
KINDS = (can.ACCIDENTAL, can.STRAY, can.LETTER, can.DOUBLED)


class Rows:
    """Examples for one model: features with their signs, whether a slip was made, and a group."""

    def __init__(self) -> None:
        self.examples: list[Counter[Feature]] = []
        self.made: list[int] = []
        self.group: list[int] = []

    def add(self, meant: Features, written: Features, made: int, group: int) -> None:
        """Add an example: what speaks for the line meant, less what speaks for the one written."""
        both = Counter(meant)
        both.subtract(Counter(written))
        both[("kind", (group,))] += 1
        self.examples.append(both)
        self.made.append(made)
        self.group.append(group)


def note_rows(lines: Iterable[TypedLine]) -> Rows:
    """Return slips of one note: what was written, each pitch within a major third of what was meant."""
    rows = Rows()
    for line in lines:
        for at in range(len(line.midi)):
            _note_rows_at(rows, line, at)
    return rows


def _note_rows_at(rows: Rows, line: TypedLine, at: int) -> None:
    real, around = line.midi[at], surroundings(line, at)
    memo: dict[int, tuple[TypedLine, Shapes]] = {}

    def of(written: int, pitch: int) -> list[Feature]:
        if written not in memo:
            there = with_note(line, at, written)
            memo[written] = there, shapes_of(there.midi)
        there, shapes = memo[written]
        return note_features(there, shapes, around, at, pitch)

    for meant in can.notes_meant(line, at):
        rows.add(of(real, real + meant.shift), of(real, real), 0, KINDS.index(meant.kind))
    for written in {real + shift for shift in range(-4, 5)} - {real}:
        for meant in can.notes_meant(with_note(line, at, written), at):
            if written + meant.shift == real:
                rows.add(of(written, real), of(written, written), 1, KINDS.index(meant.kind))


def with_note(line: TypedLine, at: int, pitch: int) -> TypedLine:
    """Return a line with another pitch at one place."""
    return line._replace(midi=(*line.midi[:at], pitch, *line.midi[at + 1 :]))


def moved(line: TypedLine, first: int, last: int, shift: int) -> TypedLine:
    """Return a line of which a stretch is moved."""
    midi = tuple(m + shift if first <= at <= last else m for at, m in enumerate(line.midi))
    return line._replace(midi=midi)


def octave_pair(line: TypedLine, meant: can.Meant) -> tuple[list[Feature], list[Feature]]:
    """Return the features of a stretch in the octave that was meant, and as it is written."""
    intervals = shapes_of(line.midi).intervals
    moved = can.intervals_moved(intervals, meant)
    return (
        [
            *octave_features(line, moved, meant.first, meant.last, meant.shift),
            can.stretch_feature(line, meant),
        ],
        octave_features(line, intervals, meant.first, meant.last, 0),
    )


def forgotten_numbers(line: TypedLine, bars: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Yield first note, last note and shift for each octave number that is left out."""
    octaves = [midi // 12 for midi in line.midi]
    for at in range(1, len(octaves)):
        if octaves[at] != octaves[at - 1]:
            last = at
            while last + 1 < len(octaves) and octaves[last + 1] == octaves[at] and bars[last + 1] == bars[at]:
                last += 1
            yield at, last, 12 * (octaves[at - 1] - octaves[at])


def octave_rows(lines: Iterable[TypedLine], bars: Iterable[Sequence[int]]) -> Rows:
    """Return slips of an octave: single notes, and stretches whose octave number was left out."""
    rows = Rows()
    for line, its_bars in zip(lines, bars, strict=True):
        for meant in can.octaves_meant(line):
            right, wrong = octave_pair(line, meant)
            rows.add(right, wrong, 0, 0)
        slips = [(at, at, shift) for at in range(len(line.midi)) for shift in (-12, 12)]
        slips += 4 * list(forgotten_numbers(line, its_bars))
        for first, last, shift in slips:
            there = moved(line, first, last, shift)
            for meant in can.octaves_meant(there):
                if (meant.first, meant.last, meant.shift) == (first, last, -shift):
                    right, wrong = octave_pair(there, meant)
                    rows.add(right, wrong, 1, 0)
    return rows


def quality_rows(phrases: Iterable[Phrase]) -> Rows:
    """Return slips of a chord's quality."""
    rows = Rows()
    for phrase in phrases:
        line = typed_line(account(phrase))
        for other in chf.chords_meant(line):
            rows.add(chf.quality_features(line, other), [], 0, 0)
        for place, change in enumerate(phrase.changes):
            for wrong, meant in chf.OTHER_KINDS.items():
                if change.chord.root is not None and chord_kind(change.chord) in meant:
                    seen = account(with_quality(phrase, place, SUFFIXES[wrong]))
                    there, span = typed_line(seen), span_at(seen.spans, phrase, place)
                    if span in there.span and there.chords[span][0] == wrong:
                        other = chf.OtherChord(span, chord_kind(change.chord))
                        rows.add(chf.quality_features(there, other), [], 1, 0)
    return rows


SUFFIXES = {1: "maj7", 2: "6", 3: "7", 5: "m7", 6: "m6", 7: "m7b5"}
"""How a chord of a kind is written after its root."""


def with_quality(phrase: Phrase, place: int, suffix: str) -> Phrase:
    """Return a phrase whose change at `place` has another quality."""
    change = phrase.changes[place]
    wrong = replace(change, chord=parse_chord(f"{change.chord.root}{suffix}"))
    return replace(phrase, changes=(*phrase.changes[:place], wrong, *phrase.changes[place + 1 :]))


def span_at(spans: Iterable[Span], phrase: Phrase, place: int) -> int:
    """Return the index of the span in which a change stands, -1 for none."""
    start = phrase.change_start(phrase.changes[place])
    return next((one.index for one in spans if one.start <= start < one.end), -1)


def place_rows(accounts: Iterable[Account]) -> Rows:
    """The chords as they are against the chords a bar earlier or later: either may be the slip."""
    rows = Rows()
    for one in accounts:
        for by in (-1, 1):
            compared = chf.shifted(one, by)
            if compared is None:
                continue
            features = chf.place_features(compared)
            rows.add(features, {}, 0, 0)
            rows.add({key: -many for key, many in features.items()}, {}, 1, 0)
    return rows


def fit(rows: Rows, shrink: float) -> tuple[dict[Feature, float], Counter[int]]:
    """Return the figure of every feature, and how many slips of each group there were."""
    ids: dict[Feature, int] = {}
    places: list[tuple[int, int]] = []
    counts: list[float] = []
    for number, example in enumerate(rows.examples):
        for feature, many in example.items():
            if many:
                places.append((number, ids.setdefault(feature, len(ids))))
                counts.append(float(many))
    made = np.array(rows.made)
    row, column = zip(*places, strict=True)
    examples = sparse.csr_matrix((counts, (row, column)), shape=(len(made), len(ids)))
    signed = (sparse.diags(np.where(made == 1, 1.0, -1.0)) @ examples).tocsr()
    held = np.array([0.01 if feature[0] == "kind" else 1.0 for feature in ids]) * shrink

    def cost(figures: Floats) -> tuple[float, Floats]:
        z = signed @ figures
        return (
            float(np.logaddexp(0, -z).sum() + 0.5 * (held * figures**2).sum()),
            signed.T @ (-1 / (1 + np.exp(z))) + held * figures,
        )

    best = minimize(cost, np.zeros(len(ids)), jac=True, method="L-BFGS-B", options={"maxiter": 400})
    figures = {feature: float(best.x[at]) for feature, at in ids.items()}
    return figures, Counter(g for g, m in zip(rows.group, rows.made, strict=True) if m)


def table_text(figures: Mapping[Feature, float]) -> str:
    """Return figures as the text of a dictionary of tables, in hundredths; what says nothing is left out."""
    tables: dict[str, dict[tuple[int, ...], int]] = defaultdict(dict)
    for (name, key), value in figures.items():
        if name != "kind" and abs(round(100 * value)) >= 3:
            tables[name][tuple(int(part) for part in key)] = round(100 * value)
    text = ""
    for name in sorted(tables):
        text += f'    "{name}": """\n'
        line = ""
        for key, value in sorted(tables[name].items()):
            item = f"{' '.join(map(str, key))}: {value};"
            if len(line) + len(item) > 105:
                text += line.rstrip() + "\n"
                line = ""
            line += item + " "
        text += line.rstrip() + '""",\n'
    return text


def inner_split(phrases: list[Phrase]) -> tuple[list[Phrase], list[Phrase]]:
    """Divide phrases by their solos into two thirds and one third."""
    last = [int(phrase.title.split(".")[0]) % 3 == 0 for phrase in phrases]
    return (
        [phrase for phrase, out in zip(phrases, last, strict=True) if not out],
        [phrase for phrase, out in zip(phrases, last, strict=True) if out],
    )


HEAD = """\
\"\"\"{0}

Written by `python -m tools.line_figures`; do not edit. Figures are hundredths of a natural logarithm of odds;
the keys are those of `{1}`. A table is a text: "key: figure;".
Source: {2}.
\"\"\"

from __future__ import annotations

from typing import Final

# fmt: off
"""


def main() -> None:
    """Fit the four models and write their tables."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("data", type=Path)
    parser.add_argument("--inner", action="store_true", help="leave out a third of the phrases")
    options = parser.parse_args()
    phrases = split_lines(options.data).tuned
    if options.inner:
        phrases = inner_split(phrases)[0]
    accounts = [account(phrase) for phrase in phrases]
    lines = [typed_line(one) for one in accounts]
    bars = [[note.bar for note in one.notes] for one in accounts]
    models = {
        "note": note_rows(lines),
        "octave": octave_rows(lines, bars),
        "quality": quality_rows(phrases),
        "place": place_rows(accounts),
    }
    found = {}
    for name, rows in models.items():
        found[name] = fit(rows, SHRINK[name])
        print(name, len(rows.made), "examples", len(found[name][0]), "figures", flush=True)
    write(found, len(phrases))


def write(found: Mapping[str, tuple[Mapping[Feature, float], Mapping[int, int]]], many: int) -> None:
    """Write the tables of figures that were found in so many phrases."""
    starts = {
        name: found["note"][0][("kind", (at,))] - np.log(found["note"][1][at] / many)
        for at, name in enumerate(KINDS)
    }
    for name in ("octave", "quality", "place"):
        starts[name] = found[name][0][("kind", (0,))] - np.log(found[name][1][0] / many)
    text = HEAD.format(
        "How real lines go: what each feature of a note, or of a stretch in another octave, is worth.",
        "note_features",
        SLIPS,
    )
    rows = "".join(f'\n    "{name}": {round(100 * value)},' for name, value in starts.items())
    text += f"\nSTART: Final[dict[str, int]] = {{{rows}\n}}\n"
    text += '"""For each kind of slip, where the sum begins when one slip of the kind is made in every '
    text += 'phrase."""\n'
    (TABLES / "line_figures.py").write_text(text + tables_of(found, "note", "octave"), encoding="utf-8")
    text = HEAD.format(
        "How chords and lines go together: what each feature of a chord is worth.", "chord_features", SLIPS
    )
    (TABLES / "chord_figures.py").write_text(text + tables_of(found, "quality", "place"), encoding="utf-8")


def tables_of(found: Mapping[str, tuple[Mapping[Feature, float], Mapping[int, int]]], *names: str) -> str:
    """Return the tables of some models as text."""
    return "".join(
        f"\n{name.upper()}_FIGURES: Final[dict[str, str]] = {{\n{table_text(found[name][0])}}}\n"
        for name in names
    )


if __name__ == "__main__":
    main()
