"""What `shedbook new` writes: a small manuscript that builds as it is."""

from __future__ import annotations

import shutil
import tempfile
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from shedbook.book.ground.writing import missing_folders, refused, remove_empty
from shedbook.errors import OutputError


def starter_files() -> tuple[tuple[str, bytes], ...]:
    """Return the files of the starter, each with its name from the manuscript's folder."""
    return tuple(sorted(_walk(resources.files("shedbook.book.manuscript") / "starter_files", "")))


def _walk(folder: Traversable, prefix: str) -> list[tuple[str, bytes]]:
    """Return the files beneath a folder of the package."""
    found = []
    for item in folder.iterdir():
        if item.is_dir():
            found += _walk(item, f"{prefix}{item.name}/")
        elif item.name.endswith(".toml"):
            found.append((prefix + item.name, item.read_bytes()))
    return found


def write_starter(folder: Path) -> tuple[str, ...]:
    """Write the starter into a folder that is new or empty; return the names of its files.

    The files are written elsewhere and moved in when all of them are there; after a failure everything
    is as it was.

    Raises:
        OutputError: if the folder holds anything, or is a file, or cannot be written.
    """
    _examine(folder)
    made = missing_folders(folder.parent)
    with refused(folder, "Name another folder."):
        try:
            folder.parent.mkdir(parents=True, exist_ok=True)
            beside = folder if folder.exists() else folder.parent
            with tempfile.TemporaryDirectory(prefix=".new-", dir=beside) as passing:
                written = Path(passing) / "manuscript"
                names = _write(written)
                _move(written, folder)
        except OSError:
            remove_empty(made)
            raise
    return names


def _examine(folder: Path) -> None:
    """Refuse a folder that holds anything."""
    try:
        if not folder.exists() and not folder.is_symlink():
            return
        if not folder.is_dir():
            raise OutputError(f"{folder} is a file; nothing was written.", hint="Name a new or empty folder.")
        held = next(iter(sorted(path.name for path in folder.iterdir())), None)
    except OSError as error:
        raise OutputError(
            f"{folder} cannot be read: {error.strerror or error}.", hint="Name another folder."
        ) from error
    if held is not None:
        raise OutputError(
            f"{folder} holds something already ({held}); nothing was written.",
            hint="Name a new or empty folder.",
        )


def _write(folder: Path) -> tuple[str, ...]:
    """Write the files."""
    files = starter_files()
    for name, data in files:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return tuple(name for name, _ in files)


def _move(written: Path, folder: Path) -> None:
    """Put the written files in place: a new folder by one rename, else piece by piece into the empty one."""
    if not folder.exists():
        written.rename(folder)
        return
    moved: list[Path] = []
    try:
        for item in sorted(written.iterdir()):
            target = folder / item.name
            shutil.move(item, target)
            moved.append(target)
    except OSError:
        for target in moved:
            shutil.rmtree(target, ignore_errors=True)
            target.unlink(missing_ok=True)
        raise
