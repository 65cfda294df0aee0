"""Heads are shortened by flags and beams: one halves an eighth out of a quarter (common practice)."""

from shedbook.read_back.beams import Written, shorten
from shedbook.read_back.ink import Area, Glyph


def _note(x: float, y: float = 3.0) -> Written:
    return Written(x, y, 4, 32, stem=x + 1.2, tip=y - 3.5)


def _beam(left: float, right: float, y: float) -> Area:
    return Area(((left, y), (right, y), (right, y + 0.5), (left, y + 0.5)))


def test_a_beam_makes_eighths_and_a_second_one_sixteenths() -> None:
    notes = [_note(0), _note(4)]
    assert shorten(notes, [_beam(1.2, 5.2, -0.5)], ()) == []
    assert [note.part for note in notes] == [8, 8]
    notes = [_note(0), _note(4)]
    assert shorten(notes, [_beam(1.2, 5.2, -0.5), _beam(4.2, 5.2, 0.25)], ()) == []
    assert [note.part for note in notes] == [8, 16]


def test_a_beam_drawn_twice_counts_once() -> None:
    notes = [_note(0), _note(4)]
    assert shorten(notes, [_beam(1.2, 5.2, -0.5)] * 2, ()) == []
    assert [note.part for note in notes] == [8, 8]


def test_flags_count_as_their_glyph_says() -> None:
    """SMuFL 1.4: E240 is an eighth's flag, E242 a sixteenth's."""
    for code, part in (("E240", 8), ("E242", 16)):
        note = _note(0)
        assert shorten([note], [], [Glyph("music", code, 1.2, -0.5, 0.004)]) == []
        assert note.part == part


def test_beams_and_flags_that_belong_to_nothing_are_faults() -> None:
    lost = shorten([_note(0)], [_beam(10, 12, 0)], [Glyph("music", "E240", 9, 0, 0.004)])
    assert [fault.says for fault in lost] == ["a beam belongs to no stem", "a flag belongs to no stem"]
    (one,) = shorten([_note(0)], [_beam(1.2, 5.2, -0.5)], ())
    assert one.says == "a beam leads from a stem to none"
    (white,) = shorten([Written(0, 3, 2, 32, stem=1.2, tip=-0.5)], [_beam(1.2, 2.2, -0.5)], ())
    assert white.says == "a white head has a beam or a flag"


def test_a_grace_note_with_a_flag_close_under_a_beam_is_not_on_it() -> None:
    grace = Written(2.0, 3.0, 4, 32, small=True, stem=2.9, tip=0.4)
    notes = [_note(0), grace, _note(4)]
    flag = Glyph("music", "E240", 2.9, 0.4, 0.003)
    assert shorten(notes, [_beam(1.2, 5.2, -0.5)], [flag]) == []
    assert [note.part for note in notes] == [8, 8, 8]
    assert grace.beam == -1
