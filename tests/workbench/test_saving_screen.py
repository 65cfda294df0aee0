"""Never lose a note: other windows and programs, a lost network, a killed server. As designed."""

import random
import re
import tomllib
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, Route, expect

from workbench_served import LINE, PHRASES, Bench, new_bench, until

Open = Callable[..., Page]


def line_of(bench: Bench) -> str:
    return str(tomllib.loads(bench.text())["line"])


def write_at_start(page: Page, text: str) -> None:
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+Home")
    page.keyboard.type(text)


def test_a_change_by_another_program_is_seen_and_merged(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    path = bench.root / "phrases" / "01-low-tide.toml"
    path.write_text(path.read_text().replace("1/1 c4", "1/1 eb4"))
    expect(page.locator("#line .cm-content")).to_contain_text("1/1 eb4")
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+Home")
    path.write_text(path.read_text().replace("1/1 eb4", "1/1 g4").replace("120", "144"))
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    page.keyboard.type("0")
    page.keyboard.press("Backspace")
    until(lambda: "1/1 g4" in line_of(bench))
    expect(page.locator("#line .cm-content")).to_contain_text("1/1 g4")
    expect(page.locator("#tempo")).to_have_value("144")
    assert "# walking" in bench.text()


def test_where_both_changed_the_same_bar_the_author_is_asked(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    page.route("**/api/save", lambda route: route.abort())  # the author types while the other program writes
    write_at_start(page, "1/16 f4 f ")
    expect(page.locator("#kept")).to_contain_text("page only")
    path = bench.root / "phrases" / "01-low-tide.toml"
    theirs = LINE.replace("1/8 f4 ab c5", "1/8 f4 a c5")
    path.write_text(PHRASES["01-low-tide.toml"].replace(LINE, theirs))
    page.unroute("**/api/save")
    page.get_by_role("button", name="Take theirs").wait_for()
    assert line_of(bench) == theirs
    page.get_by_role("button", name="Write mine").click()
    until(lambda: line_of(bench).startswith("1/16 f4 f 1/8 f4 ab"))


def test_an_answer_that_is_lost_does_not_make_the_author_somebody_else(
    bench: Bench, phrase_page: Open
) -> None:
    """What was sent is on disk although nobody said so; what is typed on is no conflict with it."""
    page = phrase_page()

    def lost(route: Route) -> None:
        route.fetch()
        route.abort()

    page.route("**/api/save", lost)
    page.locator("#commentary").click()
    page.keyboard.type("Slow")
    expect(page.locator("#kept")).to_contain_text("page only")
    assert 'commentary = "S' in bench.text()
    page.unroute("**/api/save")
    page.keyboard.type("ly now")
    until(lambda: 'commentary = "Slowly now"' in bench.text())
    expect(page.get_by_role("button", name="Take theirs")).to_have_count(0)


def test_two_windows_on_one_phrase(bench: Bench, phrase_page: Open) -> None:
    one, two = phrase_page(), phrase_page()
    write_at_start(one, " ")
    one.keyboard.press("ArrowRight")
    for _ in range(4):
        one.keyboard.press("ArrowRight")
    two.locator("#line .cm-content").click()
    two.keyboard.press("Control+End")
    two.keyboard.press("Backspace")
    two.keyboard.press("Backspace")
    two.keyboard.press("Backspace")
    two.keyboard.type("g4")
    one.keyboard.type(" ")
    until(lambda: "1/1 g4" in line_of(bench))
    expect(one.locator("#line .cm-content")).to_contain_text("1/1 g4")
    for page in (one, two):
        expect(page.locator("#kept")).to_have_text("On disk")


def test_the_network_goes_and_comes_back(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    page.context.set_offline(True)
    write_at_start(page, "1/1 c5 | ")
    expect(page.locator("#kept")).to_contain_text("page only")
    assert line_of(bench) == LINE
    page.context.set_offline(False)
    until(lambda: line_of(bench).startswith("1/1 c5 | 1/8 f4"))
    expect(page.locator("#kept")).to_have_text("On disk")


def test_steps_are_taken_back_and_forward_again_after_a_restart(tmp_path: Path, open_page: Open) -> None:
    bench = new_bench(tmp_path)
    bench.start()
    page = open_page(f"{bench.address}/phrase?file=phrases/01-low-tide.toml&index=0", wait=".reed")
    write_at_start(page, "1/1 c5 | ")
    until(lambda: line_of(bench).startswith("1/1 c5 |"))
    bench.end()
    port = bench.port
    bench.start(port)
    try:
        page.locator("#undo-step").click()
        until(lambda: line_of(bench) == LINE)
        expect(page.locator("#line .cm-content")).not_to_contain_text("1/1 c5 |")
        page.locator("#redo-step").click()
        until(lambda: line_of(bench).startswith("1/1 c5 |"))
        assert not list(bench.root.rglob("*.json"))
        assert list((bench.out / ".history").glob("*.json"))
    finally:
        bench.end()


def test_a_server_killed_while_the_author_types_loses_nothing(tmp_path: Path, open_page: Open) -> None:
    """Three kills in one sitting; the long run of a hundred is benchmarks/workbench_crashes.py."""
    bench = new_bench(tmp_path)
    bench.start()
    dice = random.Random(7)
    page = open_page(f"{bench.address}/phrase?file=phrases/01-low-tide.toml&index=0", wait=".reed")
    page.locator("#commentary").click()
    page.keyboard.press("Control+a")
    typed = ""
    for turn in range(3):
        for letter in range(dice.randrange(8, 20)):
            page.keyboard.type(f"{chr(97 + letter)}")
            typed += chr(97 + letter)
            page.wait_for_timeout(dice.choice((0, 5, 20)))
        bench.kill()
        on_disk = str(tomllib.loads(bench.text()).get("commentary", ""))
        assert typed.startswith(on_disk)
        page.keyboard.type(f"{turn}")
        typed += f"{turn}"
        bench.start(bench.port)
    try:
        until(lambda: tomllib.loads(bench.text()).get("commentary") == typed)
        assert re.search("# walking", bench.text())
    finally:
        bench.end()
