"""What is said of a book whose words stay English. Source: docs/language.md, and ISO 639 for the codes."""

from __future__ import annotations

import locale
from pathlib import Path

import pytest

from book.builds import write_manuscript
from shedbook.book.ground.tables.language_codes import CODES
from shedbook.book.ground.words import WORD_NAMES
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.translation import UNTRANSLATED, untranslated
from shedbook.book.verbs.check import check
from shedbook.errors import ManuscriptError


@pytest.mark.parametrize(
    ("language", "own", "left"),
    [
        ("en", 0, 0),
        ("EN-gb", 0, 0),
        ("de", 0, 0),
        ("pt-BR", 0, 0),
        ("nl", 0, len(WORD_NAMES)),
        ("it-CH", 3, len(WORD_NAMES) - 3),
    ],
)
def test_words_that_stay_english_are_counted(language: str, own: int, left: int) -> None:
    said = untranslated(language, dict.fromkeys(WORD_NAMES[:own], "…"))
    full = f'The book is in "{language}", and {left} of its {len(WORD_NAMES)} fixed words are English.'
    assert said == (full if left else "")


def test_a_book_that_is_wholly_translated_is_passed() -> None:
    assert untranslated("nl", dict.fromkeys(WORD_NAMES, "…")) == ""


def test_the_proof_reader_says_it_at_the_key_and_can_be_silenced(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1, 'language = "nl"\n')
    (found,) = [one for one in check(folder).found if one.finding.rule == UNTRANSLATED]
    assert (found.finding.severity, found.place.file, found.place.line) == ("advice", "manuscript.toml", 3)
    with (folder / "manuscript.toml").open("a", encoding="utf-8") as file:
        file.write(f'[silence]\n{UNTRANSLATED} = "English is meant."\n')
    assert not {one.finding.rule for one in check(folder).found} & {UNTRANSLATED, "unknown-silence"}


@pytest.mark.parametrize(("tag", "known"), [("de-AT", True), ("nds", True), ("xx", False), ("eg-GB", False)])
def test_a_tag_names_a_language(tmp_path: Path, tag: str, known: bool) -> None:
    folder = write_manuscript(tmp_path / "tides", 1, f'language = "{tag}"\n')
    if known:
        assert open_manuscript(folder).settings.language == tag
    else:
        with pytest.raises(ManuscriptError, match=f'"{tag}" names no language'):
            open_manuscript(folder)


def test_the_codes_are_those_that_systems_know() -> None:
    """Source: the aliases of X.Org's locales in Python's library, less countries and withdrawn codes."""
    there = {name.partition("_")[0].partition(".")[0] for name in locale.locale_alias}
    codes = set(CODES.split())
    two = {name for name in there if len(name) == 2 and name.isalpha()}
    assert len(codes) == len(CODES.split()) == 183
    assert two - codes == {"cz", "eg", "in", "iw", "jp", "pd", "ph", "pp", "sh", "sp"} & two
    assert len(two & codes) > 80
