"""The workbench killed while its author types: `python -m benchmarks.workbench_crashes [KILLS]`, default 100.

Each time the server is killed (SIGKILL) at a random moment, the file must be whole TOML and must hold what
was typed at least a second before; then the server is started again, and everything must come to stand in it.
Prints how old the oldest letter was that was not on disk when the server died.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
import tomllib
from pathlib import Path

from benchmarks.workbench_speed import CHROMIUM, FLAGS, Bench, phrase, write
from playwright.sync_api import sync_playwright

LETTERS = "abcdefghijklmnopqrstuvwxyz"


def main() -> int:
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    dice = random.Random(1)
    oldest = 0.0
    with tempfile.TemporaryDirectory(prefix="shedbook-crashes-") as name, sync_playwright() as playwright:
        root = Path(name) / "book"
        write(root, "01.toml", phrase(4))
        (root / "manuscript.toml").write_text('title = "Crashes"\n')
        bench = Bench(root)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        page = browser.new_page()
        page.goto(f"{bench.address}/phrase?file=phrases/01.toml&index=0")
        page.wait_for_selector(".reed")
        page.locator("#commentary").click()
        typed: list[tuple[float, str]] = []
        for _ in range(kills):
            for _ in range(dice.randrange(1, 40)):
                letter = dice.choice(LETTERS)
                page.keyboard.type(letter)
                typed.append((time.monotonic(), letter))
                page.wait_for_timeout(dice.randrange(0, 90))
            bench.kill()
            died = time.monotonic()
            there = tomllib.loads((root / "phrases" / "01.toml").read_text()).get("commentary", "")
            whole = "".join(letter for _, letter in typed)
            assert whole.startswith(there), "what is on disk is not what was typed"
            missing = typed[len(there) :]
            if missing:
                oldest = max(oldest, died - missing[0][0])
            bench = Bench(root, bench.port)
            end = time.monotonic() + 30
            path = root / "phrases" / "01.toml"
            while tomllib.loads(path.read_text()).get("commentary", "") != whole:
                assert time.monotonic() < end, "what was typed did not come back to disk"
                time.sleep(0.05)
        browser.close()
        bench.end()
    told = f"nothing lost; the oldest key not yet on disk was {oldest:.2f} s old"
    print(f"{kills} kills, {len(typed)} keys: {told}")
    return 0 if oldest < 1 else 1


if __name__ == "__main__":
    sys.exit(main())
