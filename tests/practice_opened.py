"""The student's page in a real browser: Chromium of the system, from the disk, with the network off.

Where no Chromium is, each of these tests is skipped by name. One book is built for all tests of a run.
"""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from one_browser import MICROPHONE, chromium
from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.build import build

_MISSING = "ERR_FILE_NOT_FOUND"
"""What the browser says by itself of a file that is not there; what the page says of it, a test looks at."""
TEMPO = 240
PHRASES = {
    "01-low-tide.toml": f'title = "Low tide"\nid = "low-tide"\nkey = "C minor"\ntempo = {TEMPO}\n'
    'changes = "Dm7b5 | G7b9"\nline = "1/8 f4 ab c5 eb d f ab g | f d b4 ab g4 f d b3"\n',
    "02-slip.toml": 'title = "A slip"\nkey = "C major"\nchanges = "Dm7 | G7 | Cmaj7"\n'
    'line = "1/8 d4 f a c5 b4 a g e | 1/8 f4 g b d5 f e d b4 | 1/2 c5 g4"\n',
    "03-pick-up.toml": 'title = "From before"\nkey = "C major"\npickup = "1/4"\nchanges = "Dm7 | G7"\n'
    'line = "1/8 c4 c#4 | 1/4 d4 f a c5 | b4 g f d4"\n',
}
SETTINGS = (
    'title = "Small water"\nauthor = "Invented"\nkeys = "C F Bb"\neditions = ["concert", "eflat"]\n'
    "practice_page = true\n"
)


def manuscript(root: Path) -> Path:
    """Write a small invented book."""
    (root / "phrases").mkdir(parents=True)
    (root / "manuscript.toml").write_text(SETTINGS, encoding="utf-8")
    for name, text in PHRASES.items():
        (root / "phrases" / name).write_text(text, encoding="utf-8")
    return root


@pytest.fixture(scope="session")
def practice_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The manuscript of the page, and beside it, in "out", what a build made of it."""
    root = manuscript(tmp_path_factory.mktemp("practice") / "small-water")
    made = build(Request(root, root.parent / "out"))
    assert made.practice_page is not None
    return root


@pytest.fixture(scope="session")
def practice_folder(practice_book: Path) -> Path:
    return practice_book.parent / "out" / "small-water-practice"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium(*MICROPHONE) as found:
        yield found


@pytest.fixture
def open_practice(browser: Browser, practice_folder: Path) -> Iterator[Callable[..., Page]]:
    """Open the page from the disk, the network off; what it complains of fails the test."""
    contexts: list[Any] = []
    wrong: list[str] = []

    def opened(screen: str = "play", **options: Any) -> Page:
        settings = {"viewport": {"width": 390, "height": 844}, "offline": True, "reduced_motion": "reduce"}
        context = browser.new_context(**{**settings, **options})
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on(
            "console",
            lambda said: (
                wrong.append(said.text) if said.type == "error" and _MISSING not in said.text else None
            ),
        )
        page.goto(f"{(practice_folder / 'index.html').as_uri()}#{screen}")
        page.wait_for_function("() => window.practice?.started")
        page.evaluate("() => practice.opening")
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrong == []
