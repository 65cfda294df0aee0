"""Links at changes of chord and at bar lines: common practice."""

from __future__ import annotations

from analysis.helpers import read


def test_guide_tone_link() -> None:
    found = read("Dm7 | G7", "1/4 d4 f4 a4 c5 | 1/1 b4", "dorian | mixolydian")
    (link,) = found.links
    assert (link.kind, link.semitones, link.by_step) == ("change", -1, True)
    assert link.guide == ("b7", "3")


def test_common_tone_link() -> None:
    found = read("Dm7 | G7", "1/2 d4 f4 | 1/1 f4", "dorian | mixolydian")
    assert found.links[0].held == 1
    assert found.links[0].kept == (2, 5)


def test_wrapped_link() -> None:
    found = read("Cm7b5 | F7b9", "1/4 eb4 gb4 c5 1/8 bb4 ab4 | 1/1 a4", "locrian | half-whole diminished")
    assert found.links[0].wrapped


def test_bar_lines_without_a_change_are_links_too() -> None:
    found = read("Dm7 | %", "1/1 d4 | f4", "dorian | %")
    assert [(link.kind, link.bar) for link in found.links] == [("bar line", 2)]
