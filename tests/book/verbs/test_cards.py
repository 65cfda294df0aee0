"""`shedbook cards`: pictures read back with Pillow, and what is refused."""

from __future__ import annotations

import itertools
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from shedbook.cli.main import main
from shedbook.film.card import SCREEN_NAMES, screen_named

PHRASE = """\
title = "A test"
changes = "Dm7 | G7 | Cmaj7 | %"
tempo = 120
line = "1/8 d4 f a c5 e d c a4 | g b d5 f a g f d | 1/4 e g 1/2 c | 1/1 e"
"""


@pytest.fixture
def phrase(tmp_path: Path) -> Path:
    file = tmp_path / "a-test.toml"
    file.write_text(PHRASE)
    return file


def ink(path: Path) -> tuple[np.ndarray, np.ndarray]:
    """Return the rows and columns of a picture on which something is printed."""
    picture = np.array(Image.open(path).convert("L")) < 128
    return np.flatnonzero(picture.any(axis=1)), np.flatnonzero(picture.any(axis=0))


def test_cards_have_their_sizes_and_keep_the_safe_title_area(phrase: Path, tmp_path: Path) -> None:
    """The middle 90 % of each side (SMPTE ST 2046-1, from memory)."""
    out = tmp_path / "out"
    assert main(["cards", str(phrase), "--out", str(out), "--author", "Somebody with a name"]) == 0
    assert len(list(out.glob("*.png"))) == 3
    for name in SCREEN_NAMES:
        row, path = screen_named(name), out / f"01-a-test-{name}.png"
        with Image.open(path) as picture:
            assert picture.size == (row.width, row.height)
        rows, columns = ink(path)
        assert rows.min() >= 0.05 * row.height - 1
        assert rows.max() <= 0.95 * row.height + 1
        assert columns.min() >= 0.05 * row.width - 3
        assert columns.max() <= 0.95 * row.width + 3
    said = (out / "01-a-test.txt").read_text(encoding="utf-8")
    assert said.startswith("A test in ")
    assert "Bar 1, D m7: eighth D 4, F 4, A 4" in said


def test_a_build_up_only_adds_ink(phrase: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert main(["cards", str(phrase), "--out", str(out), "--screen", "square", "--marks", "build-up"]) == 0
    stages = [np.array(Image.open(path).convert("L")) for path in sorted(out.glob("*.png"))]
    assert len(stages) == 4
    for before, after in itertools.pairwise(stages):
        assert not ((before < 100) & (after > 200)).any()  # nothing black becomes white
        assert (before != after).any()


def test_a_transparent_card_in_white(phrase: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    arguments = ["--screen", "wide", "--transparent", "--ink", "white", "--marks", "none"]
    assert main(["cards", str(phrase), "--out", str(out), *arguments]) == 0
    picture = np.array(Image.open(out / "01-a-test-wide.png"))
    assert picture.shape == (1080, 1920, 4)
    assert (picture[..., 3] == 0).mean() > 0.9
    solid = picture[picture[..., 3] == 255]
    assert len(solid) > 5000
    assert (solid[:, :3] > 250).all()


def test_a_title_of_ones_own_and_none(phrase: Path, tmp_path: Path) -> None:
    pictures = []
    for place, title in enumerate(("", "Another", "A test")):
        out = tmp_path / f"out{place}"
        main(
            ["cards", str(phrase), "--out", str(out), "--screen", "square", "--title", title, "--author", ""]
        )
        pictures.append((out / "01-a-test-square.png").read_bytes())
    assert len(set(pictures)) == 3
    out = tmp_path / "usual"
    main(["cards", str(phrase), "--out", str(out), "--screen", "square", "--author", ""])
    assert (out / "01-a-test-square.png").read_bytes() == pictures[2]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [(["--screen", "tall"], "not a kind of card"), (["--key", "H"], "not the tonic"),
     (["--phrases", "9"], "no phrase"), (["--edition", "kazoo"], "no edition")],
)  # fmt: skip
def test_what_is_not_there_is_refused_and_nothing_written(
    phrase: Path, tmp_path: Path, arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["cards", str(phrase), "--out", str(out), *arguments]) == 1
    assert says in capsys.readouterr().err
    assert not out.exists()
