"""One phrase in the browser: what is typed, seen, chosen, mended, heard. Expectations: the design's."""

import json
import re
import tomllib
from collections.abc import Callable

import pytest
from playwright.sync_api import Dialog, Locator, Page, expect

from shedbook.book.verbs.play import PlayRequest
from shedbook.book.verbs.play import play as write_track
from workbench_served import LINE, MIDI, PHRASES, Bench, play, until

Open = Callable[..., Page]


def line_of(bench: Bench, name: str = "01-low-tide.toml") -> str:
    return str(tomllib.loads(bench.text(name))["line"])


def text_of(page: Page, field: str = "line") -> str:
    return str(page.locator(f"#{field} .cm-content").inner_text()).replace("\n", "")


def to_end(page: Page) -> None:
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+End")


def notes(page: Page) -> int:
    return page.locator(".reed").count()


def reed(page: Page, note: int) -> Locator:
    return page.locator(f'.reed[data-note="{note}"]')


def test_keys_pressed_quickly_are_never_lost_or_reordered(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+a")
    typed = "1/8 d5 f ab c6 bb5 ab g f | 1/4 e5 g b d6 | 1/8 c6 b5 a g f# e d# e | 1/1 g5"
    page.keyboard.type(typed)  # without a pause between keys
    until(lambda: line_of(bench).strip() == typed)
    expect(page.locator(".reed")).to_have_count(21)
    assert text_of(page) == typed
    assert page.locator("#score svg").count() >= 1


def test_a_score_follows_each_key_and_the_rest_of_the_file_stays(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    before = notes(page)
    to_end(page)
    page.keyboard.press("Control+Home")
    page.keyboard.type("1/4 c5 - - - | ")
    page.locator("#changes .cm-content").click()
    page.keyboard.press("Control+Home")
    page.keyboard.type("Cm6 | ")
    expect(page.locator(".reed")).to_have_count(before + 1)
    until(lambda: 'changes = "Cm6 | Dm7b5' in bench.text())
    assert bench.text() == PHRASES["01-low-tide.toml"].replace('"""\n1/8', '"""\n1/4 c5 - - - | 1/8').replace(
        '"Dm7b5', '"Cm6 | Dm7b5'
    )


def test_what_cannot_be_read_is_marked_and_the_last_score_stays(phrase_page: Open) -> None:
    page = phrase_page()
    before = notes(page)
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+Home")
    page.keyboard.type("h5 ")
    expect(page.locator("#score")).to_have_class(re.compile("old"))
    expect(page.locator("#problem")).to_contain_text("German name")
    expect(page.locator("#problem")).to_contain_text("bar 1")
    expect(page.locator(".mark-problem")).to_have_text("h5")
    assert notes(page) == before
    for _ in range(3):
        page.keyboard.press("Backspace")
    expect(page.locator("#problem")).to_have_text("")
    expect(page.locator("#score")).not_to_have_class(re.compile("old"))
    page.locator("#changes .cm-content").click()
    page.keyboard.press("Control+End")
    page.keyboard.type(" | Xm7")
    expect(page.locator("#changes .mark-problem")).to_have_count(1)


def test_bars_of_the_text_stand_where_the_bars_of_the_score_stand(phrase_page: Open) -> None:
    page = phrase_page()
    bars = page.locator("#line .bar")
    assert bars.count() == 4
    edges = page.evaluate(
        "() => [...document.querySelectorAll('#line .bar')].map((one) => one.getBoundingClientRect().left)"
    )
    first = [page.locator(f'.reed[data-note="{note}"]').bounding_box() for note in (0, 8, 16, 18)]
    for bar, note, after in zip(edges, first, [*edges[1:], 1e9], strict=True):
        assert note is not None
        assert bar - 4 <= note["x"] + note["width"] / 2 <= after + 4


def test_a_note_tells_what_it_is_and_selects_its_text_and_the_other_way_round(phrase_page: Open) -> None:
    page = phrase_page()
    reed(page, 2).click()
    strip = page.locator("#note-strip")
    expect(strip).to_contain_text("C, the seventh of Dm7♭5")
    expect(strip).to_contain_text("chord tone")
    assert page.locator(".mark-chosen").inner_text() == "c5"
    page.keyboard.press("ArrowRight")
    expect(page.locator(".mark-chosen")).to_have_text("eb")
    head = page.locator("#score #sn5").bounding_box()
    assert head is not None
    page.mouse.click(head["x"] + head["width"] / 2, head["y"] + head["height"] / 2)
    expect(page.locator(".mark-chosen")).to_have_text("f")
    expect(reed(page, 5)).to_have_attribute("aria-pressed", "true")
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+Home")
    for _ in range(6):
        page.keyboard.press("ArrowRight")
    expect(reed(page, 0)).to_have_attribute("aria-pressed", "true")
    assert "chosen" in (page.locator("#score #sn0").get_attribute("class") or "")


def test_landings_links_coverage_and_tension_are_words_and_marks(phrase_page: Open) -> None:
    page = phrase_page()
    assert page.locator(".post").count() >= 5
    words = set(page.locator(".crossing span").all_inner_texts())
    assert words & {"half step", "step", "closes in", "♭7→3"}
    assert page.locator(".cover .missing").count() + page.locator(".cover .used").count() >= 20
    rises = set(
        page.locator(".reed").evaluate_all("all => all.map((one) => one.style.getPropertyValue('--rise'))")
    )
    assert len(rises) >= 2


def test_a_note_is_moved_by_dragging_by_keys_and_back_again(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    head = page.locator("#score #sn16").bounding_box()
    step = page.evaluate(
        "() => { const svg = document.querySelector('#score .staff svg');"
        " return 90 * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width; }"
    )
    assert head is not None
    x, y = head["x"] + head["width"] / 2, head["y"] + head["height"] - step
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - step, steps=3)
    page.mouse.move(x, y - 2 * step, steps=3)
    page.mouse.up()
    until(lambda: "1/2 g4 1/4 c4" in line_of(bench))  # eb up two letters is g
    reed(page, 16).focus()
    page.keyboard.press("ArrowDown")
    until(lambda: "1/2 f4 1/4 c4" in line_of(bench))
    expect(reed(page, 16)).to_be_focused()
    page.keyboard.press("Alt+ArrowUp")
    until(lambda: "1/2 f#4 1/4 c4" in line_of(bench) or "1/2 gb4 1/4 c4" in line_of(bench))
    page.keyboard.press("Enter")
    for _ in range(3):
        page.keyboard.press("Control+z")
    until(lambda: line_of(bench) == LINE)


def test_a_note_that_leaves_its_octave_does_not_take_the_next_one_with_it(
    bench: Bench, phrase_page: Open
) -> None:
    page = phrase_page()
    reed(page, 2).focus()  # c5, after which eb needs no number
    page.keyboard.press("Shift+ArrowDown")
    until(lambda: line_of(bench).startswith("1/8 f4 ab c4 eb5 d"))


def test_a_wrong_note_is_found_and_mended_and_taken_back(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page("02-slip.toml")
    finding = page.locator(".finding").first
    expect(finding).to_contain_text("F♯")
    finding.locator(".mend").click()
    until(lambda: "| 1/8 f4 g b" in bench.text("02-slip.toml"))
    expect(page.locator("#findings")).to_contain_text("Nothing to mend")
    page.keyboard.press("Control+z")
    until(lambda: "f#4" in bench.text("02-slip.toml"))
    expect(page.locator(".finding")).to_have_count(1)
    page.locator(".finding .link").last.click()
    page.keyboard.type("It is meant.")
    page.locator(".stand button").click()
    until(lambda: 'silence = { accidental-slip = "It is meant." }' in bench.text("02-slip.toml"))
    expect(page.locator("#findings")).to_contain_text("Nothing to mend")


def test_what_is_found_is_said_in_the_language_of_the_book(bench: Bench, phrase_page: Open) -> None:
    path = bench.root / "manuscript.toml"
    path.write_text('language = "de"\n' + path.read_text(encoding="utf-8"), encoding="utf-8")
    page = phrase_page("02-slip.toml")
    said = page.locator(".finding p[lang=de]")
    expect(said.first).to_contain_text("Das Fis ist die große Septime über G7.")
    expect(said.last).to_contain_text("Prüf das Versetzungszeichen")
    page.locator(".finding .mend").click()
    until(lambda: "| 1/8 f4 g b" in bench.text("02-slip.toml"))


def test_a_scale_is_chosen_from_the_list_with_reasons(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page("03-blues.toml")
    summary = page.locator("#scale-list details").first
    assert "Over F7" in summary.inner_text()
    button = summary.locator("button").last
    name = button.inner_text().removeprefix("Name ")
    button.click()
    until(lambda: f'scales = "{name} |"' in bench.text("03-blues.toml"))
    expect(page.locator("#scale-list .now").first).to_contain_text("You named it.")


def test_a_sentence_of_ones_own_tells_when_the_music_under_it_changes(
    bench: Bench, phrase_page: Open
) -> None:
    page = phrase_page()
    first = page.locator("#sentences li").first
    computed = first.locator("span").inner_text()
    first.locator("button").click()
    page.keyboard.press("Control+a")
    page.keyboard.type("Climb, and fall.")
    first.get_by_role("button", name="Keep").click()
    expect(page.locator("#sentences li").first).to_contain_text("Climb, and fall. (your words)")
    until(lambda: "Climb, and fall." in bench.text())
    assert computed[:12] in bench.text().replace("\\", "")
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+a")
    page.keyboard.type("1/1 c5 | d | eb | c")
    expect(page.locator("#lost-sentences")).to_contain_text("has changed: Climb, and fall.")
    expect(page.locator("#findings")).to_contain_text("Climb, and fall.")
    page.locator("#lost-sentences button").click()
    until(lambda: "sentences" not in bench.text())


def test_the_facts_of_a_phrase_are_written_too(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    page.locator("#title").fill('A "new" tide \\ here')
    page.locator("#tempo").fill("96")
    page.locator("#key").fill("H")
    expect(page.locator("#problem")).to_contain_text("is not a key")
    page.locator("#key").fill("Eb major")
    expect(page.locator("#heard-as")).to_contain_text("E♭ major")
    until(lambda: tomllib.loads(bench.text())["key"] == "Eb major")
    found = tomllib.loads(bench.text())
    assert (found["tempo"], found["title"]) == (96, 'A "new" tide \\ here')
    assert "# walking" in bench.text()


def test_notes_come_from_a_midi_keyboard_step_by_step(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page(before=MIDI)
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+a")
    page.keyboard.press("Backspace")
    page.locator("#entry summary").click()
    page.locator("#midi").click()
    expect(page.locator("#entry-said")).to_contain_text("A keyboard")
    page.get_by_label("quarter", exact=True).check()
    for midi in (62, 65, 68, 72):
        play(page, midi)
        play(page, midi, on=False)
    until(lambda: line_of(bench).strip() == "1/4 d4 f ab c5")


def test_a_line_is_played_in_against_a_click(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page("04-turn.toml", before=MIDI)
    page.locator("#tempo").fill("240")
    page.locator("#entry summary").click()
    page.locator("#midi").click()
    page.evaluate(
        """async () => {
          document.getElementById("in-time").click();
          await new Promise((go) => setTimeout(go, 200));
          const beat = 250, start = performance.now() - 200 + 150 + 4 * beat;
          const send = (status, midi, at) =>
            midiInput.onmidimessage({ data: [status, midi, 80], timeStamp: at });
          [64, 67, 72, 71, 69, 65, 62, 59].forEach((midi, place) => {
            send(0x90, midi, start + place * beat + (place % 3) * 6);
            send(0x80, midi, start + place * beat + 0.9 * beat);
          });
          document.getElementById("in-time").click();
        }"""
    )
    until(lambda: line_of(bench, "04-turn.toml") == "1/4 e4 g c5 b4 | a4 f d b3")


def test_notes_come_from_the_drawn_keyboard_and_the_computers_keys(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page("04-turn.toml")
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+a")
    page.keyboard.press("Backspace")
    page.locator("#entry summary").click()
    page.get_by_label("quarter", exact=True).check()
    page.get_by_role("button", name="E 5").click()
    page.get_by_role("button", name="C 5").click()
    page.locator("#entry-rest").click()
    page.locator("#letters").check()
    page.keyboard.press("w")  # the black key over C, from C4: C sharp over A7
    page.keyboard.press("a")
    page.locator("#entry-back").click()
    until(lambda: line_of(bench, "04-turn.toml").strip() in ("1/4 e5 c - db4", "1/4 e5 c - c#4"))


def test_a_file_is_dropped_and_its_phrase_opened(bench: Bench, phrase_page: Open, open_page: Open) -> None:
    page = phrase_page()
    midi = bench.out.parent / "dropped.mid"
    write_track(PlayRequest(bench.root / "phrases" / "04-turn.toml", midi, parts="line", count_in=0))
    page.locator("#file").set_input_files(midi)
    page.wait_for_url(re.compile("05-dropped|05-turn"))
    page.wait_for_selector(".reed")
    assert [path.name for path in (bench.root / "phrases").glob("05-*.toml")]


def test_the_line_is_heard_at_once_and_the_sounding_note_is_shown(phrase_page: Open) -> None:
    page = phrase_page()
    page.wait_for_selector('body[data-palette="ready"]')
    page.wait_for_timeout(400)
    page.evaluate(
        "() => { window.heard = []; new MutationObserver(() => {"
        " const one = document.querySelector('.reed.sounding');"
        " if (one) heard.push(Number(one.dataset.note)); }).observe(document.getElementById('score'),"
        " { subtree: true, attributes: true, attributeFilter: ['class'] }); }"
    )
    page.locator("#hear-line").click()
    expect(page.locator("#player")).to_have_attribute("data-state", "line")
    page.wait_for_function("() => window.heard.includes(4)")
    page.keyboard.press("Escape")
    expect(page.locator("#player")).to_have_attribute("data-state", "silent")
    heard = page.evaluate("() => [...new Set(window.heard)]")
    assert heard == sorted(heard)
    assert heard[0] == 0
    assert page.locator(".sounding").count() == 0


def test_the_band_plays_from_a_bar_in_a_loop(phrase_page: Open) -> None:
    page = phrase_page("04-turn.toml")
    page.locator("#from-bar").select_option("2")
    page.locator("#loop").check()
    page.evaluate(
        "() => { const one = document.getElementById('speed'); one.value = 140;"
        " one.dispatchEvent(new Event('input')); }"
    )
    page.locator("#hear-band").click()
    page.wait_for_selector('#player[data-state="sound"]', timeout=60_000)
    expect(page.locator("#player-said")).to_contain_text("Played by", timeout=60_000)
    page.wait_for_selector('.reed.sounding[data-note="4"]')
    page.wait_for_selector('.reed.sounding[data-note="7"]')
    page.wait_for_selector('.reed.sounding[data-note="4"]')  # round again
    page.locator("#hear-stop").click()
    expect(page.locator("#player")).to_have_attribute("data-state", "silent")


def test_without_audio_output_everything_else_works(phrase_page: Open) -> None:
    page = phrase_page(before="window.AudioContext = function () { throw new Error('none'); };")
    page.locator("#hear-line").click()
    expect(page.locator("#player-said")).to_contain_text("no audio output")
    reed(page, 1).click()
    expect(page.locator("#note-strip")).to_contain_text("A♭")


def test_one_phrase_is_printed(phrase_page: Open) -> None:
    page = phrase_page("04-turn.toml")
    page.locator("#print-edition").select_option("bflat")
    page.locator("#print-one").click()
    link = page.locator("#print-said a")
    expect(link).to_be_visible(timeout=60_000)
    address = link.get_attribute("href")
    answer = page.request.get(f"{page.url.split('/phrase')[0]}{address}")
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.body().startswith(b"%PDF")


def test_all_keys_stand_on_one_screen(bench: Bench, open_page: Open) -> None:
    page = open_page(
        f"{bench.address}/keys?file=phrases/01-low-tide.toml&index=0", wait='body[data-keys="2"]'
    )
    assert page.locator("#keys h2").all_inner_texts() == ["C minor", "F minor"]
    page.locator("#edition").select_option("bflat")
    expect(page.locator("#keys h2").first).to_have_text("D minor")
    assert json.loads(page.locator("#words").inner_text())["keys.print"]


@pytest.mark.parametrize(
    "title", ["<img src=x onerror=alert(1)>", "</script><script>alert(1)</script>", "{{app.name}}"]
)
def test_no_script_comes_from_a_title_or_a_commentary(bench: Bench, open_page: Open, title: str) -> None:
    (bench.root / "phrases" / "04-turn.toml").write_text(
        PHRASES["04-turn.toml"].replace('"Turn"', json.dumps(title)) + f"commentary = {json.dumps(title)}\n"
    )
    asked: list[str] = []

    def note_down(dialog: Dialog) -> None:
        asked.append(dialog.message)
        dialog.dismiss()

    page = open_page(f"{bench.address}/phrase?file=phrases/04-turn.toml&index=0", wait=".reed")
    page.on("dialog", note_down)
    assert page.locator("#title").input_value() == title
    book = open_page(f"{bench.address}/", wait="#phrases li")
    book.on("dialog", note_down)
    expect(book.locator("#phrases h2", has_text=title)).to_have_count(1)
    assert page.locator("img").count() == book.locator("img").count() == 0
    assert asked == []


def test_lines_are_proposed_heard_and_taken_only_when_the_author_takes_them(
    bench: Bench, phrase_page: Open
) -> None:
    page = phrase_page()
    before = bench.text()
    page.locator("#proposals summary").click()
    page.locator("#wish-shape").select_option("arch")
    page.locator("#wish-last").fill("Eb")
    page.locator("#propose").click()
    expect(page.locator("#proposed > li")).to_have_count(5)
    assert page.locator("#proposed svg").count() >= 5
    for said in page.locator("#proposed > li p:not(.row)").all_inner_texts():
        assert said.startswith("It starts on")
    page.locator("#propose").click()  # others, for it was asked again
    page.wait_for_selector('body[data-proposed="2"]')
    page.get_by_role("button", name="Hear it: Line 1,").click()
    expect(page.locator("#player")).to_have_attribute("data-state", "line")
    page.keyboard.press("Escape")
    assert bench.text() == before
    page.get_by_role("button", name="Take it as a new phrase: Line 2,").click()
    page.get_by_role("link", name="Open the new phrase").wait_for()
    assert bench.text() == before
    taken = tomllib.loads(max((bench.root / "phrases").glob("*.toml")).read_text(encoding="utf-8"))
    assert taken["title"] == "Low tide, a new line"
    seen = bench.post("look", {"fields": taken, "width": 200})
    assert seen["notes"][-1]["pitch"][:2] == "Eb"
    assert not [one for one in seen["findings"] if one["severity"] == "error"]


def test_this_line_is_turned_and_written_here_with_a_step_back(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()
    before = line_of(bench)
    page.locator("#proposals summary").click()
    page.locator("#vary").click()
    page.wait_for_selector('body[data-proposed="1"]')
    assert page.locator("#proposed > li").count() >= 4
    page.locator("#proposed > li").filter(has_text="upside down").first.get_by_role(
        "button", name="Write it here"
    ).click()
    until(lambda: line_of(bench) != before)
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+z")
    until(lambda: line_of(bench).split() == before.split())


def test_wishes_that_cannot_be_are_told_in_words(phrase_page: Open) -> None:
    page = phrase_page()
    page.locator("#proposals summary").click()
    page.locator("#wish-first").fill("H5")
    page.locator("#propose").click()
    expect(page.locator("#notice, .notice").first).to_contain_text("is not a note")
    page.locator("#wish-first").fill("Eb5")
    page.locator("#onto").fill("Xm7")
    page.locator("#vary").click()
    expect(page.locator("#notice, .notice").first).to_contain_text("Xm7")


def test_a_phrase_that_begins_says_how_to_write_and_lets_the_text_run_on(
    bench: Bench, phrase_page: Open
) -> None:
    (bench.root / "phrases" / "05-new.toml").write_text(
        'title = "New"\nchanges = "C6"\nline = "1/4 c5 - - -"\n'
    )
    page = phrase_page("05-new.toml")
    expect(page.locator("#writing")).to_have_attribute("open", "")
    assert [page.locator(f"#{name}").get_attribute("placeholder") for name in ("metre", "tempo", "feel")] == [
        "4/4", "120", "swing",
    ]  # fmt: skip
    narrow = page.locator("#changes").bounding_box()
    page.locator("#changes .cm-content").click()
    page.keyboard.press("End")
    page.keyboard.type(" | G7 | C6")
    expect(page.locator("#problem")).to_contain_text("The line has 1 bar, the changes have 3 bars.")
    wide = page.locator("#changes").bounding_box()
    assert narrow is not None
    assert wide is not None
    assert wide["width"] > 2 * narrow["width"]
    page.locator("#line .cm-content").click()
    page.keyboard.press("End")
    page.keyboard.type(" | 1/1 b4 | c5")
    expect(page.locator("#problem")).to_have_text("")
    expect(page.locator(".loose")).to_have_count(0)


def test_how_many_findings_there_are_is_said_over_the_score(phrase_page: Open) -> None:
    page = phrase_page("02-slip.toml")
    page.locator("#heard-as a", has_text="1 finding").click()
    expect(page.locator("#findings .finding")).to_be_in_viewport()
