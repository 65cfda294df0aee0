"""A folder or a zip as whoever checks it finds it. hashlib and zipfile are the oracles."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

import pytest

from shedbook.book.bundle.check_files import check_zip
from shedbook.book.bundle.opened import Opened, opened

FILES = {"b.txt": b"two", "a/c.mid": b"x" * 3_000_000, "a.txt": b""}


@pytest.fixture(params=["folder", "zip"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    if request.param == "zip":
        with zipfile.ZipFile(tmp_path / "some.zip", "w", zipfile.ZIP_DEFLATED) as packed:
            packed.mkdir("a")
            for name, content in FILES.items():
                packed.writestr(name, content)
        return tmp_path / "some.zip"
    for name, content in FILES.items():
        (tmp_path / "some" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "some" / name).write_bytes(content)
    return tmp_path / "some"


def test_files_are_found_read_and_measured(place: Path) -> None:
    with opened(place) as there:
        assert there.names() == (sorted(FILES) if place.is_dir() else list(FILES))
        for name, content in FILES.items():
            assert there.read(name) == content
            assert there.measured(name) == (len(content), sha256(content).hexdigest())
        for missing in (there.read, there.measured):
            with pytest.raises(ValueError, match="it cannot be read"):
                missing("z.txt")


def test_a_long_file_is_measured_in_large_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    class Counted(io.BytesIO):
        pieces = 0

        def read(self, size: int | None = -1, /) -> bytes:
            self.pieces += 1
            return super().read(size)

    file = Counted(FILES["a/c.mid"])

    @contextmanager
    def stream(there: Opened, name: str) -> Iterator[Counted]:
        yield file

    monkeypatch.setattr(Opened, "_stream", stream)
    assert Opened(Path(), None).measured("a/c.mid")[0] == 3_000_000
    assert 1 < file.pieces < 10


def test_what_is_no_zip_is_told_and_nothing_is_counted_in_it(tmp_path: Path) -> None:
    (tmp_path / "a.zip").write_bytes(b"PK no zip")
    (tmp_path / "b.zip").write_bytes(b"")
    with zipfile.ZipFile(tmp_path / "c.zip", "w") as packed:
        packed.writestr("manifest.json", "{}")
    for name, said in (
        ("a.zip", "It is no whole zip"),
        ("b.zip", "it is no whole zip"),
        ("c.zip", "It cannot"),
    ):
        found = check_zip(tmp_path / name)
        assert said.lower() in found.faults[0].says.lower()
        assert (found.name, found.manifest, len(found.faults)) == (name, None, 1)
        assert (found.pages, found.scores, found.files, found.tracks) == (0, 0, 0, 0)
