"""Notes played into the search of the book: from a MIDI keyboard, by the microphone, and where there is none.

The keyboard is one that the page is given, as Web MIDI (W3C) describes it; the microphone is Chromium's own
stand-in, which hears a file made here. Which phrases hold the notes is known by construction.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from listen.tones import written
from one_browser import CHROMIUM, FLAGS, MICROPHONE
from workbench_served import MIDI, Bench, play

Open = Callable[..., Page]
NO_OUTPUT = "window.AudioContext = class { constructor() { throw new Error('no output'); } };"


def open_book(bench: Bench, open_page: Open, before: str) -> Page:
    return open_page(bench.address + "/", wait="#phrases > li", before=before)


def test_notes_of_a_midi_keyboard_write_themselves_into_the_search(bench: Bench, open_page: Open) -> None:
    page = open_book(bench, open_page, MIDI + NO_OUTPUT)
    field, found = page.locator("#find-notes"), page.locator("#phrases h2")
    page.locator("#find-midi").click()
    expect(page.locator("#find-said")).to_contain_text("Listening to A keyboard. A pause of three seconds")
    for midi in (57, 60, 64, 67, 66):  # f4 ab c5 eb d, a minor sixth lower
        play(page, midi)
        play(page, midi, on=False)
    expect(field).to_have_value("a3 c4 e4 g4 gb4")
    expect(found).to_have_text(["Low tide", "A slip"], timeout=30_000)  # a worker begins
    for midi, later_ms in ((76, 5_000), (72, 5_400), (73, 5_800)):  # as e5 c c# stand in the last
        play(page, midi, later_ms=later_ms)
    expect(field).to_have_value("e5 c5 db5")
    expect(found).to_have_text(["Turn"])
    page.keyboard.press("Escape")
    expect(field).to_have_value("")
    expect(found).to_have_count(4)
    play(page, 60, later_ms=6_000)
    expect(field).to_have_value("c4")
    page.locator("#find-midi").click()
    expect(page.locator("#find-midi")).to_have_attribute("aria-pressed", "false")
    assert page.evaluate("() => midiInput.onmidimessage") is None


@pytest.mark.parametrize(
    ("before", "said", "pressed"),
    [
        ("navigator.requestMIDIAccess = undefined;", "gives this page no MIDI keyboard", "false"),
        ("navigator.requestMIDIAccess = async () => { throw 0; };", "does not let this page", "false"),
        ("navigator.requestMIDIAccess = async () => ({ inputs: new Map() });", "plug one in", "true"),
    ],
)
def test_no_keyboard_is_said_plainly(
    bench: Bench, open_page: Open, before: str, said: str, pressed: str
) -> None:
    page = open_book(bench, open_page, before)
    page.locator("#find-midi").click()
    expect(page.locator("#find-said")).to_contain_text(said)
    expect(page.locator("#find-midi")).to_have_attribute("aria-pressed", pressed)


def test_no_microphone_is_said_plainly(bench: Bench, open_page: Open) -> None:
    page = open_book(bench, open_page, "")  # this browser has no device, and gives no leave
    page.locator("#find-microphone").click()
    expect(page.locator("#find-said")).to_contain_text("gave no microphone")
    expect(page.locator("#find-microphone")).to_be_enabled()


@pytest.fixture
def microphone_page(bench: Bench, browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """The book in a Chromium whose microphone hears e c c# of the last phrase, a fourth lower."""
    tones = [(0.4 + 0.4 * at, 0.75 + 0.4 * at, float(midi)) for at, midi in enumerate((71, 67, 68))]
    hears = written(tmp_path / "microphone.wav", tones)
    flags = [*FLAGS, *MICROPHONE, f"--use-file-for-fake-audio-capture={hears}%noloop"]
    listening = browser.browser_type.launch(executable_path=CHROMIUM, args=flags)
    page = listening.new_page()
    page.goto(bench.address + "/")
    page.wait_for_selector("#phrases > li")
    yield page
    listening.close()


def test_notes_through_the_microphone_are_written_where_they_can_be_mended(microphone_page: Page) -> None:
    page = microphone_page
    button = page.locator("#find-microphone")
    button.click()
    expect(button).to_have_text("Stop, and find it")
    page.wait_for_function(
        "() => document.querySelector('#find-clock').textContent.startsWith('2')", timeout=9_000
    )
    button.click()
    expect(page.locator("#find-notes")).to_have_value("b4 g4 ab4", timeout=30_000)
    expect(page.locator("#find-notes")).to_be_focused()
    expect(page.locator("#find-said")).to_contain_text("3 notes were heard")
    expect(page.locator("#phrases h2")).to_have_text(["Turn"])
    page.locator("#find-notes").fill("b4 g4 a4")
    expect(page.locator("#phrases h2")).to_have_count(0)
