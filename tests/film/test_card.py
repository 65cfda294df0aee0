"""What stands where on a card. Sources beside the checks."""

from __future__ import annotations

import itertools

import pytest

from shedbook.errors import UnknownNameError
from shedbook.film.card import (
    BLACK,
    NONE,
    SCREEN_NAMES,
    STROKES,
    TINTS,
    Box,
    Figured,
    ScorePicture,
    SystemPlace,
    card_of,
    rooms_of,
    score_box,
    screen_named,
    side_by_side,
)
from shedbook.film.marks import COLOUR
from shedbook.film.tables.screens import SCREENS

SYSTEM = SystemPlace(1, (0, 300, 600), 60, 100, {0: 100, 1: 200, 2: 350, 3: 450, 4: 550})
SCORE = ScorePicture("<svg/>", 600, 220, 100, (SYSTEM,))


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.2, from memory)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("name", SCREEN_NAMES)
@pytest.mark.parametrize("captions", [False, True])
def test_everything_is_inside_the_safe_title_area(name: str, captions: bool) -> None:
    """The middle 90 % of each side (SMPTE ST 2046-1, from memory)."""
    row = screen_named(name)
    rooms = rooms_of(row, captions=captions)
    for box in rooms:
        assert box.x >= 0.05 * row.width - 1e-6
        assert box.right <= 0.95 * row.width + 1e-6
        assert box.y >= 0.05 * row.height - 1e-6
        assert box.foot <= 0.95 * row.height + 1e-6
    order = [rooms.title, rooms.score, rooms.legend if not captions else rooms.caption, rooms.foot]
    assert all(one.foot <= other.y + 1e-6 for one, other in itertools.pairwise(order))
    card = card_of(row, SCORE, ("A title", "C minor", "Somebody"), captions=captions,
                   figures=[Figured("run", "run", 0, 3)])  # fmt: skip
    for words in card.words:
        assert 0.05 * row.width - 1e-6 <= words.x <= words.x + words.width <= 0.95 * row.width + 1e-6


@pytest.mark.parametrize("row", SCREENS, ids=lambda row: row.name)
def test_the_least_staff_is_seen_as_large_as_on_a_stand(row: object) -> None:
    """7 mm at 70 cm (common practice) is 3 mm at 30 cm; an upright phone is 68 mm wide (from memory)."""
    row = screen_named(row.name)  # type: ignore[attr-defined]
    staff_mm = row.least_staff / row.width * 68
    assert staff_mm / 300 >= 7 / 700 - 1e-4
    assert row.words * 2 >= row.least_staff
    assert row.most_staff > row.least_staff


@pytest.mark.parametrize("kind", TINTS)
def test_black_is_read_on_every_tint(kind: str) -> None:
    """WCAG 2.2, 1.4.3 asks 4.5 to 1 of words; notes get 7 to 1."""
    assert contrast(TINTS[kind], BLACK) > 7
    assert kind in STROKES


def test_the_ink_of_a_sounding_note_is_read_on_its_ground() -> None:
    assert contrast(COLOUR, "#ffffff") > 4.5
    assert contrast(COLOUR, "#ffe28c") > 4.5


def test_figures_are_told_apart_without_a_colour() -> None:
    """WCAG 2.2, 1.4.1."""
    assert len(set(STROKES.values())) == len(STROKES)


def test_a_score_stands_in_the_middle_of_its_room() -> None:
    rooms = rooms_of(screen_named("wide"))
    box = score_box(rooms, SCORE)
    assert box.x + box.width / 2 == pytest.approx(960, abs=1)
    assert box.y - rooms.score.y == pytest.approx(rooms.score.foot - box.foot, abs=2)


def test_figures_that_overlap_give_way_to_the_longer_one() -> None:
    run, arpeggio, after = (
        Figured("run", "r", 0, 4),
        Figured("arpeggio", "a", 2, 4),
        Figured("run", "r", 4, 7),
    )
    assert side_by_side([arpeggio, run, after]) == (run, after)


def test_a_band_reaches_from_its_first_to_its_last_note() -> None:
    card = card_of(screen_named("wide"), SCORE, ("", "", ""), figures=[Figured("run", "run", 1, 3)])
    band = card.bands[0]
    place = card.score
    assert band.x < place.x + 200 < place.x + 450 < band.x + band.width
    assert band.x > place.x + 100
    assert band.x + band.width < place.x + 550


def test_a_transparent_card_has_no_ground_anywhere() -> None:
    card = card_of(
        screen_named("wide"), SCORE, ("", "", ""), ground=NONE, figures=[Figured("run", "r", 0, 2)]
    )
    assert card.ground == ""
    assert {band.tint for band in card.bands} == {""}


def test_words_that_are_not_wanted_are_not_there() -> None:
    assert card_of(screen_named("square"), SCORE, ("", "", "")).words == ()


def test_an_unknown_screen_is_named_with_the_nearest() -> None:
    with pytest.raises(UnknownNameError) as caught:
        screen_named("uprigth")
    assert "upright" in caught.value.hint


def test_a_box() -> None:
    assert (Box(1, 2, 3, 4).right, Box(1, 2, 3, 4).foot) == (4, 6)
