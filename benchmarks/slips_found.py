"""How many planted slips the proof-reader finds in real lines, and how often it accuses music.

    python -m benchmarks.slips_found PATH/real-lines.json.gz [--demo examples/tidewater] [--picture FILE.svg]

The lines are those of `real_lines`; those of a third of the solos took no part in fitting the figures. Slips
of each kind are planted, one at a time, in phrases of eight notes or more in which nothing is found and every
note is accounted for. A slip is found when a finding stands within a note of it; a wrong chord, or changes in
the wrong bar, when there is any finding. With a manuscript, each octave number of its lines that matters is
left out too. The picture shows what share is found when more or fewer false findings are put up with.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from time import process_time

from benchmarks.real_lines import split_lines

from shedbook.analysis.account import Account, account
from shedbook.analysis.proof import proof
from shedbook.analysis.proof.slips.choosing import TOLD_FROM, weighed
from shedbook.analysis.proof.slips.suspicions import PLACE, QUALITY, Suspicion
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import spellings

WRONG = {"m7b5": "m7", "m7": "maj7", "maj7": "m7", "7": "m7", "m6": "6", "6": "m6"}
"""For the quality of a chord, the one that is typed instead."""

GUIDES, THIRDS = ("3", "b3", "5", "7", "b7"), ("3", "b3", "b5")


@dataclass(frozen=True)
class Planted:
    """A phrase with a slip; `note` is the note that is wrong, None where it is the changes."""

    note: int | None
    seen: Account


# Planting.


def with_notes(phrase: Phrase, wrong: dict[int, int]) -> Phrase:
    """Return a phrase whose notes, by their index, have other MIDI numbers."""
    notes = sounding_notes(phrase)
    by_event = {notes[index].event: midi for index, midi in wrong.items()}
    bars, tied = [], None
    for place, bar in enumerate(phrase.bars):
        events = []
        for number, event in enumerate(bar.events):
            if not event.tie_in:
                tied = by_event.get((place, number))
            changed = tied is not None and event.pitch is not None
            events.append(replace(event, pitch=spellings(tied or 0)[0]) if changed else event)
        bars.append(replace(bar, events=tuple(events)))
    return replace(phrase, bars=tuple(bars))


def one_note_an_octave_off(seen: Account, dice: random.Random) -> Iterator[tuple[int, Phrase]]:
    midi = [note.midi for note in seen.notes]
    for at in middle(midi, dice):
        if abs(midi[at] - midi[at - 1]) <= 3 and abs(midi[at + 1] - midi[at]) <= 3:
            yield at, with_notes(seen.phrase, {at: midi[at] + dice.choice((-12, 12))})


def octave_number_left_out(seen: Account, dice: random.Random) -> Iterator[tuple[int, Phrase]]:
    places = [at for at, (a, b) in enumerate(pairwise(seen.notes), 1) if a.pitch.octave != b.pitch.octave]
    for at in dice.sample(places, len(places)):
        yield at, without_number(seen, at)


def without_number(seen: Account, at: int) -> Phrase:
    """Leave out an octave number: the octave is that of the note before, up to the next number."""
    notes = seen.notes
    off = 12 * (notes[at - 1].pitch.octave - notes[at].pitch.octave)
    last = at
    while (
        last + 1 < len(notes)
        and notes[last + 1].pitch.octave == notes[at].pitch.octave
        and notes[last + 1].bar == notes[at].bar
    ):
        last += 1
    return with_notes(seen.phrase, {place: notes[place].midi + off for place in range(at, last + 1)})


def accidental_on_a_landing(seen: Account, dice: random.Random) -> Iterator[tuple[int, Phrase]]:
    midi = [note.midi for note in seen.notes]
    for at in middle(midi, dice):
        note, wrong = seen.notes[at], midi[at] + dice.choice((-1, 1))
        guide = note.landing and note.in_chord and note.degree in GUIDES
        if guide and wrong not in (midi[at - 1], midi[at + 1]):
            yield at, with_notes(seen.phrase, {at: wrong})


def neighbouring_letter(seen: Account, dice: random.Random) -> Iterator[tuple[int, Phrase]]:
    midi = [note.midi for note in seen.notes]
    for at in middle(midi, dice):
        wrong = midi[at] + dice.choice((-2, 2))
        if seen.notes[at].landing and wrong not in (midi[at - 1], midi[at + 1]):
            yield at, with_notes(seen.phrase, {at: wrong})


def note_doubled(seen: Account, dice: random.Random) -> Iterator[tuple[int, Phrase]]:
    midi = [note.midi for note in seen.notes]
    for at in middle(midi, dice):
        if 0 < abs(midi[at] - midi[at - 1]) <= 4:
            yield at, with_notes(seen.phrase, {at: midi[at - 1]})


def wrong_quality(seen: Account, dice: random.Random) -> Iterator[tuple[None, Phrase]]:
    for place, change in enumerate(seen.phrase.changes):
        quality = change.chord.split_text()[1]
        if quality in WRONG and change.chord.bass is None:
            text = change.chord.text
            if any(note.span.chord.text == text and note.degree in THIRDS for note in seen.notes):
                chord = parse_chord(f"{change.chord.root}{WRONG[quality]}")
                changes = list(seen.phrase.changes)
                changes[place] = replace(change, chord=chord)
                yield None, replace(seen.phrase, changes=tuple(changes))
            return


def changes_a_bar_late(seen: Account, dice: random.Random) -> Iterator[tuple[None, Phrase]]:
    phrase = seen.phrase
    later = [replace(one, bar=one.bar + 1) for one in phrase.changes if one.bar < phrase.full_bars]
    if len({change.chord.text for change in phrase.changes}) > 1:
        first = replace(phrase.changes[0], bar=1, beat=Fraction(1))
        scales = (None,) * (len(later) + 1)
        yield None, replace(phrase, changes=(first, *later), scales=scales)


def middle(midi: Sequence[int], dice: random.Random) -> list[int]:
    places = list(range(2, len(midi) - 2))
    dice.shuffle(places)
    return places


Plant = Callable[[Account, random.Random], Iterator[tuple[int | None, Phrase]]]
KINDS: dict[str, Plant] = {
    "one note an octave off": one_note_an_octave_off,
    "octave number left out": octave_number_left_out,
    "accidental on a landing": accidental_on_a_landing,
    "wrong chord quality": wrong_quality,
    "neighbouring letter on a landing": neighbouring_letter,
    "note doubled": note_doubled,
    "changes a bar late": changes_a_bar_late,
}


# Measuring.


def near(note: int | None, found: Collection[int | None]) -> bool:
    """Say whether a finding stands within a note of a slip; for the changes any finding will do."""
    return bool(found) if note is None else any(one is not None and abs(one - note) <= 1 for one in found)


def found_by_proof(seen: Account) -> list[int | None]:
    return [finding.note for finding in proof(seen)]


def found_from(told: Sequence[Suspicion], more: int) -> list[int | None]:
    """Return where slips are told when `more` hundredths of odds are taken off what is asked of them."""
    return [
        None if one.kind in (PLACE, QUALITY) else one.first
        for one in told
        if one.log_odds >= TOLD_FROM[one.kind] - more
    ]


def clean(seen: Account) -> bool:
    return len(seen.notes) >= 8 and all(note.role != "unaccounted" for note in seen.notes)


def planted(accounts: Sequence[Account], plant: Plant, seed: int) -> list[tuple[int, Planted]]:
    """Return one slip a phrase, with the phrase's place; phrases that are not clean have none."""
    dice = random.Random(seed)
    made = []
    for place, seen in enumerate(accounts):
        slip = next(plant(seen, dice), None) if clean(seen) else None
        if slip is not None:
            made.append((place, Planted(slip[0], account(slip[1]))))
    return made


def of_real_lines(accounts: Sequence[Account]) -> list[list[int | None]]:
    """Print what is found in the lines as they are, and return where."""
    began = process_time()
    findings = [proof(seen) for seen in accounts]
    took = (process_time() - began) * 1000 / len(accounts)
    many = len(accounts)
    errors = sum(any(one.severity == "error" for one in found) for found in findings)
    print(f"{many} phrases held out: {errors / many:.1%} with an error, ", end="")
    print(f"{sum(map(len, findings)) / many:.2f} findings a phrase; {took:.2f} ms a phrase")
    rules: dict[tuple[str, str], int] = {}
    for one in (one for found in findings for one in found):
        rules[one.rule, one.severity] = rules.get((one.rule, one.severity), 0) + 1
    for (rule, severity), number in sorted(rules.items(), key=lambda item: -item[1]):
        print(f"    {rule:22} {severity:8} {number / many:.3f}")
    return [[one.note for one in found] for found in findings]


def of_the_demo(folder: Path) -> None:
    """Leave out each octave number of a manuscript that matters, and print how many are found."""
    seen = found = 0
    for source in open_manuscript(folder).phrases:
        real = account(read_phrase(source))
        before = {(one.rule, one.note) for one in proof(real)}
        for at in range(1, len(real.notes)):
            if real.notes[at].pitch.octave != real.notes[at - 1].pitch.octave:
                seen += 1
                after = {(one.rule, one.note) for one in proof(account(without_number(real, at)))}
                found += bool(after - before)
    print(f"octave numbers left out of {folder}: {found} of {seen} found, {seen - found} pass unseen")


# The picture.

STEPS = range(-300, 301, 50)
COLOURS = ("#1b5e8a", "#7a4fa3", "#b5482a", "#3d7a3d")
DASHES = ("none", "9 3", "2 3", "9 3 2 3")
WIDE, HIGH, LEFT, TOP = 520, 320, 60, 20


def curve(
    accounts: Sequence[Account], slips: dict[str, list[tuple[int, Planted]]]
) -> list[tuple[float, list[float]]]:
    """Return for each step the false findings a phrase and the shares found of the first four kinds."""
    real = [weighed(seen) for seen in accounts]
    told = {
        kind: [(place, one.note, weighed(one.seen)) for place, one in made]
        for kind, made in list(slips.items())[:4]
    }
    points = []
    for more in STEPS:
        false = [found_from(one, more) for one in real]
        shares = []
        for made in told.values():
            hits = [near(note, found_from(one, more)) for place, note, one in made if not false[place]]
            shares.append(sum(hits) / max(1, len(hits)))
        points.append((sum(map(len, false)) / len(false), shares))
    return points


def picture(points: Sequence[tuple[float, list[float]]], names: Sequence[str]) -> str:
    """Return the curves as SVG: across, false findings a phrase; up, the share of planted slips found."""

    def at(false: float, share: float) -> str:
        return f"{LEFT + false * WIDE:.1f},{TOP + (1 - share) * HIGH:.1f}"

    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {LEFT + WIDE + 40} {TOP + HIGH + 60}" '
        'font-family="sans-serif" font-size="12"><rect width="100%" height="100%" fill="#fff"/>'
    ]
    for tenth in range(0, 11, 2):
        x, y = LEFT + tenth * WIDE / 10, TOP + (10 - tenth) * HIGH / 10
        parts.append(f'<path d="M{LEFT},{y:.1f}h{WIDE}M{x:.1f},{TOP}v{HIGH}" stroke="#ddd" fill="none"/>')
        parts.append(f'<text x="{LEFT - 8}" y="{y + 4:.1f}" text-anchor="end">{tenth * 10} %</text>')
        parts.append(f'<text x="{x:.1f}" y="{TOP + HIGH + 18}" text-anchor="middle">{tenth / 10}</text>')
    label = "false findings a phrase, on real lines that took no part in the fitting"
    parts.append(f'<text x="{LEFT + WIDE / 2}" y="{TOP + HIGH + 40}" text-anchor="middle">{label}</text>')
    for number, name in enumerate(names):
        inside = [(false, shares[number]) for false, shares in points if false <= 1]
        path = " ".join(at(*one) for one in inside)
        line = f'fill="none" stroke="{COLOURS[number]}" stroke-width="2" stroke-dasharray="{DASHES[number]}"'
        parts.append(f'<polyline points="{path}" {line}/>')
        for (false, shares), more in zip(points, STEPS, strict=True):  # a large dot as it ships
            if false <= 1:
                dot_x, dot_y = at(false, shares[number]).split(",")
                size = 5 if more == 0 else 2
                parts.append(f'<circle cx="{dot_x}" cy="{dot_y}" r="{size}" fill="{COLOURS[number]}"/>')
        y = TOP + HIGH - 70 + 18 * number
        parts.append(f'<path d="M{LEFT + WIDE - 230},{y - 4}h40" {line}/>')
        place = f'x="{LEFT + WIDE - 10}" y="{y}" text-anchor="end"'
        parts.append(f'<text {place} fill="{COLOURS[number]}">{name}</text>')
    return "\n".join([*parts, "</svg>", ""])


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("data", type=Path)
    parser.add_argument("--demo", type=Path, help="a manuscript whose octave numbers are left out")
    parser.add_argument("--picture", type=Path, help="where to write the curves, as SVG")
    parser.add_argument("--seed", type=int, default=5)
    options = parser.parse_args()
    accounts = [account(phrase) for phrase in split_lines(options.data).held]
    false = of_real_lines(accounts)
    slips = {kind: planted(accounts, plant, options.seed) for kind, plant in KINDS.items()}
    for kind, made in slips.items():
        hits = [near(one.note, found_by_proof(one.seen)) for place, one in made if not false[place]]
        print(f"{kind:33} {sum(hits) / max(1, len(hits)):6.1%} of {len(hits)} found")
    if options.demo:
        of_the_demo(options.demo)
    if options.picture:
        names = list(slips)[:4]
        options.picture.write_text(picture(curve(accounts, slips), names), encoding="utf-8")


if __name__ == "__main__":
    main()
