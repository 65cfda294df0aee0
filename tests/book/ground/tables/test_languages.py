"""The languages that ship: no row is missing, none is left in English. Source: our own design."""

import subprocess
import sys

import pytest

from shedbook.book.ground.languages import LANGUAGES
from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import gaps, refused_row


@pytest.mark.parametrize("tag", SHIPPED)
def test_a_language_has_every_row_and_no_other(tag: str) -> None:
    assert sorted(ENGLISH.keys() - LANGUAGES[tag].keys()) == []
    assert sorted(LANGUAGES[tag].keys() - ENGLISH.keys()) == []


@pytest.mark.parametrize("tag", SHIPPED)
def test_every_row_could_be_written_by_an_author(tag: str) -> None:
    refused = [refused_row(name, text, ENGLISH[name]) for name, text in LANGUAGES[tag].items()]
    assert [row for row in refused if row != ("", "")] == []


@pytest.mark.parametrize("tag", SHIPPED)
def test_no_row_is_left_in_english(tag: str) -> None:
    """A row that is the same in both languages is named in the module; any other would be an oversight."""
    table = LANGUAGES[tag]
    same = {
        name for name, text in ENGLISH.items() if table[name] == text and any(map(str.isalpha, _bare(text)))
    }
    assert sorted(same - SHIPPED[tag].same) == []
    assert sorted(name for name in SHIPPED[tag].same if name in ENGLISH and name not in same) == []


def _bare(text: str) -> str:
    """Return a text without its gaps."""
    for gap in gaps(text):
        text = text.replace(f"{{{gap}}}", "")
    return text


@pytest.mark.parametrize(("language", "loaded"), [("en", ""), ("en-GB", ""), ("de-CH", "de"), ("pt", "pt")])
def test_only_the_table_in_use_is_loaded(language: str, loaded: str) -> None:
    code = (
        "import sys\nfrom shedbook.book.ground.words import words_of\n"
        f"words_of({language!r})\n"
        "print(*(name.rpartition('.')[2] for name in sys.modules if '.tables.languages.' in name))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    its = {loaded, f"practice_{loaded}", f"findings_{loaded}"} if loaded else set()
    assert set(done.stdout.split()) == its
