"""Books compared as they are named: manuscripts, versions in git, bundles."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from catalogue.books import PHRASES, book
from catalogue.bundles import CHANGED, bundle
from shedbook.catalogue.comparing import changes_since, compared_states
from shedbook.errors import ManuscriptError


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A manuscript whose version before is in git."""
    root = book(tmp_path / "tides", **PHRASES)
    for arguments in (["init", "-q"], ["add", "."],
                      ["-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "x"],
                      ["tag", "first"]):  # fmt: skip
        subprocess.run(["git", "-C", str(root), *arguments], check=True)
    (root / "phrases/01-quay.toml").write_text(CHANGED["01-quay"], encoding="utf-8")
    return root


def test_a_bundle_a_version_in_git_and_a_folder_in_any_pair(folder: Path, tmp_path: Path) -> None:
    old, new = bundle(tmp_path / "old", "1", **PHRASES), bundle(tmp_path / "new", "1", **CHANGED)
    before = [str(old), str(old / "tides-concert-1.zip"), f"{folder}@first"]
    now = [str(new), str(new / "tides-bflat-1.zip"), str(folder)]
    for first in before:
        for second in now:
            (one,) = compared_states(first, second).errata
            assert (one.number, [each.what for each in one.differences]) == (1, ["note"])
            assert compared_states(first, first).errata == ()


def test_what_a_bundle_carries(folder: Path) -> None:
    found = changes_since(f"{folder}@first", folder, lambda errata: ({"phrases": len(errata.errata)},))
    assert found.since == "1"
    assert "note A flat 5 is now A5" in found.text
    assert found.rows == ({"phrases": 1},)


def test_what_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ManuscriptError):
        compared_states(str(tmp_path / "nowhere"), str(tmp_path / "nowhere"))
