"""Names of jobs: equal where nothing that they see has changed, different where anything of it has."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from book.cards import PLACING
from shedbook.book.ground.chord_style import STYLES, style_of
from shedbook.book.ground.paper import PAGE_SIZES, paper_of
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import in_scores
from shedbook.book.manuscript.settings.pages import BY_KEY, MarkChoice, PageSettings
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseSource, PhraseText
from shedbook.book.scores.artefacts import CHANGES, HOME, CycleKey
from shedbook.book.scores.inputs import (
    KeyOrder,
    between_input,
    card_input,
    key_order,
    looks_of,
    pictures_of,
    placing_input,
    scale_name,
)
from shedbook.book.workshop.naming import name_of
from shedbook.editions.instruments.edition import Edition, edition_named

FIELDS = {"title": "Low tide", "changes": "G7", "line": "1/1 g4", "tempo": 132, "commentary": "Listen."}
SETTINGS = Settings()
CONCERT, BFLAT = edition_named("concert"), edition_named("bflat")
CARD = replace(
    PLACING,
    home=CycleKey("C major", "C major"),
    keys=(CycleKey("C major", "C major"), CycleKey("F major", "F major")),
    cycle=tuple(CycleKey(f"{tonic} major", f"{tonic} major") for tonic in ("C", "F", "Bb")),
    scales=("altered",),
)
NAMES = (HOME, "C major", "F major", scale_name(0), CHANGES)


def pictures(
    fields: dict[str, Any] = FIELDS,
    settings: Settings = SETTINGS,
    *,
    edition: Edition = CONCERT,
    versions: str = "1",
) -> dict[str, str]:
    """Return the names in the store of a phrase's pictures."""
    found = pictures_of(PhraseText(fields), edition, CARD, settings)
    return {name: name_of("draw_pictures", picture, versions) for name, picture in found.items()}


def card(fields: dict[str, Any] = FIELDS, settings: Settings = SETTINGS, versions: str = "1") -> str:
    return name_of("read_card", card_input(PhraseText(fields), settings), versions)


def placing(fields: dict[str, Any] = FIELDS, settings: Settings = SETTINGS, versions: str = "1") -> str:
    return name_of("place_card", placing_input(PhraseText(fields), BFLAT, settings), versions)


def renamed(before: dict[str, str], after: dict[str, str]) -> set[str]:
    return {name for name in before if before[name] != after[name]}


def test_equal_inputs_give_equal_names_in_whatever_order() -> None:
    turned = dict(reversed(FIELDS.items()))
    assert pictures() == pictures(turned)
    assert card() == card(turned)
    assert placing() == placing(turned)


def test_every_picture_has_a_name_of_its_own() -> None:
    assert tuple(pictures()) == NAMES
    assert len(set(pictures().values())) == len(NAMES)


@pytest.mark.parametrize(
    ("field", "value"),
    [("line", "1/1 a4"), ("changes", "G7b9"), ("tempo", 133), ("title", "High tide"), ("scales", "altered")],
)
def test_a_change_of_the_music_renames_cards_and_pictures(field: str, value: object) -> None:
    changed = {**FIELDS, field: value}
    assert renamed(pictures(), pictures(changed)) == set(NAMES)
    assert card(changed) != card()
    assert placing(changed) != placing()


@pytest.mark.parametrize(
    ("field", "placed_anew"), [("commentary", True), ("silence", True), ("id", False), ("links", False)]
)
def test_words_that_no_picture_shows_rename_cards_alone(field: str, *, placed_anew: bool) -> None:
    changed = {**FIELDS, field: "other"}
    assert pictures(changed) == pictures()
    assert card(changed) != card()
    assert (placing(changed) != placing()) is placed_anew


def test_versions_rename_everything() -> None:
    assert renamed(pictures(), pictures(versions="2")) == set(NAMES)
    assert card(versions="2") != card()
    assert placing(versions="2") != placing()


SCORES = {HOME, "C major", "F major"}
OWN_NOTE = (("note.B", "H"),)


@pytest.mark.parametrize(
    ("settings", "other"),
    [
        pytest.param(Settings(pages=PageSettings(marks=MarkChoice(degrees=False))), SCORES, id="marks"),
        pytest.param(Settings(courtesy="none"), SCORES, id="courtesy accidentals"),
        pytest.param(Settings(signatures=True), SCORES, id="key signatures"),
        pytest.param(Settings(pages=PageSettings(arrange=BY_KEY)), SCORES - {HOME}, id="key by key"),
        pytest.param(Settings(page_size="tablet"), set(NAMES), id="paper"),
        pytest.param(Settings(pages=PageSettings(large_print=True)), set(NAMES), id="large print"),
        pytest.param(Settings(language="de"), set(NAMES), id="language"),
        pytest.param(Settings(pages=PageSettings(words=OWN_NOTE)), set(NAMES), id="a word of the scores"),
        pytest.param(Settings(pages=PageSettings(words=(("contents", "In it"),))), set(), id="of the pages"),
        pytest.param(Settings(pages=PageSettings(parts="scale", own_staves=False)), set(), id="parts"),
        pytest.param(Settings(title="T", author="A", tempos=(80,), silence=(("range", "-"),)), set(), id="T"),
    ],
)
def test_a_setting_renames_the_pictures_that_show_it(settings: Settings, other: set[str]) -> None:
    assert renamed(pictures(), pictures(settings=settings)) == other


def test_one_way_of_writing_chords_renames_everything() -> None:
    signs = Settings(pages=PageSettings(chord_style=style_of(STYLES["signs"])))
    assert renamed(pictures(), pictures(settings=signs)) == set(NAMES)
    assert card(settings=signs) != card()
    assert placing(settings=signs) != placing()


def test_the_rows_that_rename_scores_are_rows_of_the_table() -> None:
    assert in_scores(OWN_NOTE[0][0])
    assert not in_scores("contents")
    assert {OWN_NOTE[0][0], "contents"} <= set(ENGLISH)


@pytest.mark.parametrize("name", PAGE_SIZES)
@pytest.mark.parametrize("large", [False, True], ids=["usual", "large print"])
def test_pictures_are_as_large_as_the_paper_says(name: str, *, large: bool) -> None:
    paper = paper_of(name, large=large)
    looks = looks_of(Settings(page_size=name, pages=PageSettings(large_print=large)))
    assert (looks.key.score.staff_mm, looks.key.score.width_mm) == (paper.staff_mm, paper.line_mm)
    assert (looks.key.room_mm, looks.key.most) == (paper.room_mm, paper.most_keys)
    assert (looks.home.staff_mm, looks.home.paper) == (paper.home_staff_mm, name)
    assert looks.home.large_print is large
    assert looks.scale.staff_mm == paper.scale_staff_mm
    assert (looks.changes.staff_mm, looks.changes.width_mm) == (paper.staff_mm, paper.line_mm)


@pytest.mark.parametrize("name", [card, placing])
@pytest.mark.parametrize(
    "settings",
    [
        pytest.param(Settings(keys="fifths"), id="order of keys"),
        pytest.param(Settings(keys=("C", "F")), id="the author's own order"),
        pytest.param(Settings(enharmonic=("F#",)), id="preferred names"),
        pytest.param(Settings(keys_written=True), id="whose keys"),
        pytest.param(Settings(silence=(("range", "It is meant so."),)), id="silenced rules"),
    ],
)
def test_a_setting_renames_the_cards_that_hang_on_it(name: Callable[..., str], settings: Settings) -> None:
    assert name(settings=settings) != name()


def test_keys_that_are_asked_for_rename_the_cards() -> None:
    text = PhraseText(FIELDS)
    asked = card_input(text, SETTINGS, ("Eb",))
    assert name_of("read_card", asked, "1") != card()
    assert name_of("place_card", placing_input(text, BFLAT, SETTINGS, ("Eb",)), "1") != placing()
    assert key_order(Settings(keys="fifths"), ("Eb",)) == KeyOrder("fifths", (), ("Eb",))


def test_the_name_of_an_edition_renames_its_card_and_no_picture() -> None:
    """So that editions which read alike share their pictures."""
    other = replace(BFLAT, name="other", slug="other", title="Other edition")
    assert pictures(edition=other) == pictures(edition=BFLAT)
    text = PhraseText(FIELDS)
    named = name_of("place_card", placing_input(text, other, SETTINGS), "1")
    assert named != placing()


@pytest.mark.parametrize(
    ("name", "where"), [("concert", set[str]()), ("bflat", set(NAMES))], ids=["author", "reader"]
)
def test_the_other_keys_rename_pictures_only_where_registers_hang_together(
    name: str, where: set[str]
) -> None:
    edition = edition_named(name)
    shorter = replace(CARD, cycle=CARD.cycle[:2])
    found = pictures_of(PhraseText(FIELDS), edition, shorter, SETTINGS)
    names = {one: name_of("draw_pictures", picture, "1") for one, picture in found.items()}
    assert renamed(pictures(edition=edition), names) == where


@pytest.mark.parametrize(
    ("name", "where"), [("concert", set[str]()), ("bflat", set(NAMES))], ids=["author", "reader"]
)
def test_a_fold_renames_pictures_only_where_phrases_are_folded(name: str, where: set[str]) -> None:
    edition = edition_named(name)
    folded = pictures({**FIELDS, "fold": True}, edition=edition)
    assert renamed(pictures(edition=edition), folded) == where


def test_phrases_are_compared_by_number_and_text() -> None:
    def name(number: int, fields: dict[str, Any], settings: Settings = SETTINGS) -> str:
        source = PhraseSource("01.toml", Path("01.toml"), 0, number, fields)
        return name_of("compare", between_input([source], settings), "1")

    assert name(1, FIELDS) == name(1, dict(reversed(FIELDS.items())))
    assert name(2, FIELDS) != name(1, FIELDS)
    assert name(1, {**FIELDS, "line": "1/1 a4"}) != name(1, FIELDS)
    assert name(1, FIELDS, Settings(silence=(("duplicate-phrase", "-"),))) != name(1, FIELDS)
