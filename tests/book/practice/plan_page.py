"""A page with what is to be practised, progress and the teacher's sheet, from `file://`, with the network off.

The book is invented. The screen for playing is a stand-in of a few lines, which says what it is asked for and plays
rounds at the press of a button; all else is what ships.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from shedbook.book.ground.words import words_of
from workbench_served import CHROMIUM, FLAGS

ROOT = Path(__file__).parents[3]
STATIC = ROOT / "src" / "shedbook" / "book" / "practice" / "static"
SCRIPTS = (
    "memory_model.js", "plan_parts.js", "plan_screen.js", "progress.js", "progress_file.js", "progress_screen.js",
    "schedule.js", "teacher_sheet.js",
)  # fmt: skip
KEYS = tuple("C F Bb Eb Ab Db Gb B E A D G".split())
TITLES = (
    "Low tide", "Four buoys", "The pilot's warning", "Slack water", "Night ferry", "Mooring lines", "Salt on the rail",
    "Harbour lights",
)  # fmt: skip
BARS, TEMPOS = (2, 4, 4, 3, 4, 8), (120, 132, 100, 160, 140, 120)
DAY_MS = 86_400_000

FRAME = """
practice.screens = [];
practice.chosen = { instrument: "concert", lines: {} };
practice.say = (row, filled = {}) => (practice.book.words[`practice.${row}`] ?? row)
  .replace(/\\{(\\w+)\\}/g, (gap, name) => (name in filled ? String(filled[name]) : gap));
practice.element = (tag, attributes = {}, ...children) => {
  const found = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) found.addEventListener(name.slice(2), value);
    else if (value === true) found.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) found.setAttribute(name, value);
  }
  found.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
  return found;
};
practice.tell = (text) => { document.getElementById("told").textContent = text; };
practice.instrument = () => practice.book.instruments.find((one) => one.slug === practice.chosen.instrument);
practice.writtenAbove = () => practice.instrument().shift;
practice.keyName = (one, place) => one.keys[place].written[practice.chosen.instrument];
let open = null;
practice.shown = () => open?.name ?? "";
practice.show = (name, request = {}) => {
  open?.closed?.();
  for (const section of document.querySelectorAll("main > .screen")) section.hidden = section.id !== `screen-${name}`;
  open = practice.screens.find((one) => one.name === name);
  open.opened?.(request);
};
const asked = { value: null };
practice.screens.push({
  name: "play", word: "practice.plan.play",
  element() {
    const { element } = practice;
    const round = () => practice.progress.played({ ...asked.value, rounds: 1 });
    return element("section", { id: "screen-play", class: "screen" }, element("h1", {}, "Play"), element("p", { id: "asked", style: "overflow-wrap: anywhere" }),
      element("button", { id: "round", onclick: round }, "round"), element("div", { id: "went" }));
  },
  opened(request) {
    if (request.phrase) asked.value = { phrase: request.phrase, key: request.key ?? "C", tempo: request.tempo ?? 90 };
    if (!asked.value) return;
    document.getElementById("asked").textContent = JSON.stringify(asked.value);
    practice.planScreen.howItWent(document.getElementById("went"), asked.value);
  },
});
"""
START = """
for (const screen of practice.screens) {
  const section = screen.element();
  section.hidden = true;
  document.querySelector("main").append(section);
}
practice.show(location.hash.slice(1) || "plan");
"""
STYLE = """
:root { --ground: #f1ede2; --paper: #fdfcf8; --ink: #1c2829; --soft: #4d5d5f; --rule: #d5d2c4; --edge: #7c8684;
  --tide: #0d5660; --wash: #cfe4e1; --rust: #8b3a10; --press: #fff; color-scheme: light; }
@media (prefers-color-scheme: dark) { :root { --ground: #10181a; --paper: #172123; --ink: #ece8dc; --soft: #adbab9;
  --rule: #334145; --edge: #81908f; --tide: #86cdd1; --wash: #2a5056; --rust: #f2a880; --press: #0f1719;
  color-scheme: dark; } }
html { font: 100%/1.45 sans-serif; background: var(--ground); color: var(--ink); } * { box-sizing: border-box; }
body { margin: 0; } main { padding: 0 .5rem 1rem; } .quiet { color: var(--soft); } .wrong { color: var(--rust); }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
[hidden] { display: none !important; } a { color: var(--tide); }
button, select, input { font: inherit; color: inherit; background: var(--paper); min-height: 2.75rem; }
button.main { background: var(--tide); color: var(--press); } button.link { color: var(--tide); background: none; border: 0; }
.row, .line { display: flex; flex-wrap: wrap; gap: .6rem; align-items: center; }
.check { display: inline-flex; min-height: 2.75rem; align-items: center; } table { border-collapse: collapse; }
"""
"""The colours and sizes of the page's frame, so that contrast and width are those of the page."""


def book(
    phrases: int = 6, identity: str = "small-water", language: str = "en", version: str = "one"
) -> dict[str, Any]:
    """Return an invented book in twelve keys for readers in C and in E flat."""
    words = words_of(language)
    above = dict(zip(KEYS, ("A", "D", "G", "C", "F", "Bb", "Eb", "Ab", "Db", "F#", "B", "E"), strict=True))
    return {
        "id": identity, "version": version, "title": identity.replace("-", " ").capitalize(), "language": language,
        "words": {name: text for name, text in words.table.items() if name.startswith("practice.")},
        "instruments": [{"slug": "concert", "name": "Concert", "shift": 0}, {"slug": "alto", "name": "Alto", "shift": 9}],
        "phrases": [
            {
                "id": f"p{number}", "number": number + 1, "title": TITLES[number % 8], "bars": BARS[number % 6],
                "tempo": TEMPOS[number % 6], "home": "C",
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
    scripts = [f"window.practice = window.practice || {{}}; practice.book = {json.dumps(given)};", FRAME]
    scripts += [(STATIC / name).read_text(encoding="utf-8") for name in SCRIPTS]
    tags = "".join(f"<script>{text}</script>\n" for text in (*scripts, START))
    style = STYLE + (STATIC / "plan.css").read_text(encoding="utf-8")
    page = folder / "index.html"
    page.write_text(
        f'<!doctype html><html lang="{language}"><head><meta charset="utf-8"><title>{title}</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><style>{style}</style></head><body>'
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
        context.set_default_timeout(15_000)
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
        page.on("request", lambda one: self.faults.append(one.url) if not one.url.startswith(("file:", "blob:")) else None)
        page.goto(f"{path.as_uri()}#plan")
        page.wait_for_selector(".plan[data-ready]")
        if screen != "plan":
            page.evaluate(f"practice.show('{screen}')")
        return page

    def done(self) -> None:
        """Close what a test opened; a fault in any page fails it."""
        for context in self.contexts:
            context.close()
        faults, self.contexts, self.faults = self.faults, [], []
        assert not faults, faults


@contextmanager
def browser_pages(folder: Path) -> Iterator[Pages]:
    """Start a browser for a file of tests; they are skipped where there is none."""
    if CHROMIUM is None:
        pytest.skip("there is no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        yield Pages(browser, folder)
        browser.close()


def visit(number: int, *, days_ago: float = 1, phrase: str = "p0", key: str = "C", now_ms: float, **other: Any) -> dict[str, Any]:
    """Return a visit as the page keeps it."""
    given = {"tempo": 72, "asked": 72, "rounds": 3, "said": "clean"} | other
    return {"id": f"v{number}", "at": int(now_ms - days_ago * DAY_MS), "phrase": phrase, "key": key, **given}


def copy_of(visits: list[dict[str, Any]], *, identity: str = "small-water", version: int = 1, extra: tuple[str, ...] = ()) -> str:
    """Return a copy of progress as a text."""
    head = json.dumps({"practice": version, "book": identity, "title": "Small water"})
    lines = [*(json.dumps({"visit": one}) for one in visits), *extra]
    return "\n".join((head, *lines, json.dumps({"end": len(lines)}))) + "\n"


Open = Callable[..., Page]
