"""What the student's page weighs and how it runs: sizes, first screen, frames, memory, onsets as they sound.

    python -m benchmarks.practice_page out/my-book-practice [--minutes 60]

The page is opened from the disk in the Chromium of the system, the network off. With `--minutes` it plays for
so long, going from key to key, and tells its memory every minute.
"""

from __future__ import annotations

import argparse
import base64
import shutil
import statistics
import time
from pathlib import Path

import numpy as np
from playwright.sync_api import Browser, Page, sync_playwright

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.phrase.model import sounding_notes
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.track import Sound, performance_of, samples_of

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-sync",
    "--autoplay-policy=no-user-gesture-required", "--enable-precise-memory-info",
)  # fmt: skip
LOADS, FRAMES_S, HEARD_S, LATE_MS = 7, 15, 15, 25
DEMO = Path(__file__).parents[1] / "examples/tidewater"
LINES, EASY_BPM = 12, 80
PLAYERS = ("clarinet", "trumpet", "tenor saxophone", "flute", "guitar", "piano")
FOLDERS = ("scores", "played", "sounds")

TAP = """(() => {
  const real = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to === this.context.destination && !this.context.tapped && this.context instanceof AudioContext) {
      this.context.tapped = true;
      const tap = this.context.createScriptProcessor(4096, 2, 1);
      window.taken = [];
      tap.onaudioprocess = (event) => {
        const samples = event.inputBuffer.getChannelData(0);
        const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
        const power = samples.reduce((sum, one) => sum + one * one, 0) / samples.length;
        window.taken.push([peak, power]);
      };
      real.call(this, tap);
      real.call(tap, to);
    }
    return real.call(this, to, ...rest);
  };
})();"""
"""Measures what goes to the loudspeakers."""

PAINTED = """() => new Promise((done) =>
  requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))))"""
BEGUN = """async () => {
  const begun = performance.now();
  await practice.play.start();
  return performance.now() - begun;
}"""
GAPS = """async (seconds) => {
  practice.chosen.heard.count = false;
  await practice.play.start();
  const gaps = [];
  let last = null;
  const begun = performance.now();
  await new Promise((over) => {
    const frame = (at) => {
      if (last !== null) gaps.push(at - last);
      last = at;
      if (performance.now() - begun > seconds * 1000) over();
      else requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
  practice.sound.stop();
  return gaps;
}"""
ROUND_AND_ROUND = """() => {
  Object.assign(practice.chosen, { share: 120, rounds: 2 });
  practice.chosen.heard.count = false;
  return practice.play.start();
}"""
EVERYBODY = """async () => {
  practice.chosen.share = 100;
  practice.chosen.heard = { line: true, bass: true, comping: true, drums: true, click: true, count: true };
  await practice.play.start();
}"""

HEARD = """([content, midi]) => {
  const samples = new Float32Array(practice.bytes(content).buffer);
  const loudest = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const heard = practice.notesIn(samples.map((one) => (0.3 * one) / loudest), 48000);
  return [practice.inOrder(midi, heard).size, heard.length];
}"""


def opened(browser: Browser, folder: Path, *, tap: bool = False) -> Page:
    """Open the page on a screen of a phone, and wait for the first score."""
    page = browser.new_context(viewport={"width": 390, "height": 844}, offline=True).new_page()
    if tap:
        page.add_init_script(TAP)
    page.goto((folder / "index.html").as_uri())
    page.wait_for_selector("#screen-play .score svg")
    return page


def weight(folder: Path) -> int:
    """Return how many bytes a folder holds."""
    return sum(path.stat().st_size for path in folder.rglob("*") if path.is_file())


def sizes(folder: Path) -> None:
    """Tell how large the folder is, and what 65 phrases would be."""
    parts = {name: weight(folder / name) for name in FOLDERS}
    whole, phrases = weight(folder), len(list((folder / "played").iterdir()))
    told = ", ".join(f"{name} {size / 1e6:.2f}" for name, size in parts.items())
    print(f"{phrases} phrases, {whole / 1e6:.2f} MB: {told}")
    a_phrase = (parts["scores"] + parts["played"]) / phrases
    wanted = (whole + (65 - phrases) * a_phrase) / 1e6
    print(f"a phrase in all its keys {a_phrase / 1e3:.0f} kB; 65 phrases would be {wanted:.1f} MB")


def first_screen(browser: Browser, folder: Path) -> None:
    """Tell the time from the start of navigation to the paint after the first score stands there."""
    found = []
    for _ in range(LOADS):
        page = opened(browser, folder)
        found.append(page.evaluate(PAINTED))
        page.context.close()
    best, middle, worst = min(found), statistics.median(found), max(found)
    print(f"first screen: best {best:.0f} ms, median {middle:.0f}, worst {worst:.0f} of {LOADS}")
    page = opened(browser, folder)
    print(f"from Play, at once, to the first note planned: {page.evaluate(BEGUN):.0f} ms")
    page.wait_for_timeout(1500)
    print(f"the same when the sound was ready: {page.evaluate(BEGUN):.0f} ms")
    page.context.close()


def frames(browser: Browser, folder: Path) -> None:
    """Tell how evenly frames come while the sounding note is followed."""
    page = opened(browser, folder)
    page.wait_for_timeout(1500)
    gaps = page.evaluate(GAPS, FRAMES_S)
    late = sum(1 for gap in gaps if gap > LATE_MS)
    rate = 1000 * len(gaps) / sum(gaps)
    print(f"following: {rate:.1f} frames a second, {late} of {len(gaps)} over {LATE_MS} ms")
    page.context.close()


def loudness(browser: Browser, folder: Path) -> None:
    """Tell how loud everybody together is."""
    page = opened(browser, folder, tap=True)
    page.evaluate(EVERYBODY)
    page.wait_for_timeout(HEARD_S * 1000)
    taken = np.array(page.evaluate("() => window.taken"))
    print(f"everybody: peak {taken[:, 0].max():.2f}, mean {10 * np.log10(taken[:, 1].mean()):.1f} dBFS")
    page.context.close()


def listening(browser: Browser, folder: Path) -> None:
    """Tell how many notes of demo lines the page hears, synthesised as tracks at an easy tempo."""
    page = opened(browser, folder)
    lines = [source.text.phrase() for source in open_manuscript(DEMO).phrases[:LINES]]
    synth = synth_for(None)
    for name in PLAYERS:
        found = wanted = extra = 0
        for phrase in lines:
            order = Order(parts="line", count_in=0, tempo_bpm=EASY_BPM, line_instrument=name)
            performance = performance_of(phrase, order, font=synth.font)
            samples = samples_of(performance, synth, Sound()).mean(axis=1)
            content = base64.b64encode(np.asarray(samples, "<f4").tobytes()).decode()
            midi = [note.pitch.midi for note in sounding_notes(phrase)]
            there, heard = page.evaluate(HEARD, [content, midi])
            found, wanted, extra = found + there, wanted + len(midi), extra + heard - there
        print(f"{name}: {found} of {wanted} notes heard in order, {extra} others")
    page.context.close()


def memory(browser: Browser, folder: Path, minutes: float) -> None:
    """Tell the memory of the page, minute by minute."""
    page = opened(browser, folder)
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable")
    page.evaluate(ROUND_AND_ROUND)
    end, heaps = time.monotonic() + minutes * 60, list[float]()
    while time.monotonic() < end:
        page.wait_for_timeout(60_000)
        session.send("HeapProfiler.collectGarbage")
        known = {one["name"]: one["value"] for one in session.send("Performance.getMetrics")["metrics"]}
        heaps.append(known["JSHeapUsedSize"] / 1e6)
        nodes, listeners = known["Nodes"], known["JSEventListeners"]
        print(
            f"minute {len(heaps)}: {heaps[-1]:.2f} MB, {nodes:.0f} nodes, {listeners:.0f} listeners",
            flush=True,
        )
    print(f"playing: {page.evaluate('() => practice.sound.playing')}; the most {max(heaps):.2f} MB")
    page.context.close()


def main() -> None:
    """Measure a folder."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--minutes", type=float, default=0)
    options = parser.parse_args()
    folder = options.folder.resolve()
    sizes(folder)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        if options.minutes:
            memory(browser, folder, options.minutes)
        else:
            first_screen(browser, folder)
            frames(browser, folder)
            loudness(browser, folder)
            listening(browser, folder)
        browser.close()


if __name__ == "__main__":
    main()
