"""Making the book in the browser: progress, stop, files, what is newer. The expectations are the design's."""

import urllib.error
import urllib.request
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from workbench_served import Bench, until

Open = Callable[..., Page]


def test_a_book_is_made_for_one_edition_with_progress_and_files(bench: Bench, open_page: Open) -> None:
    page = open_page(bench.address + "/make", wait="#editions input")
    expect(page.locator("#up-to-date")).to_have_text("Nothing was made yet.")
    page.evaluate(
        "() => { window.said = []; const making = document.getElementById('making');"
        " const watch = { childList: true, subtree: true, characterData: true };"
        " new MutationObserver(() => said.push(making.textContent)).observe(making, watch); }"
    )
    page.get_by_label("Concert edition").uncheck()
    page.get_by_label("B♭ edition").check()
    page.locator("#build").click()
    page.wait_for_selector('body[data-making="done"]', timeout=120_000)
    expect(page.locator("#outcome")).to_contain_text("1 book made.")
    expect(page.locator("#files")).to_contain_text("small-water-bflat.pdf")
    expect(page.locator("#up-to-date")).to_have_text("The book is up to date.")
    assert any("of 4" in one for one in page.evaluate("() => said"))
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Download small-water-bflat.pdf").click()
    assert waiting.value.path().read_bytes().startswith(b"%PDF")
    path = bench.root / "phrases" / "04-turn.toml"
    path.write_text(path.read_text() + "# newer\n")
    expect(page.locator("#newer")).to_have_text("Turn")
    expect(page.locator("#up-to-date")).to_contain_text("newer than the book")


def test_a_build_is_stopped_and_what_failed_is_said(bench: Bench, open_page: Open) -> None:
    page = open_page(bench.address + "/make", wait="#editions input")
    page.locator("#make-keys").fill("C F Bb Eb Ab Db Gb B E A D G")
    page.locator("#build").click()
    page.locator("#stop").click()
    page.wait_for_selector('body[data-making="stopped"]', timeout=60_000)
    expect(page.locator("#outcome")).to_contain_text("Stopped.")
    (bench.root / "phrases" / "03-blues.toml").write_text('title = "x"\nchanges = "F7"\nline = "1/4 h"\n')
    page.locator("#build").click()
    page.wait_for_selector('body[data-making="failed"]', timeout=60_000)
    expect(page.locator("#outcome")).to_contain_text("03-blues.toml:3")
    until(lambda: page.locator("#build").is_enabled())


def make_with(page: Page, label: str) -> None:
    """Make the book in its first key with one thing more, and wait until it is made."""
    page.locator("#make-keys").fill("C")
    page.get_by_label(label).check()
    page.locator("#build").click()
    page.wait_for_selector('body[data-making="done"]', timeout=240_000)


def test_a_bundle_is_made_and_its_files_are_listed(bench: Bench, open_page: Open) -> None:
    slip = bench.root / "phrases" / "02-slip.toml"  # an error finding: such a book is not sold
    slip.write_text(slip.read_text().replace("f#4", "f4"))
    page = open_page(bench.address + "/make", wait="#editions input")
    make_with(page, "the bundle to upload")
    expect(page.locator("#files")).to_contain_text("bundle/small-water-concert-keys-C-1.zip")
    expect(page.locator("#files")).to_contain_text("bundle/listing.txt")
    expect(page.locator("#outcome")).to_contain_text("There is no licence.txt beside manuscript.toml.")


def test_the_students_page_is_made_listed_and_opened(bench: Bench, open_page: Open) -> None:
    page = open_page(bench.address + "/make", wait="#editions input")
    make_with(page, "with the student's page")
    expect(page.locator("#outcome")).to_contain_text("The student's page was made.")
    row = page.locator("#files li", has_text="small-water-practice-keys-C")
    expect(row).to_contain_text("the student's page, a folder")
    expect(row.get_by_role("link")).to_have_count(1)  # one folder is no download
    with page.expect_popup() as waiting:
        row.get_by_role("link", name="Open small-water-practice-keys-C").click()
    waiting.value.wait_for_url("**/made/**")
    address = waiting.value.url
    waiting.value.close()
    student = page.context.new_page()  # one that is listened to before it says anything
    refused: list[str] = []
    student.on("console", lambda said: refused.append(said.text))
    student.goto(address)
    expect(student.locator(".book-title")).to_have_text("Small water")
    expect(student.locator("#main svg use").first).to_be_attached()  # the score, from the folder's own data
    assert [one for one in refused if "Content Security Policy" in one and "worker" not in one] == []
    assert student.evaluate("() => navigator.serviceWorker.getRegistrations().then((all) => all.length)") == 0
    practice = bench.out / "small-water-practice-keys-C"
    for name in ("../.record.json", "%2e%2e/%2e%2e/small-water/manuscript.toml", "no.js"):
        with pytest.raises(urllib.error.HTTPError) as missing:
            urllib.request.urlopen(f"{bench.address}/made/{practice.name}/{name}")
        assert missing.value.code == 404
        missing.value.close()


def test_what_the_manuscript_asks_for_is_ticked(bench: Bench, open_page: Open) -> None:
    path = bench.root / "manuscript.toml"
    path.write_text(path.read_text() + "practice_page = true\n")
    page = open_page(bench.address + "/make", wait="#editions input")
    box = page.get_by_label("with the student's page, as manuscript.toml asks")
    expect(box).to_be_checked()
    expect(box).to_be_disabled()
