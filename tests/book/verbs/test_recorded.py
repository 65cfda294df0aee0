"""A recording held against the phrase that is open. The sounds are made here; what is in them is known."""

from __future__ import annotations

from pathlib import Path

import pytest

from listen.tones import HIGH_TIDE, LOW_TIDE, Tone, tones_of, written
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.verbs.recorded import keep_one, notes_of, recorded, take_there, written_down
from shedbook.errors import OutputError, ReadError, SoundError, UnknownNameError
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase, sounding_notes


def text_of(title: str, phrase: Phrase) -> str:
    changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    return f'title = "{title}"\ntempo = 120\nchanges = "{changes}"\nline = "{print_line(phrase.bars)}"\n'


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Two invented phrases, the first once more, and one without a note."""
    root = tmp_path / "tides"
    (root / "phrases").mkdir(parents=True)
    (root / "manuscript.toml").write_text('title = "Tides"\nauthor = "Invented"\n')
    for number, (title, phrase) in enumerate(
        (("Low tide", LOW_TIDE), ("High tide", HIGH_TIDE), ("Low tide again", LOW_TIDE)), start=1
    ):
        (root / "phrases" / f"{number:02}.toml").write_text(text_of(title, phrase))
    (root / "phrases" / "04.toml").write_text('title = "Slack"\nchanges = "Cm6"\nline = "1/1 -"\n')
    return root


@pytest.mark.parametrize("number", [1, 3])
def test_of_two_phrases_that_are_alike_a_take_is_of_the_one_that_is_open(
    book: Path, tmp_path: Path, number: int
) -> None:
    (take,) = recorded(book, number, written(tmp_path / "take.wav", tones_of(LOW_TIDE))).takes
    assert take.source.number == number
    assert take.amiss == ()


def test_another_phrase_is_still_said(book: Path, tmp_path: Path) -> None:
    (take,) = recorded(book, 3, written(tmp_path / "take.wav", tones_of(HIGH_TIDE))).takes
    assert take.source.number == 2
    assert "This sounds like phrase 2" in take.amiss[0]


def test_a_phrase_without_a_note_cannot_be_listened_for(book: Path, tmp_path: Path) -> None:
    with pytest.raises(ReadError, match="no note to listen for"):
        recorded(book, 4, written(tmp_path / "take.wav", tones_of(LOW_TIDE)))


def test_the_take_that_is_asked_for_is_kept_and_no_other(book: Path, tmp_path: Path) -> None:
    """The first of two takes has a wrong note, so that the second is the better; the first is asked for."""
    first = tones_of(LOW_TIDE)
    first[4] = (first[4][0], first[4][1], first[4][2] + 2)
    second = tones_of(LOW_TIDE, start=first[-1][1] + 3)
    found = recorded(book, 1, written(tmp_path / "two.wav", [*first, *second]))
    assert [take.kept for take in found.takes] == [False, True]
    assert take_there(found, 1) == ""
    kept = keep_one(found, 1, replace_it=False)
    assert kept.start_s < first[0][0] < kept.end_s < second[0][0]
    later = recorded(book, 1, tmp_path / "two.wav")
    assert take_there(later, 2) == kept.path.relative_to(book).as_posix()
    before = kept.path.read_bytes()
    with pytest.raises(OutputError, match="has its recording already"):
        keep_one(later, 2, replace_it=False)
    assert kept.path.read_bytes() == before
    assert keep_one(later, 2, replace_it=True).path == kept.path
    assert kept.path.read_bytes() != before
    with pytest.raises(UnknownNameError, match="no take 7"):
        keep_one(later, 7, replace_it=True)


def test_a_recording_is_written_down_over_the_changes_that_are_open(book: Path, tmp_path: Path) -> None:
    settings = open_manuscript(book).settings
    (one,) = written_down(
        written(tmp_path / "take.wav", tones_of(LOW_TIDE)), fields_from_phrase(LOW_TIDE), settings, 120
    ).found
    draft = phrase_from_fields({"title": "Draft", **one.fields})
    assert [note.pitch.midi for note in sounding_notes(draft)] == [
        note.pitch.midi for note in sounding_notes(LOW_TIDE)
    ]
    assert [change.chord.text for change in draft.changes] == [
        change.chord.text for change in LOW_TIDE.changes
    ]
    assert "file's beats" not in one.said


def test_a_recording_is_written_down_on_an_empty_page(book: Path, tmp_path: Path) -> None:
    settings = open_manuscript(book).settings
    found = written_down(
        written(tmp_path / "take.wav", tones_of(LOW_TIDE)), {"changes": "", "line": ""}, settings
    )
    assert len(found.found) == 1
    assert "no chord symbols" in found.instead


def test_notes_alone_are_heard_in_order_and_silence_has_none(tmp_path: Path) -> None:
    played: list[Tone] = [(0.5, 0.9, 62), (1.0, 1.4, 65), (2.2, 2.7, 69)]
    heard = notes_of(written(tmp_path / "notes.wav", played))
    assert [note.midi for note in heard] == [62, 65, 69]
    with pytest.raises((ReadError, SoundError)):
        notes_of(written(tmp_path / "none.wav", [(0.5, 2.0, -400)]))
