from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.analysis.account import account
from shedbook.analysis.account.inseparable_notes import inseparable_notes
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.editions.instruments.edition import (
    Edition,
    edition_for,
    edition_named,
    group_editions,
)
from shedbook.editions.instruments.instrument import instruments
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_keys
from shedbook.editions.keys.reader_keys import reader_keys
from shedbook.editions.reader_part import ReaderPart, reader_parts
from shedbook.editions.tables.edition_rules import EDITION_RULES
from shedbook.engrave.notation.mei_score import mei
from shedbook.phrase.model import Phrase, Sounding, sounding_notes

Make = Callable[..., Phrase]

DEMO = Path(__file__).parents[2] / "examples" / "tidewater"
EDITIONS = (*group_editions(), *(edition_for(instrument) for instrument in instruments()))
EVERY = pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.slug)


@lru_cache(maxsize=1)
def demo() -> tuple[Phrase, ...]:
    return tuple(read_phrase(source) for source in open_manuscript(DEMO).phrases)


def timing(notes: tuple[Sounding, ...]) -> list[tuple[Fraction, Fraction, tuple[int, int]]]:
    return [(note.start, note.quarters, note.event) for note in notes]


def check(phrase: Phrase, placed: ReaderPart, edition: Edition) -> None:
    """Check that a placed phrase is the author's music, up to one transposition and its declared fold."""
    up = edition.transposition
    home, found = sounding_notes(phrase), sounding_notes(placed.phrase)
    assert timing(found) == timing(home)
    fold = len(home) if placed.fold is None else placed.fold.note
    for index, (new, old) in enumerate(zip(found, home, strict=True)):
        moved = placed.semitones + (12 * placed.fold_octaves if index >= fold else 0)
        assert new.pitch.midi - up.semitones == old.pitch.midi + moved
        assert abs(new.pitch.alteration) <= 1
    key = placed.key
    assert (placed.semitones - phrase.key.tonic.interval_to(key.concert.tonic).semitones) % 12 == 0
    assert -6 <= placed.semitones - 12 * placed.octaves <= 6
    assert placed.phrase.key == key.written
    for new_chord, old_chord in zip(placed.phrase.changes, phrase.changes, strict=True):
        assert (new_chord.bar, new_chord.beat) == (old_chord.bar, old_chord.beat)
        assert new_chord.chord.degrees == old_chord.chord.degrees
        for new_name, old_name in (
            (new_chord.chord.root, old_chord.chord.root),
            (new_chord.chord.bass, old_chord.chord.bass),
        ):
            assert (new_name is None) == (old_name is None)
            if new_name is not None and old_name is not None:
                away = new_name.pitch_class - up.semitones - old_name.pitch_class
                assert (away - placed.semitones) % 12 == 0
    full = edition.bands.full
    inside = all(
        full.low.midi <= pitch.midi <= full.high.midi
        for bar in placed.phrase.bars
        for event in bar.events
        for pitch in (*event.grace, event.pitch)
        if pitch is not None
    )
    rules = {finding.rule for finding in placed.findings}
    assert inside == (not rules & {"out-of-range", "out-of-reach"})
    assert ("folded" in rules) == (placed.fold is not None)


@EVERY
def test_every_key_of_every_edition_is_the_same_music(edition: Edition) -> None:
    for phrase in demo()[EDITIONS.index(edition) % 2 :: 2]:  # half of them, another half in the next edition
        keys = reader_keys(phrase.key, edition)
        for placed in reader_parts(phrase, keys, edition):
            check(phrase, placed, edition)
            assert _plain(placed.phrase), "no double accidental where the author wrote none"
            if placed.key.written == phrase.key:
                assert _called(placed.phrase) == _called(phrase), "in the home key the author's words stand"


def _called(phrase: Phrase) -> tuple[list[str], list[str]]:
    notes = [str(note.pitch.name) for note in sounding_notes(phrase)]
    return notes, [change.chord.text for change in phrase.changes]


def _plain(phrase: Phrase) -> bool:
    return all(abs(note.pitch.alteration) < 2 for note in sounding_notes(phrase))


@pytest.mark.parametrize("name", ["soprano voice", "alto voice", "bflat", "baritone voice"])
def test_folds_keep_the_music_and_the_figures(name: str) -> None:
    edition = edition_named(name)
    count = 0
    for phrase in demo()[::2]:
        held = inseparable_notes(account(phrase))
        keys = reader_keys(phrase.key, edition)
        for placed in reader_parts(phrase, keys, edition, fold=True, held=held):
            check(phrase, placed, edition)
            if placed.fold is not None:
                count += 1
                assert not any(first < placed.fold.note <= last for first, last in held)
    assert count > 0


@given(strategies.phrases(most_bars=2), st.sampled_from(EDITIONS), st.booleans(), st.booleans())
def test_any_phrase_is_the_same_music(phrase: Phrase, edition: Edition, fold: bool, written: bool) -> None:
    keys = reader_keys(phrase.key, edition, written=written)
    for placed in reader_parts(phrase, keys, edition, fold=fold):
        check(phrase, placed, edition)


def test_the_concert_edition_is_what_in_keys_gives() -> None:
    concert = edition_named("concert")
    for phrase in demo():
        placed = reader_parts(phrase, reader_keys(phrase.key, concert), concert)
        assert tuple(one.phrase for one in placed) == in_keys(phrase, key_cycle(phrase.key))
        assert {one.octaves for one in placed} == {0}


@pytest.mark.parametrize(
    ("edition", "changes", "key", "line"),
    [
        # Written for the reader, common practice: a tenor reads E minor for a concert D minor.
        ("tenor sax", "Em7 | A7 | Dmaj7", "D", "e"),
        ("alto sax", "Bm7 | E7 | Amaj7", "A", "b"),
        ("horn", "Am7 | D7 | Gmaj7", "G", "a"),
        ("trombone", "Dm7 | G7 | Cmaj7", "C", "d"),
    ],
)
def test_chords_are_the_readers(make: Make, edition: str, changes: str, key: str, line: str) -> None:
    phrase = make("C", "Dm7 | G7 | Cmaj7", "1/4 d4 f a c5 | b4 g d f | 1/1 e")
    reader = edition_named(edition)
    (placed,) = reader_parts(phrase, reader_keys(phrase.key, reader, "C"), reader)
    assert " | ".join(change.chord.text for change in placed.phrase.changes) == changes
    assert str(placed.phrase.key.tonic) == key
    first = placed.phrase.bars[0].events[0].pitch
    assert first is not None
    assert first.letter.lower() == line


# music21 10.5 reads the engraved score, and moves what it read by its own instrument's transposition.
READ_BACK = [
    ("concert", music21.instrument.Piano),
    ("flute", music21.instrument.Flute),
    ("clarinet", music21.instrument.Clarinet),
    ("tenor sax", music21.instrument.TenorSaxophone),
    ("alto sax", music21.instrument.AltoSaxophone),
    ("baritone sax", music21.instrument.BaritoneSaxophone),
    ("horn", music21.instrument.Horn),
    ("trombone", music21.instrument.Trombone),
    ("viola", music21.instrument.Viola),
    ("double bass", music21.instrument.Contrabass),
    ("tenor voice", music21.instrument.Tenor),
]


@pytest.mark.parametrize(("name", "theirs"), READ_BACK, ids=[name for name, _ in READ_BACK])
def test_the_engraved_score_sounds_the_authors_music(
    name: str, theirs: type[music21.instrument.Instrument]
) -> None:
    edition = edition_named(name)
    down = theirs().transposition or music21.interval.Interval("P1")
    clefs = {"G2": "TrebleClef", "G2-8": "Treble8vbClef", "F4": "BassClef", "C3": "AltoClef"}
    for phrase in demo()[:3]:
        for placed in reader_parts(phrase, reader_keys(phrase.key, edition, "C Gb B"), edition):
            score = music21.converter.parseData(mei(placed.phrase, clef=edition.clef), format="mei")
            clef = score.recurse().getElementsByClass(music21.clef.Clef).first()
            assert type(clef).__name__ == clefs[edition.clef]
            struck = [note for note in score.recurse().notes if note.tie is None or note.tie.type == "start"]
            sounding = [note.pitch.transpose(down).midi for note in struck]
            assert sounding == [note.pitch.midi + placed.semitones for note in sounding_notes(phrase)]


def test_the_rules_have_words() -> None:
    assert [row.name for row in EDITION_RULES] == [
        "out-of-range", "out-of-reach", "folded", "off-fingerboard", "no-tablature",
    ]  # fmt: skip
    assert {row.severity for row in EDITION_RULES} == {"error", "warning", "advice"}
    assert all(row.says and row.mend and row.source for row in EDITION_RULES)
