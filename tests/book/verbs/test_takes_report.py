"""What is said of takes, in one text that a person can read: tests/book/verbs/golden/takes.txt.

No sound is listened to: what was heard is made up here, so that everything is said once that can be said.
The text is what people read, and under it the values for programs. UPDATE_GOLDEN=1 writes it anew; read it
before it is kept. Source: what was made up, in the bars and beats of the phrase as it is written.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from listen.tones import LOW_TIDE
from shedbook.book.lessons.session_list import SessionTake
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.tracks import Recording
from shedbook.book.verbs.recorded import _sentence, take_there
from shedbook.book.verbs.takes import HeardSlate, ListenedTo, Take, TakesFound, same_tempo
from shedbook.book.verbs.takes_report import (
    _cents,
    clock,
    recording_lines,
    take_lines,
    takes_counted,
    takes_json,
    unsure_notes,
    unsure_words,
)
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import SoundError, UnknownNameError
from shedbook.listen.keeping import Against, Verdict
from shedbook.listen.lines import PlayedNote, line_of
from shedbook.listen.measures import BarFeel, Intonation, Measures, Tempo
from shedbook.listen.note_search import EXTRA, WRONG
from shedbook.listen.sound_pieces import Heard
from shedbook.listen.take_reading import MISSING, Slip, TakeReading, UnknownPiece
from shedbook.phrase.line_text import print_line
from shedbook.sound.audio.slate import Slate
from shedbook.theory.key import Key

GOLDEN = Path(__file__).parent / "golden" / "takes.txt"
LINE = line_of(LOW_TIDE)
COUNT = len(LINE.notes)
B_FLAT = Key.parse("Bb minor")
PLANNED = SessionTake(7, 1, "Low tide", B_FLAT, 96, "media/low-tide.wav")

SLIPS = (
    Slip(EXTRA, -1, None, 59, 1.05, 0.3),
    Slip(WRONG, 2, 72, 73, 2.5004, 0.2),
    Slip(WRONG, 3, 75, 71, 2.7, 0.61),
    Slip(MISSING, 5, 77, None, None, 0.9),
    Slip(EXTRA, 8, None, 66, 4.25, 0.7),
)
NOTHING = Measures(None, None, (), against_click=False)
CENTS = (-6.04, 25.06, None, -41.5, 18.96, 60.0, 55.0, -52.0, *(-5.5,) * (COUNT - 8))
PLAYED = Measures(
    Intonation(441.528, 6.0, 1.0, CENTS),
    Tempo(110.26, 108.0, 113.5, 1.1, 0.05093),
    (BarFeel(1, 1.634, 4, 12.36), BarFeel(2, None, 0, -7.5), BarFeel(3, 2.0, 2, None)),
    against_click=True,
)
SLOWING = Measures(
    Intonation(438.0, -7.9, 2.4, (-8.0,) * COUNT),
    Tempo(120.0, 125.0, 118.0, 1.1, -0.0421),
    (BarFeel(1, None, 0, 30.0),),
    against_click=False,
)
STEADY = Measures(None, Tempo(124.0, 124.0, 124.0, 1.0, 0.0099), (), against_click=False)
HEARD = Heard(None, 48_000, 192.345, (), -58.2, -19.0, 1)  # type: ignore[arg-type]
CLIPPED = replace(HEARD, seconds=61.0, clipped_s=(1.0, 2.25, 59.96, 60.04, 61.0), channels=2)


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> TakesFound:
    """Takes of one phrase, in their order as people would read them."""
    root = tmp_path_factory.mktemp("book")
    (root / "phrases").mkdir()
    (root / "manuscript.toml").write_text('title = "Tides"\n', encoding="utf-8")
    (root / "phrases" / "01.toml").write_text(
        'title = "Low tide"\ntempo = 120\nchanges = "Dm7b5 | G7b9 | Cm6"\n'
        f'line = "{print_line(LOW_TIDE.bars)}"\n',
        encoding="utf-8",
    )
    book = open_manuscript(root)
    notes = [
        PlayedNote(1 + index / 8, 1.1 + index / 8, one.midi, 3.0, 0.1) for index, one in enumerate(LINE.notes)
    ]
    notes[6] = notes[6]._replace(doubt=0.75)
    played = (*notes[:5], None, *notes[6:])
    clean = TakeReading(0, 0, 1.02, 9.96, tuple(notes), (), 0.98)
    slips = TakeReading(0, -2, 61.5, 75.25, played, SLIPS, 0.8)
    fine, poor = Verdict((), usable=True), Verdict((Against("2 wrong notes", 4.0),), usable=True)
    take = Take(
        Path("morning.wav"), 1, book.phrases[0], LOW_TIDE, LINE, clean, NOTHING, fine,
        key=LOW_TIDE.key, home=LOW_TIDE.key,
    )  # fmt: skip
    moved = replace(
        take, reading=slips, phrase=in_key(LOW_TIDE, B_FLAT), key=B_FLAT, slate=7, planned=PLANNED
    )
    takes = (
        replace(take, kept=True),
        replace(
            moved, number=2, measures=PLAYED, verdict=replace(poor, usable=False), amiss=("It is amiss.",)
        ),
        replace(take, number=3, measures=SLOWING, verdict=poor, kept=True, slate=9),
        replace(
            take,
            number=4,
            measures=STEADY,
            verdict=replace(poor, against=(*poor.against, Against("soft", 1.0))),
        ),
        replace(take, number=5, measures=replace(PLAYED, against_click=False, intonation=None)),
    )
    slate = Slate(7, 58.03, 60.0)
    others = (UnknownPiece(80.0, 83.46, 0), UnknownPiece(90.0, 91.0, 1), UnknownPiece(120.0, 179.96, 23),
              UnknownPiece(100.0, 101.0, 5, slate=0))  # fmt: skip
    slates = (HeardSlate(slate, PLANNED, 1), HeardSlate(Slate(8, 70.0, 71.0), None, 0))
    recordings = (
        ListenedTo(Path("morning.wav"), HEARD, 2, others, slates),
        ListenedTo(Path("loud.wav"), CLIPPED, 0, ()),
        ListenedTo(Path("loud.wav"), replace(CLIPPED, clipped_s=CLIPPED.clipped_s[:3]), 1, ()),
    )
    refused = ((Path("text.wav"), SoundError("It is no recording.")),)
    return TakesFound(book, takes, recordings, refused, ())


def told(found: TakesFound) -> Iterator[str]:
    for take in found.takes:
        head, *rest = take_lines(take)
        yield f"# {head}"
        yield from (f"  {one}" for one in rest)
        yield from (f"  unsure: {unsure_words(take, one)}" for one in unsure_notes(take))
        yield f"  played at {take.played_bpm:.2f}, meant {take.meant_bpm}, filed under {take.filed_bpm}"
    for one in found.recordings:
        head, *rest = recording_lines(one)
        yield f"# {head}"
        yield from (f"  {line}" for line in rest)
    values = takes_json(found)
    yield "# for programs"
    for take in values["takes"]:
        notes, slips, bars = take.pop("notes"), take.pop("slips"), take.pop("bars")
        yield f"  {json.dumps(take, ensure_ascii=False)}"
        yield from (
            f"    {json.dumps(one, ensure_ascii=False)}"
            for one in (*slips, *bars, *notes[: 10 if slips else 2])
        )
    for one in values["recordings"]:
        yield f"  {json.dumps(one, ensure_ascii=False)}"
    yield f"  {json.dumps(values['refused'])}"


def test_the_words_are_those_that_were_read(found: TakesFound) -> None:
    text = "\n".join((*told(found), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [
        (0, "0:00.0"),
        (9.94, "0:09.9"),
        (59.96, "1:00.0"),
        (60, "1:00.0"),
        (3599.9, "59:59.9"),
        (7322.25, "122:02.2"),
    ],
)
def test_a_place_is_minutes_and_seconds(seconds: float, expected: str) -> None:
    assert clock(seconds) == expected


@pytest.mark.parametrize(
    ("cents", "expected"), [(0.4, "0 cents"), (0.6, "1 cent"), (1.4, "1 cent"), (1.6, "2 cents")]
)
def test_cents_are_counted(cents: float, expected: str) -> None:
    assert _cents(cents) == expected


@pytest.mark.parametrize(("count", "expected"), [(0, "no take"), (1, "1 take"), (2, "2 takes")])
def test_takes_are_counted(count: int, expected: str) -> None:
    assert takes_counted(count) == expected


@pytest.mark.parametrize(
    ("one", "other", "same"), [(103, 100, True), (105, 100, False), (97, 100, True), (95, 100, False)]
)
def test_tempos_within_a_twenty_fifth_are_one(one: float, other: float, same: bool) -> None:
    assert same_tempo(one, other) is same


LOW, HIGH = "Low tide", "High tide"


@pytest.mark.parametrize(
    ("place", "rows", "there"),
    [
        # The takes above: 1 in C minor at 120, the phrase's own; 2 in B flat minor at 110; 5 at 110 too.
        (1, [], ""),
        (1, [(LOW, "", 0)], "0.wav"),
        (1, [("1", "C", 120)], "0.wav"),
        (1, [(LOW, "B#", 0)], "0.wav"),  # the same key by another name
        (1, [(HIGH, "", 0), (LOW, "D", 0), (LOW, "", 119)], ""),
        (2, [(LOW, "", 110), (LOW, "A#", 110)], "1.wav"),
        (5, [(LOW, "", 110)], "0.wav"),
        (5, [(LOW, "", 0), (LOW, "", 112), (LOW, "", 107)], "1.wav"),  # of two that are near the nearest
        (5, [(LOW, "", 0), (LOW, "", 100)], ""),
    ],
)
def test_the_recording_that_a_take_would_replace(
    found: TakesFound, place: int, rows: list[tuple[str, str, int]], there: str
) -> None:
    recordings = tuple(
        Recording(phrase, tonic, tempo, f"{at}.wav") for at, (phrase, tonic, tempo) in enumerate(rows)
    )
    settings = found.manuscript.settings
    settings = replace(settings, tracks=replace(settings.tracks, recordings=recordings))
    asked = replace(found, manuscript=replace(found.manuscript, settings=settings))
    assert take_there(asked, place) == there


def test_a_take_that_is_not_there_is_told(found: TakesFound) -> None:
    with pytest.raises(UnknownNameError):
        take_there(found, 6)


@pytest.mark.parametrize(("said", "sentence"), [("it is so", "It is so."), ("So.", "So."), ("", ".")])
def test_a_remark_is_told_as_a_sentence(said: str, sentence: str) -> None:
    assert _sentence(said) == sentence
