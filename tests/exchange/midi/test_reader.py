"""MIDI files to phrases: the round trip, which line is taken, where changes, keys and bars come from."""

from __future__ import annotations

import io
import random
from fractions import Fraction
from pathlib import Path

import mido
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import strategies
from exchange.demo_phrases import PHRASES
from exchange.playing import meta, midi_file, phrase_file, played, track
from shedbook.book.verbs.export_midi import plain_midi
from shedbook.book.verbs.play import PlayRequest, play
from shedbook.errors import NotationError, ReadError, UnknownNameError
from shedbook.exchange.ground.report import Imported
from shedbook.exchange.midi.reader import read_midi
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import ChangeAt, Phrase, sounding_notes

TEMPO = (0, meta(0x51, (500_000).to_bytes(3, "big")))


def heard(phrase: Phrase) -> list[tuple[Fraction, Fraction, int]]:
    return [(note.start, note.end, note.pitch.midi) for note in sounding_notes(phrase)]


def changes(phrase: Phrase) -> list[str]:
    """Return each change as "bar:beat symbol"."""
    return [f"{change.bar}:{change.beat} {change.chord.text}" for change in phrase.changes]


def notes(*keys: int, start: int = 0, step: int = 240, channel: int = 0) -> list[tuple[int, bytes]]:
    """Return events of notes that follow one another, at 480 ticks to the quarter."""
    found = []
    for at, key in enumerate(keys):
        begin = start + at * step
        found.append((begin, bytes((0x90 | channel, key, 80))))
        found.append((begin + step, bytes((0x80 | channel, key, 0))))
    return sorted(found, key=lambda one: (one[0], one[1][0]))


def read(*tracks: list[tuple[int, bytes]], **more: object) -> Imported:
    return read_midi(midi_file([track(one) for one in tracks]), "x.mid", **more)  # type: ignore[arg-type]


def remarks(imported: Imported) -> str:
    return "\n".join(str(remark) for remark in imported.report.remarks)


SCALE = notes(60, 62, 64, 65, 67, 69, 71, 72)


# Round trip


def test_our_own_files_come_back_with_their_notes_and_changes() -> None:
    for phrase in PHRASES:
        (back,) = read_midi(plain_midi(phrase), "x.mid").phrases
        assert heard(back) == heard(phrase), phrase.title
        assert changes(back) == changes(phrase), phrase.title


def ornaments(phrase: Phrase) -> list[tuple[list[int], bool]]:
    """Return the grace notes of every note, and whether it is staccato."""
    events = [event for bar in phrase.bars for event in bar.events if event.pitch and not event.tie_in]
    return [([one.midi for one in event.grace], "staccato" in event.marks) for event in events]


ORNAMENTED = [
    ("a grace note", {}, "1/8 c4 d e grace:g# a g f e d | 1/1 c4"),
    ("two grace notes", {}, "1/8 c4 d e grace:f# grace:g# a g f e d | 1/1 c4"),
    ("before the first note of all", {}, "1/8 grace:b3 c4 d e f g a b c5 | 1/1 c4"),
    ("before a pick-up", {"pickup": "1/4"}, "1/8 grace:b3 c4 d | e4 f g a b c5 d e | 1/1 c4"),
    ("after a rest", {}, "1/8 c4 d - grace:g# a g f e d | 1/1 c4"),
    ("fast", {"tempo": 300}, "1/8 c4 d e grace:f grace:f# grace:g# a g f e d | 1/1 c4"),
    ("slow", {"tempo": 40}, "1/16 c4 d e grace:f f 1/8t a g f 1/8 e d 1/4 c | 1/1 c4"),
    ("staccato", {}, "1/8 c4 d.staccato e f.staccato 1/4 g.staccato 1/8 - e | 1/2. c4.staccato 1/4 -"),
    ("staccato before a grace note", {}, "1/8 c4 d e.staccato grace:g# a g f e d | 1/1 c4"),
    ("staccato triplets", {}, "1/8t c4.staccato d e f.staccato g.staccato a 1/4 g f | 1/1 c4"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("fields", "text"), [row[1:] for row in ORNAMENTED], ids=[row[0] for row in ORNAMENTED]
)
def test_grace_notes_and_staccato_come_back(fields: dict[str, object], text: str) -> None:
    phrase = phrase_from_fields({"changes": "Cmaj7 | %", "line": text, **fields})
    (back,) = read_midi(plain_midi(phrase), "x.mid").phrases
    assert heard(back) == heard(phrase)
    assert ornaments(back) == ornaments(phrase)
    assert changes(back) == changes(phrase)


def test_grace_notes_are_struck_before_their_note_and_accents_are_loud() -> None:
    phrase = phrase_from_fields({"changes": "C", "line": "1/2 c4.ghost grace:g e.accent"})
    file = mido.MidiFile(file=io.BytesIO(plain_midi(phrase)))
    tick, found = 0, []
    for message in file.tracks[1]:
        tick += message.time
        if message.type == "note_on":
            found.append((message.note, tick, message.velocity))
    (first, _, soft), (grace, before, _), (last, struck, loud) = found
    assert (first, grace, last, struck) == (60, 67, 64, 1920)
    assert 1920 - 130 < before < 1920
    assert soft < 90 < loud


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(strategies.phrases(tuplets=False))
def test_any_ornamented_phrase_comes_back(phrase: Phrase) -> None:
    if not sounding_notes(phrase):
        return
    (back,) = read_midi(plain_midi(phrase), "x.mid", split=()).phrases
    assert heard(back) == heard(phrase)
    assert changes(back) == changes(phrase)
    assert ornaments(back) == ornaments(phrase)
    assert (back.feel, back.tempo_bpm, back.metre) == (phrase.feel, phrase.tempo_bpm, phrase.metre)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    strategies.phrases(ornaments=False, tuplets=False), st.sampled_from([480, 960]), st.sampled_from([0, 1])
)
def test_any_plain_phrase_comes_back(phrase: Phrase, division: int, form: int) -> None:
    # Left aside: lines too short to be told from playing by chance, dotted ones that may be swung, and those
    # whose notes all last for the same share of the time up to the next.
    if len(sounding_notes(phrase)) < 8:
        return
    imported = read_midi(phrase_file(phrase, division=division, form=form), "x.mid", split=())
    (back,) = imported.phrases
    if back.feel == "straight" and "of their length" not in remarks(imported):
        assert heard(back) == heard(phrase)
        assert changes(back) == changes(phrase)


# The line


def test_the_named_track_and_the_busiest_melodic_one() -> None:
    bass = [(0, meta(3, b"Bass")), *notes(*[36, 38, 40, 41] * 8, channel=1)]
    comping = [
        (0, meta(3, b"Keys")),
        *notes(48, 52, step=960, channel=2),
        *notes(55, 59, step=960, channel=2),
    ]
    comping.sort(key=lambda one: one[0])
    drums = notes(*[42] * 64, channel=9)
    melody = [(0, meta(3, b"Tenor")), *SCALE]
    imported = read([TEMPO], bass, comping, melody, drums)
    assert [midi for _, _, midi in heard(imported.phrases[0])] == [60, 62, 64, 65, 67, 69, 71, 72]
    assert '"Tenor", track 4, channel 1' in remarks(imported)
    assert "drums are left out" in remarks(imported)
    for part in ("bass", "2"):
        (phrase,) = read([TEMPO], bass, comping, melody, part=part).phrases
        assert heard(phrase)[0][2] == 36
    with pytest.raises(UnknownNameError, match="oboe"):
        read([TEMPO], bass, melody, part="oboe")


def test_channels_of_format_0_are_told_apart() -> None:
    events = sorted([*SCALE, *notes(36, 43, step=960, channel=1)], key=lambda one: (one[0], one[1][0]))
    (phrase,) = read_midi(midi_file([track(events)], form=0), "x.mid").phrases
    assert [midi for _, _, midi in heard(phrase)] == [60, 62, 64, 65, 67, 69, 71, 72]


def test_of_chords_the_top_note_and_of_legato_both() -> None:
    events = [
        (0, b"\x90\x3c\x50"), (0, b"\x90\x40\x50"), (0, b"\x90\x43\x50"),
        (480, b"\x80\x3c\0"), (480, b"\x80\x40\0"),
        (480, b"\x90\x41\x50"), (500, b"\x80\x43\0"), (960, b"\x80\x41\0"),
    ]  # fmt: skip
    imported = read(events)
    assert [midi for _, _, midi in heard(imported.phrases[0])] == [67, 65]
    assert "2 lower notes" in remarks(imported)


def test_only_drums_or_nothing_is_refused() -> None:
    with pytest.raises(ReadError, match="drums"):
        read(notes(36, 42, channel=9))
    with pytest.raises(ReadError, match="no notes"):
        read([TEMPO])


def test_notes_that_the_manuscript_cannot_write_are_named() -> None:
    imported = read(notes(5, 60, 62, 64))
    assert [midi for _, _, midi in heard(imported.phrases[0])] == [60, 62, 64]
    assert "outside A0 to C8" in remarks(imported)


# Changes


@pytest.mark.parametrize("kind", [6, 5, 1, 7], ids=["marker", "lyric", "text", "cue"])
def test_changes_from_every_kind_of_text(kind: int) -> None:
    chords = [(0, meta(kind, b"Dm7")), (960, meta(kind, b"G7b9"))]
    (phrase,) = read([*chords], SCALE).phrases
    assert changes(phrase) == ["1:1 Dm7", "1:3 G7b9"]


def test_words_and_rehearsal_letters_are_no_chords() -> None:
    lyrics = [(at * 240, meta(5, word)) for at, word in enumerate((b"A", b"boat", b"to", b"sea"))]
    letters = [(0, meta(6, b"A")), (1920, meta(6, b"B"))]
    imported = read(lyrics, SCALE)
    assert changes(imported.phrases[0]) == ["1:1 N.C."]
    assert "no chord symbols" in remarks(imported)
    imported = read(letters, [*SCALE, *notes(72, 71, 69, 67, start=1920)])
    assert [phrase.title for phrase in imported.phrases] == ["x A", "x B"]


def test_changes_of_the_author_take_the_place_of_the_file() -> None:
    chords = [(0, meta(6, b"Dm7"))]
    (phrase,) = read([*chords], SCALE, changes="Cmaj7 A7").phrases
    assert changes(phrase) == ["1:1 Cmaj7", "1:3 A7"]


def test_changes_are_repeated_under_a_longer_line_and_outlast_a_shorter() -> None:
    two = [*SCALE, *notes(72, 71, 69, 67, 65, 64, 62, 60, start=1920)]
    imported = read(two, changes="Cmaj7")
    assert changes(imported.phrases[0]) == ["1:1 Cmaj7", "2:1 Cmaj7"]
    assert "repeated" in remarks(imported)
    (phrase,) = read(SCALE, changes="Cmaj7 | F7 | Cmaj7").phrases
    assert phrase.full_bars == 3


def test_a_pickup_stands_before_the_changes() -> None:
    line = notes(67, 69, 71, start=1920 - 720) + notes(72, 71, 69, 67, 65, 64, 62, 60, start=1920)
    (phrase,) = read(line, changes="Cmaj7").phrases
    assert print_line(phrase.bars).startswith("1/8 g4 a b | c5 b4")


def test_changes_that_cannot_be_read_say_where() -> None:
    with pytest.raises(ReadError) as caught:
        read(SCALE, changes="Cmaj7 | H7")
    assert isinstance(caught.value, NotationError | ReadError)
    assert caught.value.start == 8


# What else the file says


def test_key_signature_metre_tempo_and_title() -> None:
    head = [
        (0, meta(3, b"Low tide")),
        (0, meta(0x51, (600_000).to_bytes(3, "big"))),
        (0, meta(0x58, b"\6\3\x24\x08")),
        (0, meta(0x59, b"\xfd\1")),
    ]
    (phrase,) = read(head, notes(60, 62, 63, 65, 67, 68)).phrases
    assert phrase.title == "Low tide"
    assert str(phrase.metre) == "6/8"
    assert str(phrase.key) == "C minor"
    assert phrase.tempo_bpm == 67  # 100 quarters are 66⅔ dotted quarters
    assert print_line(phrase.bars) == "1/8 c4 d eb f g ab"


def test_a_change_of_metre_divides() -> None:
    head = [(0, meta(0x58, b"\4\2\x18\x08")), (1920, meta(0x58, b"\3\2\x18\x08"))]
    line = [*SCALE, *notes(72, 71, 69, 67, 65, 64, start=1920)]
    imported = read(head, line)
    assert [str(phrase.metre) for phrase in imported.phrases] == ["4/4", "3/4"]
    assert [len(heard(phrase)) for phrase in imported.phrases] == [8, 6]


@pytest.mark.parametrize(("word", "feel"), [(b"Bossa nova", "bossa"), (b"swing", "swing"), (b"", "straight")])
def test_the_feel_is_said_or_heard(word: bytes, feel: str) -> None:
    imported = read([(0, meta(1, word))], SCALE)
    assert imported.phrases[0].feel == feel


def test_swung_eighths_are_written_even_and_called_swing() -> None:
    line: list[tuple[int, bytes]] = []
    for beat, (one, other) in enumerate([(60, 62), (64, 65), (67, 69), (71, 72)]):
        line += notes(one, start=beat * 480, step=320) + notes(other, start=beat * 480 + 320, step=160)
    (phrase,) = read(sorted(line, key=lambda event: (event[0], event[1][0]))).phrases
    assert phrase.feel == "swing"
    assert print_line(phrase.bars) == "1/8 c4 d e f g a b c5"


def test_bends_are_named() -> None:
    imported = read([*SCALE[:4], (480, b"\xe0\x00\x50"), *SCALE[4:]])
    assert "pitch bends are left out" in remarks(imported)


def test_a_line_over_thousands_of_bars_is_refused() -> None:
    with pytest.raises(ReadError, match="bars"):
        read([*notes(60, 62), *notes(64, start=2**27)])


# Free playing


def free_file(phrase: Phrase, division: int = 480) -> bytes:
    """A phrase at 150, played with no click into a file that says 120, from somewhere on."""
    line = played(
        phrase, ratio=Fraction(2), jitter_ms=12, shortest_share=0.9, tempo_qpm=150, dice=random.Random(7)
    )
    events: list[tuple[int, bytes]] = []
    for note in line:
        start, end = (at * division * 120 // 150 // GRAINS + 137 for at in (note.start, note.end))
        events += [(start, bytes((0x90, note.midi, 80))), (max(end, start + 1), bytes((0x80, note.midi, 0)))]
    return midi_file([track(sorted(events, key=lambda event: (event[0], event[1][0])))], division=division)


def test_free_playing_is_told_and_its_beat_found() -> None:
    found = 0
    for phrase in PHRASES[:6]:
        imported = read_midi(free_file(phrase), "x.mid")
        if "do not stand on the file's beats" in remarks(imported):
            found += abs(imported.phrases[0].tempo_bpm - 150) <= 4
    assert found >= 4


def test_film_time_has_found_beats() -> None:
    data = free_file(PHRASES[1])
    film = data[:12] + (0xE728).to_bytes(2, "big") + data[14:]
    imported = read_midi(film, "x.mid")
    assert "frames" in remarks(imported)
    assert imported.phrases
    with pytest.raises(ReadError, match="too few notes"):
        read_midi(midi_file([track(notes(60, 62))], division=0xE728), "x.mid")


def test_errors_name_the_file_and_the_byte() -> None:
    with pytest.raises(ReadError) as caught:
        read_midi(b"MThd\0\0\0\6\0\1\0\1\0\0", "solo.mid")
    assert caught.value.message.startswith("solo.mid: ")
    assert caught.value.start == 12


def test_the_same_bytes_give_the_same_phrases() -> None:
    data = free_file(PHRASES[2])
    assert read_midi(data, "x.mid") == read_midi(data, "x.mid")


def test_chords_of_the_phrase_stay_as_they_are_written() -> None:
    phrase = phrase_from_fields({"changes": "Gb7 | F#m7b5", "line": "1/4 c5 d e f | g f e d"})
    (back,) = read_midi(phrase_file(phrase), "x.mid").phrases
    assert [change.chord for change in back.changes] == [change.chord for change in phrase.changes]
    assert all(isinstance(change, ChangeAt) for change in back.changes)


def test_the_line_is_found_in_a_track_of_our_own_band(tmp_path: Path) -> None:
    # The piano strikes more notes, a little apart, as hands do; the clarinet plays one at a time.
    (demo,) = (Path(__file__).parents[3] / "examples" / "tidewater" / "phrases").glob("*-low-water.toml")
    out = tmp_path / "low-water.mid"
    play(PlayRequest(demo, out=out))
    found = read_midi(out.read_bytes(), out.name)
    assert any('the line is taken from "clarinet"' in remark.message for remark in found.report.remarks)
