from __future__ import annotations

import argparse
import shutil
import tomllib
from pathlib import Path

import pytest

from shedbook.book.manuscript import starter
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.whole_book import BOOK_FIELDS
from shedbook.book.manuscript.source import read_phrase
from shedbook.cli.verbs import new
from shedbook.errors import OutputError
from shedbook.phrase.line_text import print_line

FILES = [
    "manuscript.toml",
    "phrases/01-first-light.toml",
    "phrases/02-undertow.toml",
    "phrases/03-corner-shop.toml",
]


def everything(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if not path.is_dir())


def test_the_starter_is_read(tmp_path: Path) -> None:
    assert list(starter.write_starter(tmp_path / "my-book")) == FILES
    found = open_manuscript(tmp_path / "my-book")
    phrases = [read_phrase(source) for source in found.phrases]
    assert [phrase.title for phrase in phrases] == ["First light", "Undertow", "Corner shop"]
    assert all(phrase.commentary and phrase.id for phrase in phrases)
    assert [str(phrase.key) for phrase in phrases] == ["C major", "C minor", "F major"]


def test_the_line_over_each_new_chord_begins_on_the_note_that_its_commentary_names(tmp_path: Path) -> None:
    starter.write_starter(tmp_path / "my-book")
    light, undertow, shop = (read_phrase(source) for source in open_manuscript(tmp_path / "my-book").phrases)
    assert print_line(light.bars).split(" | ")[1].startswith("b4")  # C falls into B
    assert print_line(undertow.bars).split(" | ")[2].startswith("eb5")  # E falls into E flat
    assert "f e eb" in print_line(shop.bars)


def test_every_key_is_shown(tmp_path: Path) -> None:
    text = dict(starter.starter_files())["manuscript.toml"].decode()
    lines = [line.removeprefix("# ") for line in text.splitlines()]
    for row in BOOK_FIELDS:
        shown = (f"{row.name} = ", f"[{row.name}]", f"[[{row.name}]]")
        assert any(line.startswith(shown) for line in lines), row.name


def test_every_remark_that_shows_a_key_can_be_used(tmp_path: Path) -> None:
    starter.write_starter(tmp_path / "my-book")
    path = tmp_path / "my-book/manuscript.toml"
    shown = [
        line.removeprefix("# ")
        for line in path.read_text().splitlines()
        if not line.startswith("# ") or " = " in line or line.startswith("# [")
    ]
    path.write_text("\n".join(shown))
    assert set(tomllib.loads(path.read_text())) == {row.name for row in BOOK_FIELDS}
    assert open_manuscript(tmp_path / "my-book").last_phrase == 3


def test_parents_are_made(tmp_path: Path) -> None:
    starter.write_starter(tmp_path / "a/b/c")
    assert everything(tmp_path / "a/b/c") == FILES
    assert [path.name for path in (tmp_path / "a/b").iterdir()] == ["c"]


def test_an_empty_folder_is_filled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    starter.write_starter(Path())
    assert everything(tmp_path) == FILES


@pytest.mark.parametrize("held", [".git", "notes.txt"])
def test_a_folder_that_holds_anything_is_refused(tmp_path: Path, held: str) -> None:
    (tmp_path / held).write_text("mine")
    with pytest.raises(OutputError, match="holds something already"):
        starter.write_starter(tmp_path)
    assert everything(tmp_path) == [held]


def test_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "x").write_text("mine")
    with pytest.raises(OutputError, match="is a file"):
        starter.write_starter(tmp_path / "x")
    with pytest.raises(OutputError, match=r"cannot be (written|read)"):
        starter.write_starter(tmp_path / "x/y")
    assert (tmp_path / "x").read_text() == "mine"


def _full_disk(*_: object, **__: object) -> None:
    raise OSError(28, "No space left on device")


def test_nothing_half_written_is_left_in_a_new_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Path, "rename", _full_disk)
    with pytest.raises(OutputError, match="The disk is full"):
        starter.write_starter(tmp_path / "a/b")
    assert list(tmp_path.iterdir()) == []


def test_nothing_half_written_is_left_in_an_empty_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, calls = shutil.move, []

    def second_fails(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) == 2:
            _full_disk()
        real(source, target)

    monkeypatch.setattr(shutil, "move", second_fails)
    with pytest.raises(OutputError, match="The disk is full"):
        starter.write_starter(tmp_path)
    assert len(calls) == 2
    assert list(tmp_path.iterdir()) == []


def test_the_verb(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    parser = argparse.ArgumentParser()
    new.add_arguments(parser)
    folder = tmp_path / "my book"
    assert new.run(parser.parse_args([str(folder)])) == 0
    printed = capsys.readouterr().out
    assert all(f"  {name}\n" in printed for name in FILES)
    assert f"shedbook build '{folder}'" in printed
    assert everything(folder) == FILES
