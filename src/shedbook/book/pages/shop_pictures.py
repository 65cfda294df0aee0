"""The author's pictures for cover and title page: looked at, and put where the pages find them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.toml_files import inside, refuse
from shedbook.book.ground.writing import put, refused
from shedbook.book.workshop.naming import content_hash
from shedbook.book.workshop.store import Store

LEAST_DPI, GOOD_DPI = 200, 300
"""Dots an inch under which a picture is refused, and from which on it is sharp in print (common practice)."""
_FOLDER = "media"
_MANUSCRIPT = "manuscript.toml"


@dataclass(frozen=True, slots=True)
class ShopPicture:
    """A picture: where it lies beneath the store, its size in pixels."""

    path: str
    wide: int
    high: int

    def dpi(self, width_mm: float, height_mm: float) -> int:
        """Return how many dots an inch it has where it covers an area, cut at the sides that are too long."""
        return round(min(self.wide / width_mm, self.high / height_mm) * 25.4)


def shop_picture(root: Path, name: str, store: Store) -> ShopPicture:
    """Return a picture that the manuscript names, put into the store under a name made of its content.

    Raises:
        ManuscriptError: if there is no such file, or it is no picture.
        OutputError: if the disk refuses it.
    """
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415 - only a book with pictures needs it

    path = inside(root, name, _MANUSCRIPT, hint="Put the picture into the manuscript's folder.")
    try:
        content = path.read_bytes()
        with Image.open(path) as picture:
            wide, high = picture.size
            kind = str(picture.format).lower()
    except (OSError, UnidentifiedImageError) as error:
        raise refuse(
            _MANUSCRIPT, f"The picture {name} cannot be read.", "Give a PNG or a JPEG file that lies there."
        ) from error
    inner = f"{_FOLDER}/{content_hash(content)[:40]}.{'png' if kind == 'png' else 'jpg'}"
    target = store.folder / inner
    if not target.is_file():
        with refused(store.folder.parent):
            target.parent.mkdir(parents=True, exist_ok=True)
            put(target, content, store.folder / "unfinished")
    return ShopPicture(inner, wide, high)


def check_sharp(picture: ShopPicture, name: str, width_mm: float, height_mm: float) -> str:
    """Return a warning where a picture is not quite sharp in print, else "".

    Raises:
        ManuscriptError: if it is far too small.
    """
    dpi = picture.dpi(width_mm, height_mm)
    pixels = tuple(round(side / 25.4 * GOOD_DPI) for side in (width_mm, height_mm))
    mend = f"At {width_mm:g} by {height_mm:g} mm with the bleed it needs {pixels[0]} by {pixels[1]} pixels."
    if dpi < LEAST_DPI:
        raise refuse(_MANUSCRIPT, f"The picture {name} has only {dpi} dots an inch on the page.", mend)
    return f"The picture {name} has {dpi} dots an inch on the page. {mend}" if dpi < GOOD_DPI else ""
