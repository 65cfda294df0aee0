"""A recorded track as the sound: from the disk, with the network off, by tracks of silence.

A browser gives no page from the disk the samples of an audio file, so what is looked at is the element's own
clock and what the page shows beside it.
"""

import shutil
import wave
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from practice_opened import TEMPO
from shedbook.book.practice.packing import packed_script
from shedbook.book.practice.tracks_beside import BesideTrack, tracks_script

BEAT_MS = 60_000 // TEMPO
BAR_MS = 4 * BEAT_MS
ROUNDS = (BAR_MS, 5 * BAR_MS, 9 * BAR_MS, 11 * BAR_MS)
"""A bar counted in; three rounds of two bars, the empty bars of a short phrase after the first two."""
NOTES = [number for index in range(16) for number in (index * BEAT_MS // 2, BEAT_MS // 3, index)]
TIMED = [{"bar": BAR_MS, "rounds": list(ROUNDS), "notes": [NOTES] * 3}]
SEEN = """() => { window.seen = []; window.over = []; window.played = [];
  const score = practice.play.score(); const mark = score.mark;
  score.mark = (note) => { window.seen.push([note, window.played.at(-1)?.currentTime]); mark(note); };
  const real = practice.progress.played;
  practice.progress.played = (one) => { window.over.push(performance.now()); return real(one); };
  const play = HTMLMediaElement.prototype.play;
  HTMLMediaElement.prototype.play = function () { window.played.push(this); return play.call(this); }; }"""


def silent(path: Path) -> None:
    """Write so much silence as the track lasts."""
    path.parent.mkdir(exist_ok=True)
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(1)
        file.setframerate(8000)
        file.writeframes(b"\x80" * (8 * (ROUNDS[-1] + BAR_MS)))


@pytest.fixture(scope="module")
def beside(practice_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page with tracks beside it: in C at two tempos and one by heart, in F one that is missing."""
    folder = shutil.copytree(practice_folder, tmp_path_factory.mktemp("beside") / "page")
    for name in ("own", "slow", "mine"):
        silent(folder.parent / f"tracks/{name}.wav")
    tracks = (
        BesideTrack("C", "demonstration", 100.0, "", ("tracks/own.wav",), 0),
        BesideTrack("C", "demonstration", 50.0, "", ("tracks/slow.wav",), 0),
        BesideTrack("C", "play-along", 100.0, "", ("tracks/mine.wav",), -1),
        BesideTrack("F", "demonstration", 100.0, "", ("tracks/nowhere.wav",), 0),
    )
    (folder / "tracks.js").write_text(tracks_script({"low-tide": tracks}), encoding="utf-8")
    (folder / "timed").mkdir()
    (folder / "timed/low-tide.js").write_text(packed_script("timed/low-tide", TIMED), encoding="utf-8")
    book = (folder / "book.js").read_text(encoding="utf-8")
    assert '"tracks":false' in book
    (folder / "book.js").write_text(book.replace('"tracks":false', '"tracks":true'), encoding="utf-8")
    return folder


@pytest.fixture
def device(browser: Browser) -> Iterator[BrowserContext]:
    """A device of its own for each test: one that was used before still has what was chosen there."""
    with browser.new_context(
        viewport={"width": 390, "height": 844}, offline=True, reduced_motion="reduce"
    ) as found:
        yield found


@pytest.fixture
def page(device: BrowserContext, beside: Path) -> Page:
    found = device.new_page()
    found.goto((beside / "index.html").as_uri())
    found.wait_for_function("() => window.practice?.started")
    found.evaluate("() => { practice.chosen.instrument = 'concert'; practice.chosen.key = 'C'; }")
    found.evaluate("() => { practice.show('play'); return practice.opening; }")
    found.locator("#screen-play .more summary").click()
    found.evaluate(SEEN)
    return found


def chosen(page: Page, source: str, **other: object) -> None:
    page.get_by_label("The sound comes from").select_option(source)
    page.evaluate("(other) => Object.assign(practice.chosen, other)", other)


def test_a_track_is_offered_where_it_lies_beside_the_page_alone(page: Page) -> None:
    choice = page.get_by_label("The sound comes from")
    expect(choice.locator("option")).to_have_text(
        ["this page", "the track: demonstration", "the track: play-along"]
    )
    page.get_by_role("button", name="The next key").click()
    page.wait_for_function("() => practice.recorded.offered('low-tide', 'F').then((found) => !found.length)")
    expect(choice).to_be_hidden()
    page.evaluate("() => { practice.chosen.source = 'demonstration'; return practice.play.start(); }")
    page.wait_for_function("() => practice.sound.log().sources > 0")
    assert page.evaluate("() => window.played.length") == 0
    page.evaluate("() => practice.sound.stop()")


def test_the_track_sounds_at_the_tempo_without_a_change_of_pitch(page: Page) -> None:
    """At 60 % the track of 50 % is the nearest, a little faster; at 90 % that of the phrase's own tempo."""
    chosen(page, "demonstration", share=60)
    expect(page.get_by_label("bass", exact=True)).to_be_disabled()
    page.evaluate("() => practice.play.start()")
    told = (
        "() => { const one = window.played.at(-1);"
        " return [one.src.split('/').pop(), one.playbackRate, one.preservesPitch]; }"
    )
    assert page.evaluate(told) == ["slow.wav", 1.2, True]
    assert page.evaluate("() => practice.sound.setShare(55)")
    assert page.evaluate(told) == ["slow.wav", 1.1, True]
    assert not page.evaluate("() => practice.sound.setShare(90)")
    page.evaluate("() => { practice.chosen.share = 90; return practice.play.start(); }")
    assert page.evaluate(told) == ["own.wav", 0.9, True]
    page.evaluate("() => practice.sound.stop()")
    assert page.evaluate("() => window.played.every((one) => one.paused)")


def test_the_sounding_note_is_shown_in_step_after_the_count_in(page: Page) -> None:
    chosen(page, "demonstration", share=100)
    page.evaluate("() => practice.play.start()")
    page.wait_for_function("() => window.seen.some(([note]) => note === 6)")
    page.evaluate("() => practice.sound.stop()")
    shown = [(note, at) for note, at in page.evaluate("() => window.seen") if note >= 0]
    assert [note for note, _ in shown] == list(range(len(shown)))
    for note, at in shown:
        due = (BAR_MS + note * BEAT_MS / 2) / 1000
        assert due <= at < due + BEAT_MS / 3000


def test_a_bar_of_a_track_goes_round_in_its_length(page: Page) -> None:
    """Two elements take turns, and the page learns how long one takes to begin."""
    chosen(page, "demonstration", share=120, heard={"count": False}, rounds=4)
    page.get_by_label("Round and round").select_option("2")
    page.evaluate("() => practice.play.start()")
    page.wait_for_function("() => window.over.length === 3", timeout=10_000)
    page.evaluate("() => practice.sound.stop()")
    assert {note for note, _ in page.evaluate("() => window.seen")} == {-1, *range(8, 16)}
    over: list[float] = page.evaluate("() => window.over")
    assert all(abs(late - early - BAR_MS / 1.2) < 120 for early, late in pairwise(over))


def test_after_the_rounds_that_were_asked_for_the_next_key_comes(page: Page) -> None:
    chosen(page, "demonstration", share=120, rounds=1)
    page.evaluate("() => practice.play.start()")
    page.wait_for_function("() => practice.chosen.key === 'F'", timeout=10_000)
    assert page.evaluate("() => window.over.length") == 1
    page.evaluate("() => practice.sound.stop()")


def test_a_recording_plays_whole_and_shows_no_note(page: Page) -> None:
    chosen(page, "play-along", share=100)
    expect(page.get_by_label("Round and round")).to_be_disabled()
    page.evaluate("() => practice.play.start()")
    page.evaluate("() => { window.played[0].currentTime = 11.9; }")
    page.wait_for_function("() => window.over.length === 1")
    assert {note for note, _ in page.evaluate("() => window.seen")} <= {-1}
    assert page.evaluate("() => practice.sound.playing")
    page.evaluate("() => practice.sound.stop()")
