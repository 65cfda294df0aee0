"""A folder of books, catalogued."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from catalogue.books import shelf
from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.keeping import bring_up_to_date


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return shelf(tmp_path / "books")


@pytest.fixture
def index(root: Path, tmp_path: Path) -> Iterator[IndexFile]:
    with IndexFile(tmp_path / "index.sqlite") as opened:
        bring_up_to_date(opened, root)
        yield opened
