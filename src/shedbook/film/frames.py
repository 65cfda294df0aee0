"""The pictures of a video, in the encoder's own colours: each page and each mark is converted once.

A frame is 4:2:0 in the limited range of ITU-R BT.709, laid out as one array: the brightness, then the two
colours at half size. From frame to frame only the marks that come and go are painted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedbook.film.marks import Mark, Picture

Planes = NDArray[np.uint8]
"""One frame: three halves of the height by the width."""

_RGB_TO_Y = np.array((0.2126, 0.7152, 0.0722), np.float32)
"""The shares of red, green and blue in the brightness (ITU-R BT.709)."""


@dataclass(frozen=True, slots=True)
class Patch:
    """A mark in the encoder's colours: its place, and its three planes."""

    x: int
    y: int
    luma: NDArray[np.uint8]
    blue: NDArray[np.uint8]
    red: NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Page:
    """A page in the encoder's colours, and the marks of its notes."""

    planes: Planes
    marks: Mapping[int, tuple[Patch, ...]]


@dataclass(frozen=True, slots=True)
class Shown:
    """What is seen: the page, the notes that are marked, and other patches such as a caption, by index."""

    page: int
    notes: tuple[int, ...]
    others: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Scene:
    """So many frames on which the same is seen. The planes hold until the next scene is asked for."""

    planes: Planes
    frames: int


def planes_of(picture: Picture) -> Planes:
    """Return a picture of even height and width in the encoder's colours."""
    luma, blue, red = _converted(picture)
    height, width = luma.shape
    colours = np.concatenate([blue.ravel(), red.ravel()]).reshape(height // 2, width)
    return np.concatenate([luma, colours])


def patch_of(mark: Mark) -> Patch:
    """Return a mark in the encoder's colours."""
    return Patch(mark.x, mark.y, *_converted(mark.pixels))


def _converted(picture: Picture) -> tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]:
    """Return brightness and colours: 16 to 235, and 16 to 240 about 128 at half size."""
    rgb = picture.astype(np.float32) / 255
    luma = rgb @ _RGB_TO_Y
    blue = np.asarray((rgb[..., 2] - luma) / 1.8556, np.float32)
    red = np.asarray((rgb[..., 0] - luma) / 1.5748, np.float32)
    return (
        np.asarray(np.rint(16 + 219 * luma), np.uint8),
        np.asarray(np.rint(128 + 224 * _halved(blue)), np.uint8),
        np.asarray(np.rint(128 + 224 * _halved(red)), np.uint8),
    )


def _halved(plane: NDArray[np.float32]) -> NDArray[np.float32]:
    height, width = plane.shape
    return np.asarray(plane.reshape(height // 2, 2, width // 2, 2).mean(axis=(1, 3)), np.float32)


class Easel:
    """Paints one scene after the other on the same canvas."""

    def __init__(self, pages: Sequence[Page], others: Sequence[Patch]) -> None:
        self._pages, self._others = pages, others
        self._canvas = np.array(pages[0].planes)
        self._page = 0
        self._painted: list[Patch] = []

    def paint(self, shown: Shown) -> Planes:
        """Return the canvas with what is to be seen; it holds until the next call."""
        page = self._pages[shown.page]
        if shown.page != self._page:
            np.copyto(self._canvas, page.planes)
            self._page, self._painted = shown.page, []
        for patch in self._painted:
            self._restore(patch, page.planes)
        marks = [patch for note in shown.notes for patch in page.marks.get(note, ())]
        self._painted = [*(self._others[index] for index in shown.others), *marks]
        for patch in self._painted:
            self._put(patch)
        return self._canvas

    def _put(self, patch: Patch) -> None:
        luma, blue, red = _views(self._canvas)
        height, width = patch.luma.shape
        luma[patch.y : patch.y + height, patch.x : patch.x + width] = patch.luma
        rows, columns = _half(patch)
        blue[rows, columns], red[rows, columns] = patch.blue, patch.red

    def _restore(self, patch: Patch, planes: Planes) -> None:
        height, width = patch.luma.shape
        rows, columns = slice(patch.y, patch.y + height), slice(patch.x, patch.x + width)
        ours, theirs = _views(self._canvas), _views(planes)
        ours[0][rows, columns] = theirs[0][rows, columns]
        rows, columns = _half(patch)
        for mine, other in zip(ours[1:], theirs[1:], strict=True):
            mine[rows, columns] = other[rows, columns]


def _views(planes: Planes) -> tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]:
    """Return brightness and colours of a frame as views."""
    width = planes.shape[1]
    height = planes.shape[0] * 2 // 3
    flat = planes.reshape(-1)
    size = height * width
    quarter = size // 4
    return (
        flat[:size].reshape(height, width),
        flat[size : size + quarter].reshape(height // 2, width // 2),
        flat[size + quarter :].reshape(height // 2, width // 2),
    )


def _half(patch: Patch) -> tuple[slice, slice]:
    height, width = patch.blue.shape
    return slice(patch.y // 2, patch.y // 2 + height), slice(patch.x // 2, patch.x // 2 + width)


def scenes(easel: Easel, shown: Sequence[Shown]) -> Iterator[Scene]:
    """Yield the scenes of a video: `shown` says what is seen on each frame."""
    start = 0
    for place in range(1, len(shown) + 1):
        if place == len(shown) or shown[place] != shown[start]:
            yield Scene(easel.paint(shown[start]), place - start)
            start = place
