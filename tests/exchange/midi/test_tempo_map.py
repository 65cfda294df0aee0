"""Tempos and metres of a MIDI file by the ticks from which they hold (Standard MIDI Files 1.0, RP-001)."""

from __future__ import annotations

from exchange.playing import meta, midi_file, track
from shedbook.exchange.midi.file_bytes import parse_midi
from shedbook.exchange.midi.tempo_map import metres_of, tempo_map_of

TEMPO, METRE = 0x51, 0x58


def test_without_a_tempo_a_quarter_lasts_half_a_second() -> None:
    tempos = tempo_map_of(parse_midi(midi_file([track([])], division=96)))
    assert tempos.tempo_qpm(0) == 120
    assert tempos.microseconds(96) == 500_000


def test_tempos_follow_one_another() -> None:
    events = [
        (0, meta(TEMPO, (400_000).to_bytes(3, "big"))),
        (192, meta(TEMPO, (300_000).to_bytes(3, "big"))),
    ]
    tempos = tempo_map_of(parse_midi(midi_file([track(events)], division=96)))
    assert tempos.tempo_qpm(191) == 150
    assert tempos.tempo_qpm(192) == 200
    assert tempos.microseconds(288) == 2 * 400_000 + 300_000


def test_a_metre_that_no_phrase_can_have_is_read_as_four_four() -> None:
    events = [(0, meta(METRE, bytes((3, 2, 24, 8)))), (96, meta(METRE, bytes((77, 6, 24, 8))))]
    metres = metres_of(parse_midi(midi_file([track(events)], division=96)))
    assert [(tick, str(metre)) for tick, metre in metres] == [(0, "3/4"), (96, "4/4")]
