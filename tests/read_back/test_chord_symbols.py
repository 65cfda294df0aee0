"""Chord symbols as text."""

from read_back.printed import hard_phrase, printed
from shedbook.read_back.chord_symbols import symbols_of
from shedbook.read_back.staves import systems_of
from shedbook.read_back.svg_ink import ink_of_svg


def test_letters_signs_raised_tones_and_a_slash_are_read() -> None:
    read = {
        title: [symbol.text for system in _systems(title) for symbol in symbols_of(system)]
        for title in ("a pick-up", "double accidentals")
    }
    assert read["a pick-up"] == ["CΔ7", "Fø7", "B°7", "N.C."]
    assert read["double accidentals"] == ["Cb7", "F#7(#9)/A#", "G7(b9b13)"]


def _systems(title: str) -> list:  # type: ignore[type-arg]
    return systems_of(ink_of_svg(printed(hard_phrase(title)).svg))
