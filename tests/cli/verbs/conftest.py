"""A manuscript with a phrase that cannot be read."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.verbs.asked import GOOD, SHORT


@pytest.fixture
def manuscript(tmp_path: Path) -> Path:
    """A manuscript of three phrases in one file; the second has a bar that does not add up."""
    folder = tmp_path / "book"
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text('title = "Tides"\n', encoding="utf-8")
    (folder / "phrases" / "01-three.toml").write_text(
        f'[[phrase]]\ntitle = "One"\n{GOOD}'
        f'[[phrase]]\ntitle = "Two"\n{SHORT}'
        f'[[phrase]]\ntitle = "Three"\n{GOOD}',
        encoding="utf-8",
    )
    return folder
