"""Bookmarks of a book that is joined of pieces: ISO 32000-1, 12.3.3. Whole books: test_pdf_pieces.py."""

from __future__ import annotations

import re
from itertools import count
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.pages.pdf_joining import _set_bookmarks
from shedbook.book.pages.pdf_pieces import Bookmark

Tree = list[tuple[str, "Tree"]]


def tree_of(objects: dict[int, bytes], parent: int) -> Tree:
    """Return titles as a tree, read by First and Next; every way back has to lead where it came from."""
    ways = {
        number: {name.decode(): int(to) for name, to in re.findall(rb"/(\w+) (-?\d+)", body)}
        for number, body in objects.items()
    }
    found: Tree = []
    number, before = ways[parent].get("First"), None
    while number is not None:
        assert ways[number]["Parent"] == parent
        assert ways[number].get("Prev") == before
        below = tree_of(objects, number)
        assert ways[number].get("Count", 0) == -len(below)  # closed, with so many below it
        title = re.search(rb"/Title\((.*?)\)/Dest", objects[number])
        assert title is not None
        found.append((title[1].decode(), below))
        before, number = number, ways[number].get("Next")
    assert ways[parent].get("Last") == before
    return found


@pytest.mark.parametrize(
    ("marks", "tree"),
    [
        ("0a", [("a", [])]),
        ("0a 0b 0c", [("a", []), ("b", []), ("c", [])]),
        ("0a 1b 1c 0d 1e", [("a", [("b", []), ("c", [])]), ("d", [("e", [])])]),
        ("0a 1b 2c 1d 0e 0f 0g", [("a", [("b", [("c", [])]), ("d", [])]), ("e", []), ("f", []), ("g", [])]),
    ],
)
def test_each_bookmark_hangs_below_the_last_that_is_less_deep(marks: str, tree: Tree) -> None:
    book: Any = SimpleNamespace(
        free=count(10), objects={1: b"<</Type/Catalog/Outlines 5 0 R/Lang(en)>>"}, catalog=1
    )
    _set_bookmarks(book, [Bookmark(int(one[0]), b"(%s)" % one[1].encode(), 7) for one in marks.split()])
    top = re.search(rb"/Outlines (\d+) 0 R>>", book.objects[1])
    assert top is not None
    assert book.objects[1].count(b"/Outlines") == 1
    assert tree_of(book.objects, int(top[1])) == tree
    assert b"/Count %d>>" % len(tree) in book.objects[int(top[1])]


def test_without_bookmarks_nothing_is_written() -> None:
    book: Any = SimpleNamespace(free=count(10), objects={1: b"<</Type/Catalog>>"}, catalog=1)
    _set_bookmarks(book, [])
    assert book.objects == {1: b"<</Type/Catalog>>"}
