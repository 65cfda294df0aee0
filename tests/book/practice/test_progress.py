"""Progress: kept, copied, brought together, shown; from `file://` in a browser, with the network off."""

import json
import random
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from book.practice.plan_page import DAY_MS, KEYS, Pages, book, copy_of, visit

RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
"""axe-core is Deque's open engine (MPL-2.0), an oracle from outside."""


def now_ms(page: Page) -> float:
    return float(page.evaluate("Date.now()"))


def work(page: Page, count: int, days: int = 40) -> list[dict[str, Any]]:
    """Return visits of many items over some days, as a page keeps them."""
    dice, now = random.Random(count), now_ms(page)
    return [
        visit(
            number, days_ago=days * (1 - number / count), phrase=f"p{dice.randrange(6)}",
            key=dice.choice(KEYS), now_ms=now, tempo=dice.choice([66, 72, 84, 96, 120]), asked=72,
            said=dice.choice(["apart", "slips", "clean", "clean", "sang", None]),
        )
        for number in range(count)
    ]  # fmt: skip


def add(page: Page, text: str) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate("(text) => practice.progress.addCopy(text)", text)
    return found


def visits(page: Page) -> dict[str, Any]:
    """Return the visits that a page has kept, by their ids, as its database has them."""
    page.evaluate("practice.progress.refresh()")
    return {one["id"]: one for one in page.evaluate("practice.progress.visits()")}


# Kept.


def test_what_was_played_is_there_when_the_page_opens_again(pages: Pages) -> None:
    device = pages.device()
    page = pages.open(on=device)
    page.evaluate("practice.show('play', { phrase: 'p1', key: 'Eb', tempo: 96 })")
    expect(page.locator(".went")).to_have_count(0)
    for _ in range(3):
        page.locator("#round").click()
    page.locator("[data-said=sang]").click()
    page.wait_for_timeout(200)
    page.close()
    found = list(visits(pages.open(on=device)).values())
    assert [(one["phrase"], one["key"], one["tempo"], one["rounds"], one["said"]) for one in found] == [
        ("p1", "Eb", 96, 3, "sang")
    ]


def test_each_book_has_a_store_of_its_own_though_all_folders_share_one(pages: Pages) -> None:
    device = pages.device()
    one, other = (
        pages.open(on=device, name="one"),
        pages.open(book(identity="deep-water"), on=device, name="other"),
    )
    one.evaluate("practice.progress.played({ phrase: 'p0', key: 'C', tempo: 72, rounds: 1 })")
    one.evaluate("practice.progress.store.set('minutes', 45)")
    assert len(visits(one)) == 1
    assert len(visits(other)) == 0
    assert other.evaluate("practice.progress.store.get('minutes')") is None


def test_what_was_kept_under_an_earlier_name_is_taken_over_once(pages: Pages) -> None:
    """The folder's name of old, which another book had too; a name that nothing was ever kept under."""
    device = pages.device()
    old = pages.open(book(identity="book"), on=device, name="old")
    add(
        old,
        copy_of([visit(0, now_ms=now_ms(old)), visit(1, phrase="gone", now_ms=now_ms(old))], identity="book"),
    )
    old.evaluate("practice.progress.store.set('minutes', 45)")
    mine = book(identity="tides-a-writer", before=("nothing", "book"))
    page = pages.open(mine, on=device, name="mine")
    assert set(visits(page)) == {"v0", "v1"}
    assert page.evaluate("practice.progress.store.get('minutes')") == 45
    add(old, copy_of([visit(2, now_ms=now_ms(old))], identity="book"))
    assert set(visits(pages.open(mine, on=device, name="mine"))) == {"v0", "v1"}
    assert set(visits(old)) == {"v0", "v1", "v2"}
    other = book(identity="other", before=("book",))
    for place, one in enumerate(other["phrases"]):
        one["id"] = f"other-{place}"
    assert visits(pages.open(other, on=device, name="other")) == {}
    names = page.evaluate("indexedDB.databases().then((all) => all.map((one) => one.name))")
    assert "shedbook practice nothing" not in names
    assert add(page, copy_of([visit(3, now_ms=now_ms(page))], identity="book"))["added"] == 1
    assert add(page, copy_of([], identity="other"))["wrong"] == "book"


def test_two_windows_lose_nothing(pages: Pages) -> None:
    device = pages.device()
    one, other = pages.open(on=device), pages.open(on=device)
    for number, page in enumerate((one, other, one, other)):
        page.evaluate(f"practice.progress.played({{ phrase: 'p{number}', key: 'C', tempo: 72, rounds: 1 }})")
    assert len(visits(one)) == len(visits(other)) == 4


def test_a_newer_edition_of_the_book_keeps_it(pages: Pages) -> None:
    """One phrase is gone, two are new, a key has another name, a tempo changed; the phrases moved."""
    device = pages.device()
    old = pages.open(book(4), on=device, name="edition")
    add(old, copy_of([visit(n, phrase=f"p{n}", key="Gb", now_ms=now_ms(old), tempo=60) for n in range(4)]))
    newer = book(6, version="two")
    newer["phrases"] = [one for one in reversed(newer["phrases"]) if one["id"] != "p2"]
    for one in newer["phrases"]:
        one["keys"][6]["key"] = "F#"
        one["tempo"] = 90
    page = pages.open(newer, on=device, name="edition", screen="progress")
    expect(page.locator(".tides tbody")).to_have_count(3)
    expect(page.locator(".tides tbody").first).to_contain_text("60 of 90")
    assert len(visits(page)) == 4
    back = pages.open(book(4), on=device, name="edition", screen="progress")
    expect(back.locator(".tides tbody")).to_have_count(4)


def test_another_instrument_keeps_progress_and_renames_the_keys(pages: Pages) -> None:
    """A borrowed alto: what sounds as E flat is read as C (written a sixth above, common practice)."""
    page = pages.open(screen="progress")
    add(page, copy_of([visit(0, key="Eb", now_ms=now_ms(page))]))
    page.evaluate("practice.show('progress')")
    before = page.evaluate("[...practice.progress.known().entries()]")
    expect(page.locator(".tides")).to_contain_text("E♭: 72 of 120")
    page.evaluate("practice.chosen.instrument = 'alto'; practice.show('progress')")
    expect(page.locator(".tides")).to_contain_text("C: 72 of 120")
    assert page.evaluate("[...practice.progress.known().entries()]") == before


def test_what_a_newer_page_has_kept_is_opened_by_an_older_one(pages: Pages) -> None:
    """The same folder on a stand with an older copy of the page: the database has another version by then."""
    device = pages.device()
    page = pages.open(on=device)
    add(page, copy_of([visit(0, now_ms=now_ms(page))]))
    page.evaluate(
        """() => new Promise((found) => {
          const request = indexedDB.open("shedbook practice small-water", 5);
          request.onupgradeneeded = () => request.result.createObjectStore("more");
          request.onsuccess = () => { request.result.close(); found(); };
        })"""
    )
    page.close()
    older = pages.open(on=device)
    assert list(visits(older)) == ["v0"]
    older.evaluate("practice.progress.played({ phrase: 'p1', key: 'C', tempo: 72, rounds: 1 })")
    assert older.evaluate("practice.progress.lasting")
    assert len(visits(older)) == 2


def test_a_browser_that_keeps_nothing_says_so(pages: Pages) -> None:
    page = pages.open(
        before="Object.defineProperty(window, 'indexedDB', { value: { open() { throw new Error('no'); } } })"
    )
    expect(page.locator("#screen-plan .wrong").first).to_contain_text("Save a copy before you close the page")
    page.evaluate("practice.progress.played({ phrase: 'p0', key: 'C', tempo: 72, rounds: 1 })")
    page.evaluate("practice.progress.store.set('minutes', 30)")
    text = page.evaluate("practice.progress.copyText()")
    assert '"rounds":1' in text
    assert '"minutes"' in text


# Copies.


def test_a_copy_moves_everything_to_another_phone(pages: Pages) -> None:
    """Through the buttons: saved as a file here, read there; a second reading adds nothing."""
    phone, other = pages.open(screen="progress"), pages.open(screen="progress")
    add(phone, copy_of(work(phone, 200)))
    phone.evaluate(
        "practice.progress.store.set('settings', { instrument: 'concert', lines: { p1: ['g4'] } })"
    )
    with phone.expect_download() as waiting:
        phone.get_by_role("button", name="Save a copy").click()
    assert re.fullmatch(r"small-water-practice-\d{4}-\d\d-\d\d\.txt", waiting.value.suggested_filename)
    expect(phone.locator(".told")).to_have_text("The copy is among your downloads.")
    path = waiting.value.path()
    other.evaluate("practice.progress.store.set('settings', { lines: { p0: ['c4'] } })")
    other.locator("#copy-file").set_input_files(path)
    expect(other.locator(".told")).to_contain_text("Read: 200 visits, 200 of them new here.")
    assert visits(other) == visits(phone)
    assert other.evaluate("practice.chosen.lines") == {"p0": ["c4"], "p1": ["g4"]}
    other.locator("#copy-file").set_input_files(path)
    expect(other.locator(".told")).to_contain_text("Read: 200 visits, 0 of them new here.")
    for page in (phone, other):
        page.evaluate("practice.show('progress')")
    assert other.locator(".tides").inner_text() == phone.locator(".tides").inner_text()


def test_two_devices_are_added_up(pages: Pages) -> None:
    page = pages.open()
    here = [visit(n, now_ms=now_ms(page)) for n in range(3)]
    there = [visit(n, now_ms=now_ms(page), said="sang" if n == 2 else "slips") for n in range(2, 6)]
    add(page, copy_of([{**here[2], "said": None}, *here[:2]]))
    found = add(page, copy_of(there))
    assert found["added"] == 4
    kept = visits(page)
    assert len(kept) == 6
    assert kept["v2"]["said"] == "sang"
    assert add(page, copy_of([{**there[0], "said": None}]))["added"] == 0
    assert visits(page)["v2"]["said"] == "sang"


def test_what_was_read_can_be_taken_back(pages: Pages) -> None:
    page = pages.open(screen="progress")
    add(page, copy_of([visit(0, now_ms=now_ms(page))]))
    before = visits(page)
    page.locator("#copy-file").set_input_files(
        {"name": "a.txt", "mimeType": "text/plain", "buffer": copy_of(work(page, 30)).encode()}
    )
    page.get_by_role("button", name="Take back what was read").click()
    expect(page.locator(".told")).to_contain_text("as it was before")
    assert visits(page) == before


def test_a_file_that_was_cut_is_read_up_to_the_cut(pages: Pages) -> None:
    """Cut at 60 places: told each time, every whole line before the cut is there, nothing kept goes away."""
    page = pages.open()
    mine = visit(900, phrase="p3", now_ms=now_ms(page))
    add(page, copy_of([mine]))
    text = copy_of(work(page, 60))
    dice = random.Random(3)
    read = """(text) => {
      const { wrong, cut, visits, bad } = practice.progressFile.read(text);
      return [wrong, cut, visits.length, bad];
    }"""
    for cut in sorted(dice.sample(range(len(text) - 2), 60)):
        part = text[:cut]
        whole = part.count("\n")
        wrong, is_cut, count, bad = page.evaluate(read, part)
        if whole == 0:
            assert wrong == "not"
            continue
        assert wrong == ""
        assert is_cut
        assert count in (whole - 1, whole)
        assert bad == ([] if part.endswith("\n") or count == whole else [whole + 1]), cut
    found = add(page, text[: len(text) // 2])
    assert found["cut"]
    assert "v900" in visits(page)
    told = page.evaluate("(found) => practice.progressScreen.toldOf(found).join(' ')", found)
    assert "The file ends too early" in told


def test_no_damaged_file_harms_what_is_kept(pages: Pages) -> None:
    """300 files with letters changed or lost: every line untouched is read, every broken one told."""
    page = pages.open()
    kept = work(page, 40)
    add(page, copy_of(kept))
    before = visits(page)
    text = copy_of(
        [visit(1000 + n, phrase=f"p{n % 6}", key=KEYS[n % 12], now_ms=now_ms(page)) for n in range(20)]
    )
    lines = text.splitlines()
    dice = random.Random(5)
    read = """(text) => {
      const { wrong, visits, bad } = practice.progressFile.read(text);
      return [wrong, visits, bad];
    }"""
    for _ in range(300):
        harmed = list(lines)
        touched = set()
        for _ in range(dice.randrange(1, 4)):
            at = dice.randrange(1, len(harmed) - 1)
            line = harmed[at]
            place = dice.randrange(len(line))
            harmed[at] = (
                line[:place]
                + dice.choice(["", "\x00", "{", '"', "é", "9", "\ufffd", line[:place], "null"])
                + line[place + 1 :]
            )
            touched.add(at)
        wrong, found, bad = page.evaluate(read, "\n".join(harmed))
        assert wrong == ""
        whole = {json.loads(lines[at])["visit"]["id"] for at in range(1, len(lines) - 1) if at not in touched}
        assert whole <= {one["id"] for one in found}
        for at in touched:
            try:
                json.loads(harmed[at])
            except ValueError:
                assert at + 1 in bad
    for junk in (
        "",
        "\x00\x01",
        "[]",
        "{}",
        "null",
        "PK\x03\x04",
        '{"practice":1}',
        "{" * 5000,
        "<html></html>",
        '{"practice":null,"book":{}}',
    ):
        found = add(page, junk)
        assert found["wrong"] in ("not", "book"), junk
    dice.shuffle(lines)
    add(page, "\n".join(lines))
    after = visits(page)
    assert {name: after[name] for name in before} == before


@pytest.mark.parametrize(
    "wrong",
    [
        {"tempo": 0}, {"tempo": "fast"}, {"tempo": None}, {"tempo": 1e9}, {"key": "H"}, {"key": 4},
        {"phrase": ""}, {"phrase": []}, {"at": -1}, {"at": "today"}, {"at": 9e15}, {"id": ""}, {"id": None},
    ],
)  # fmt: skip
def test_a_visit_that_cannot_be_is_told_with_its_line(pages: Pages, wrong: dict[str, Any]) -> None:
    page = pages.open()
    good, bad = visit(0, now_ms=now_ms(page)), {**visit(1, now_ms=now_ms(page)), **wrong}
    found = add(page, copy_of([good, bad]))
    assert (found["added"], found["bad"]) == (1, [3])
    assert "Lines that could not be read: 3" in page.evaluate(
        "(found) => practice.progressScreen.toldOf(found).join(' ')", found
    )


def test_a_copy_of_a_newer_page_keeps_what_this_one_does_not_know(pages: Pages) -> None:
    page = pages.open()
    strange = ('{"mood":{"at":5,"is":"blue"}}', '{"breath":[1,2]}')
    newer = {**visit(0, now_ms=now_ms(page), said="soared"), "pulse": 90}
    found = add(page, copy_of([newer], version=7, extra=strange))
    assert (found["newer"], found["added"], found["bad"]) == (True, 1, [])
    assert "comes from a newer page" in page.evaluate(
        "(found) => practice.progressScreen.toldOf(found).join(' ')", found
    )
    text = page.evaluate("practice.progress.copyText()")
    for one in (*strange, '"said":"soared"', '"pulse":90'):
        assert one in text
    known = page.evaluate("practice.progress.known().get(practice.schedule.idOf('p0', 'C'))")
    assert (known["visits"], known["memory"]) == (1, None)


def test_a_copy_with_fewer_fields_is_read(pages: Pages) -> None:
    """As an older page might have written: no rounds, nothing asked, no answer, no end of the file."""
    page = pages.open()
    bare = {
        name: value
        for name, value in visit(0, now_ms=now_ms(page)).items()
        if name in ("id", "at", "phrase", "key", "tempo")
    }
    head = json.dumps({"practice": 0, "book": "small-water"})
    found = add(page, f"\ufeff{head}\r\n{json.dumps({'visit': bare})}\r\n")
    assert (found["added"], found["bad"], found["cut"]) == (1, [], True)
    assert visits(page)["v0"] == {**bare, "rounds": 0, "asked": None, "said": None}


def test_another_books_copy_changes_nothing(pages: Pages) -> None:
    page = pages.open(screen="progress")
    text = copy_of([visit(0, now_ms=now_ms(page))], identity="deep-water")
    page.locator("#copy-file").set_input_files(
        {"name": "a.txt", "mimeType": "text/plain", "buffer": text.encode()}
    )
    expect(page.locator(".told .wrong")).to_contain_text("another book, “Small water”")
    assert visits(page) == {}


def test_a_copy_without_its_first_line_is_read_if_its_phrases_are_this_books(pages: Pages) -> None:
    page = pages.open()
    lines = copy_of([visit(n, now_ms=now_ms(page)) for n in range(3)]).splitlines()[1:]
    assert add(page, "\n".join(lines))["added"] == 3
    assert add(page, "\n".join(lines).replace("p0", "q9"))["wrong"] == "not"


def test_a_copy_is_asked_for_now_and_then(pages: Pages) -> None:
    """`storage.persist()` is refused from `file://`; so after sixty visits the page asks for one."""
    page = pages.open()
    assert page.evaluate("navigator.storage.persist()") is False
    add(page, copy_of([visit(n, days_ago=1, now_ms=now_ms(page)) for n in range(59)]))
    assert page.evaluate("practice.progress.askForCopy()") == 0
    add(page, copy_of([visit(60, days_ago=1, now_ms=now_ms(page))]))
    page.evaluate("practice.show('plan')")
    expect(page.locator(".notice")).to_contain_text("Since your last copy")
    page.get_by_role("button", name="Later").click()
    expect(page.locator(".notice")).to_have_count(0)
    assert page.evaluate("practice.progress.askForCopy()") == 0
    page.evaluate("practice.progress.store.set('asked', 0)")
    assert page.evaluate("practice.progress.askForCopy()") == 60
    page.evaluate("practice.progress.copyText()")
    assert page.evaluate("practice.progress.askForCopy()") == 0


# At a glance.


def test_the_table_has_twelve_columns_and_says_its_cells(pages: Pages) -> None:
    page = pages.open(screen="progress")
    expect(page.locator("#screen-progress")).to_contain_text("it fills as you play")
    now = now_ms(page)
    add(page, copy_of([
        visit(0, key="C", tempo=120, asked=120, now_ms=now),
        visit(1, key="Bb", tempo=84, asked=84, now_ms=now),
        visit(2, key="E", tempo=100, asked=100, days_ago=60, now_ms=now),
    ]))  # fmt: skip
    page.evaluate("practice.show('progress')")
    expect(page.locator(".tides thead th")).to_have_count(12)
    assert page.locator(".tides thead th").all_inner_texts() == [
        "C",
        "F",
        "B♭",
        "E♭",
        "A♭",
        "D♭",
        "G♭",
        "B",
        "E",
        "A",
        "D",
        "G",
    ]
    cells = page.locator(".tides td .unseen").all_text_contents()
    assert cells[0] == "C: 120 of 120"
    assert cells[1] == "F: not yet"
    assert cells[2] == "B♭: 84 of 120"
    assert cells[8] == "E: 100 of 120, fading"
    assert page.locator(".tides td").nth(0).locator(".level").evaluate("(one) => one.style.height") == "100%"
    assert page.locator(".tides td").nth(2).locator(".level").evaluate("(one) => one.style.height") == "70%"
    expect(page.locator("#screen-progress > p").nth(1)).to_have_text(
        "Keys at their tempo: 1. On the way: 2. Still to be met: 69."
    )


def test_the_table_reads_in_grey(pages: Pages) -> None:
    """The edge differs from paper and water by its grey alone (WCAG 2.2, 1.4.11: 3:1); no hue is needed."""
    page = pages.open(screen="progress")
    add(page, copy_of([visit(0, tempo=60, asked=60, now_ms=now_ms(page))]))
    page.evaluate("practice.show('progress')")
    page.wait_for_selector(".tides td")
    contrast = page.evaluate(
        """() => {
          const grey = (colour) => {
            const [r, g, b] = colour.match(/[\\d.]+/g).map((one) => one / 255)
              .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
            return 0.2126 * r + 0.7152 * g + 0.0722 * b;
          };
          const cell = document.querySelector(".tides td"), level = cell.querySelector(".level");
          const edge = grey(getComputedStyle(level).borderTopColor);
          return [grey(getComputedStyle(cell).backgroundColor), grey(getComputedStyle(level).backgroundColor)]
            .map((one) => (Math.max(one, edge) + 0.05) / (Math.min(one, edge) + 0.05));
        }"""
    )
    assert min(contrast) >= 3


def test_a_year_of_practice(pages: Pages) -> None:
    """5,000 visits over a year: read, folded and drawn; months without music leave no gap and no reproach."""
    page = pages.open()
    now = now_ms(page)
    keep = [one for one in work(page, 5000, 364) if not 100 < (now - one["at"]) / DAY_MS < 165]
    add(page, copy_of(keep))
    taken = page.evaluate(
        """async () => {
          const begun = performance.now();
          await practice.screens.find((one) => one.name === "progress").opened();
          return performance.now() - begun;
        }"""
    )
    assert taken < 3000
    page.evaluate("practice.show('progress')")
    rows = page.locator(".year tbody tr")
    months = {datetime.fromtimestamp(one["at"] / 1000, UTC).strftime("%Y-%m") for one in keep}
    assert len(months) - 2 <= rows.count() <= 12
    met = [int(text) for text in page.locator(".year tbody td:nth-child(3)").all_inner_texts()]
    assert met == sorted(met)


def violations(page: Page) -> list[str]:
    found = Axe().run(page, options=RULES).response["violations"]
    return [
        f"{one['id']}: {node['html'][:160]} {node.get('failureSummary', '')[:300]}"
        for one in found
        for node in one["nodes"]
    ]


SCREENS = ("plan", "progress", "teacher", "running", "resting", "answering")


def put(page: Page, screen: str) -> None:
    """Bring a page with some progress to a screen, or to a state of one."""
    add(page, copy_of(work(page, 300)))
    page.evaluate("practice.show('plan')")
    page.wait_for_selector(".set li")
    if screen in ("progress", "teacher"):
        page.evaluate(f"practice.show('{screen}')")
    if screen == "teacher":
        page.locator("details[data-phrase=p1] summary").click()
        page.locator("details[data-phrase=p1] input").nth(2).check()
    if screen in ("running", "resting", "answering"):
        page.locator("button.begin").click()
        page.evaluate("practice.schedule.move()")
        if screen == "resting":
            page.evaluate("while (practice.schedule.current().kind !== 'rest') practice.schedule.move()")
        page.evaluate(
            f"practice.show('{'play' if screen == 'answering' else 'plan'}', practice.schedule.current())"
        )
    page.wait_for_timeout(150)


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("screen", SCREENS)
def test_axe_finds_nothing(pages: Pages, screen: str, theme: str) -> None:
    page = pages.open(color_scheme=theme)
    put(page, screen)
    assert violations(page) == []


def test_axe_does_find_something(pages: Pages) -> None:
    page = pages.open()
    page.evaluate("document.querySelector('main').append(document.createElement('button'))")
    assert any(one.startswith("button-name") for one in violations(page))


@pytest.mark.parametrize("screen", SCREENS)
def test_no_sideways_scrolling_on_a_phone_or_at_200_percent(pages: Pages, screen: str) -> None:
    """WCAG 2.2, 1.4.10 at 320 CSS pixels, 1.4.4 with letters twice as large; the table scrolls in a frame."""
    page = pages.open()
    put(page, screen)
    for width, letters in ((390, "100%"), (320, "100%"), (640, "100%"), (390, "200%"), (844, "100%")):
        page.set_viewport_size({"width": width, "height": 800})
        page.evaluate(f"document.documentElement.style.fontSize = '{letters}'")
        page.wait_for_timeout(50)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, (width, letters)


def test_the_set_is_begun_and_answered_by_keys_alone(pages: Pages) -> None:
    page = pages.open()
    reached = []
    for _ in range(12):
        page.keyboard.press("Tab")
        reached.append(
            page.evaluate(
                "(({ id, className, tagName }) => id || className || tagName)(document.activeElement)"
            )
        )
        if "begin" in reached[-1]:
            break
    assert "plan-minutes" in reached
    page.keyboard.press("Enter")
    expect(page.locator("#screen-plan h1")).to_be_focused()
    page.keyboard.press("PageDown")
    expect(page.locator("#screen-play")).to_be_visible()
    page.locator("#round").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.said") == "clean"
    page.keyboard.press("Enter")
    page.wait_for_function("practice.progress.visits().some((one) => one.said === 'clean')")


def test_a_reader_of_screens_hears_names_and_roles(pages: Pages) -> None:
    page = pages.open()
    put(page, "answering")
    expect(page.get_by_role("group", name="How did it go?").get_by_role("button")).to_have_count(4)
    page.evaluate("practice.show('progress')")
    expect(page.get_by_role("region", name="Phrases and keys").get_by_role("columnheader")).to_have_count(12)
    expect(page.get_by_label("Read a copy")).to_have_count(1)
    page.evaluate("practice.show('plan')")
    expect(
        page.get_by_role("combobox", name="Minutes you have").or_(page.locator("[aria-current=step]"))
    ).to_have_count(1)


def test_nothing_moves_where_motion_is_not_wanted(pages: Pages) -> None:
    page = pages.open(reduced_motion="reduce")
    moving = """[...document.querySelectorAll('*')].map((one) => getComputedStyle(one))
      .filter((one) => one.transitionDuration !== '0s' || one.animationName !== 'none').length"""
    for screen in ("plan", "progress", "teacher"):
        page.evaluate(f"practice.show('{screen}')")
        assert page.evaluate(moving) == 0


@pytest.mark.parametrize("language", ["de", "fr", "es", "pt"])
def test_every_word_is_there_in_every_language(pages: Pages, language: str) -> None:
    page = pages.open(book(language=language))
    for screen in ("running", "progress", "teacher"):
        put(page, screen) if screen == "running" else page.evaluate(f"practice.show('{screen}')")
        text = page.locator(f"#screen-{'plan' if screen == 'running' else screen}").inner_text()
        assert not re.search(r"\b(plan|progress|teacher)\.[a-z]", text), text
        assert "{" not in text


def test_no_script_asks_for_a_row_that_is_not_there(tmp_path: Path) -> None:
    """Every row that the scripts name is in the table, and every row of the table is named."""
    scripts = Path(__file__).parents[3] / "src" / "shedbook" / "book" / "practice" / "static"
    names = ("plan_parts", "plan_screen", "progress_screen", "teacher_sheet")
    text = "\n".join((scripts / f"{name}.js").read_text(encoding="utf-8") for name in names)
    rows = {
        name.removeprefix("practice.")
        for name in book()["words"]
        if re.match(r"practice\.(plan|progress|teacher)\.", name)
    }
    asked = set(re.findall(r'"((?:plan|progress|teacher)\.[a-z. ]+)"', text)) | {
        name.removeprefix("practice.")
        for name in re.findall(r'"(practice\.(?:plan|progress|teacher)\.[a-z. ]+)"', text)
    }
    assert asked - rows == set()
    made = re.findall(r"`((?:plan|progress|teacher)\.[a-z. ]+)\$\{", text)
    made += ["teacher.print.", "progress.year."]
    assert {
        row
        for row in rows - asked
        if not row.startswith(tuple(made)) and row not in re.findall(r'"([a-z. ]+)"', text)
    } == set()
