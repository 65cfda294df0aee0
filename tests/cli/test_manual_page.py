"""The manual page says what the parsers say. Source: man(7)."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from shedbook.cli.known_verbs import VERBS
from shedbook.cli.manual_page import manual_page

PAGE = Path(__file__).parents[2] / "docs" / "shedbook.1"


def test_the_page_is_the_help_text() -> None:
    """Made anew with `python -m shedbook.cli.manual_page > docs/shedbook.1`."""
    assert PAGE.read_text(encoding="utf-8") == manual_page()


@pytest.mark.skipif(shutil.which("groff") is None, reason="there is no groff here")
def test_the_page_can_be_set() -> None:
    done = subprocess.run(
        ["groff", "-man", "-Tutf8", "-Kutf8", "-ww", str(PAGE)],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    assert done.stderr == ""
    shown = re.sub(r".\x08|\x1b\[[0-9;]*m", "", done.stdout)  # bold and underlined letters
    for row in VERBS:
        assert f"shedbook {row.name}" in shown
    assert "--licensee" in shown.replace("\N{HYPHEN}", "-").replace("\N{MINUS SIGN}", "-")
