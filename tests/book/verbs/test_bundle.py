"""A bundle is made: the same bytes anywhere, nothing twice, and nothing old left in it."""

from __future__ import annotations

import json
import shutil
import zipfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from book.builds import write_manuscript, write_phrase
from shedbook.book.bundle.manifest import MANIFEST, Changes, FolderManifest
from shedbook.book.bundle.tables.cover_sizes import COVER_SIZES
from shedbook.book.ground.json_values import from_json
from shedbook.book.ground.progress import Step
from shedbook.book.manuscript.request import Request
from shedbook.book.verbs import verify as room
from shedbook.book.verbs.bundle import Bundled, bundle
from shedbook.book.verbs.verify import verify
from shedbook.book.workshop.crew import Crew, Lost
from shedbook.book.workshop.output_folder import STORE
from shedbook.errors import BuildError, OutputError

SETTINGS = """
version = "1.0"
rights = "Invented for a test."
editions = ["concert", "eflat"]
keys = "C F"
[tracks]
kinds = ["line"]
formats = ["mid"]
rounds = 1
"""


STEPS: list[Step] = []
"""The steps that were told while the bundle of these tests was made."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Bundled]:
    place = tmp_path_factory.mktemp("bundle")
    root = write_manuscript(place / "tides", 2, SETTINGS)
    (root / "licence.txt").write_text("Play it where you like.\n", encoding="utf-8")
    STEPS.clear()
    return root, bundle(Request(root, place / "out", jobs=1), STEPS.append)


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_what_a_bundle_holds(made: tuple[Path, Bundled]) -> None:
    _, found = made
    names = {path.relative_to(found.folder).as_posix() for path in found.files}
    assert names == set(contents(found.folder))
    for name in ("tides-concert-1.0.zip", "tides-eflat-1.0.zip", "listing.txt", "listing.json", MANIFEST,
                 "sample/tides-concert-sample.pdf", "pages/page-eflat-007.png"):  # fmt: skip
        assert name in names
    for row in COVER_SIZES:
        with Image.open(found.folder / f"cover/cover-{row.name}-{row.wide}x{row.high}.jpg") as picture:
            assert picture.size == (row.wide, row.high)
    with zipfile.ZipFile(found.folder / "tides-eflat-1.0.zip") as packed:
        inside = packed.namelist()
        assert packed.read("licence.txt").decode().endswith("Play it where you like.\n")
        assert "1.0" in packed.read("readme.txt").decode()
        assert b"study-" not in packed.read("musicxml/001-02-low-tide-d-minor.musicxml")  # plain notes
        scores = json.loads(packed.read(MANIFEST))["music"]["scores"]
    assert inside == sorted(inside)
    assert {row["kind"] for row in scores} == {"home", "key", "scale"}
    assert not any(row["signature"] for row in scores)  # the book asks for none, and a scale never has one
    for name in ("tides-eflat.pdf", "musicxml/001-02-low-tide-d-minor.musicxml",
                 "midi/002-01-half-past-the-pier-a-major.mid",
                 "tracks/01-a-minor/001-01-3-132-low-tide-c-minor-line-alone.mid"):  # fmt: skip
        assert name in inside
    assert "There is no preview to listen to: no track of the book sounds." in found.told


def test_steps_are_counted_from_one_to_the_last(made: tuple[Path, Bundled]) -> None:
    told = {step.phase: [(one.done, one.of) for one in STEPS if one.phase == step.phase] for step in STEPS}
    for phase in ("engraving", "tracks", "back", "exchange", "size", "packing"):
        assert [done for done, _ in told[phase]] == list(range(1, told[phase][0][1] + 1)), phase
    books, samples = told["pages"][: 8 + 1], told["pages"][8 + 1 :]
    assert books == [(done, 8) for done in range(9)]
    assert samples == [(done, len(samples) - 1) for done in range(len(samples))]
    assert told["reading"][-1] == (2, 2)
    assert STEPS.index(Step("reading", 1, 2)) < STEPS.index(Step("engraving", 1, 2))


def test_it_proves_itself(made: tuple[Path, Bundled]) -> None:
    root, found = made
    assert verify(found.folder, root, jobs=1).faults == ()
    assert verify(found.folder / "tides-eflat-1.0.zip", root).faults == ()


def test_zips_are_checked_side_by_side_and_one_that_ends_its_worker_is_told(
    made: tuple[Path, Bundled], monkeypatch: pytest.MonkeyPatch
) -> None:
    _, found = made
    steps: list[Step] = []
    monkeypatch.setattr(room, "Crew", lambda workers: Crew(workers, ThreadPoolExecutor))
    both = verify(found.folder, jobs=2, tell=steps.append)
    assert (both.faults, [(one.done, one.of) for one in steps]) == ((), [(1, 2), (2, 2)])
    assert both == verify(found.folder, jobs=1)
    monkeypatch.setattr(Crew, "run", lambda crew, function, paths: ((path, Lost()) for path in paths))
    lost = verify(found.folder, jobs=2)
    assert (lost.zips, lost.pages, lost.scores, lost.files, lost.tracks) == (2, 0, 0, 0, 0)
    said = [one.says for one in lost.faults if "ended the program" in one.says]
    assert len(said) == 2


def test_another_folder_and_other_workers_give_the_same_bytes(
    made: tuple[Path, Bundled], tmp_path: Path
) -> None:
    root, found = made
    other = shutil.copytree(root, tmp_path / "elsewhere" / "tides")
    again = bundle(Request(other, tmp_path / "other", jobs=2))
    assert contents(again.folder) == contents(found.folder)


def test_what_is_there_is_not_packed_again_and_what_was_spoilt_is(made: tuple[Path, Bundled]) -> None:
    root, found = made
    before = contents(found.folder)
    said: list[str] = []

    def tell(step: Step) -> None:
        said.append(step.said)

    request = Request(root, found.folder.parent, jobs=1)
    assert bundle(request, tell).packed == 0
    assert any("2 zip files" in one and "MB at most" in one for one in said)
    path = found.folder / "tides-concert-1.0.zip"
    path.write_bytes(path.read_bytes()[:-10])
    assert bundle(request).packed == 1
    assert contents(found.folder) == before


def test_cards_that_are_damaged_in_the_store_are_made_anew(made: tuple[Path, Bundled]) -> None:
    """One bit of every card is flipped; the list of the tracks is a card too, and measures of their sound."""
    root, found = made
    before = contents(found.folder)
    for path in (found.folder.parent / STORE / "card").iterdir():
        content = bytearray(path.read_bytes())
        content[len(content) // 2] ^= 4
        path.write_bytes(content)
    bundle(Request(root, found.folder.parent, jobs=1))
    assert contents(found.folder) == before


def test_a_stopped_bundle_goes_on(made: tuple[Path, Bundled], monkeypatch: pytest.MonkeyPatch) -> None:
    root, found = made
    before = contents(found.folder)
    for name in ("tides-concert-1.0.zip", "tides-eflat-1.0.zip"):
        (found.folder / name).unlink()
    replaced, count = Path.replace, 0

    def stop(self: Path, target: Path) -> Path:
        nonlocal count
        count += self.name.endswith(".part")
        if count == 2:
            raise KeyboardInterrupt
        return replaced(self, target)

    monkeypatch.setattr(Path, "replace", stop)
    request = Request(root, found.folder.parent, jobs=1)
    with pytest.raises(KeyboardInterrupt):
        bundle(request)
    monkeypatch.undo()
    assert not list((found.folder.parent / ".store/unfinished").iterdir())
    assert bundle(request).packed == 1
    assert contents(found.folder) == before


def test_too_little_room_stops_before_anything_is_packed(
    made: tuple[Path, Bundled], monkeypatch: pytest.MonkeyPatch
) -> None:
    root, found = made
    before = contents(found.folder)
    usage = shutil.disk_usage(found.folder)._replace(free=1000)
    monkeypatch.setattr("shutil.disk_usage", lambda folder: usage)
    with pytest.raises(OutputError, match="takes up to"):
        bundle(Request(root, found.folder.parent, jobs=1))
    assert contents(found.folder) == before


def test_a_new_version_leaves_nothing_of_the_old_and_says_what_changed(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", 1, SETTINGS.partition("[tracks]")[0])
    request = Request(root, tmp_path / "out", editions=("concert",), jobs=1)
    folder = bundle(request).folder
    (folder / "mine.txt").write_text("my own", encoding="utf-8")
    text = (root / "manuscript.toml").read_text(encoding="utf-8").replace('"1.0"', '"1.1"')
    (root / "manuscript.toml").write_text(text, encoding="utf-8")
    request = replace(request, practice_page=True)
    found = bundle(request, changes=Changes("1.0", "What has changed\n", ({"number": 1},)))
    assert not (folder / "tides-concert-1.0.zip").exists()
    assert (folder / "mine.txt").exists()
    assert "mine.txt lies in the bundle's folder and is none of its files." in found.told
    assert "There is no licence.txt beside manuscript.toml." in found.told
    with zipfile.ZipFile(folder / "tides-concert-1.1.zip") as packed:
        assert packed.read("changes.txt").decode() == "What has changed\n"
        page = packed.read("practice/index.html")
        readme = packed.read("readme.txt").decode()
        said = json.loads(packed.read(MANIFEST))
    assert page == (tmp_path / "out" / "tides-practice" / "index.html").read_bytes()
    assert "practice/:" in readme
    assert "changes.txt:" in readme
    assert (said["about"]["version"], said["changes"]["since"]) == ("1.1", "1.0")
    assert from_json(FolderManifest, (folder / MANIFEST).read_bytes()).changes.rows == ({"number": 1},)
    (folder / "mine.txt").unlink()
    assert [fault.says for fault in verify(folder, root, jobs=1).faults] == []


OUTSIDE = "1/1 f#5 | 1/2 b4 f#5 | 1/1 e5 | 1/1 c5"
"""The wrong third is held against two chords of the first phrase."""


def test_a_book_with_an_error_is_not_sold(tmp_path: Path) -> None:
    root = write_manuscript(tmp_path / "tides", 1, 'keys = "C"\n')
    write_phrase(root, 0, line=OUTSIDE)
    with pytest.raises(BuildError, match="final book was not made"):
        bundle(Request(root, tmp_path / "out", jobs=1))
    assert not (tmp_path / "out/bundle").exists()
