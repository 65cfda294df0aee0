"""The tracks beside the page: which it names, where they lie in a zip, and when their notes sound."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import mido
import pytest

from practice_opened import TEMPO, manuscript
from shedbook.book.bundle.contents import packed, practice_files
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.settings.tracks import TrackSettings
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.practice.timed import time_tracks
from shedbook.book.practice.tracks_beside import (
    BesideTrack,
    followed,
    moved,
    timed_inputs,
    tracks_beside,
    tracks_script,
)
from shedbook.book.tracks.orders import Playable, TrackOrder
from shedbook.book.tracks.plan import track_orders
from shedbook.book.tracks.worker import arrangement_order
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.sound.score.midi_file import smf
from shedbook.sound.tables.track_kinds import KINDS
from shedbook.sound.track import performance_of
from shedbook.theory.key import Key

WITHIN_MS = 1.0
"""Times are whole milliseconds, and a MIDI file's ticks are a quarter of one at this tempo."""
LINE_CHANNEL = 0


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Manuscript:
    return open_manuscript(manuscript(tmp_path_factory.mktemp("beside") / "book"))


def orders(book: Manuscript, **settings: object) -> tuple[TrackOrder, ...]:
    """Return the tracks of the first phrase in two keys."""
    card = Playable("Low tide", "C minor", ("C minor", "F minor"), TEMPO, "swing")
    asked = TrackSettings(**({"kinds": tuple(row.name for row in KINDS), "keys": "all"} | settings))  # type: ignore[arg-type]
    every = track_orders(book, [(book.phrases[0], card)], Path("store"), Path("out"), "", asked)
    return followed(every, 1)


def test_the_page_follows_tracks_of_the_whole_phrase_in_one_key_at_one_tempo(book: Manuscript) -> None:
    found = orders(book)
    assert {one.given.kind for one in found} == {
        "demonstration", "play-along", "line", "click", "call-and-answer", "no-bass", "no-piano", "no-drums",
        "bass-alone", "piano-alone", "drums-alone",
    }  # fmt: skip
    assert all(len(one.given.keys) == 1 and one.given.bars is None for one in found)
    kinds = [one.kind for one in timed_inputs(found)]
    assert sorted(set(kinds)) == ["call-and-answer", "demonstration", "line"]


@pytest.mark.parametrize("kind", ["demonstration", "line", "call-and-answer"])
def test_notes_sound_when_those_of_the_tracks_midi_file_do(book: Manuscript, kind: str) -> None:
    """Source of the expectation: the track's own MIDI file (Standard MIDI File 1.0), read by mido."""
    found = [one for one in orders(book, kinds=(kind,)) if one.given.keys == ("F minor",)]
    phrase = in_key(book.phrases[0].text.phrase(), Key.parse("F minor"))
    told = performance_of(phrase, arrangement_order(found[0]))
    due, at = [], 0.0
    for message in mido.MidiFile(file=BytesIO(smf(told))):
        at += message.time
        if message.type == "note_on" and message.velocity and message.channel == LINE_CHANNEL:
            due.append(1000 * at)
    order = PracticeOrder("", book.phrases[0], book.settings, (), (), ("", "", ""), timed_inputs(found))
    (timing,) = time_tracks(order.timed())
    heard = [
        start + flat[place]
        for start, flat in zip(timing["rounds"], timing["notes"], strict=False)
        for place in range(0, len(flat), 3)
    ]
    assert len(heard) == len(due) > 0
    assert max(abs(one - other) for one, other in zip(heard, due, strict=True)) <= WITHIN_MS
    assert [flat[2::3] for flat in timing["notes"]] == [list(range(16))] * (len(timing["rounds"]) - 1)
    assert timing["bar"] == 4 * 60_000 / TEMPO


def test_only_files_that_a_browser_plays_are_named(book: Manuscript) -> None:
    first, second, *_ = orders(book, kinds=("demonstration",), tempos=(TEMPO // 2, TEMPO))
    files = {first.stem: ["tracks/a.mid", "tracks/a.mp3"], second.stem: ["tracks/b.mid"]}
    recorded = replace(second, recording="mine.wav", stem="mine")
    found = tracks_beside((first, second, recorded), TEMPO, files | {"mine": ["tracks/mine.wav"]})
    assert found == (
        BesideTrack("C", "demonstration", 50.0, "", ("tracks/a.mp3",), 0),
        BesideTrack("C", "demonstration", 100.0, "", ("tracks/mine.wav",), -1),
    )


def test_in_a_zip_the_page_finds_its_tracks_in_the_folders_of_their_keys(tmp_path: Path) -> None:
    track = BesideTrack("C", "line", 100.0, "", ("tracks/001-a.mp3", "tracks/001-a.ogg"), 0)
    other = replace(track, files=("tracks/001-b.mp3",))
    script = tracks_script({"low-tide": (track, other), "slip": (other,), "none": ()})
    assert '"../tracks/001-a.mp3"' in script
    assert "none" not in script
    page = tmp_path / "index.html"
    page.write_text("page", encoding="utf-8")
    (tmp_path / "tracks.js").write_text(script, encoding="utf-8")
    there = packed("tracks/01-d-minor/001-a.mp3", "track", b"sound")
    files = {one.row.name: one for one in practice_files(page, [there])}
    content = files["practice/tracks.js"].member.content
    assert isinstance(content, bytes)
    assert content.decode() == moved(script, {"001-a.mp3": "tracks/01-d-minor/001-a.mp3"})
    row = '["C","line",100.0,"",["../tracks/01-d-minor/001-a.mp3"],0]'
    assert content.decode() == f'practice.put("tracks",{{"low-tide":[{row}]}});\n'
    assert files["practice/index.html"].member.content == page
