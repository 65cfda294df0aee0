"""What changed between two editions of a manuscript."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from catalogue.books import PHRASES, UP_A_STEP, book
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.catalogue.errata import CHANGED, GONE, MOVED, NEW, Difference, Errata, errata, folder_at
from shedbook.errors import ManuscriptError


def compared(tmp_path: Path, *, settings: str = "", **phrases: str) -> Errata:
    """Compare the book of two phrases with one of others."""
    old, new = book(tmp_path / "old", **PHRASES), book(tmp_path / "new", **phrases)
    (new / "manuscript.toml").write_text(f'title = "Old"\n{settings}', encoding="utf-8")
    return errata(open_manuscript(old), open_manuscript(new))


def quay(old: str, new: str) -> dict[str, str]:
    assert old in PHRASES["01-quay"]
    return {**PHRASES, "01-quay": PHRASES["01-quay"].replace(old, new, 1)}


ALL = {"scores", "tracks"}
LINE = PHRASES["01-quay"].split('line = "')[1].split('"')[0]
LEANS, FALLS = "The flat nine leans on the root.", "The flat nine falls to the root."

CASES = [
    pytest.param("d5 f ab c6", "d5 f a c6", [Difference("note", "Ab5", "A5", 1, "2")], ALL, id="a note"),
    pytest.param("ab g f |", "g# g f |", [Difference("note", "Ab5", "G#5", 1, "3½")], ALL, id="a name"),
    pytest.param("1/4 g5 eb 1/2 c", "1/4 g5 1/2 eb 1/4 c",
                 [Difference("rhythm", "1 quarters", "2 quarters", 3, "2"),
                  Difference("note", "C5", "", 3, "3"), Difference("note", "", "C5", 3, "4")],
                 ALL, id="a rhythm"),
    pytest.param("G7b9", "G7", [Difference("chord", "G7b9", "G7", 2, "1")], ALL, id="a chord"),
    pytest.param("tempo = 132", "tempo = 99", [Difference("tempo", "132", "99")], ALL, id="tempo"),
    pytest.param("leans on", "falls to", [Difference("commentary", LEANS, FALLS)], {"words"}, id="words"),
    pytest.param('"Quay"', '"Key"', [Difference("title", "Quay", "Key")], {"words"}, id="the title"),
    pytest.param("bb5 ab g f |", "bb5 (ab g) f |",
                 [Difference("slurs and grace notes", LINE, LINE.replace("ab g f |", "(ab g) f |", 1))],
                 ALL, id="a slur"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "differences", "anew"), CASES)
def test_one_difference(
    old: str, new: str, differences: list[Difference], anew: set[str], tmp_path: Path
) -> None:
    (one,) = compared(tmp_path, **quay(old, new)).errata
    assert (one.happened, one.number, list(one.differences)) == (CHANGED, 1, differences)
    assert one.anew == anew


def test_white_space_and_comments_are_no_difference(tmp_path: Path) -> None:
    again = {**PHRASES, "01-quay": "# the first\n" + PHRASES["01-quay"].replace(" | ", "  |  ")}
    found = compared(tmp_path, **again)
    assert (found.errata, found.settings) == ((), ())


def test_new_gone_and_moved(tmp_path: Path) -> None:
    found = compared(tmp_path, **{"00-pier": UP_A_STEP, "02-mole": PHRASES["02-mole"]})
    assert [(one.happened, one.number, one.was_number, one.title) for one in found.errata] == [
        (NEW, 1, 0, "Pier"), (GONE, 1, 1, "Quay"),
    ]  # fmt: skip
    other = compared(tmp_path / "b", **{"01-mole": PHRASES["02-mole"], "02-quay": PHRASES["01-quay"]})
    assert [(one.happened, one.number, one.was_number) for one in other.errata] == [
        (MOVED, 1, 2),
        (MOVED, 2, 1),
    ]
    assert not other.any_scores


def test_settings_of_the_book(tmp_path: Path) -> None:
    assert compared(tmp_path, settings='author = "N. N."\n', **PHRASES).settings == ("author",)


def git(folder: Path, *arguments: str) -> None:
    who = ("-c", "user.name=Nobody", "-c", "user.email=nobody@example.org", "-c", "commit.gpgsign=false")
    subprocess.run(["git", "-C", str(folder), *who, *arguments], check=True, capture_output=True)


def test_an_earlier_version_out_of_git(tmp_path: Path) -> None:
    new = book(tmp_path / "repo" / "books" / "new", **PHRASES)
    git(tmp_path / "repo", "init", "--quiet")
    git(tmp_path / "repo", "add", ".")
    git(tmp_path / "repo", "commit", "--quiet", "--message", "first")
    git(tmp_path / "repo", "tag", "first")
    (new / "phrases" / "02-mole.toml").unlink()
    with folder_at(new, "first") as old:
        (one,) = errata(open_manuscript(old), open_manuscript(new)).errata
    assert (one.happened, one.title) == (GONE, "Mole")
    assert not old.exists()


@pytest.mark.parametrize("version", ["nothing", "--output=/tmp/x"])
def test_versions_that_are_none_are_told(version: str, tmp_path: Path) -> None:
    folder = book(tmp_path / "alone", **PHRASES)
    git(folder, "init", "--quiet")
    with pytest.raises(ManuscriptError), folder_at(folder, version):
        pass
