"""A phrase placed for an edition: names of keys, registers, what its reader is told."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import music21
import pytest

from shedbook.analysis.account import account
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.inputs import KeyOrder
from shedbook.book.scores.placing import keys_of, placing_card, placing_of, reader_explanation
from shedbook.book.scores.study import Studied, study
from shedbook.editions.instruments.edition import edition_named, group_editions
from shedbook.engrave.notation.mei_score import mei
from shedbook.phrase.model import sounding_notes

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"
EDITIONS = ("concert", "bflat", "eflat", "bass", "f", "tenor saxophone")
EVERY = pytest.mark.parametrize("name", EDITIONS)


@lru_cache(maxsize=1)
def demo() -> tuple[Studied, ...]:
    return tuple(study(read_phrase(source)) for source in open_manuscript(DEMO).phrases)


def titled(title: str) -> Studied:
    return next(one for one in demo() if one.phrase.title == title)


@EVERY
def test_a_key_lies_where_the_whole_order_puts_it_however_few_are_asked_for(name: str) -> None:
    edition = edition_named(name)
    for studied in demo()[:10]:
        whole = {
            one.key.written.tonic.pitch_class: one for one in placing_of(studied, KeyOrder(), edition).keys
        }
        few = placing_of(studied, KeyOrder(asked=("B", "Eb")), edition)
        assert [str(one.key.concert.tonic) for one in few.keys] == ["B", "Eb"]
        for one in few.keys:
            there = whole[one.key.written.tonic.pitch_class]
            assert one.semitones == there.semitones
            if one.key == there.key:
                assert one.phrase == there.phrase


def test_keys_asked_for_are_the_readers_where_the_order_is() -> None:
    phrase = demo()[0].phrase
    wishes = KeyOrder(asked=("D",), written=True)
    (key,) = keys_of(phrase, wishes, edition_named("bflat")).wanted
    assert (str(key.concert.tonic), str(key.written.tonic)) == ("C", "D")


def test_a_key_outside_the_authors_order_is_placed_by_itself() -> None:
    wishes = KeyOrder(("C", "F"), asked=("E",))
    placing = placing_of(demo()[0], wishes, edition_named("eflat"))
    assert [str(one.key.concert.tonic) for one in placing.keys] == ["E"]


@pytest.mark.parametrize("edition", group_editions(), ids=lambda edition: edition.name)
def test_what_the_analysis_hears_does_not_depend_on_the_edition(edition) -> None:  # type: ignore[no-untyped-def]
    for studied in demo():
        home = placing_of(studied, KeyOrder(), edition).home
        seen = account(home.phrase).notes
        assert [(note.degree, note.role, note.target) for note in seen] == [
            (note.degree, note.role, note.target) for note in studied.account.notes
        ]


def test_the_explanation_names_what_the_reader_sees() -> None:
    studied = titled("Gulls over the mole")
    said = {
        name: " ".join(reader_explanation(studied, placing_of(studied, KeyOrder(), edition_named(name)).home))
        for name in ("concert", "eflat")
    }
    assert "Start on E♭, the root of E♭7♯11" in said["concert"]
    assert "Start on C, the root of C7♯11" in said["eflat"]


@pytest.mark.parametrize(
    ("commentary", "edition", "named"),
    [
        ("Stack thirds on E flat.", "eflat", True),
        ("Stack thirds on E flat.", "bass", False),
        ("Hear how G falls.", "bflat", True),
        ("The A, then.", "bflat", True),
        ("A long way down. Begin softly; I mean it.", "bflat", False),
        ("Play the Dm7 first.", "f", True),
        ("F# comes late.", "f", True),
        ("Dive. Glide. Better late.", "f", False),
    ],
)
def test_a_book_knows_whether_the_authors_words_name_concert_pitch(
    commentary: str, edition: str, *, named: bool
) -> None:
    from dataclasses import replace  # noqa: PLC0415

    studied = study(replace(demo()[0].phrase, commentary=commentary))
    reader = edition_named(edition)
    assert placing_card(studied, KeyOrder(), reader, (), language="pl").names_concert is named
    assert not placing_card(studied, KeyOrder(), reader, (), language="en").names_concert


def test_findings_name_edition_and_key_and_can_be_silenced() -> None:
    reader = edition_named("alto voice")
    found = [(studied, placing_of(studied, KeyOrder(), reader)) for studied in demo()]
    studied = next(one for one, placing in found if placing.findings)
    card = placing_card(studied, KeyOrder(), reader, ())
    first = card.findings[0]
    assert first.edition == "alto voice"
    assert first.key in {key.written for key in card.keys}
    assert first.key in first.message
    assert placing_card(studied, KeyOrder(), reader, (first.rule,)).findings != card.findings


@EVERY
def test_what_is_engraved_sounds_the_manuscript_by_another_readers_account(name: str) -> None:
    """music21 reads the MEI back; its pitches, moved by the edition, are the manuscript's in another key."""
    edition = edition_named(name)
    for studied in demo()[::6]:
        written = [note.pitch.midi for note in sounding_notes(studied.phrase)]
        for signature in (False, True):
            for one in placing_of(studied, KeyOrder(asked=("Db", "E")), edition).keys:
                text = mei(one.phrase, clef=edition.clef, signature=signature, courtesy="always")
                score = music21.converter.parseData(text, format="mei").stripTies()
                heard = [note.pitch.midi for note in score.recurse().notes if not note.duration.isGrace]
                moved = edition.transposition.semitones + one.semitones
                assert heard == [midi + moved for midi in written]
