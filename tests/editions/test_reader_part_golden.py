"""Lines as their readers see them, in one text that a person can read: tests/editions/golden/parts.txt.

Invented lines that stand on borders (chromatic ones, enclosures, blue notes, slash chords, ties and grace
notes) in twelve keys; two of them for players whose register has to be chosen; then each as it is spelled
where nobody has spelled it, with what the names cost. UPDATE_GOLDEN=1 writes the text anew; read it
before it is kept. Source: common practice, as the tables; what is expected of single notes stands in the
tests of each module.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.reader_keys import phrase_keys
from shedbook.editions.reader_part import ReaderPart, reader_parts
from shedbook.editions.registers.octave_choice import Way, registers_cost
from shedbook.editions.registers.octave_fold import cuts_of
from shedbook.editions.spelling.chord_names import chords_cost
from shedbook.editions.spelling.note_spelling import respell, spelling_cost
from shedbook.editions.spelling.stumbles import stumbles
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

GOLDEN = Path(__file__).parent / "golden" / "parts.txt"
Make = Callable[..., Phrase]

LINES = (
    ("C minor", "Dm7b5 | G7b9 | Cm6 | %", "locrian | half-whole diminished | melodic minor | %",
     "1/8 f4 ab c5 eb d f ab g | f g# a bb b d5 c# f | 1/4 eb 1/8 d# e 1/4 g a | + 1/4 b4 c5 -"),
    ("C", "C6 C#dim7 | Dm7 D#dim7 | C/E Am7 | Ab7 G7alt", "",
     "1/8 g4 e f# g bb c#5 e d# | d a4 a# c5 f# a eb db | c b4 c5 db d eb e gb | gb f eb c b4 bb ab eb"),
    ("F", "F7 | Bb7 | N.C. | C7sus4 C7b5", "",
     "1/8 f4 ab a c5 b bb ab f | bb d5 eb e f ab 1/4 g | 1/8 gb f e eb d db c b4 | "
     "bb c5 grace:c# d e gb f e db"),
    ("Gb", "Abm7 | Db9 | Cbmaj7 Gb6 | %", "dorian | mixolydian | lydian, ionian | %",
     "1/8 ab3 cb4 eb gb bb a ab g | f ab cb5 eb 1/4 db bb4 | 1/8 bb eb5 gb f d db c cb | 1/2 bb4 -"),
    ("A minor", "Am(maj7) | F7#11 | E7#9 | Am6", "melodic minor | lydian dominant | altered | melodic minor",
     "1/8 a4 c5 e g# f# g ab a | + 1/2 1/8 b c6 cb bb5 | 1/8 b g g# f d c b4 g# | 1/4 a c5 eb e"),
    ("C", "Cmaj7 | %", "", "1/8 c3 g c4 - e5 g (c6 b) | 1/4 c6 a c7 -"),
)  # fmt: skip
PLAYERS = ("alto sax", "trombone", "horn", "guitar", "bass", "alto voice")


def parts(make: Make) -> Iterator[str]:
    for key, changes, scales, line in LINES:
        phrase = make(key, changes, line, scales)
        yield f"# {key}: {' '.join(change.chord.text for change in phrase.changes)}"
        yield f"  {print_line(phrase.bars)}"
        for name in ("concert", *(PLAYERS if line in (LINES[0][3], LINES[-1][3]) else ())):
            edition = edition_named(name)
            order = "fourths" if name == "concert" else "C E Gb Bb"
            keys = phrase_keys(phrase, edition, order)
            yield f"  {name}"
            for part in reader_parts(phrase, keys, edition, fold=True):
                cost = registers_cost(phrase, [_way(part)], edition)
                where = f"{part.key.written}, {part.semitones:+} ({part.octaves:+d}) for {cost}{_fold(part)}"
                yield f"    {where}: {_shown(part.phrase)}"
                for finding in part.findings:
                    yield f"      {finding.rule} at {finding.bar}, {finding.beat}: {finding.message}"
        for cut in cuts_of(phrase):
            prices = f"{cut.cost(12)} up, {cut.cost(-12)} down"
            yield f"  may turn before note {cut.note}, leap {cut.leap:+}, for {prices}"
        yield "  by cost alone"
        for tonic in key_cycle(phrase.key):
            (part,) = reader_parts(phrase, phrase_keys(phrase, edition_named("concert"), (tonic.tonic,)),
                                   edition_named("concert"))  # fmt: skip
            anew = respell(part.phrase)
            yield f"    {tonic}, {spelling_cost(anew)} for {spelling_cost(part.phrase)}: {_shown(anew)}"
        for one in stumbles(phrase):
            yield f"  stumbles at {one.event} over {one.written}: {one.better} saves {one.saved}"
        yield ""


def _way(part: ReaderPart) -> Way:
    return Way(part.semitones, part.semitones + 12 * part.fold_octaves, part.fold)


def _fold(part: ReaderPart) -> str:
    return "" if part.fold is None else f", turns before note {part.fold.note} by {part.fold_octaves:+}"


def _shown(phrase: Phrase) -> str:
    chords = " ".join(change.chord.text for change in phrase.changes)
    roots = " ".join("-" if scale is None else str(scale.root) for scale in phrase.scales)
    names = "" if set(roots) <= set("- ") else f" ({roots})"
    key = Key(phrase.key.tonic, phrase.key.mode)
    price = chords_cost(tuple(change.chord for change in phrase.changes), key)
    return f"{chords}{names} {price}; {print_line(phrase.bars)}"


def test_lines_as_their_readers_see_them(make: Make) -> None:
    found = "\n".join(parts(make))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
