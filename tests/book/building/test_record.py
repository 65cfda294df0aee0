"""The record of a build: what renames it, and when what it tells of is still there."""

from collections.abc import Callable
from dataclasses import fields, replace
from pathlib import Path

import pytest

from book.builds import write_manuscript, write_phrase
from shedbook.book.building.record import Outcome, Record, is_watched
from shedbook.book.ground.findings import BookFinding
from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.manuscript.request import Request
from shedbook.book.workshop.memory import PhaseMemory
from shedbook.book.workshop.naming import content_hash
from shedbook.book.workshop.output_folder import STORE, claim
from shedbook.book.workshop.store import Store, file_seal

FINDING = BookFinding(
    1, "Low tide", "phrases/01.toml", "range", "warning", 2, "2½", "It is high.", "Fold it."
)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return write_manuscript(tmp_path / "tides", 2)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    claim(tmp_path / "out")
    with Store(tmp_path / "out" / STORE).held():  # makes the store
        pass
    return tmp_path / "out"


OUTCOME = Outcome(
    pdfs={"tides-concert.pdf": "5e" * 32},
    findings=(FINDING, BookFinding(0, "", "manuscript.toml", "r", "advice", None, "", "m", "", "bflat", "C")),
    tracks={"tracks/1.mp3": (12, 34)},
    watched={"/font.sf2": None},
    played_with=("FluidSynth “x”",),
    warnings=(("It is quiet.", "Listen."),),
    jobs_run=3,
    uses=("a", "b"),
    complete=False,
    read_back=7,
    memory=(PhaseMemory("pages", 146, 308),),
    moved=(("A book is no longer asked for.", "It lies in earlier."),),
)


def test_the_outcome_has_the_one_form_of_all_values() -> None:
    """The library is the oracle: what it writes is read here, and the other way round."""
    assert Outcome.from_json(to_json(OUTCOME)) == OUTCOME
    assert from_json(Outcome, OUTCOME.to_json()) == OUTCOME
    assert {one.name for one in fields(Outcome) if getattr(OUTCOME, one.name) == one.default} == set()


@pytest.mark.parametrize("content", [b"", b"[]", b"{}", b'{"pdfs": 1}', b"\xff"])
def test_another_form_is_no_outcome(content: bytes) -> None:
    assert Outcome.from_json(content) is None


def name(root: Path, **asked: object) -> str:
    return Record.of(Request(root, **asked), root, root / "out").name  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "asked",
    [
        {"keys": ("C",)}, {"editions": ("bflat",)}, {"phrases": ("1",)}, {"licensee": "Ada"}, {"sample": 1},
        {"proof_sheet": True}, {"tracks": ("all",)}, {"tablature": ("all",)},
    ],
)  # fmt: skip
def test_another_request_is_another_build(root: Path, asked: dict[str, object]) -> None:
    assert name(root, **asked) != name(root)


@pytest.mark.parametrize(
    "asked", [{"jobs": 3}, {"final": True}, {"scheduler": "tcp://x:1"}, {"out": Path("elsewhere")}]
)
def test_how_it_is_built_makes_no_other_build(root: Path, asked: dict[str, object]) -> None:
    assert name(root, **asked) == name(root)


@pytest.mark.parametrize(
    ("change", "noticed"),
    [
        pytest.param(lambda root: write_phrase(root, 0, tempo=77), True, id="a phrase"),
        pytest.param(lambda root: write_phrase(root, 2), True, id="one more phrase"),
        pytest.param(lambda root: (root / "phrases/02.toml").unlink(), True, id="one less"),
        pytest.param(
            lambda root: (root / "phrases/02.toml").rename(root / "phrases/00.toml"), True, id="order"
        ),
        pytest.param(lambda root: (root / "manuscript.toml").write_text("title = 'T'"), True, id="settings"),
        pytest.param(lambda root: (root / "chapter.txt").write_text("Low water."), True, id="a chapter"),
        pytest.param(lambda root: (root / "notes.md").write_text("mine"), False, id="another file"),
        pytest.param(lambda root: (root / "phrases/01.toml").touch(), False, id="a date alone"),
    ],
)
def test_a_change_of_the_manuscript_is_noticed(
    root: Path, change: Callable[[Path], object], noticed: bool
) -> None:
    before = name(root)
    change(root)
    assert (name(root) != before) is noticed


@pytest.mark.parametrize(
    ("file", "watched"),
    [("phrases/01.toml", True), (".hidden/01.toml", False), ("phrases/.01.toml", False), ("01.txt", False)],
)
def test_which_files_a_record_watches(file: str, watched: bool) -> None:
    assert is_watched(file) is watched


def recorded(root: Path, out: Path) -> tuple[Record, Outcome]:
    """Write the record of a build that gave a book and a track and took a font."""
    (out / "book.pdf").write_bytes(b"%PDF")
    (out / "track.mid").write_bytes(b"MThd")
    font = root.parent / "own.sf2"
    font.write_bytes(b"RIFF")
    outcome = Outcome(
        pdfs={"book.pdf": content_hash(b"%PDF")},
        findings=(FINDING, FINDING._replace(bar=None, edition="alto voice", key="A minor")),
        tracks={"track.mid": file_seal(out / "track.mid")},
        watched={str(font): file_seal(font), str(root / "nowhere.sf2"): None},
        played_with=("a synthesiser",),
        warnings=(("It does not sound.", "Install one."),),
        jobs_run=7,
        uses=("a1", "b2"),
    )
    record = Record.of(Request(root), root, out)
    # How much memory it took is not kept: the next build did not take it.
    record.write(replace(outcome, memory=(PhaseMemory("pages", 146, 308),)))
    return record, outcome


def test_what_came_of_a_build_is_read_back_whole(root: Path, out: Path) -> None:
    record, outcome = recorded(root, out)
    assert record.read() == outcome
    assert Record.of(Request(root), root, out) == record


@pytest.mark.parametrize(
    "harm",
    [
        pytest.param(lambda root, out: (out / "book.pdf").unlink(), id="the book is gone"),
        pytest.param(lambda root, out: (out / "book.pdf").write_bytes(b"%PDX"), id="the book was changed"),
        pytest.param(lambda root, out: (out / "track.mid").unlink(), id="a track is gone"),
        pytest.param(lambda root, out: (out / "track.mid").write_bytes(b"MT"), id="a track was changed"),
        pytest.param(lambda root, out: (root.parent / "own.sf2").write_bytes(b"RI"), id="another font"),
        pytest.param(lambda root, out: (root / "nowhere.sf2").write_bytes(b"RIFF"), id="a font has come"),
    ],
)
def test_a_record_of_what_is_not_there_any_more_is_no_answer(
    root: Path, out: Path, harm: Callable[[Path, Path], object]
) -> None:
    record, _ = recorded(root, out)
    harm(root, out)
    assert record.read() is None


def test_no_record_and_a_damaged_one_are_no_answer(root: Path, out: Path) -> None:
    assert Record.of(Request(root), root, out).read() is None
    record, _ = recorded(root, out)
    path = Store(out / STORE).path("build", record.name)
    path.write_bytes(path.read_bytes()[:-9])
    assert record.read() is None
