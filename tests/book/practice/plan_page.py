"""A page with the plan, progress and the teacher's sheet, from `file://`, with the network off.

The book is invented. The screen for playing is a stand-in of a few lines, which says what it is asked for and
plays rounds at the press of a button; all else is what ships.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

from one_browser import PATIENCE_MS
from shedbook.book.ground.words import words_of

ROOT = Path(__file__).parents[3]
STATIC = ROOT / "src" / "shedbook" / "book" / "practice" / "static"
SCRIPTS = (
    "memory_model.js", "plan_parts.js", "plan_screen.js", "progress.js", "progress_file.js",
    "progress_screen.js", "schedule.js", "teacher_sheet.js",
)  # fmt: skip
KEYS = tuple(["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"])
TITLES = (
    "Low tide", "Four buoys", "The pilot's warning", "Slack water", "Night ferry", "Mooring lines",
    "Salt on the rail", "Harbour lights",
)  # fmt: skip
BARS, TEMPOS = (2, 4, 4, 3, 4, 8), (120, 132, 100, 160, 140, 120)
DAY_MS = 86_400_000

HERE = Path(__file__).parent
START = """
for (const screen of practice.screens) {
  const section = screen.element();
  section.hidden = true;
  document.querySelector("main").append(section);
}
practice.show(location.hash.slice(1) || "plan");
"""


def book(
    phrases: int = 6,
    identity: str = "small-water",
    language: str = "en",
    version: str = "one",
    before: tuple[str, ...] = (),
) -> dict[str, Any]:
    """Return an invented book in twelve keys for readers in C and in E flat."""
    words = words_of(language)
    above = dict(zip(KEYS, ("A", "D", "G", "C", "F", "Bb", "Eb", "Ab", "Db", "F#", "B", "E"), strict=True))
    return {
        "id": identity, "before": before, "version": version, "language": language,
        "title": identity.replace("-", " ").capitalize(),
        "words": {name: text for name, text in words.table.items() if name.startswith("practice.")},
        "instruments": [
            {"slug": "concert", "name": "Concert", "shift": 0}, {"slug": "alto", "name": "Alto", "shift": 9},
        ],
        "phrases": [
            {
                "id": f"p{number}", "number": number + 1, "title": TITLES[number % 8],
                "bars": BARS[number % 6], "tempo": TEMPOS[number % 6], "home": "C",
                "keys": [
                    {"key": key, "name": words.whole_key(key),
                     "written": {"concert": words.whole_key(key), "alto": words.whole_key(above[key])}}
                    for key in KEYS
                ],
            }
            for number in range(phrases)
        ],
    }  # fmt: skip


def write_page(folder: Path, given: dict[str, Any]) -> Path:
    """Write a page for a book, and return its file."""
    folder.mkdir(parents=True, exist_ok=True)
    language, title = given["language"], given["title"]
    scripts = [f"window.practice = window.practice || {{}}; practice.book = {json.dumps(given)};"]
    scripts += [(HERE / "plan_frame.js").read_text(encoding="utf-8")]
    scripts += [(STATIC / name).read_text(encoding="utf-8") for name in SCRIPTS]
    tags = "".join(f"<script>{text}</script>\n" for text in (*scripts, START))
    sheets = (HERE / "plan_frame.css", STATIC / "plan.css")
    style = "\n".join(one.read_text(encoding="utf-8") for one in sheets)
    page = folder / "index.html"
    page.write_text(
        f'<!doctype html><html lang="{language}"><head><meta charset="utf-8"><title>{title}</title>'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<style>{style}</style></head><body>"
        f'<main tabindex="-1"></main><div id="told" class="unseen" role="status"></div>{tags}</body></html>',
        encoding="utf-8",
    )
    return page


@dataclass
class Pages:
    """A browser for the tests of a file, and every fault and every request of its pages."""

    browser: Browser
    folder: Path
    contexts: list[BrowserContext] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def device(self, **options: Any) -> BrowserContext:
        """Return a new device: a browser that keeps nothing of the others; it has no network."""
        options.setdefault("viewport", {"width": 390, "height": 844})
        context = self.browser.new_context(**options)
        context.set_default_timeout(PATIENCE_MS)
        context.set_offline(True)
        self.contexts.append(context)
        return context

    def open(
        self, given: dict[str, Any] | None = None, *, on: BrowserContext | None = None, name: str = "page",
        screen: str = "plan", before: str = "", **options: Any,
    ) -> Page:  # fmt: skip
        """Open the page of a book on a device, a new one where none is named."""
        path = write_page(self.folder / name, given or book())
        page = (on or self.device(**options)).new_page()
        if before:
            page.add_init_script(before)
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on(
            "request",
            lambda one: self.faults.append(one.url) if not one.url.startswith(("file:", "blob:")) else None,
        )
        page.goto(f"{path.as_uri()}#plan")
        page.wait_for_selector(".plan[data-ready=true]")
        if screen != "plan":
            page.evaluate(f"practice.show('{screen}')")
        return page

    def done(self) -> None:
        """Close what a test opened; a fault in any page fails it."""
        for context in self.contexts:
            context.close()
        faults, self.contexts, self.faults = self.faults, [], []
        assert not faults, faults


def visit(
    number: int, *, days_ago: float = 1, phrase: str = "p0", key: str = "C", now_ms: float, **other: Any
) -> dict[str, Any]:
    """Return a visit as the page keeps it."""
    given = {"tempo": 72, "asked": 72, "rounds": 3, "said": "clean"} | other
    return {"id": f"v{number}", "at": int(now_ms - days_ago * DAY_MS), "phrase": phrase, "key": key, **given}


def copy_of(
    visits: list[dict[str, Any]],
    *,
    identity: str = "small-water",
    version: int = 1,
    extra: tuple[str, ...] = (),
) -> str:
    """Return a copy of progress as a text."""
    head = json.dumps({"practice": version, "book": identity, "title": "Small water"})
    lines = [*(json.dumps({"visit": one}) for one in visits), *extra]
    return "\n".join((head, *lines, json.dumps({"end": len(lines)}))) + "\n"


Open = Callable[..., Page]
