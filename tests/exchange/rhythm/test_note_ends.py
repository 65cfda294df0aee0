"""MIDI files whose notes sound for a share of their length, and what is read of a file besides its notes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from exchange.playing import meta, midi_file, track
from shedbook.exchange.ground.report import Imported
from shedbook.exchange.midi.reader import read_midi
from shedbook.phrase.line_text import print_line

SCALE = (62, 65, 69, 72, 76, 74, 72, 69, 71, 74, 77, 80, 79, 77, 76, 74, 72, 76, 79, 83, 81, 79, 76, 72, 74)
EIGHTHS = (Fraction(1, 2),) * 24 + (Fraction(2),)
STRAIGHT = "1/8 d4 f a c5 e d c a4 | b4 d5 f ab g f e d | c5 e g b a g e c | 1/2 d5 -"
MIXED = (1, *EIGHTHS[:2], Fraction(3, 2), *EIGHTHS[:5], 1, 1, Fraction(1, 2), Fraction(3, 2), 2)
TEMPO = (0, meta(0x51, (500_000).to_bytes(3, "big")))


def gated(
    values: tuple[Fraction | int, ...],
    gate: Fraction,
    per_quarter: int,
    *more: tuple[int, bytes],
    less: int = 0,
) -> Imported:
    """Read a line whose notes all sound for a share of their length, `less` ticks shorter."""
    place, events = Fraction(0), [TEMPO, *more]
    for key, value in zip(SCALE, values, strict=False):
        begin, end = round(place * per_quarter), round((place + value * gate) * per_quarter) - less
        events += [(begin, bytes((0x90, key, 90))), (end, bytes((0x80, key, 0)))]
        place += value
    events.sort(key=lambda one: (one[0], one[1][0]))
    return read_midi(midi_file([track(events)], division=per_quarter), "x.mid")


def line(imported: Imported) -> str:
    return print_line(imported.phrases[0].bars)


@pytest.mark.parametrize("per_quarter", [96, 120, 220, 384, 480, 960, 1024])
@pytest.mark.parametrize("gate", [50, 60, 70, 75, 80, 85, 90, 95, 98, 100])
def test_straight_eighths_are_read_at_every_gate(gate: int, per_quarter: int) -> None:
    assert line(gated(EIGHTHS, Fraction(gate, 100), per_quarter)) == STRAIGHT


@pytest.mark.parametrize("gate", [55, 65, 75, 80, 90, 95])
def test_values_of_several_lengths_under_a_gate(gate: int) -> None:
    whole = line(gated(MIXED, Fraction(1), 480))
    assert "(" not in whole
    for less in (0, 1):
        assert line(gated(MIXED, Fraction(gate, 100), 480, less=less)) == whole


@pytest.mark.parametrize(
    "off_beat", [Fraction(3, 5), Fraction(2, 3), Fraction(3, 4)], ids=["3 to 2", "2 to 1", "3 to 1"]
)
@pytest.mark.parametrize("gate", [50, 80, 90, 95, 100])
def test_eighths_that_a_program_swung_are_read_at_every_gate(gate: int, off_beat: Fraction) -> None:
    swung = (off_beat, 1 - off_beat) * 12 + (Fraction(2),)
    imported = gated(swung, Fraction(gate, 100), 480)
    assert line(imported) == STRAIGHT
    assert imported.phrases[0].feel == "swing"


def test_syncopated_off_beats_tell_swing_from_dotted_rhythm() -> None:
    # Sixteenths are hardly ever held over the beat (common practice).
    held = (Fraction(3, 4), Fraction(1), Fraction(1, 4), Fraction(3, 4), Fraction(1), Fraction(1, 4), 2, 2)
    imported = gated(held, Fraction(1), 480)
    assert line(imported) == "1/8 d4 1/4 f 1/8 a c5 1/4 e 1/8 d | 1/2 c5 a4"
    assert imported.phrases[0].feel == "swing"


def test_a_few_dotted_pairs_stay_dotted() -> None:
    dotted = (1, 1, Fraction(3, 4), Fraction(1, 4), 1, 1, 1, Fraction(3, 4), Fraction(1, 4), 1)
    imported = gated(dotted, Fraction(1), 480)
    assert line(imported) == "1/4 d4 f 1/8. a 1/16 c5 1/4 e | d5 c 1/8. a4 1/16 b 1/4 d5"
    assert imported.phrases[0].feel == "straight"


def test_the_report_says_that_a_gate_was_taken_out() -> None:
    said = [str(remark) for remark in gated(EIGHTHS, Fraction(4, 5), 480).report.remarks]
    assert "all notes sound for about 80 % of their length: they are written in full." in said


def test_eighths_with_rests_stay_what_they_are() -> None:
    quarters = (Fraction(1),) * 8
    assert line(gated(quarters, Fraction(1, 2), 480)) == "1/8 d4 - f - a - c5 - | e5 - d - c - a4 -"


def test_quintuplets_come_only_where_notes_begin_on_them() -> None:
    fifths = (Fraction(1, 5),) * 10 + (Fraction(1),) * 2
    assert line(gated(fifths, Fraction(1), 480)) == "1/16(5:4) d4 f a c5 e d c a4 b d5 1/4 f ab"


# What is not read


def test_texts_pedal_and_accents_are_named() -> None:
    more = [
        (0, meta(2, b"(c) Nobody")), (0, meta(1, b"composed at sea")),
        (0, meta(5, b"la")), (240, meta(5, b"le")),
        (0, bytes((0xB0, 64, 127))), (960, bytes((0x90, 40, 127))), (961, bytes((0x80, 40, 0))),
    ]  # fmt: skip
    said = [str(remark) for remark in gated(EIGHTHS, Fraction(1), 480, *more).report.remarks]
    for remark in (
        "the sustain pedal is left out.",
        'lyrics are left out: "la", "le".',
        'texts are left out: "composed at sea".',
        'copyright notices are left out: "(c) Nobody".',
    ):
        assert remark in said


def test_louder_notes_are_named() -> None:
    events = [TEMPO]
    for at in range(8):
        loud = 120 if at == 3 else 80
        events += [(at * 240, bytes((0x90, 60 + at, loud))), (at * 240 + 240, bytes((0x80, 60 + at, 0)))]
    events.sort(key=lambda one: (one[0], one[1][0]))
    imported = read_midi(midi_file([track(events)]), "x.mid")
    said = "loudness is left out: 1 of 8 notes stand out, and get no accent for it."
    assert said in map(str, imported.report.remarks)


def test_tempos_and_signatures_inside_a_line_are_named_with_their_bars() -> None:
    more = [
        (1920, meta(0x51, (400_000).to_bytes(3, "big"))),
        (3840, meta(0x51, (300_000).to_bytes(3, "big"))),
        (0, meta(0x59, b"\0\0")),
        (3840, meta(0x59, b"\2\0")),
    ]
    imported = gated(EIGHTHS, Fraction(1), 480, *more)
    said = [str(remark) for remark in imported.report.remarks]
    assert "the tempo changes between 120 and 200 quarter notes a minute: 150 is taken (bars 1, 3)." in said
    assert "a change of key signature is left out (bar 3)." in said
    assert imported.phrases[0].tempo_bpm == 150


def test_changes_that_reach_beyond_the_line_are_named() -> None:
    events = [TEMPO, (0, bytes((0x90, 60, 80))), (1920, bytes((0x80, 60, 0)))]
    changes = " | ".join(["C7"] * 8)
    imported = read_midi(midi_file([track(events)]), "x.mid", changes=changes)
    said = "the changes are 8 bars long, the line 1: the rest of them is cut off."
    assert said in map(str, imported.report.remarks)
