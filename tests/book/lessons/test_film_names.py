"""Videos are called as the links in the book expect. Source: our own form, and the URL standard's parts."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.lessons.film_names import film_names
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.errors import ManuscriptError


def book(tmp_path: Path, address: str, *links: str) -> Manuscript:
    (tmp_path / "phrases").mkdir()
    setting = f'videos_address = "{address}"\n' if address else ""
    (tmp_path / "manuscript.toml").write_text(f'title = "T"\n{setting}', encoding="utf-8")
    for number in range(1, 12):
        link = (
            f'\n[links]\nVideo = "{links[number - 1]}"' if number <= len(links) and links[number - 1] else ""
        )
        (tmp_path / f"phrases/{number:02}.toml").write_text(
            f'title = "Low tide {number}"\nchanges = "C6"\nline = "1/1 c4"{link}\n', encoding="utf-8"
        )
    return open_manuscript(tmp_path)


@pytest.mark.parametrize(
    ("address", "first", "last"),
    [
        ("", "01-low-tide-1.mp4", "11-low-tide-11.mp4"),
        ("https://example.org/watch/{nn}.mp4", "01.mp4", "11.mp4"),
        ("https://example.org/watch/{n}", "1.mp4", "11.mp4"),
        ("https://example.org/tide-{nn}.mp4?from=book#start", "tide-01.mp4", "tide-11.mp4"),
        ("https://example.org/{n}/video", "01-low-tide-1.mp4", "11-low-tide-11.mp4"),
    ],
)
def test_the_last_part_of_the_address_is_the_name(
    tmp_path: Path, address: str, first: str, last: str
) -> None:
    names = film_names(book(tmp_path, address))
    assert (names[1], names[11]) == (first, last)
    if "{nn}" in address or not address:
        assert list(names.values()) == sorted(names.values())


def test_a_phrases_own_link_to_a_video_is_the_name(tmp_path: Path) -> None:
    names = film_names(book(
        tmp_path, "https://example.org/{nn}.mp4", "https://example.org/a/Low%20Tide.mp4", "https://example.org/page"
    ))  # fmt: skip
    assert (names[1], names[2]) == ("Low-Tide.mp4", "02.mp4")


def test_a_name_leads_nowhere_else(tmp_path: Path) -> None:
    names = film_names(book(tmp_path, "", "https://example.org/%2e%2e%2f%2e%2e%2fetc.mp4"))
    assert "/" not in names[1]
    assert not names[1].startswith(".")


def test_two_phrases_with_one_name_are_refused(tmp_path: Path) -> None:
    twice = "https://example.org/same.mp4"
    with pytest.raises(ManuscriptError, match=r"both be called same\.mp4"):
        film_names(book(tmp_path, "", twice, twice))
