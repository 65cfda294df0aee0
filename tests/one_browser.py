"""Chromium of the system, for all tests that need a browser; they are skipped by name where there is none."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, expect, sync_playwright

_PROGRAMS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
CHROMIUM = next(filter(None, map(shutil.which, _PROGRAMS)), None)
"""The first has no windows to draw and takes half the time; the others do the same."""
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--autoplay-policy=no-user-gesture-required",
)  # fmt: skip
PATIENCE_MS = 60_000
"""How long a page may take over anything: no test here is about time, and a busy machine must fail none."""
expect.set_options(timeout=PATIENCE_MS / 2)
MICROPHONE = ("--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream")
"""What gives a browser without a window a microphone, and leave to use it."""


@contextmanager
def chromium(*more: str) -> Iterator[Browser]:
    """Start the browser; a thread drives one at a time, so a fixture of it lives no longer than a module."""
    if CHROMIUM is None:
        pytest.skip("there is no Chromium on this machine")
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path=CHROMIUM, args=[*FLAGS, *more])
        yield found
        found.close()
