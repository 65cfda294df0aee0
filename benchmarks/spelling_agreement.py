"""How often the optimal spelling agrees with a human editor's, on melodies that music21's corpus carries.

Each melody is stripped of its spelling and spelled anew from its sounds, its bar lines and the key of its
key signature; there are no chord symbols to lean on. Two plain rules are measured beside it: one fixed
name for each pitch class, and the nearest name on the line of fifths round the key.
Run it with `python benchmarks/spelling_agreement.py [melodies of each kind]`.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Sequence

import music21

from shedbook.editions.spelling import respell
from shedbook.phrase.model import Bar, Event, Phrase, Value
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName, Pitch

SOURCES = (("bach", "Bach chorales, soprano"), ("ryansMammoth", "Ryan's Mammoth Collection"))
FIXED = {name.pitch_class: name.fifths for name in map(NoteName, range(-4, 8))}
PLACEHOLDER = (Value(8),)  # with no changes, rhythm has no say in the names


def melodies(folder: str, most: int) -> Iterator[Phrase]:
    paths = [path for path in music21.corpus.getCorePaths() if path.parent.name == folder]
    for path in sorted(paths)[:: max(1, len(paths) // most)][:most]:
        score = music21.corpus.parse(path)
        part = score.parts[0] if score.parts else score
        signature = part.recurse().getElementsByClass(music21.key.KeySignature).first()
        bars = tuple(bars_of(part))
        if bars:
            key = Key(NoteName(signature.sharps if signature else 0))
            yield Phrase(path.stem, key, Metre(), bars, (), ())


def bars_of(part: music21.stream.Stream) -> Iterator[Bar]:
    for number, measure in enumerate(part.getElementsByClass(music21.stream.Measure), start=1):
        notes = [note for note in measure.flatten().notes if note.isNote and not note.duration.isGrace]
        events = [
            Event(
                Pitch.parse(note.pitch.nameWithOctave.replace("-", "b")),
                PLACEHOLDER,
                tie_in=note.tie is not None and note.tie.type in ("stop", "continue"),
            )
            for note in notes
            if abs(note.pitch.alter) <= 2
        ]
        if events:
            yield Bar(number, tuple(events))


def names(phrase: Phrase) -> list[NoteName]:
    return [event.pitch.name for bar in phrase.bars for event in bar.events if event.pitch]


def near_key(pitch_class: int, key: Key) -> int:
    window = range(key.tonic.fifths - 5, key.tonic.fifths + 7)
    return next(place for place in window if place * 7 % 12 == pitch_class)


def compare(phrases: Sequence[Phrase]) -> tuple[Counter[str], Counter[str]]:
    right: Counter[str] = Counter()
    differ: Counter[str] = Counter()
    for phrase in phrases:
        own = range(phrase.key.tonic.fifths - 1, phrase.key.tonic.fifths + 6)
        for human, ours in zip(names(phrase), names(respell(phrase)), strict=True):
            kind = "own" if human.fifths in own else "foreign"
            right["notes"] += 1
            right[kind] += 1
            right["ours"] += ours == human
            right[f"ours {kind}"] += ours == human
            right["fixed"] += FIXED[human.pitch_class] == human.fifths
            right["near key"] += near_key(human.pitch_class, phrase.key) == human.fifths
            right["near key foreign"] += (
                kind == "foreign" and near_key(human.pitch_class, phrase.key) == human.fifths
            )
            if ours != human:
                differ[f"{human} as {ours} in {phrase.key.tonic}"] += 1
    return right, differ


def main(most: int) -> None:
    for folder, title in SOURCES:
        phrases = list(melodies(folder, most))
        right, differ = compare(phrases)
        share = {name: 100 * right[name] / right["notes"] for name in ("ours", "near key", "fixed")}
        foreign = max(1, right["foreign"])
        print(
            f"{title}: {len(phrases)} melodies, {right['notes']} notes: {share['ours']:.2f} % agree "
            f"(near the key {share['near key']:.2f} %, one fixed name {share['fixed']:.2f} %); of the "
            f"{right['foreign']} foreign to the key {100 * right['ours foreign'] / foreign:.1f} % "
            f"(near the key {100 * right['near key foreign'] / foreign:.1f} %)"
        )
        print(
            "  most frequent differences: "
            + "; ".join(f"{what}: {times}" for what, times in differ.most_common(6))
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 150)
