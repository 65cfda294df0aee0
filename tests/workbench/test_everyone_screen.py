"""For everyone: axe-core on every screen (WCAG 2.2 A and AA rules), keyboard alone, narrow, enlarged, quiet.

axe-core is Deque's open engine (MPL-2.0), used here as an oracle from outside.
"""

from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from workbench_served import Bench, new_bench

Open = Callable[..., Page]

SCREENS = {
    "book": ("/", "#phrases .staff svg"),
    "phrase": ("/phrase?file=phrases/02-slip.toml&index=0", ".reed"),
    "keys": ("/keys?file=phrases/02-slip.toml&index=0", "#keys svg"),
    "make": ("/make", "#editions option"),
}
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}


def violations(page: Page) -> list[str]:
    found = Axe().run(page, options=RULES).response["violations"]
    return [
        f"{one['id']}: {node['html'][:160]} {node.get('failureSummary', '')[:300]}"
        for one in found
        for node in one["nodes"]
    ]


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("screen", SCREENS)
def test_axe_finds_nothing(bench: Bench, open_page: Open, screen: str, theme: str) -> None:
    address, wait = SCREENS[screen]
    page = open_page(bench.address + address, color_scheme=theme)
    page.wait_for_selector(wait, state="attached")
    if screen == "phrase":
        page.locator("#entry summary").click()
        page.locator('.reed[data-note="1"]').click()
    assert violations(page) == []


def test_axe_does_find_something(bench: Bench, open_page: Open) -> None:
    page = open_page(bench.address + "/make", wait="#editions option")
    page.evaluate("() => document.querySelector('main').append(document.createElement('button'))")
    assert any(one.startswith("button-name") for one in violations(page))


def test_a_phrase_is_written_mended_and_heard_by_keys_alone(bench: Bench, open_page: Open) -> None:
    page = open_page(bench.address + SCREENS["phrase"][0], wait=".reed")
    page.keyboard.press("Tab")
    expect(page.locator(".skip")).to_be_focused()
    page.keyboard.press("Enter")
    reached = set()
    for _ in range(60):
        page.keyboard.press("Tab")
        reached.add(page.evaluate("() => document.activeElement.id || document.activeElement.className"))
    for one in ("title", "tempo", "commentary", "hear-line", "hear-band", "print-one"):
        assert one in reached
    assert any("cm-content" in one for one in reached)
    assert any("reed" in one for one in reached)
    assert any("mend" in one for one in reached)


@pytest.mark.parametrize("screen", SCREENS)
def test_a_telephones_width_needs_no_sideways_scrolling(bench: Bench, open_page: Open, screen: str) -> None:
    """WCAG 2.2, 1.4.10: content reflows at 320 CSS pixels; 390 is a telephone's, and 640 is 1280 at 200 %."""
    address, wait = SCREENS[screen]
    page = open_page(bench.address + address, viewport={"width": 390, "height": 800})
    page.wait_for_selector(wait, state="attached")
    for width in (390, 320, 640):
        page.set_viewport_size({"width": width, "height": 800})
        page.wait_for_function("(width) => document.documentElement.scrollWidth <= width", arg=width)


def test_themes_and_reduced_motion(bench: Bench, open_page: Open) -> None:
    page = open_page(
        bench.address + "/make", wait="#editions option", color_scheme="dark", reduced_motion="reduce"
    )
    ground = "() => getComputedStyle(document.documentElement).backgroundColor"
    dark = page.evaluate(ground)
    page.locator("#theme").select_option("light")
    assert page.evaluate(ground) != dark
    page.reload()
    assert page.evaluate(ground) != dark
    page.locator("#theme").select_option("system")
    assert page.evaluate(ground) == dark
    moving = (
        "() => [...document.querySelectorAll('*')]"
        ".filter((one) => getComputedStyle(one).transitionDuration !== '0s').length"
    )
    assert page.evaluate(moving) == 0


def test_the_end_is_said(tmp_path_factory: pytest.TempPathFactory, open_page: Open) -> None:
    bench = new_bench(tmp_path_factory.mktemp("end"))
    bench.start()
    page = open_page(bench.address + "/make", wait="#editions option")
    page.locator("#end").click()
    expect(page.locator("#notice")).to_contain_text("The workbench has ended")
    assert bench.process.wait(15) == 0
    assert bench.process.stdout is not None
    bench.process.stdout.close()
