"""A recording of the phrase in the browser: dropped, chosen, from the microphone; what stands over the score.

The sounds are sums of partials made here, with nothing of any SoundFont; which note is wrong, missing or
extra is known by construction. axe-core (Deque, MPL-2.0) is an oracle from outside.
"""

import tomllib
import urllib.error
import urllib.request
import wave
from base64 import b64encode
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Route, expect

from listen.tones import RATE, Tone, tones_of, written
from one_browser import CHROMIUM, FLAGS, MICROPHONE
from shedbook.phrase.fields import phrase_from_fields
from workbench_served import PHRASES, SETTINGS, Bench, alive, children, until

Open = Callable[..., Page]
LISTENS_MS = 60_000
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
_DROP = """([name, type, text]) => {
  const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
  const dataTransfer = new DataTransfer();
  dataTransfer.items.add(new File([bytes], name, { type }));
  document.querySelector("main").dispatchEvent(
    new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
}"""


def tones(name: str = "01-low-tide.toml", *, moved: int = 0) -> list[Tone]:
    return tones_of(phrase_from_fields(tomllib.loads(PHRASES[name])), moved=moved)


def raised(played: Sequence[Tone], note: int, by: float = 1.0) -> list[Tone]:
    return [(start, end, midi + by * (at == note)) for at, (start, end, midi) in enumerate(played)]


def drop(page: Page, path: Path, kind: str = "audio/wav") -> None:
    page.evaluate(_DROP, [path.name, kind, b64encode(path.read_bytes()).decode()])


def heard(page: Page, times: int = 1) -> None:
    expect(page.locator("body")).to_have_attribute("data-heard", str(times), timeout=LISTENS_MS)


def marks(page: Page) -> list[str]:
    return page.locator("#score .heard").all_inner_texts()


@pytest.fixture(autouse=True)
def as_at_first(bench: Bench) -> Iterator[None]:
    yield
    (bench.root / "manuscript.toml").write_text(SETTINGS, encoding="utf-8")


def test_a_dropped_recording_marks_the_wrong_note_over_the_score(phrase_page: Open, tmp_path: Path) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "first try.wav", raised(tones(), 5)))
    heard(page)
    expect(page.locator("#took-told")).to_contain_text("1 note that is not as written")
    expect(page.locator("#took-told")).to_contain_text("Bar 1, beat 3½: G♭ in place of F.")
    expect(page.locator("#took-told")).to_contain_text("A4 at 440.0 Hz")
    expect(page.locator("#took-told")).to_contain_text("Tempo: 120")
    assert marks(page) == ["wrong: G♭"]
    cross, note = (
        page.locator("#score path.wrong").bounding_box(),
        page.locator("#sn5 use").bounding_box(),
    )
    assert cross is not None
    assert note is not None
    assert abs(cross["x"] + cross["width"] / 2 - note["x"] - note["width"] / 2) < 2
    assert abs(cross["y"] + cross["height"] / 2 - note["y"] - note["height"] / 2) < 2
    described = page.locator('.reed[data-note="5"]').get_attribute("aria-describedby")
    expect(page.locator(f"#{described}")).to_contain_text("G♭ in place of F")
    page.get_by_role("button", name="Show the note: Bar 1, beat 3½").click()
    expect(page.locator('.reed[data-note="5"]')).to_be_focused()
    assert Axe().run(page, options=RULES).response["violations"] == []


def test_missing_and_extra_notes_in_another_key_are_named_as_the_score_has_them(
    phrase_page: Open, tmp_path: Path
) -> None:
    """Played a whole step up: C5, the note 2, left out; an F sharp put into the half rest of bar 3."""
    page = phrase_page()
    played = [one for at, one in enumerate(tones(moved=2)) if at != 2]
    after = played[16]  # what was note 17, the quarter before the rest
    played.insert(17, (after[1] + 0.05, after[1] + 0.4, 66.0))
    page.locator("#took summary").click()
    page.locator("#took-file").set_input_files(written(tmp_path / "up.wav", played))
    heard(page)
    assert sorted(marks(page)) == ["extra: E", "missing"]
    expect(page.locator("#took-told")).to_contain_text("It was played in D minor")
    expect(page.locator("#took-told")).to_contain_text("Bar 1, beat 2: D is missing.")


def test_every_kind_of_mark_has_its_word_and_its_sign(phrase_page: Open, tmp_path: Path) -> None:
    """The answer is changed on its way, so that each kind is there; one before the first note, two at one."""
    page = phrase_page(color_scheme="dark")
    said = [
        {"kind": kind, "note": note, "name": name, "says": f"{kind} {note}"}
        for kind, note, name in (
            ("extra", -1, "Bb"), ("wrong", 0, "F#"), ("unsure", 1, ""), ("missing", 8, ""), ("extra", 8, "C"),
        )
    ]  # fmt: skip

    def changed(route: Route) -> None:
        answer = route.fetch()
        found = answer.json()
        found["takes"][0]["marks"] = said
        route.fulfill(response=answer, json=found)

    page.route("**/api/listen", changed)
    drop(page, written(tmp_path / "take.wav", tones()))
    heard(page)
    assert marks(page) == ["extra: B♭", "wrong: F♯", "hard to hear", "missing", "extra: C"]
    boxes = [one.bounding_box() for one in page.locator("#score .heard").all()]
    for at, one in enumerate(boxes):
        for two in boxes[at + 1 :]:
            assert one is not None
            assert two is not None
            apart = one["x"] + one["width"] <= two["x"] or two["x"] + two["width"] <= one["x"]
            assert apart or abs(one["y"] - two["y"]) >= one["height"] - 1, (one, two)
    shapes = page.locator("#score .heard-signs path").evaluate_all(
        "(all) => all.map((one) => [getComputedStyle(one).strokeDasharray, getComputedStyle(one).fill])"
    )
    assert len(shapes) == len(said)
    assert len({str(shape) for shape in shapes}) == 4  # told apart by dashes and filling, whatever the colour
    described = page.locator('.reed[data-note="8"]').get_attribute("aria-describedby")
    assert described == "heard-3 heard-4"
    assert Axe().run(page, options=RULES).response["violations"] == []


def test_marks_go_when_the_line_changes_and_when_the_recording_is_put_away(
    phrase_page: Open, tmp_path: Path
) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "take.wav", raised(tones(), 5)))
    heard(page)
    assert marks(page) == ["wrong: G♭"]
    page.locator('.reed[data-note="5"]').focus()
    page.keyboard.press("Alt+ArrowUp")  # the line is written as it was played
    expect(page.locator("#took-changed")).to_be_visible()
    assert marks(page) == []
    page.locator("#took-changed button").click()
    heard(page, 2)
    expect(page.locator("#took-told")).to_contain_text("every note is as written")
    page.locator("#took-away").click()
    expect(page.locator("#took-done")).to_be_hidden()


def test_the_recording_itself_is_heard(phrase_page: Open, tmp_path: Path) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "take.wav", tones()))
    heard(page)
    page.evaluate(
        "() => { window.playing = []; const { prototype } = HTMLMediaElement; const { play } = prototype;"
        " prototype.play = function () { window.playing.push(this); return play.call(this); }; }"
    )
    page.locator("#took-hear").click()
    expect(page.locator("#took-hear")).to_have_text("Stop it")
    page.wait_for_function("() => window.playing[0].currentTime > 0.2")
    assert page.evaluate("() => window.playing[0].duration") == pytest.approx(tones()[-1][1] + 0.5, abs=0.05)
    page.locator("#took-hear").click()
    expect(page.locator("#took-hear")).to_have_text("Hear it")
    assert page.evaluate("() => window.playing[0].paused")


def test_another_phrase_is_said_to_be_that(phrase_page: Open, tmp_path: Path) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "other.wav", tones("02-slip.toml")))
    heard(page)
    expect(page.locator("#took-told")).to_contain_text("This sounds like phrase 2, “A slip”")
    expect(page.locator("#took-told a")).to_have_attribute(
        "href", "/phrase?file=phrases%2F02-slip.toml&index=0"
    )
    expect(page.locator("#took-keep")).to_be_hidden()
    assert marks(page) == []


def test_a_text_named_wav_and_silence_are_told_in_words(phrase_page: Open, tmp_path: Path) -> None:
    page = phrase_page()
    text = tmp_path / "notes.wav"
    text.write_text("c d e f g a b c, and then some words\n" * 40)
    drop(page, text)
    expect(page.locator("#took-said")).to_contain_text("notes.wav is no recording that can be read")
    expect(page.locator("#took-said")).to_contain_text("WAV, FLAC, MP3")
    silent = written(tmp_path / "silent.wav", [(0.0, 0.1, 0.0)])
    with wave.open(str(silent), "wb") as file:
        file.setparams((1, 2, RATE, 0, "NONE", ""))
        file.writeframes(bytes(2 * RATE * 2))
    drop(page, silent)
    expect(page.locator("#took-said")).to_contain_text("silen", timeout=LISTENS_MS)
    assert marks(page) == []


def test_a_take_is_filed_only_when_asked_and_replaced_only_when_asked(
    bench: Bench, phrase_page: Open, tmp_path: Path
) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "good.wav", tones()))
    heard(page)
    assert not (bench.root / "media").exists()
    assert (bench.root / "manuscript.toml").read_text() == SETTINGS
    page.locator("#took-keep").click()
    expect(page.locator("#took-kept")).to_contain_text("Kept as media/", timeout=LISTENS_MS)
    (entry,) = tomllib.loads((bench.root / "manuscript.toml").read_text())["tracks"]["recordings"]
    filed = bench.root / entry["file"]
    before = filed.stat().st_mtime_ns
    assert filed.stat().st_size > 100_000
    drop(page, written(tmp_path / "better.wav", tones()))
    heard(page, 2)
    page.locator("#took-keep").click()
    expect(page.locator("#took-kept")).to_contain_text("has a recording of this phrase", timeout=LISTENS_MS)
    assert filed.stat().st_mtime_ns == before
    page.locator("#took-kept button").click()
    expect(page.locator("#took-kept")).to_contain_text("Kept as media/", timeout=LISTENS_MS)
    assert filed.stat().st_mtime_ns > before


def test_what_was_played_is_written_down_and_put_in_place_of_the_line(
    bench: Bench, phrase_page: Open, tmp_path: Path
) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "take.wav", raised(tones(), 5)))
    heard(page)
    page.locator("#took-tempo").fill("120")
    page.locator("#took-write").click()
    draft = page.locator("#took-drafts li")
    expect(draft).to_have_count(1, timeout=LISTENS_MS)
    expect(draft.locator("svg").last).to_be_visible()
    before = page.evaluate("() => document.body.dataset.seen")
    draft.get_by_role("button", name="Write it here").click()
    page.wait_for_function("(before) => document.body.dataset.seen !== before", arg=before)
    page.wait_for_function("() => document.body.dataset.kept === 'true'")
    phrase = phrase_from_fields(tomllib.loads(bench.text()))
    was = phrase_from_fields(tomllib.loads(PHRASES["01-low-tide.toml"]))
    assert [one.chord.text for one in phrase.changes] == [one.chord.text for one in was.changes]
    assert [round(one[2]) for one in tones_of(phrase)] == [round(one[2]) for one in raised(tones(), 5)]


@pytest.fixture
def microphone_page(bench: Bench, browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """A page of a Chromium whose microphone hears a recording, over and over."""
    hears = written(tmp_path / "microphone.wav", raised(tones(), 5))
    flags = [
        *FLAGS, *MICROPHONE,
        f"--use-file-for-fake-audio-capture={hears}%noloop",
    ]  # fmt: skip
    listening = browser.browser_type.launch(executable_path=CHROMIUM, args=flags)
    page = listening.new_page()
    page.goto(f"{bench.address}/phrase?file=phrases/01-low-tide.toml&index=0")
    page.wait_for_selector(".reed")
    yield page
    listening.close()


def test_the_microphone_is_opened_when_asked_and_what_it_hears_is_marked(microphone_page: Page) -> None:
    page = microphone_page
    page.evaluate(
        "() => { const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);"
        " window.opened = []; navigator.mediaDevices.getUserMedia = async (wanted) => {"
        " const found = await open(wanted); window.opened.push(found); return found; }; }"
    )
    page.locator("#took summary").click()
    assert page.evaluate("() => window.opened.length") == 0
    page.locator("#took-record").click()
    expect(page.locator("#took-said")).to_have_text("Recording. Play.")
    expect(page.locator("#took-clock")).to_contain_text("0:09", timeout=20_000)
    page.locator("#took-stop").click()
    heard(page)
    assert page.evaluate(
        "() => window.opened.flatMap((one) => one.getTracks()).map((one) => one.readyState)"
    ) == ["ended"]
    expect(page.locator("#took-told")).to_contain_text("G♭ in place of F")
    assert "wrong: G♭" in marks(page)


def test_a_refused_microphone_is_told_in_words(bench: Bench, phrase_page: Open) -> None:
    page = phrase_page()  # this browser has no device, and gives no leave
    page.locator("#took summary").click()
    page.locator("#took-record").click()
    expect(page.locator("#took-said")).to_contain_text("gave no microphone")
    expect(page.locator("#took-record")).to_be_enabled()


def test_a_recording_has_a_size_that_it_may_have(bench: Bench) -> None:
    request = urllib.request.Request(
        f"{bench.address}/api/recording?name=long.wav",
        bytes(100_000_001),
        {"content-type": "application/octet-stream", "origin": bench.address},
    )
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(request)
    assert refused.value.code == 413
    refused.value.close()


def test_listening_that_takes_long_ends_when_it_is_put_away(
    bench: Bench, phrase_page: Open, tmp_path: Path
) -> None:
    page = phrase_page()
    drop(page, written(tmp_path / "take.wav", tones()))
    heard(page)
    workers = set(children(bench.process.pid))
    played = [
        (start + 9.5 * turn, end + 9.5 * turn, midi) for turn in range(30) for start, end, midi in tones()
    ]
    page.locator("#took-file").set_input_files(written(tmp_path / "evening.wav", played))
    expect(page.locator("#took-name")).to_have_text("evening.wav", timeout=LISTENS_MS)
    expect(page.locator("#took-said")).to_have_text("Listening to it …")
    page.locator("#took-away").click()
    until(lambda: sum(not alive(pid) for pid in workers) == 1)
    expect(page.locator("#took-done")).to_be_hidden()
    expect(page.locator("#notice")).to_be_hidden()
    expect(page.locator("#took-said")).to_have_text("")
    drop(page, written(tmp_path / "again.wav", tones()))
    expect(page.locator("#took-told")).to_contain_text("every note is as written", timeout=LISTENS_MS)


@pytest.mark.parametrize("width", [390, 320])
def test_a_telephones_width_needs_no_sideways_scrolling(
    phrase_page: Open, tmp_path: Path, width: int
) -> None:
    """WCAG 2.2, 1.4.10: content reflows at 320 CSS pixels."""
    page = phrase_page(viewport={"width": width, "height": 780})
    drop(page, written(tmp_path / "take.wav", raised(raised(tones(), 5), 6)))
    heard(page)
    assert len(marks(page)) >= 1
    assert page.evaluate("() => document.documentElement.scrollWidth <= innerWidth + 1")
