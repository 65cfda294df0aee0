"""The MIDI files, read back by two libraries that had no part in the arrangement."""

from __future__ import annotations

import io
from collections import Counter
from functools import lru_cache

import mido
import pytest
from music21 import midi as music21_midi

from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.score.midi_file import signature_text, smf
from shedbook.sound.score.performance import perform
from shedbook.sound.score.written_score import Score
from shedbook.theory.key import Key
from sound.demo_scores import demo, demo_in_keys, phrase, score

RANGES = {0: (21, 108), 4: (21, 108), 24: (40, 88), 32: (28, 67), 33: (28, 67), 71: (50, 94)}
"""Program to sounding range (Adler, from memory): pianos, nylon guitar, basses, clarinet."""

ORDER = Order(rounds=2)


def written(found: Score, seed: int = 0) -> bytes:
    return smf(perform(found, seed=seed))


def read(content: bytes) -> mido.MidiFile:
    return mido.MidiFile(file=io.BytesIO(content))


@lru_cache(maxsize=1024)
def file_of(phrase: Phrase) -> mido.MidiFile:
    return read(written(score(phrase, ORDER)))


@pytest.mark.parametrize("phrase", demo_in_keys(), ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_file_is_whole(phrase: Phrase) -> None:
    """Standard MIDI Files 1.0: format 1, tempo, every note ended, every track ended at the last bar line."""
    found, file = score(phrase, ORDER), file_of(phrase)
    assert file.type == 1
    assert len(file.tracks) == 5
    assert file.length == pytest.approx(found.seconds, abs=0.005)
    assert {sum(message.time for message in track) for track in file.tracks} == {
        int(found.quarters * file.ticks_per_beat)
    }
    tempo = next(message.tempo for message in file.tracks[0] if message.type == "set_tempo")
    assert tempo == pytest.approx(60e6 / float(found.tempo_qpm), abs=0.5)
    for track in file.tracks[1:]:
        assert len({message.channel for message in track if not message.is_meta}) == 1
        sounding: set[int] = set()
        for message in track:
            if message.type == "note_on":
                assert message.note not in sounding
                sounding.add(message.note)
            elif message.type == "note_off":
                sounding.remove(message.note)
        assert not sounding


@pytest.mark.parametrize("phrase", demo_in_keys(), ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_programs_and_ranges(phrase: Phrase) -> None:
    for track in file_of(phrase).tracks[1:]:
        program = next(message for message in track if message.type == "program_change")
        played = [message.note for message in track if message.type == "note_on"]
        if program.channel == 9:
            assert program.program in (0, 40)
            assert all(35 <= key <= 81 for key in played)
        else:
            low, high = RANGES[program.program]
            assert all(low <= key <= high for key in played)


@pytest.mark.parametrize("phrase", demo()[::4], ids=lambda phrase: phrase.title)
def test_music21_reads_the_same_notes(phrase: Phrase) -> None:
    found = score(phrase, ORDER)
    file = music21_midi.MidiFile()
    file.readstr(written(found))
    on = music21_midi.ChannelVoiceMessages.NOTE_ON
    heard = [
        Counter(event.pitch for event in track.events if event.type == on and event.velocity)
        for track in file.tracks
    ]
    played = perform(found)
    assert heard[1:] == [Counter(note.midi for note in one.notes) for one in played.parts]


def test_names_time_key_and_markers() -> None:
    found = arrange(
        phrase("Dm7 | G7 | Cm6 | %", "1/1 d4 | f | eb | c", key="C minor", title="Überfahrt"), Order()
    )
    conductor, *players = read(written(found)).tracks
    said = {message.type: message for message in conductor}
    assert (said["time_signature"].numerator, said["time_signature"].denominator) == (4, 4)
    assert said["key_signature"].key == "Cm"
    markers = [message.text for message in conductor if message.type == "marker"]
    assert markers == ["count-in", "round", "Dm7", "G7", "Cm6", "ending", "Cm6"]
    assert [track.name for track in players] == ["clarinet", "acoustic bass", "piano", "drums"]


def test_title_with_other_letters_is_kept() -> None:
    found = arrange(phrase("C6", "1/1 c4", title="Überfahrt ♭"), Order())
    file = mido.MidiFile(file=io.BytesIO(written(found)), charset="utf-8")
    assert file.tracks[0].name == "Überfahrt ♭"


@pytest.mark.parametrize(
    ("key", "text"),
    [("C major", "C"), ("Gb major", "Gb"), ("C# minor", "C#m"), ("G# major", "Ab"), ("Fb minor", "Em")],
)
def test_key_signatures_have_at_most_seven_accidentals(key: str, text: str) -> None:
    """Standard MIDI Files 1.0: sf runs from -7 to 7."""
    assert signature_text(Key.parse(key)) == text


def test_same_seed_same_bytes() -> None:
    found = demo()[4]
    one = written(arrange(found, Order(seed=7)), 7)
    assert one == written(arrange(found, Order(seed=7)), 7)
    assert one != written(arrange(found, Order(seed=8)), 8)


def test_pitch_wheel_comes_to_rest() -> None:
    found = arrange(phrase("Cmaj7", "1/4 c5.fall e g.scoop -"), Order(parts="line"))
    wheel = [message.pitch for message in read(written(found)).tracks[1] if message.type == "pitchwheel"]
    assert wheel
    assert wheel[-1] == 0
    assert min(wheel) >= -8192


def test_the_filter_of_a_stroke_is_said_to_a_synthesiser_only() -> None:
    """SoundFont 2.04, 9.6.2: NRPN 120 selects generators by 98; 8 is initialFilterFc; 8192 is no change."""
    played = perform(arrange(demo()[0], Order(rounds=1)), seed=1)
    plain = mido.MidiFile(file=io.BytesIO(smf(played)))
    assert not [one for track in plain.tracks for one in track if getattr(one, "control", 0) in (98, 99)]
    track = mido.MidiFile(file=io.BytesIO(smf(played, filters=True))).tracks[-1]
    said = [(one.control, one.value) for one in track if one.type == "control_change" and one.control != 7]
    said = [pair for pair in said if pair[0] in (99, 98, 38, 6)]
    strokes = {note.start for note in played.parts[-1].notes}
    assert len(said) == 4 * len(strokes)
    for at in range(0, len(said), 4):
        (_, group), (_, generator), (_, fine), (_, coarse) = said[at : at + 4]
        assert (group, generator) == (120, 8)
        assert -250 <= (coarse << 7 | fine) - 8192 <= 0


def test_other_drums_of_the_same_kind_are_struck_now_and_then() -> None:
    played = perform(arrange(demo()[0], Order(rounds=4)), seed=1)
    keys = [note.midi for note in played.parts[-1].notes]
    assert keys.count(35) > 0
    assert keys.count(36) > 0
    assert perform(arrange(demo()[0], Order(rounds=4)), seed=1) == played
