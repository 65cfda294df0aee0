"""Every word of the screens is a row, and every row is on a screen."""

import re
from pathlib import Path

import pytest

from shedbook.analysis.roles.role_names import ROLES
from shedbook.errors import MissingRowError
from shedbook.phrase.tables.fields import FIELDS
from shedbook.workbench.tables.words import WORDS
from shedbook.workbench.wording import page, words

FOLDER = Path(__file__).parents[2] / "src" / "shedbook" / "workbench"
SCRIPTS = sorted((FOLDER / "static").glob("*.js"))
PAGES = sorted((FOLDER / "pages").glob("*.html"))
MADE_UP = {
    f"{group}.{name}"
    for group, names in {
        "role": ROLES,
        "why": ROLES,
        "tension": "0123",
        "field": [row.name for row in FIELDS],
        "severity": ["error", "warning", "advice"],
        "phase": ["reading", "engraving", "tracks", "practice", "back", "pages", "exchange", "packing"],
        "making": ["starting", "stopping"],
        "player.now": ["line", "sound"],
        "step": ["write", "add", "duplicate", "aside", "move", "import"],
        "value": ["1/1", "1/2", "1/4.", "1/4", "1/8.", "1/8", "1/8t", "1/16"],
        "key-name": ["c", "db", "d", "eb", "e", "f", "gb", "g", "ab", "a", "bb", "b"],
    }.items()
    for name in names
} | {f"{act}.{kind}" for act in ("undo", "redo") for kind in ("said", "nothing")}
"""Rows whose names are put together while the workbench runs."""


def named() -> set[str]:
    """Return the names of rows that screens, scripts and modules ask for."""
    found = set(MADE_UP)
    for path in PAGES:
        found |= set(re.findall(r"\{\{([\w.-]+)\}\}", path.read_text(encoding="utf-8")))
    for path in SCRIPTS:
        text = path.read_text(encoding="utf-8")
        found |= set(re.findall(r'\bt\(\s*"([^"]+)"', text)) | set(
            re.findall(r'\btool\("\w+", "([^"]+)"', text)
        )
        found |= set(re.findall(r'\? "([\w.-]+)" : "', text)) & set(WORDS) | set(
            re.findall(r'" : "([\w.-]+)"', text)
        ) & set(WORDS)
        found |= {
            f"{name}.{form}" for name in re.findall(r'counted\("([^"]+)"', text) for form in ("one", "many")
        }
    for path in FOLDER.glob("*.py"):
        text = path.read_text(encoding="utf-8")
        found |= set(re.findall(r'words\(\s*"([\w.-]+)"', text)) | set(
            re.findall(r'return "(refused\.[\w-]+)"', text)
        )
        found |= set(re.findall(r'"(note\.is[\w-]*)"', text))
    return found


def test_every_word_has_a_row_and_every_row_is_used() -> None:
    assert named() == set(WORDS)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.name)
def test_no_screen_has_words_of_its_own(path: Path) -> None:
    text = re.sub(
        r"<!--.*?-->|<script[^>]*>.*?</script>", "", path.read_text(encoding="utf-8"), flags=re.DOTALL
    )
    shown = re.findall(r">([^<]+)<", text) + re.findall(r'(?:aria-label|title|alt)="([^"]*)"', text)
    assert [one for one in shown if re.search(r"[A-Za-z]", re.sub(r"\{\{[\w.-]+\}\}", "", one))] == []


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.name)
def test_no_script_has_words_of_its_own(path: Path) -> None:
    """A text with two words that is no class list and no selector would be one."""
    text = re.sub(r"(?m)//.*$|/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    found = re.findall(r'textContent[:=] ?"([^"]*[A-Za-z][^"]*)"|"aria-label",? ?:?"([^"]+)"', text)
    assert found == []


@pytest.mark.parametrize("name", ["book", "phrase", "keys", "make"])
def test_a_screen_is_put_together(name: str) -> None:
    text = page(name)
    assert "{{" not in text.split('id="words"')[0] + text.split("</script>", 3)[-1]
    assert f'data-screen="{name}"' in text
    assert "<!-- nonce -->" in text


def test_a_word_that_is_not_there_is_named() -> None:
    with pytest.raises(MissingRowError, match=r"tables/words|no row"):
        words("no.such")
    assert words("place.bar", bar=3) == "bar 3"
