"""How fast the workbench is: `python -m benchmarks.workbench_speed [KEYS]`, KEYS a length (default 60).

Prints, from the outside, with the workbench in processes of its own and a browser without a window:

    key to score   from the key to the painted score, for phrases of 2, 4, 8 and 16 bars; beside it what the
                   same answer costs in this process, and a frame in which one word changes
    engraving      one score in this process, whole and with one system that is new, in processor time
    cold start     from the start of the process to the first screen and the first score, without a browser
    memory         of server and workers, after 50 edits and after 1,000
    phrases        a book of 500: its list, its first scores, a search

A busy machine makes all of these longer; the ratios in brackets carry over, milliseconds do not.
"""

from __future__ import annotations

import contextlib
import http.client
import json
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.verbs.look import look, read_fields
from shedbook.engrave.drawing.kept_systems import KeptSystems
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.workbench.phrase_json import looked_json

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
)
BARS = (("Dm7b5", "1/8 f4 ab c5 eb d f ab g"), ("G7b9", "1/8 f5 d b4 ab g f d b3"),
        ("Cm6", "1/8 eb4 g c5 eb d c b4 g"), ("A7alt", "1/8 c#5 bb4 g f eb4 f g bb4"))  # fmt: skip
LENGTHS = (2, 4, 8, 16)
_PAUSE_MS = 130

_WATCH = """() => {
  window.taken = [];
  let pressed = 0;
  document.addEventListener("keydown", () => (pressed = performance.now()), true);
  const painted = (from) => requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = () => window.taken.push(performance.now() - from);
    channel.port2.postMessage(0);
  });
  const seen = { attributes: true, attributeFilter: ["data-seen"] };
  new MutationObserver(() => painted(pressed)).observe(document.body, seen);
}"""
_FRAME = """async (count) => {
  const taken = [];
  for (let turn = 0; turn < count; turn += 1) {
    const from = performance.now();
    document.getElementById("number").textContent = String(turn);
    await new Promise((done) => requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = done;
      channel.port2.postMessage(0);
    }));
    taken.push(performance.now() - from);
    await new Promise((done) => setTimeout(done, 40));
  }
  return taken;
}"""


def phrase(bars: int) -> dict[str, Any]:
    """Return a phrase of some bars, all eighths."""
    chosen = [BARS[bar % len(BARS)] for bar in range(bars)]
    return {
        "title": f"{bars} bars",
        "changes": " | ".join(chord for chord, _ in chosen),
        "line": " | ".join(line for _, line in chosen),
    }


def write(root: Path, name: str, fields: dict[str, Any]) -> None:
    (root / "phrases").mkdir(parents=True, exist_ok=True)
    text = "".join(f"{key} = {json.dumps(value)}\n" for key, value in fields.items())
    (root / "phrases" / name).write_text(text, encoding="utf-8")


class Bench:
    """A workbench in a process of its own."""

    def __init__(self, root: Path, port: int = 0) -> None:
        command = [
            sys.executable,
            "-m",
            "shedbook",
            "workbench",
            str(root),
            "--no-browser",
            "--port",
            str(port),
        ]
        self.started = time.perf_counter()
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip().rstrip("/")
        self.port = int(self.address.rsplit(":", 1)[1])

    def get(self, path: str) -> bytes:
        """Return what an address answers."""
        return self._asked("GET", path, None)

    def call(self, name: str, given: dict[str, Any]) -> Any:
        """Return what a call answers."""
        return json.loads(self._asked("POST", f"/api/{name}", json.dumps(given)))

    def _asked(self, method: str, path: str, body: str | None) -> bytes:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        connection.request(method, path, body, {"origin": self.address, "content-type": "application/json"})
        answer = connection.getresponse().read()
        connection.close()
        return answer

    def memory_mb(self) -> float:
        """Return the resident memory of the process and all below it."""
        listed = subprocess.run(
            ["ps", "-eo", "pid,ppid,rss"], capture_output=True, text=True, check=True
        ).stdout
        rows = [tuple(map(int, line.split())) for line in listed.splitlines()[1:]]
        family = {self.process.pid}
        for _ in range(4):
            family |= {pid for pid, parent, _ in rows if parent in family}
        return sum(size for pid, _, size in rows if pid in family) / 1024

    def kill(self) -> None:
        """Kill it."""
        self.process.kill()
        self.process.wait(5)

    def end(self) -> None:
        """End it in order."""
        self.process.terminate()
        self.process.wait(20)


def shares(taken: Sequence[float]) -> str:
    found = sorted(taken)
    return f"p50 {found[len(found) // 2]:5.1f}  p95 {found[int(len(found) * 0.95)]:5.1f} ms"


def middle(taken: Sequence[float]) -> float:
    return sorted(taken)[len(taken) // 2]


def alone(fields: dict[str, Any]) -> list[float]:
    """Return how long one answer takes in this process, in milliseconds."""
    taken = []
    for turn in range(25):
        started = time.perf_counter()
        looked_json(look({**fields, "tempo": 100 + turn}, Settings()))
        taken.append(1000 * (time.perf_counter() - started))
    return taken[5:]


def typed(page: Page, keys: int) -> list[float]:
    page.evaluate(_WATCH)
    page.locator("#line .cm-content").click()
    page.keyboard.press("Control+Home")
    for turn in range(keys):
        page.keyboard.press("Backspace" if turn % 2 else "Space")
        page.wait_for_timeout(_PAUSE_MS)
    page.wait_for_timeout(500)
    return list(page.evaluate("() => window.taken"))


def key_to_score(folder: Path, keys: int) -> None:
    root = folder / "lengths"
    for bars in LENGTHS:
        write(root, f"{bars:02}.toml", phrase(bars))
    (root / "manuscript.toml").write_text('title = "Lengths"\n')
    bench = Bench(root)
    with contextlib.closing(_Ending(bench)), sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        for bars in LENGTHS:
            page = browser.new_page(viewport={"width": 1440, "height": 900})
            page.goto(f"{bench.address}/phrase?file=phrases/{bars:02}.toml&index=0")
            page.wait_for_selector(".reed")
            page.wait_for_timeout(1500)
            taken, here = typed(page, keys), alone(phrase(bars))
            frame = page.evaluate(_FRAME, 30)
            ratio = middle(taken) / (middle(here) + middle(frame))
            print(
                f"key to score, {bars:2} bars: {shares(taken)}; the answer alone {middle(here):5.1f}, "
                f"a bare frame {middle(frame):4.1f} ms ({ratio:.2f} of both)"
            )
            page.close()
        browser.close()


def engraving() -> None:
    """Print what one changed note costs the engraver, and what all else of an answer costs."""
    for bars in LENGTHS:
        whole, new, answer = list[float](), list[float](), list[float]()
        kept = KeptSystems()
        for turn in range(36):
            name = "cdefgabcdefgab"[turn % 14] + ("#" if turn % 3 else "") + str(3 + turn % 4)
            fields = phrase(bars) | {"line": phrase(bars)["line"].replace("f4", name, 1)}
            one, style = read_fields(fields, Settings()), ScoreStyle(width_mm=200, tempo=False)
            for taken, do in (
                (whole, lambda: draw(one, NO_STUDY_MARKS, style)),  # noqa: B023 - called at once
                (new, lambda: kept.draw(one, style)),  # noqa: B023
                (answer, lambda: looked_json(look(fields, Settings(), kept=kept))),  # noqa: B023
            ):
                started = time.process_time()
                do()
                taken.append(1000 * (time.process_time() - started))
        print(
            f"engraving {bars:2} bars, processor time: whole {middle(whole[4:]):4.1f}, with one system new "
            f"{middle(new[4:]):4.1f}, all of an answer but that {middle(answer[4:]):4.1f} ms"
        )


class _Ending:
    def __init__(self, bench: Bench) -> None:
        self.close = bench.end


def cold_start(folder: Path) -> None:
    root = folder / "cold"
    write(root, "01.toml", phrase(4))
    (root / "manuscript.toml").write_text('title = "Cold"\n')
    bare = time.perf_counter()
    subprocess.run([sys.executable, "-c", "import shedbook.book.verbs.look, verovio"], check=True)
    bare = time.perf_counter() - bare
    screens, scores = [], []
    for _ in range(3):
        bench = Bench(root)
        bench.get("/")
        screens.append(time.perf_counter() - bench.started)
        bench.call("look", {"fields": phrase(4), "width": 200})
        scores.append(time.perf_counter() - bench.started)
        bench.end()
    print(
        f"cold start: first screen {min(screens):.2f} s, first score {min(scores):.2f} s; a process that "
        f"loads what draws {bare:.2f} s ({min(scores) / bare:.2f} of it); aim 1.5 s"
    )


def memory(folder: Path, edits: int = 1000) -> None:
    root = folder / "memory"
    write(root, "01.toml", phrase(4))
    (root / "manuscript.toml").write_text('title = "Memory"\n')
    bench = Bench(root)
    fields, before = phrase(4), 0.0
    ref = {"file": "phrases/01.toml", "index": 0}
    for turn in range(edits):
        old = fields["line"]
        fields["line"] = old.replace("f4", "f#4", 1) if "f#4" not in old else old.replace("f#4", "f4", 1)
        bench.call("look", {"fields": fields, "width": 200})
        bench.call("save", {**ref, "changes": {"line": [old, fields["line"]]}})
        if turn == 50:
            before = bench.memory_mb()
    after = bench.memory_mb()
    bench.end()
    print(f"memory: after 50 edits {before:.0f} MB, after {edits} {after:.0f} MB ({after / before:.3f})")


def five_hundred(folder: Path) -> None:
    root = folder / "many"
    for number in range(500):
        write(root, f"{number:03}.toml", {**phrase(2 + number % 3), "title": f"Phrase {number}"})
    (root / "manuscript.toml").write_text('title = "Many"\n')
    bench = Bench(root)
    bench.get("/")
    taken = {}
    for name, ask in _questions(bench):
        started = time.perf_counter()
        ask()
        taken[name] = time.perf_counter() - started
    bench.end()
    print("500 phrases: " + ", ".join(f"{name} {seconds:.2f} s" for name, seconds in taken.items()))


def _questions(bench: Bench) -> Iterator[tuple[str, Any]]:
    refs = [{"file": f"phrases/{number:03}.toml", "index": 0} for number in range(8)]
    yield "the list", lambda: bench.get("/api/book")
    yield "a worker's first four scores", lambda: bench.call("rows", {"refs": refs[:4]})
    yield "the next four", lambda: bench.call("rows", {"refs": refs[4:]})
    yield "the first search by notes", lambda: bench.call("search", {"steps": [3, 4, 3]})
    yield "the next", lambda: bench.call("search", {"steps": [4, 3]})


def main() -> int:
    if CHROMIUM is None:
        print("There is no Chromium on this machine; only what needs none is measured.")
    keys = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
        folder = Path(name)
        if CHROMIUM is not None:
            key_to_score(folder, keys)
        engraving()
        cold_start(folder)
        five_hundred(folder)
        memory(folder)
    return 0


if __name__ == "__main__":
    sys.exit(main())
