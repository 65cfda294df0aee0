"""What the student's page weighs and how it runs: sizes, first screen, frames, memory, onsets as they sound.

    python -m benchmarks.practice_page out/my-book-practice [--minutes 60]

The page is opened from the disk in the Chromium of the system, the network off. Onsets are looked for in what the page
sends to the loudspeakers, beside the same line synthesised as a track, by librosa.
"""

from __future__ import annotations

import argparse
import json
import shutil
import statistics
import time
from io import BytesIO
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-sync",
    "--autoplay-policy=no-user-gesture-required", "--enable-precise-memory-info",
)  # fmt: skip
LOADS, FRAMES_S, RATE = 7, 15, 48_000
TAP = """(() => {
  const real = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to === this.context.destination && !this.context.tapped && this.context instanceof AudioContext) {
      this.context.tapped = true;
      const tap = this.context.createScriptProcessor(4096, 2, 1);
      window.taken = [];
      tap.onaudioprocess = (event) => {
        if (window.taking) window.taken.push([event.playbackTime, ...event.inputBuffer.getChannelData(0)]);
      };
      real.call(this, tap);
      real.call(tap, to);
    }
    return real.call(this, to, ...rest);
  };
})();"""


def opened(browser: Browser, folder: Path, *, tap: bool = False, dark: bool = False) -> Page:
    """Open the page on a screen of a phone, and wait for the first score."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, offline=True)
    page = context.new_page()
    if tap:
        page.add_init_script(TAP)
    page.goto((folder / "index.html").as_uri())
    page.wait_for_selector("#screen-play .score svg")
    return page


def sizes(folder: Path) -> None:
    parts = {
        name: sum(path.stat().st_size for path in (folder / name).rglob("*") if path.is_file())
        for name in ("scores", "played", "sounds")
    }
    whole = sum(path.stat().st_size for path in folder.rglob("*") if path.is_file())
    phrases = len(list((folder / "played").iterdir()))
    print(
        f"{phrases} phrases, {whole / 1e6:.2f} MB: "
        + ", ".join(f"{name} {size / 1e6:.2f}" for name, size in parts.items())
        + f", the rest {(whole - sum(parts.values())) / 1e6:.2f}"
    )
    a_phrase = (parts["scores"] + parts["played"]) / phrases
    print(
        f"a phrase in all its keys {a_phrase / 1e3:.0f} kB; 65 phrases would be {(whole + (65 - phrases) * a_phrase) / 1e6:.1f} MB"
    )


def first_screen(browser: Browser, folder: Path) -> None:
    """From the start of navigation to the paint after the first score stands there."""
    found = []
    for _ in range(LOADS):
        page = opened(browser, folder)
        found.append(
            page.evaluate(
                "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(performance.now()))))"
            )
        )
        page.context.close()
    print(
        f"first screen from the disk: median {statistics.median(found):.0f} ms, worst {max(found):.0f} ms of {LOADS}"
    )
    page = opened(browser, folder)
    begun = page.evaluate(
        "async () => { const begun = performance.now(); await practice.play.start(); return performance.now() - begun; }"
    )
    print(f"from Play to the first note planned, sounds decoded: {begun:.0f} ms")
    page.context.close()


def frames(browser: Browser, folder: Path) -> None:
    page = opened(browser, folder)
    gaps = page.evaluate(
        "async (seconds) => { practice.chosen.heard.count = false; await practice.play.start(); const gaps = []; let last = null;"
        " await new Promise((over) => { const frame = (at) => { if (last !== null) gaps.push(at - last); last = at;"
        " if (gaps.length && gaps.reduce((a, b) => a + b) > seconds * 1000) over(); else requestAnimationFrame(frame); }; requestAnimationFrame(frame); });"
        " practice.sound.stop(); return gaps; }",
        FRAMES_S,
    )
    late = sum(1 for gap in gaps if gap > 25)
    print(
        f"following for {FRAMES_S} s: {1000 * len(gaps) / sum(gaps):.1f} frames a second, {late} of {len(gaps)} late (over 25 ms), worst {max(gaps):.0f} ms"
    )
    page.context.close()


def memory(browser: Browser, folder: Path, minutes: float) -> None:
    page = opened(browser, folder)
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable")
    page.evaluate(
        "() => { practice.chosen.share = 120; practice.chosen.rounds = 2; practice.chosen.heard.count = false; return practice.play.start(); }"
    )
    end, rows = time.monotonic() + minutes * 60, []
    while time.monotonic() < end:
        page.wait_for_timeout(60_000)
        session.send("HeapProfiler.collectGarbage")
        known = {one["name"]: one["value"] for one in session.send("Performance.getMetrics")["metrics"]}
        rows.append((known["JSHeapUsedSize"] / 1e6, known["Nodes"], known["JSEventListeners"]))
        print(
            f"  minute {len(rows)}: heap {rows[-1][0]:.2f} MB, {rows[-1][1]:.0f} nodes, {rows[-1][2]:.0f} listeners",
            flush=True,
        )
    heap = [row[0] for row in rows]
    print(
        f"memory after minute 2 {heap[min(1, len(heap) - 1)]:.2f} MB, at the end {heap[-1]:.2f} MB, the most {max(heap):.2f} MB; playing: {page.evaluate('() => practice.sound.playing')}"
    )
    page.context.close()


def onsets_of(samples: NDArray[np.float32]) -> NDArray[np.float64]:
    import librosa  # noqa: PLC0415 - it takes seconds to load

    found: NDArray[np.float64] = librosa.onset.onset_detect(
        y=samples, sr=RATE, hop_length=96, units="time", backtrack=False
    )
    return found


def sounding(browser: Browser, folder: Path) -> None:
    """Compare where the line's notes begin to sound with where they were sent, and how even that is."""
    page = opened(browser, folder, tap=True)
    page.evaluate(
        "async () => { practice.chosen.share = 70; practice.chosen.heard = { line: true, count: false }; window.taking = true;"
        " await practice.play.start(); window.sent = practice.sound.log().log; }"
    )
    page.wait_for_timeout(9000)
    taken = page.evaluate(
        "() => { window.taking = false; const sent = practice.sound.log().log.filter((one) => one[0] === 'line').map((one) => one[3]); practice.sound.stop(); return [window.taken, sent]; }"
    )
    blocks, sent = taken
    start = blocks[0][0]
    samples = np.zeros(round((blocks[-1][0] - start) * RATE) + 4096, np.float32)
    for at, *values in blocks:
        first = round((at - start) * RATE)
        samples[first : first + len(values)] = values
    heard = onsets_of(samples) + start
    late = [float(heard[np.argmin(np.abs(heard - at))] - at) for at in sent if at < blocks[-1][0] - 0.3]
    near = np.array([one for one in late if abs(one) < 0.09])
    print(
        f"{len(near)} of {len(late)} notes of the line found in the sound; begin {1000 * np.median(near):.1f} ms after they were sent, 90 % within {1000 * np.quantile(np.abs(near - np.median(near)), 0.9):.1f} ms of that; peak {np.abs(samples).max():.2f}"
    )
    page.context.close()


def peak(browser: Browser, folder: Path) -> None:
    page = opened(browser, folder, tap=True)
    page.evaluate(
        "async () => { practice.chosen.share = 100; practice.chosen.heard = { line: true, bass: true, comping: true, drums: true, click: true, count: true }; window.taking = true; await practice.play.start(); }"
    )
    page.wait_for_timeout(15_000)
    values = page.evaluate(
        "() => { const all = window.taken.map((block) => block.slice(1).reduce((most, one) => Math.max(most, Math.abs(one)), 0)); const power = window.taken.map((block) => block.slice(1).reduce((sum, one) => sum + one * one, 0) / (block.length - 1)); return [Math.max(...all), power.reduce((a, b) => a + b) / power.length]; }"
    )
    print(
        f"everybody with a click: peak {values[0]:.2f} of full scale, mean {10 * np.log10(values[1]):.1f} dBFS"
    )
    page.context.close()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
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
            sounding(browser, folder)
            peak(browser, folder)
        browser.close()


if __name__ == "__main__":
    main()
