"""The workbench in a real browser: Chromium of the system, driven by Playwright.

Where no Chromium is, each of these tests is skipped by name. A server serves all tests of a module; each test
gets the manuscript as it was at first.
"""

import contextlib
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from one_browser import PATIENCE_MS, chromium

LINE = "1/8 f4 ab c5 eb d f ab g |\nf d b4 ab g f d b3 |\n1/2 eb4 1/4 c4 - |\n1/1 c4\n"
PHRASES = {
    "01-low-tide.toml": f'# the first\ntitle = "Low tide"\nkey = "C minor"\ntempo = 120 # walking\n'
    f'changes = "Dm7b5 | G7b9 | Cm6 | %"\nline = """\n{LINE}"""\n',
    "02-slip.toml": 'title = "A slip"\nchanges = "Dm7 | G7 | Cmaj7"\n'
    'line = "1/8 d4 f a c5 b4 a g e | 1/8 f#4 g b d5 f e d b4 | 1/2 c5 g4"\n',
    "03-blues.toml": 'title = "Slow water"\nchanges = "F7 | Bb7"\nline = "1/4 a4 c5 eb a4 | ab bb d5 f"\n'
    'commentary = "Über the bar."\n',
    "04-turn.toml": 'title = "Turn"\nchanges = "Cmaj7 A7 | Dm7 G7"\nline = "1/4 e5 c c# e | f d b4 d5"\n',
}
SETTINGS = '# a small book\ntitle = "Small water"\nauthor = "Invented"\nkeys = "C F"\n'


@dataclass
class Bench:
    """A workbench that runs, and its manuscript."""

    root: Path
    out: Path
    port: int = 0
    process: subprocess.Popen[str] = field(init=False)

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self, port: int = 0) -> None:
        """Start it, and wait until it says where it is."""
        command = [sys.executable, "-m", "shedbook", "workbench", str(self.root), "--no-browser"]
        command += ["--out", str(self.out), "--port", str(port or free_port())]
        self.process = subprocess.Popen(
            command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, start_new_session=True
        )
        assert self.process.stdout is not None
        said = self.process.stdout.readline()
        assert said.startswith("http://127.0.0.1:"), said
        self.port = int(said.split(":")[2].split("/")[0])

    def end(self) -> None:
        self.process.terminate()
        try:
            self.process.wait(15)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(5)
        assert self.process.stdout is not None
        self.process.stdout.close()

    def kill(self) -> None:
        self.process.kill()
        self.process.wait(5)
        assert self.process.stdout is not None
        self.process.stdout.close()

    def restore(self) -> None:
        """Write the manuscript as it was at first."""
        (self.root / "phrases").mkdir(parents=True, exist_ok=True)
        shutil.rmtree(self.root / "aside", ignore_errors=True)
        for path in (self.root / "phrases").iterdir():
            if path.name not in PHRASES:
                path.unlink()
        for name, text in {"../manuscript.toml": SETTINGS, **PHRASES}.items():
            path = self.root / "phrases" / name
            if not path.exists() or path.read_text(encoding="utf-8") != text:
                path.write_text(text, encoding="utf-8")

    def text(self, name: str = "01-low-tide.toml") -> str:
        return (self.root / "phrases" / name).read_text(encoding="utf-8")

    def get(self, path: str) -> Any:
        with urllib.request.urlopen(self.address + path) as answer:
            return json.load(answer)

    def post(self, name: str, given: dict[str, Any]) -> Any:
        request = urllib.request.Request(
            f"{self.address}/api/{name}",
            json.dumps(given).encode(),
            {"content-type": "application/json", "origin": self.address},
        )
        with urllib.request.urlopen(request) as answer:
            return json.load(answer)


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


def until(holds: Callable[[], bool], seconds: float = 10.0) -> None:
    """Wait until something holds."""
    end = time.monotonic() + seconds
    while not holds():
        if time.monotonic() > end:
            raise AssertionError("it did not come to hold in time")
        time.sleep(0.02)


def new_bench(folder: Path) -> Bench:
    bench = Bench(folder / "small-water", folder / "out")
    bench.root.mkdir()
    bench.restore()
    return bench


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    bench = new_bench(tmp_path_factory.mktemp("bench"))
    bench.start()
    try:
        yield bench
    finally:
        bench.end()


@pytest.fixture
def bench(served: Bench) -> Bench:
    served.restore()
    return served


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


def refused(said: str) -> bool:
    """Whether the console tells of something that the policy kept out.

    Chromium itself puts style attributes into a text that is edited, which the policy keeps out too; that
    changes nothing.
    """
    return "Content Security Policy" in said and "inline style" not in said


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Callable[..., Page]]:
    """Open pages in windows of their own; a fault in the console of any of them fails the test."""
    contexts, faults = [], []

    def new(address: str, *, wait: str = "", before: str = "", **options: Any) -> Page:
        options.setdefault("viewport", {"width": 1280, "height": 900})
        context = browser.new_context(**options)
        context.set_default_timeout(PATIENCE_MS)
        contexts.append(context)
        page = context.new_page()
        if before:
            page.add_init_script(before)
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda said: faults.append(said.text) if refused(said.text) else None)
        page.goto(address)
        if wait:
            page.wait_for_selector(wait)
        return page

    yield new
    for context in contexts:
        with contextlib.suppress(Exception):
            context.close()
    assert not faults, faults


@pytest.fixture
def phrase_page(bench: Bench, open_page: Callable[..., Page]) -> Callable[..., Page]:
    """Open a phrase of the small book by the name of its file."""

    def new(name: str = "01-low-tide.toml", **options: Any) -> Page:
        return open_page(f"{bench.address}/phrase?file=phrases/{name}&index=0", wait=".reed", **options)

    return new


def children(pid: int) -> list[int]:
    """Return the numbers of the processes below a process, from /proc."""
    found, parents = [], {}
    for path in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError, ValueError, IndexError):
            words = path.read_text().rsplit(")", 1)[1].split()
            parents[int(path.parent.name)] = int(words[1])
    waiting = [pid]
    while waiting:
        here = waiting.pop()
        own = [one for one, parent in parents.items() if parent == here]
        found += own
        waiting += own
    return found


def alive(pid: int) -> bool:
    try:
        state = Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0]
    except OSError:
        return False
    return state != "Z"


__all__ = ["Bench", "alive", "children", "new_bench", "os", "signal", "threading", "until"]
