"""What a MIDI file cannot hold is brought to its bounds. Source: MIDI 1.0, where a bend has 14 bits."""

from __future__ import annotations

import io

import mido
import pytest

from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import Bend, Performance, PlayedNote, PlayedPart
from shedbook.theory.metre import Metre


def performance(*bends: Bend, filters: tuple[Bend, ...] = ()) -> Performance:
    note = PlayedNote(0, 480, 60, 80)
    part = PlayedPart("line", "flute", 73, 0, 64, (note,), bends, filters)
    return Performance("A test", (part,), 960, 500_000, Metre(3, 8), (), ())


@pytest.mark.parametrize(
    ("cents", "pitch"),
    [(0, 0), (100, 4096), (-100, -4096), (200, 8191), (-200, -8192), (250, 8191), (-250, -8192), (-0.02, -1)],
)
def test_a_bend_is_a_share_of_two_half_steps_and_never_more(cents: float, pitch: int) -> None:
    track = mido.MidiFile(file=io.BytesIO(smf(performance(Bend(10, cents))))).tracks[1]
    assert [message.pitch for message in track if message.type == "pitchwheel"] == [pitch]


@pytest.mark.parametrize(
    ("cents", "coarse", "fine"), [(0, 64, 0), (-2, 63, 127), (-256, 63, 0), (-500, 62, 6), (256, 65, 0)]
)
def test_a_filter_is_said_in_steps_of_two_cents_round_the_middle(cents: int, coarse: int, fine: int) -> None:
    """SoundFont 2.04, 9.6.3: 14 bits by data entry, 8192 for no change."""
    content = smf(performance(filters=(Bend(0, cents),)), filters=True)
    track = mido.MidiFile(file=io.BytesIO(content)).tracks[1]
    said = {message.control: message.value for message in track if message.type == "control_change"}
    assert (said[6], said[38]) == (coarse, fine)


def test_a_note_is_ended_before_another_begins_at_the_same_tick() -> None:
    """Order of the messages of one tick: note off, control, note on."""
    again = PlayedNote(480, 960, 60, 80)
    played = performance(Bend(480, 50))
    part = played.parts[0]
    both = PlayedPart(*(part.player, part.name, part.program, 0, 64), (*part.notes, again), part.bends)
    content = smf(Performance(played.title, (both,), 960, 500_000, Metre(), (), ()))
    kinds = [message.type for message in mido.MidiFile(file=io.BytesIO(content)).tracks[1]]
    assert kinds[-6:] == ["note_on", "note_off", "pitchwheel", "note_on", "note_off", "end_of_track"]


def test_the_metre_is_said_as_it_is_written() -> None:
    conductor = mido.MidiFile(file=io.BytesIO(smf(performance()))).tracks[0]
    message = next(one for one in conductor if one.type == "time_signature")
    assert (message.numerator, message.denominator) == (3, 8)
