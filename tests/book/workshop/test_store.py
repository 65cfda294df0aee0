"""The store: whole files or none, damage found out, old artefacts thrown away."""

import multiprocessing
import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from shedbook.book.ground.writing import put
from shedbook.book.workshop.store import KEPT_BUILDS, Store


@dataclass(frozen=True, slots=True)
class Card:
    """What stands for an artefact."""

    title: str = ""


@dataclass(frozen=True, slots=True)
class Record:
    """What stands for the record of a build: it says which artefacts the build used."""

    pdfs: dict[str, str]
    uses: tuple[str, ...]


@pytest.fixture
def store(tmp_path: Path) -> Store:
    with Store(tmp_path / ".store").held():
        pass
    return Store(tmp_path / ".store")


def test_what_is_written_is_read_back(store: Store) -> None:
    store.write("svg", "a1", b"<svg/>")
    assert store.read("svg", "a1") == b"<svg/>"
    assert store.has("svg", "a1")
    assert store.path("svg", "a1").read_bytes().startswith(b"<svg/>\n<!-- ")  # other programs still read it


def test_what_is_not_there_is_none(store: Store) -> None:
    assert store.read("svg", "a1") is None
    assert store.read_value(Card, "card", "a1") is None


def test_a_value_is_read_back(store: Store) -> None:
    store.write_value("card", "a1", Card("Low tide"))
    assert store.read_value(Card, "card", "a1") == Card("Low tide")


def test_a_value_of_another_form_counts_as_missing(store: Store) -> None:
    store.write_value("card", "a1", Card("Low tide"))
    assert store.read_value(Record, "card", "a1") is None
    store.write("card", "a1", b"no JSON")
    assert store.read_value(Card, "card", "a1") is None


@pytest.mark.parametrize(
    "damage",
    [
        pytest.param(lambda whole: whole[:-1], id="last byte lost"),
        pytest.param(lambda whole: whole[: len(whole) // 2], id="half"),
        pytest.param(lambda whole: b"", id="empty"),
        pytest.param(lambda whole: whole + b"\n", id="a byte more"),
        pytest.param(lambda whole: b"X" + whole[1:], id="a byte changed"),
        pytest.param(lambda whole: b"\0" * len(whole), id="zeros, as after a power cut"),
    ],
)
def test_a_damaged_artefact_counts_as_missing(store: Store, damage: Callable[[bytes], bytes]) -> None:
    store.write_value("card", "a1", Card("Low tide"))
    path = store.path("card", "a1")
    path.write_bytes(damage(path.read_bytes()))
    assert store.read_value(Card, "card", "a1") is None


def test_a_failed_write_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "book.pdf"
    target.write_bytes(b"old")
    unfinished = tmp_path / "unfinished"
    unfinished.mkdir()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        put(target, b"new", unfinished, lasting=True)
    assert target.read_bytes() == b"old"
    assert list(unfinished.iterdir()) == []


def _record(store: Store, number: int) -> None:
    store.write("svg", f"score{number}", b"<svg/>")
    store.write_value("build", f"build{number}", Record({}, (f"score{number}", "shared")))
    os.utime(store.path("build", f"build{number}"), (number, number))


def test_the_latest_builds_keep_their_artefacts(store: Store) -> None:
    store.write_value("card", "shared", Card())
    for number in range(KEPT_BUILDS + 3):
        _record(store, number)
    with store.held():
        pass
    kept = [number for number in range(KEPT_BUILDS + 3) if store.has("svg", f"score{number}")]
    assert kept == list(range(3, KEPT_BUILDS + 3))
    assert store.has("card", "shared")
    assert len(list((store.folder / "build").iterdir())) == KEPT_BUILDS


def test_nothing_is_thrown_away_while_another_build_runs(store: Store) -> None:
    left = store.folder / "unfinished" / "1-1.part"
    for number in range(KEPT_BUILDS + 1):
        _record(store, number)
    with store.held():  # the first sweeps before anything of its own is there
        for number in range(KEPT_BUILDS + 3):
            _record(store, number)
        left.write_bytes(b"half")
        other = multiprocessing.get_context("fork").Process(target=_hold, args=(store,))
        other.start()
        other.join()
        assert other.exitcode == 0
        assert left.exists()
        assert store.has("svg", "score0")
    with store.held():
        assert not left.exists()
        assert not store.has("svg", "score0")


def _hold(store: Store) -> None:
    with store.held():
        pass


def test_a_store_knows_what_it_holds_and_throws_away_what_is_asked(store: Store) -> None:
    for number in range(3):
        store.write("svg", f"a{number}", b"<svg/>" * 10)
        store.write_value("build", f"b{number}", Record({}, (f"a{number}",)))
        os.utime(store.path("build", f"b{number}"), (number, number))
    by_kind = {one.kind: one for one in store.holdings()}
    assert (by_kind["svg"].files, by_kind["build"].files, by_kind["card"].files) == (3, 3, 0)
    assert by_kind["svg"].bytes == sum(path.stat().st_size for path in (store.folder / "svg").iterdir())
    assert (by_kind["build"].oldest_s, by_kind["build"].newest_s) == (0, 2)
    assert store.tidy(2)
    assert [store.has("svg", f"a{number}") for number in range(3)] == [False, True, True]
    assert store.tidy(0)
    assert sum(one.files for one in store.holdings()) == 0


def test_nothing_is_tidied_while_a_build_runs(store: Store) -> None:
    store.write("svg", "a", b"<svg/>")
    with store.held():
        assert not store.tidy(0)
    assert store.has("svg", "a")
    assert store.tidy(0)
    assert not store.has("svg", "a")
