"""The student's page as a student uses it: from the disk, with the network off."""

from collections.abc import Callable, Mapping
from io import BytesIO
from pathlib import Path
from typing import Any

import mido
import pytest
from playwright.sync_api import Page, expect

from practice_opened import TEMPO
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.score.midi_file import smf
from shedbook.sound.track import performance_of
from shedbook.theory.key import Key

Open = Callable[..., Page]
WITHIN_S = 0.010
"""How far an onset of the page may lie from the track's [the project's design]."""
REMEMBERED = """() => practice.progress.store.get("settings").then(
  (kept) => JSON.stringify(kept) === JSON.stringify(practice.chosen))"""
"""Whether the page has stored what was chosen: a reload asked for in the same moment need not find it."""


def struck(
    root: Path, key: str, share: int, count_in: int | None = None
) -> Mapping[str, list[tuple[float, int]]]:
    """Return what a track's MIDI file strikes, by player: seconds and key, as mido reads them."""
    manuscript = open_manuscript(root)
    settings = manuscript.settings.tracks.sound
    phrase = in_key(manuscript.phrases[0].text.phrase(), Key.parse(key))
    order = Order(
        rounds=settings.rounds,
        count_in=count_in or settings.count_in,
        seed=settings.seed,
        tempo_bpm=TEMPO * share // 100,
    )
    file = mido.MidiFile(file=BytesIO(smf(performance_of(phrase, order))))
    found: dict[str, list[tuple[float, int]]] = {}
    names = {0: "line", 1: "bass", 2: "comping", 9: "drums"}
    at = 0.0
    for message in file:
        at += message.time
        if message.type == "note_on" and message.velocity:
            found.setdefault(names[message.channel], []).append((at, message.note))
    return found


def heard(page: Page, rounds: int) -> dict[str, list[tuple[float, int]]]:
    """Play some rounds and return what was sent to the audio clock, from its first stroke on."""
    page.evaluate(
        "(rounds) => new Promise((over) => { practice.chosen.rounds = rounds; const log = [];"
        " practice.play.start().then(() => { const timer = setInterval(() => {"
        " const now = practice.sound.log(); if (now.log.length) log.splice(0, log.length, ...now.log);"
        " if (now.passed.some((one) => one.kind !== 'count' && one.done >= rounds - 1)) {"
        " clearInterval(timer); window.heard = log; over(); } }, 20); }); })",
        rounds,
    )
    log: list[tuple[str, float, int, float]] = page.evaluate(
        "() => { practice.sound.stop(); return window.heard; }"
    )
    first = min(at for _, _, _, at in log)
    found: dict[str, list[tuple[float, int]]] = {}
    for player, _, midi, at in sorted(log, key=lambda one: one[3]):
        found.setdefault(player, []).append((at - first, midi))
    return found


def test_the_band_strikes_when_the_track_does(open_practice: Open, practice_book: Path) -> None:
    """Source of the expectation: the track's own MIDI file (Standard MIDI File 1.0), read by mido."""
    page = open_practice()
    page.evaluate("() => { practice.chosen.share = 100; practice.chosen.key = 'F'; }")
    sent, track = heard(page, 2), struck(practice_book, "F minor", 100)
    zero = min(at for notes in track.values() for at, _ in notes)
    for player, notes in sent.items():
        wanted = [(at - zero, midi) for at, midi in track[player]][: len(notes)]
        assert len(notes) > 8
        for (at, midi), (due, key) in zip(sorted(notes), sorted(wanted), strict=True):
            assert abs(at - due) < WITHIN_S
            assert midi == key


@pytest.mark.parametrize("share", [40, 60, 85, 120])
def test_the_line_swings_at_each_tempo_as_the_track_does(
    open_practice: Open, practice_book: Path, share: int
) -> None:
    """Small unevenness goes by the bar, and a slow track has fewer before it: here both have two."""
    page = open_practice()
    page.evaluate("(share) => { practice.chosen.share = share; practice.chosen.key = 'C'; }", share)
    sent, track = heard(page, 1)["line"], struck(practice_book, "C minor", share, count_in=2)["line"]
    assert [midi for _, midi in sent] == [midi for _, midi in track][: len(sent)]
    for (at, _), (due, _) in zip(sent, track, strict=False):
        assert abs((at - sent[0][0]) - (due - track[0][0])) < WITHIN_S


def test_every_key_of_a_phrase_is_shown_and_played_by_a_pedal(open_practice: Open) -> None:
    page = open_practice()
    names = set()
    page.keyboard.press("Space")
    expect(page.locator("#screen-play .main")).to_have_attribute("aria-pressed", "true")
    for _ in range(3):
        page.keyboard.press("PageDown")
        page.wait_for_function("() => practice.sound.log().sources > 0")
        names.add(page.locator("#screen-play .key-name").inner_text())
        assert page.locator("#screen-play .score svg [id^=sn]").count() == 16
    assert names == {"C minor", "F minor", "B♭ minor"}


def test_the_sounding_note_is_shown(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate(
        "() => { const seen = (window.seen = []); new MutationObserver(() => seen.push("
        "Number(document.querySelector('#screen-play .now').getAttribute('x')))).observe("
        "document.querySelector('#screen-play .score'), "
        "{ attributes: true, subtree: true, attributeFilter: ['x'] });"
        " practice.chosen.share = 120; practice.chosen.rounds = 1; return practice.play.start(); }"
    )
    page.wait_for_function("() => window.seen.length >= 12", timeout=20_000)
    places = page.evaluate(
        "() => practice.play.score().layout().lines.flatMap((line) => line[3].map((one) => one[1] - 190))"
    )
    assert page.evaluate("() => window.seen.slice(0, 12)") == places[:12]


def test_the_score_is_large_and_flows_to_the_width(open_practice: Open) -> None:
    """7 mm on a phone: 43 px at the 153 px an inch of common phones (from memory); a desk has more room."""
    phone = open_practice()
    staff = (
        "() => { const one = practice.play.score().layout();"
        " const { width } = document.querySelector('#screen-play .score svg').getBoundingClientRect();"
        " return [one.bars, 720 * width / one.box[2], document.documentElement.scrollWidth]; }"
    )
    bars, px, wide = phone.evaluate(staff)
    assert bars == 1
    assert px >= 43
    assert wide <= 390
    lying = open_practice(viewport={"width": 844, "height": 390})
    bars, px, _ = lying.evaluate(staff)
    assert bars == 2
    assert px >= 43


def test_a_loop_of_a_bar_goes_round_in_its_length(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate("() => { practice.chosen.share = 120; practice.chosen.heard.count = false; }")
    page.locator("#screen-play .more summary").click()
    page.get_by_label("Round and round").select_option("2")
    sent = heard(page, 3)["line"]
    assert [midi for _, midi in sent[:8]] == [midi for _, midi in sent[8:16]]
    assert abs(sent[8][0] - sent[0][0] - 4 * 60 / (TEMPO * 1.2)) < 0.05


def test_what_goes_round_is_shown_on_the_score(open_practice: Open) -> None:
    page = open_practice()
    page.locator("#screen-play .more summary").click()
    page.get_by_label("Round and round").select_option("2")
    expect(page.locator("#screen-play .score .beside-loop")).to_have_count(1)
    expect(page.locator("#screen-play .score .loop")).to_have_count(2)
    page.get_by_role("button", name="The next key").click()
    expect(page.locator("#screen-play .score .loop")).to_have_count(2)
    page.get_by_label("Round and round").select_option("0")
    expect(page.locator("#screen-play .score .beside-loop, #screen-play .score .loop")).to_have_count(0)


def test_the_mark_reaches_a_note_on_ledger_lines(open_practice: Open) -> None:
    """The lowest note of the phrase, B below middle C, stands on the second ledger line (common practice)."""
    page = open_practice()
    page.evaluate("() => { practice.chosen.key = 'C'; practice.show('play'); return practice.opening; }")
    for note in range(16):
        page.evaluate("(note) => practice.play.score().mark(note)", note)
        top, bottom = page.locator("#screen-play .score .now").evaluate(
            "(one) => { const [y, height] = ['y', 'height'].map((name) => Number(one.getAttribute(name)));"
            " return [y, y + height]; }"
        )
        head, line = page.locator(f"#screen-play .score #sn{note} use").first.evaluate(
            "(one) => { const line = one.closest('svg > g').transform.baseVal;"
            " return [Number(one.getAttribute('y')), line.length ? line.getItem(0).matrix.f : 0]; }"
        )
        assert top + 100 < line + head < bottom - 100
        assert line - 1500 < top
        assert bottom < line + 720 + 700


def test_players_are_left_out_and_a_click_is_put_in(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate("() => practice.play.start()")
    page.wait_for_function("() => practice.sound.log().passed.length > 1")
    page.evaluate(
        "() => { window.struck = []; const real = AudioBufferSourceNode.prototype.start;"
        " AudioBufferSourceNode.prototype.start = function (...all) {"
        " window.struck.push(this.buffer.length); return real.apply(this, all); }; }"
    )
    page.locator("#screen-play .more summary").click()
    for name in ("the line", "bass", "chords", "drums"):
        page.get_by_label(name, exact=True).uncheck()
    page.wait_for_timeout(900)
    page.evaluate("() => { window.struck.length = 0; }")
    page.wait_for_timeout(900)
    assert page.evaluate("() => window.struck.length") == 0
    page.get_by_label("a click on 2 and 4").check()
    page.wait_for_function("() => window.struck.length >= 2")
    page.evaluate("() => practice.sound.stop()")


def test_clean_rounds_make_it_faster_and_another_slower(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate(
        "() => { practice.chosen.share = 100; practice.chosen.faster = 1;"
        " practice.chosen.heard.count = false; return practice.play.start(); }"
    )
    page.wait_for_function("() => practice.chosen.share === 110")
    page.keyboard.press("PageUp")
    page.wait_for_function("() => practice.chosen.share === 105")
    assert page.evaluate("() => practice.sound.playing")
    page.evaluate("() => practice.sound.stop()")


def test_another_instrument_keeps_phrase_and_key(open_practice: Open) -> None:
    page = open_practice()
    page.evaluate("() => { practice.chosen.key = 'F'; practice.show('play'); return practice.opening; }")
    expect(page.locator("#screen-play .key-name")).to_have_text("F minor")
    page.locator("#screen-play .more summary").click()
    page.get_by_label("You read").select_option("eflat")
    expect(page.locator("#screen-play .key-name")).to_have_text("D minor")
    assert page.evaluate("() => practice.chosen.key") == "F"
    page.wait_for_function(REMEMBERED)
    page.reload()
    page.wait_for_function("() => window.practice?.started")
    page.evaluate("() => practice.opening")
    expect(page.locator("#screen-play .key-name")).to_have_text("D minor")


def test_by_ear_the_score_is_covered_and_shown_bar_by_bar(open_practice: Open) -> None:
    page = open_practice("ear")
    covers = page.locator("#screen-ear .cover")
    expect(covers).to_have_count(2)
    page.get_by_role("button", name="Show bar 1").click()
    expect(covers).to_have_count(1)
    page.get_by_role("button", name="Show bar 2").click()
    expect(covers).to_have_count(0)
    page.get_by_role("button", name="Cover it again").click()
    expect(covers).to_have_count(2)


@pytest.mark.parametrize(
    ("hertz", "midi"), [(110.0, 45), (220.0, 57), (440.0, 69), (987.77, 83), (1396.91, 89)]
)
def test_the_ear_hears_tones(open_practice: Open, hertz: float, midi: int) -> None:
    """ISO 16: 440 Hz; the others in equal temperament. The tone has four partials, the first the softest."""
    page = open_practice("ear")
    found = page.evaluate(
        "(hertz) => { const tone = new Float32Array(4096); for (let at = 0; at < tone.length; at += 1)"
        " for (let part = 1; part <= 4; part += 1) "
        " tone[at] += 0.1 * Math.sin(2 * Math.PI * hertz * part * at / 48000 + part) "
        "* (part === 1 ? 0.5 : 1 / part);"
        " return practice.pitchOf(tone, 48000); }",
        hertz,
    )
    assert abs(found - midi) < 0.3


def test_the_ear_hears_nothing_in_noise(open_practice: Open) -> None:
    page = open_practice("ear")
    assert (
        page.evaluate(
            "() => practice.pitchOf(Float32Array.from({ length: 4096 }, () => Math.random() - 0.5), 48000)"
        )
        is None
    )
    assert page.evaluate("() => practice.pitchOf(new Float32Array(4096), 48000)") is None


def test_what_was_heard_in_order_is_found(open_practice: Open) -> None:
    page = open_practice("ear")
    cases: list[tuple[list[int], list[int], list[int]]] = [
        ([60, 62, 64], [60, 62, 64], [0, 1, 2]),
        ([60, 62, 64], [48, 61, 76], [0, 2]),
        ([60, 62, 64, 60], [64, 60], [2, 3]),
        ([60], [], []),
    ]
    for wanted, there, places in cases:
        assert (
            page.evaluate("([wanted, heard]) => [...practice.inOrder(wanted, heard)]", [wanted, there])
            == places
        )


def test_the_microphone_is_used_and_let_go(open_practice: Open) -> None:
    page = open_practice("ear", permissions=["microphone"])
    page.get_by_role("button", name="Let the page listen").click()
    expect(page.get_by_role("button", name="Stop listening")).to_be_visible()
    page.get_by_role("button", name="Stop listening").click()
    expect(page.get_by_role("button", name="Let the page listen")).to_be_visible()


def test_each_sentence_shows_its_notes_and_they_sound(open_practice: Open) -> None:
    page = open_practice("why")
    told: list[tuple[str, list[int]]] = page.evaluate(
        "() => practice.phraseData().then((found) => found.part.why.sentences)"
    )
    sentences = page.locator("#screen-why .sentences button")
    expect(sentences).to_have_count(len(told))
    for place, (text, notes) in enumerate(told):
        expect(sentences.nth(place)).to_have_text(text)
        sentences.nth(place).click()
        expect(page.locator("#screen-why .pointed")).to_have_count(len(notes))
        if notes:
            page.wait_for_function("() => practice.sound.log().sources > 0 || !practice.sound.playing")


def test_a_scale_is_heard_note_by_note(open_practice: Open) -> None:
    page = open_practice("why")
    row = page.locator("#screen-why .notes-row").first
    assert [row.locator("small").nth(at).inner_text() for at in range(3)] == ["1", "♭9", "♭3"]
    page.get_by_role("button", name="Hear the scale").first.click()
    page.wait_for_selector("#screen-why .notes-row .sounding")
    page.evaluate("() => practice.sound.stop()")


def test_a_line_of_ones_own_is_written_by_keys_told_and_kept(open_practice: Open) -> None:
    """D over Dm7b5 is its root, B flat over G7b9 its sharp nine: common practice."""
    page = open_practice("own")
    staff = page.locator(".own-staff")
    staff.focus()
    page.keyboard.press("Enter")
    here = page.locator("#own-here")
    wanted = page.evaluate("() => practice.phraseData().then((found) => found.part.over)")
    assert [span["chord"] for span in wanted["spans"]] == ["Dm7b5", "G7b9"]
    for _ in range(14):
        if "D, 1 of Dm7♭5, a chord tone, a landing at rest" in here.inner_text():
            break
        page.keyboard.press("ArrowDown")
    expect(here).to_contain_text("Bar 1, beat 1: D, 1 of Dm7♭5, a chord tone, a landing at rest")
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    for _ in range(20):
        if "♯9 of G7♭9" in here.inner_text():
            break
        page.keyboard.press("Shift+ArrowUp")
    expect(here).to_contain_text("♯9 of G7♭9, a note of the scale, a landing on a colour")
    expect(page.locator(".own-staff [data-note]")).to_have_count(2)
    page.get_by_role("button", name="Hear your line").click()
    page.wait_for_function("() => practice.sound.log().sources > 0")
    page.evaluate("() => practice.sound.stop()")
    page.wait_for_function(
        "() => practice.progress.store.get('own low-tide').then((found) => found?.notes.length === 2)"
    )
    page.reload()
    page.wait_for_function("() => window.practice?.started")
    page.evaluate("() => practice.opening")
    expect(page.locator(".own-staff [data-note]")).to_have_count(2)


def test_a_line_of_ones_own_sounds_alike_for_another_instrument(open_practice: Open) -> None:
    page = open_practice("own")
    page.locator(".own-staff").focus()
    page.keyboard.press("Enter")
    kept = "() => practice.progress.store.get('own low-tide').then((found) => found.notes)"
    before: list[Any] = page.evaluate(kept)
    page.evaluate(
        "() => { practice.chosen.instrument = 'eflat'; practice.show('own'); return practice.opening; }"
    )
    page.locator(".own-staff").focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowDown")
    assert page.evaluate(kept) == before


def test_a_missing_file_is_said_in_words(open_practice: Open, practice_folder: Path) -> None:
    page = open_practice()
    said = page.evaluate("() => practice.load('scores/concert/none').catch((error) => error.message)")
    assert said == "scores/concert/none.js is missing from the folder of this page. Copy the whole folder."


def test_a_plan_that_runs_says_what_comes_next_and_what_was_played(open_practice: Open) -> None:
    """The agreement of docs/practice-page.md, with a plan and a store that stand in for the page's own."""
    page = open_practice()
    page.evaluate(
        "() => { const asked = [{ phrase: '02-slip', key: 'F', tempo: 60 }, null]; window.told = [];"
        " const stands = { running: true, next: () => asked.shift() };"
        " const get = (real, name) => stands[name] ?? real[name];"
        " practice.schedule = new Proxy(practice.schedule, { get });"
        " practice.progress.played = (one) => window.told.push(one);"
        " Object.assign(practice.chosen, { share: 120, key: 'C' }); practice.chosen.heard.count = false;"
        " return practice.play.start(); }"
    )
    page.wait_for_function("() => window.told.length > 0", timeout=20_000)
    first = page.evaluate("() => window.told[0]")
    assert first == {"phrase": "low-tide", "key": "C", "tempo": 288, "rounds": 1}
    page.keyboard.press("PageDown")
    expect(page.locator("#screen-play .phrase-name")).to_have_text("2 · A slip")
    expect(page.locator("#screen-play .key-name")).to_have_text("F major")
    assert page.evaluate("() => practice.chosen.share") == 50
    page.wait_for_function("() => practice.sound.playing")
    page.evaluate(
        "() => { practice.shown_plan = false; const real = practice.show; practice.show = (name) => {"
        " if (name === 'plan') practice.shown_plan = true; else real(name); }; }"
    )
    page.keyboard.press("PageDown")
    page.wait_for_function("() => practice.shown_plan && !practice.sound.playing")


def test_any_key_is_two_touches_away(open_practice: Open) -> None:
    page = open_practice()
    page.locator("#screen-play .key-name").click()
    page.get_by_role("button", name="B♭ minor").click()
    expect(page.locator("#screen-play .key-name")).to_have_text("B♭ minor")
    expect(page.locator("dialog")).to_have_count(0)


def test_a_part_is_asked_for_once(open_practice: Open) -> None:
    page = open_practice()
    page.get_by_role("button", name="E♭ edition").click()
    expect(page.locator("#screen-play .key-name")).to_have_text("A minor")
    page.wait_for_function(REMEMBERED)
    page.reload()
    page.wait_for_function("() => window.practice?.started")
    expect(page.locator(".asked")).to_have_count(0)


def test_the_browser_decodes_every_note_where_the_table_says(open_practice: Open) -> None:
    """Before a note there is silence, and within 60 ms it sounds: the click tells the decoder's own delay."""
    page = open_practice()
    wrong = page.evaluate(
        "async () => { const wrong = [];"
        " const loud = (samples, from, to) =>"
        " samples.subarray(from, to).reduce((most, one) => Math.max(most, Math.abs(one)), 0);"
        " for (const name of Object.keys(practice.book.sounds.instruments)) {"
        " const { buffer, row, shift } = await practice.sound.instrument(name);"
        " const samples = buffer.getChannelData(0);"
        " const at = (s) => Math.round((s + shift) * buffer.sampleRate);"
        " if (Math.abs(shift) > 0.08) wrong.push([name, shift]);"
        " for (const [midi, start] of row.notes) {"
        " if (loud(samples, at(start - 0.03), at(start - 0.008)) > 0.03) wrong.push([name, midi, 'early']);"
        " if (loud(samples, at(start), at(start + 0.06)) < 0.01) wrong.push([name, midi, 'late']); } }"
        " return wrong; }"
    )
    assert wrong == []
