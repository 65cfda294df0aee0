"""The book in the browser: rows, search, order, steps. The expectations are the design's."""

import time
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from shedbook.book.manuscript.opening import open_manuscript
from workbench_served import Bench, new_bench, until

Open = Callable[..., Page]


def titles(bench: Bench) -> list[str]:
    return [one.title for one in open_manuscript(bench.root).phrases]


def open_book(bench: Bench, open_page: Open) -> Page:
    return open_page(bench.address + "/", wait="#phrases .staff svg")


def shown(page: Page) -> list[str]:
    return page.locator("#phrases h2").all_text_contents()  # also of a row that is not drawn yet


def test_each_phrase_has_a_score_and_what_there_is_to_know(bench: Bench, open_page: Open) -> None:
    page = open_book(bench, open_page)
    page.wait_for_selector('body[data-rows="4"]')
    row = page.locator("#phrases > li").nth(0)
    expect(row).to_contain_text("C minor · minor ii–V–i")
    expect(page.locator("#phrases > li").nth(1)).to_contain_text("1 finding")
    expect(page.locator("#book-said")).to_contain_text("4 phrases")
    expect(page.locator("#book-said")).to_contain_text("Nothing was made yet.")


def test_phrases_are_found_by_words_by_progression_and_by_notes_in_any_key(
    bench: Bench, open_page: Open
) -> None:
    page = open_book(bench, open_page)
    page.locator("#find-words").fill("uber BAR")  # without its accent
    expect(page.locator("#phrases > li")).to_have_count(1)
    assert shown(page) == ["Slow water"]
    page.locator("#find-words").fill("")
    page.locator("#find-progression").fill("minor ii")
    expect(page.locator("#found")).to_have_text("1 phrase found.")
    assert shown(page) == ["Low tide"]
    page.locator("#find-progression").fill("")
    page.locator("#find-notes").fill("d d d d d")
    expect(page.locator("#found")).to_have_text("0 phrases found.")
    page.locator("#find-notes").fill("a c e g f#")  # as f4 ab c5 eb d, two whole steps higher
    expect(page.locator("#found")).to_have_text("2 phrases found.")
    assert shown(page) == ["Low tide", "A slip"]  # which begins with d4 f a c5 b4
    page.locator("#find-notes").fill("")
    page.locator("#find-findings").check()
    expect(page.locator("#found")).not_to_have_text("")
    assert "A slip" in shown(page)


def test_order_copies_names_and_setting_aside_and_every_step_back(bench: Bench, open_page: Open) -> None:
    page = open_book(bench, open_page)
    before = titles(bench)
    page.get_by_role("button", name="Later: Low tide").focus()
    page.keyboard.press("Enter")
    until(lambda: titles(bench) == ["A slip", "Low tide", "Slow water", "Turn"])
    expect(page.locator("#said")).to_contain_text("“Low tide” is phrase 2 now.")
    expect(page.get_by_role("button", name="Later: Low tide")).to_be_focused()
    page.locator("#phrases > li").nth(3).drag_to(page.locator("#phrases > li").nth(0))
    until(lambda: titles(bench)[0] == "Turn")
    page.get_by_role("button", name="Duplicate: A slip").click()
    until(lambda: titles(bench) == ["Turn", "A slip", "A slip, again", "Low tide", "Slow water"])
    page.get_by_role("button", name="Rename: A slip, again").click()
    page.keyboard.type("Another")
    page.keyboard.press("Enter")
    until(lambda: "Another" in titles(bench))
    page.get_by_role("button", name="Set aside: Slow water").click()
    until(lambda: "Slow water" not in titles(bench))
    expect(page.locator("#aside")).to_contain_text("slow-water.toml")
    for _ in range(5):
        count = len(titles(bench)), titles(bench)
        page.locator("#undo-step").click()
        until(lambda count=count: (len(titles(bench)), titles(bench)) != count)  # type: ignore[misc]
    assert titles(bench) == before


def test_a_new_phrase_begins_with_something_that_can_be_heard(bench: Bench, open_page: Open) -> None:
    page = open_book(bench, open_page)
    page.locator("#new-title").fill("High & dry")
    page.locator("#add button").click()
    page.wait_for_url("**/phrase?**")
    page.wait_for_selector(".reed")
    assert page.locator("#title").input_value() == "High & dry"
    assert titles(bench)[-1] == "High & dry"


def test_five_hundred_phrases_draw_the_rows_in_sight(tmp_path: Path, open_page: Open) -> None:
    """The time limits are ten times the aim: a busy machine must fail none. The benchmark has figures."""
    bench = new_bench(tmp_path)
    text = bench.text()
    for number in range(5, 501):
        line = text.replace("Low tide", f"Tide {number}")
        (bench.root / "phrases" / f"{number:03}.toml").write_text(line, encoding="utf-8")
    bench.start()
    try:
        page = open_page(bench.address + "/", wait="#phrases .staff svg")
        assert page.locator("#phrases > li").count() == 500
        assert page.locator("#phrases .staff svg").count() < 60
        started = time.perf_counter()
        page.locator("#find-words").press_sequentially("tide 499")
        expect(page.locator("#phrases > li")).to_have_count(1)
        assert time.perf_counter() - started < 3
        page.wait_for_selector("#phrases .staff svg")
    finally:
        bench.end()
