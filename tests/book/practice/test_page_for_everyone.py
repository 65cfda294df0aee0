"""The student's page for everyone: axe-core (WCAG 2.2 A and AA), keys alone, narrow, enlarged, dark, offline.

axe-core is Deque's open engine (MPL-2.0), used here as an oracle from outside.
"""

import functools
import http.server
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

Open = Callable[..., Page]

SCREENS = ("play", "ear", "why", "own")
# Of style sheets it would fetch copies, which nothing may from the disk.
RULES: dict[str, Any] = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "preload": False,
}


def violations(page: Page) -> list[str]:
    found = Axe().run(page, options=RULES).response["violations"]
    return [
        f"{one['id']}: {node['html'][:160]} {node.get('failureSummary', '')[:300]}"
        for one in found
        for node in one["nodes"]
    ]


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("screen", SCREENS)
def test_axe_finds_nothing(open_practice: Open, screen: str, theme: str) -> None:
    page = open_practice(screen, color_scheme=theme)
    if screen == "play":
        page.locator("#screen-play .more summary").click()
    if screen == "own":
        page.locator(".own-staff").focus()
        page.keyboard.press("Enter")
    if screen == "why":
        page.locator(".sentences button").first.click()
    assert violations(page) == []


def test_axe_finds_nothing_in_the_list_of_phrases(open_practice: Open) -> None:
    page = open_practice()
    page.locator("#screen-play .phrase-name").click()
    assert violations(page) == []


def test_axe_does_find_something(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate("() => document.querySelector('main').append(document.createElement('button'))")
    assert any(one.startswith("button-name") for one in violations(page))


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize(("width", "height"), [(320, 568), (390, 844), (844, 390), (600, 430)])
def test_nothing_stands_beside_the_screen(open_practice: Open, screen: str, width: int, height: int) -> None:
    """320 px is 1280 px at 400 % (WCAG 2.2, 1.4.10); 600 by 430 a desk of 1200 by 860 at 200 % (1.4.4)."""
    page = open_practice(screen, viewport={"width": width, "height": height})
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width


def test_a_phrase_is_chosen_played_and_heard_by_keys_alone(open_practice: Open) -> None:
    page = open_practice()
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.className") == "phrase-name":
            break
    page.keyboard.press("Enter")
    page.keyboard.type("slip")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#screen-play .phrase-name")).to_have_text("2 · A slip")
    page.evaluate("() => document.activeElement.blur()")
    page.keyboard.press("Space")
    page.wait_for_function("() => practice.sound.playing")
    page.keyboard.press("ArrowUp")
    page.wait_for_function("() => practice.chosen.share === 75")
    page.keyboard.press("Space")
    page.wait_for_function("() => !practice.sound.playing")


def test_a_listener_is_told_the_score_and_the_change_of_key(open_practice: Open) -> None:
    page = open_practice()
    score = page.locator("#screen-play .score svg")
    assert "Bar 1, D m7 flat 5: eighth F 4, A flat 4" in (score.get_attribute("aria-label") or "")
    page.keyboard.press("PageDown")
    expect(page.locator("#told")).to_have_text("F minor")


def test_the_sound_can_be_tuned(open_practice: Open) -> None:
    """A4 = 415 … 443: a note's rate goes as the frequencies (ISO 16: 440 Hz)."""
    page = open_practice()
    rates = page.evaluate(
        "async () => { const rates = []; const real = AudioBufferSourceNode.prototype.start;"
        " AudioBufferSourceNode.prototype.start = function (...all) {"
        " rates.push(this.playbackRate.value); return real.apply(this, all); };"
        " for (const hertz of [440, 443]) { practice.chosen.tuning = hertz;"
        " await practice.sound.notes('clarinet', [[69, 0, 0.1]]); }"
        " practice.sound.stop(); return rates; }"
    )
    assert rates[1] / rates[0] == pytest.approx(443 / 440, rel=1e-6)


class Quiet(http.server.SimpleHTTPRequestHandler):
    """A server of plain files that says nothing."""

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""


@pytest.fixture
def address(practice_folder: Path) -> Iterator[tuple[str, http.server.ThreadingHTTPServer]]:
    server = http.server.ThreadingHTTPServer(
        ("127.0.0.1", 0), functools.partial(Quiet, directory=str(practice_folder))
    )
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/", server
    server.shutdown()
    server.server_close()


def test_from_any_web_space_it_works_offline_afterwards(
    browser: Browser, address: tuple[str, http.server.ThreadingHTTPServer]
) -> None:
    place, server = address
    context = browser.new_context()
    page = context.new_page()
    page.goto(place)
    page.evaluate(
        "() => navigator.serviceWorker.ready.then(() => new Promise((go) =>"
        " navigator.serviceWorker.controller ? go() :"
        " navigator.serviceWorker.addEventListener('controllerchange', go)))"
    )
    server.shutdown()
    server.server_close()
    context.set_offline(True)
    page.goto(place)
    page.wait_for_function("() => window.practice?.started")
    page.evaluate("() => practice.opening")
    page.keyboard.press("Space")
    page.wait_for_function("() => practice.sound.log().sources > 0")
    page.evaluate(
        "() => { practice.sound.stop(); practice.chosen.phrase = '02-slip';"
        " practice.show('why'); return practice.opening; }"
    )
    expect(page.locator("#screen-why .sentences button").first).to_be_visible()
    context.close()
