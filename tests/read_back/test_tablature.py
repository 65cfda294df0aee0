"""Figures of tablature, by the line on which they stand."""

from shedbook.read_back.ink import Glyph, Stroke
from shedbook.read_back.staves import System
from shedbook.read_back.tablature import frets_of

_EM = 1.75


def _figure(name: str, x: float, line: int) -> Glyph:
    return Glyph("sans-semibold", name, x, 6 + 1.5 * line + 0.33 * _EM, _EM / 1000)


def _system(*figures: Glyph) -> System:
    system = System(60, Glyph("music", "E050", 0.5, 3, 0.004), list(figures))
    system.strokes = [Stroke(0, 6 + 1.5 * line, 60, 6 + 1.5 * line, 0.15) for line in range(6)]
    return system


def test_figures_have_string_fret_and_brackets() -> None:
    system = _system(
        _figure("7", 10, 0), _figure("1", 20, 5), _figure("2", 20.87, 5),
        _figure("(", 30, 2), _figure("5", 30.5, 2), _figure(")", 31.4, 2),
    )  # fmt: skip
    read = [(fret.string, fret.fret, fret.bracketed) for fret in frets_of(system)]
    assert read == [(1, 7, False), (6, 12, False), (3, 5, True)]


def test_a_figure_between_two_lines_is_on_no_string() -> None:
    figure = _figure("3", 10, 1)
    (fret,) = frets_of(_system(figure._replace(y=figure.y + 0.75)))
    assert fret.string == 0


def test_a_staff_without_tablature_has_no_figures() -> None:
    assert frets_of(System(60, Glyph("music", "E050", 0.5, 3, 0.004), [_figure("3", 10, 1)])) == []


def test_a_figure_close_behind_a_bracket_is_one_of_its_own() -> None:
    system = _system(
        _figure("(", 10, 0), _figure("1", 10.5, 0), _figure("0", 11.37, 0), _figure(")", 12.2, 0),
        _figure("8", 12.7, 0), _figure("(", 13.5, 0), _figure("9", 14.0, 0), _figure(")", 14.8, 0),
    )  # fmt: skip
    read = [(fret.fret, fret.bracketed) for fret in frets_of(system)]
    assert read == [(10, True), (8, False), (9, True)]
