"""A teacher's sheet: made, sent as a code or a file, opened, printed; from `file://` in a browser."""

import random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from book.practice.plan_page import Pages, book


def make(page: Page) -> str:
    """Make a sheet of two phrases by hand, and return its code."""
    page.evaluate("practice.show('teacher')")
    for phrase, keys in (("p1", ("F", "A♭")), ("p3", ("E",))):
        page.locator(f"details[data-phrase={phrase}] summary").click()
        for key in keys:
            page.locator(f"details[data-phrase={phrase}]").get_by_label(key, exact=True).check()
    page.locator("#sheet-words").fill("Sing each one first.\nSlowly!")
    page.locator("#sheet-minutes").select_option("15")
    return page.locator("#sheet-made").input_value()


def open_code(page: Page, code: str) -> None:
    page.wait_for_selector(".plan[data-ready=true]")
    page.locator("details.sheet summary").click()
    page.locator("#sheet-code").fill(code)
    page.get_by_role("button", name="Open it", exact=True).click()


def read(page: Page, text: str) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate("(text) => practice.teacherSheet.read(text)", text)
    return found


def test_a_pasted_code_gives_the_week_its_work(pages: Pages) -> None:
    code = make(pages.open())
    student = pages.open()
    open_code(student, f"Hello, for this week:\n{code}\nSee you!")
    expect(student.locator("div.sheet")).to_contain_text("Sing each one first.")
    expect(student.locator("div.sheet")).to_contain_text("15 min a day")
    expect(student.locator(".sheet-rows .of-sheet")).to_have_text(["Four buoys: F, A♭", "Slack water: E"])
    assert student.locator(".plan").evaluate(
        "(plan) => plan.querySelector('.sheet').compareDocumentPosition(plan.querySelector('.set')) & 4"
    ), "what the teacher asks for stands over the set"
    student.evaluate("practice.show = (...asked) => { window.asked = asked; }")
    student.get_by_role("button", name="By ear: Slack water").click()
    assert student.evaluate("window.asked") == ["ear", {"phrase": "p3", "key": "E"}]
    music = {
        text.rsplit(" ", 1)[0] if text.endswith("new") else text
        for text in student.locator(".set .new .what").all_inner_texts()
    }
    assert music == {"Four buoys in F", "Four buoys in A♭", "Slack water in E"}
    student.reload()
    expect(student.locator("div.sheet")).to_contain_text("Sing each one first.")
    student.get_by_role("button", name="Put the sheet away").click()
    expect(student.locator(".set .new").first).to_contain_text("Low tide in C")


def test_a_file_opens_too_and_can_be_read_by_eye(pages: Pages) -> None:
    teacher, student = pages.open(), pages.open()
    make(teacher)
    with teacher.expect_download() as waiting:
        teacher.get_by_role("button", name="Save as a file").click()
    assert waiting.value.suggested_filename.startswith("small-water-sheet-")
    path = waiting.value.path()
    text = path.read_text(encoding="utf-8")
    assert "Four buoys: F, A♭" in text
    assert "choose “Today”" in text
    student.locator("details.sheet summary").click()
    student.locator("#sheet-file").set_input_files(path)
    expect(student.locator(".sheet-rows .of-sheet")).to_have_count(2)


def test_teacher_and_student_may_hold_different_instruments(pages: Pages) -> None:
    """An alto in the student's hands: what the teacher reads as A flat is F there (common practice)."""
    code = make(pages.open())
    student = pages.open()
    student.evaluate("practice.chosen.instrument = 'alto'; practice.show('plan')")
    open_code(student, code)
    expect(student.locator(".sheet-rows .of-sheet")).to_have_text(["Four buoys: D, F", "Slack water: D♭"])
    assert student.evaluate("practice.progress.store.get('sheet')")["rows"][0]["keys"] == ["F", "Ab"]


def test_a_code_survives_being_broken_into_lines(pages: Pages) -> None:
    page = pages.open()
    code = make(page)
    broken = "\n> ".join(code[at : at + 40] for at in range(0, len(code), 40)).replace("> ", "  ")
    assert read(page, broken)["sheet"] == read(page, code)["sheet"]


def test_a_damaged_code_is_told(pages: Pages) -> None:
    """Every single letter that is lost or changed, and every cut, is seen by the sum."""
    page = pages.open()
    code = make(page)
    dice = random.Random(2)
    for _ in range(200):
        at = dice.randrange(len("sheet:"), len(code))
        harmed = dice.choice(
            [
                code[:at],
                code[:at] + code[at + 1 :],
                code[:at] + ("x" if code[at] != "x" else "y") + code[at + 1 :],
            ]
        )
        assert read(page, harmed)["wrong"] == "damaged", harmed
    assert read(page, "")["wrong"] == "empty"
    assert read(page, "See you on Tuesday")["wrong"] == "not"
    page.evaluate("practice.show('plan')")
    open_code(page, code[:-20])
    expect(page.locator("details.sheet .wrong")).to_contain_text("missing or was changed")


def test_a_sheet_of_another_book_or_edition(pages: Pages) -> None:
    teacher = pages.open(book(6, identity="deep-water"), name="deep")
    student = pages.open()
    found = read(student, make(teacher))
    assert (found["sheet"], found["wrong"], found["title"]) == (None, "book", "Deep water")
    small = pages.open(book(2), name="smaller")
    found = read(small, make(pages.open()))
    assert (found["gone"], [one["phrase"] for one in found["sheet"]["rows"]]) == (1, ["p1"])


@pytest.mark.parametrize(
    "value",
    [
        None, 5, [], {}, {"book": "small-water"},
        {"book": "small-water", "from": 1, "rows": [{"phrase": 1, "keys": ["C"]}]},
        {"book": "small-water", "from": "x", "rows": [{"phrase": "p1", "keys": ["C"]}]},
        {"book": "small-water", "from": 1, "rows": [{"phrase": "p1", "keys": ["H", 7, None]}]},
    ],
)  # fmt: skip
def test_what_is_no_sheet_is_none(pages: Pages, value: Any) -> None:
    page = pages.open()
    assert page.evaluate("(value) => practice.teacherSheet.sound(value)", value) is None
    assert (
        read(page, page.evaluate("(value) => practice.teacherSheet.encode(value)", value))["wrong"]
        == "damaged"
    )


def test_a_sheet_holds_for_its_days(pages: Pages) -> None:
    page = pages.open()
    sheet = read(page, make(page))["sheet"]
    asked = "([sheet, day]) => practice.teacherSheet.itemsOn(sheet, day)?.size ?? 0"
    days = [page.evaluate(asked, [sheet, sheet["from"] + day]) for day in (-1, 0, 6, 7)]
    assert days == [0, 3, 3, 0]


def test_it_is_printed_with_room_for_notes_and_nothing_else(pages: Pages) -> None:
    page = pages.open()
    make(page)
    expect(page.locator(".printed")).not_to_be_visible()
    page.emulate_media(media="print")
    expect(page.locator(".printed")).to_contain_text("Sing each one first.")
    expect(page.locator(".printed")).to_contain_text("Stop when it hurts")
    expect(page.locator("#sheet-made")).not_to_be_visible()
    expect(page.get_by_role("button", name="Print it")).not_to_be_visible()
    assert page.locator(".printed tbody tr").first.locator("th, td").all_inner_texts() == [
        "2 · Four buoys",
        "F, A♭",
        "♩ = 132",
        "",
    ]
    assert page.evaluate("getComputedStyle(document.querySelector('.printed')).color") in (
        "rgb(0, 0, 0)",
        "rgb(28, 40, 41)",
    )


def test_printing_is_one_press(pages: Pages) -> None:
    page = pages.open(before="window.print = () => { window.printed = (window.printed ?? 0) + 1; }")
    page.evaluate("practice.show('teacher')")
    expect(page.get_by_role("button", name="Print it")).to_be_disabled()
    make(page)
    page.get_by_role("button", name="Print it").click()
    assert page.evaluate("window.printed") == 1


def test_all_keys_at_once(pages: Pages) -> None:
    page = pages.open()
    page.evaluate("practice.show('teacher')")
    page.locator("details[data-phrase=p2] summary").click()
    page.locator("details[data-phrase=p2]").get_by_role("button", name="all of them").click()
    expect(page.locator("details[data-phrase=p2] summary")).to_contain_text("(chosen: 12)")
    page.locator("details[data-phrase=p2]").get_by_role("button", name="all of them").click()
    assert page.locator("#sheet-made").input_value() == ""
