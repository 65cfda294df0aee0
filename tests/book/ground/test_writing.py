"""Files appear whole or not at all, and what a disk refuses is said in words."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from shedbook.book.ground.writing import put, refusal, refused, write_whole
from shedbook.book.workshop.output_folder import claim
from shedbook.book.workshop.store import Store
from shedbook.errors import OutputError

PHRASE = 'title = "Low tide"\nchanges = "C"\nline = "1/4 c5 e g c6"\n'

# A limit on the size of a file is refused by the same call as a full disk, and needs no disk of its own.
# Such a process writes no bytecode (-B): a piece of it would be kept, and later runs would stumble on that.
LIMITED = (
    "import resource, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)); "
    "from shedbook.cli.main import main; sys.exit(main(sys.argv[1:]))"
)


@pytest.fixture
def phrase(tmp_path: Path) -> Path:
    book = tmp_path / "book"
    (book / "phrases").mkdir(parents=True)
    (book / "manuscript.toml").write_text('title = "Low tide"\n', encoding="utf-8")
    file = book / "phrases" / "01-low-tide.toml"
    file.write_text(PHRASE, encoding="utf-8")
    return file


def seen(folder: Path) -> list[str]:
    """Return the files that a person sees, those under hidden folders left out."""
    return sorted(
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(folder).parts)
    )


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on the size of a file")
@pytest.mark.parametrize(
    ("verb", "options"),
    [
        ("build", ("--keys", "C", "--out", "{out}")),
        ("show", ("--out", "{out}/a.png")),
        ("export", ("--format", "png", "--out", "{out}")),
        ("play", ("--parts", "line", "--out", "{out}/a.wav")),
    ],
)
def test_every_verb_says_that_the_disk_refused_and_leaves_nothing_half_written(
    phrase: Path, tmp_path: Path, verb: str, options: tuple[str, ...]
) -> None:
    out = tmp_path / "out"
    source = phrase.parent.parent if verb in ("build", "export") else phrase
    words = [option.format(out=out) for option in options]
    run = subprocess.run(
        [sys.executable, "-B", "-c", LIMITED, verb, str(source), *words],
        capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert run.returncode == 1, run.stderr
    assert "Traceback" not in run.stderr
    assert f"shedbook: {out}" in run.stderr
    assert "cannot be written: File too large." in run.stderr
    assert seen(out) == []
    assert list(out.rglob("*.part")) == []


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EDQUOT])
def test_a_full_disk_is_called_so(number: int) -> None:
    error = refusal(OSError(number, os.strerror(number)), Path("out"))
    assert error.message == "The disk is full: out cannot be written."
    assert error.hint == "Make room on it. Name another folder with --out."


def test_any_other_refusal_gives_the_reason() -> None:
    with pytest.raises(OutputError, match="out cannot be written: Permission denied"), refused(Path("out")):
        raise PermissionError(errno.EACCES, "Permission denied")


def full(*_: object, **__: object) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_folders_made_for_a_file_go_again_when_it_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="The disk is full"):
        write_whole(tmp_path / "a" / "b" / "x.svg", b"<svg/>")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_claimed_is_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OutputError, match="The disk is full"):
        claim(tmp_path / "a" / "out")
    assert list(tmp_path.iterdir()) == []


def test_the_store_says_where_the_disk_is_full(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store(tmp_path / "out" / ".store")
    with store.held():
        monkeypatch.setattr(os, "replace", full)
        with pytest.raises(OutputError, match="out cannot be written"):
            store.write("svg", "a", b"<svg/>")
        assert not store.has("svg", "a")


def test_a_new_file_is_never_written_over_another(tmp_path: Path) -> None:
    target = tmp_path / "01.toml"
    target.write_bytes(b"mine")
    with pytest.raises(FileExistsError):
        put(target, b"theirs", tmp_path, new=True)
    assert [(path.name, path.read_bytes()) for path in tmp_path.iterdir()] == [("01.toml", b"mine")]
    put(tmp_path / "02.toml", b"theirs", tmp_path, new=True)
    assert [path.name for path in sorted(tmp_path.iterdir())] == ["01.toml", "02.toml"]
