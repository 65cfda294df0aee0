"""The steps that were taken, on disk beside the store: each can be taken back, also after a restart.

A step keeps, for each file it touched, the part that changed and the hash of the whole file after it. It is
taken back only where the file still is what the step left, or still has the same part in the same place.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from itertools import takewhile
from pathlib import Path

from shedbook.book.editing.texts import FileText, read_file, write_files
from shedbook.book.ground.writing import put, refused
from shedbook.book.workshop.output_folder import claim
from shedbook.errors import OutputError

FOLDER = ".history"
KEPT_STEPS = 1_000
_TOGETHER_S = 4.0
"""Steps of one kind on one phrase that follow each other this fast are one step."""


@dataclass(frozen=True, slots=True)
class Part:
    """The part of a file that a step changed; None stands for a file that is not there."""

    file: str
    start: int
    before: str | None
    after: str | None
    hash: str


@dataclass(frozen=True, slots=True)
class Step:
    """One step: what it was, the phrase that it was about, when, and what it changed.

    `kind` is a short name such as "write" or "move"; `about` is the title of the phrase; `at` is in seconds
    since 1970. `joins` tells steps that may become one.
    """

    kind: str
    about: str
    at: float
    parts: tuple[Part, ...]
    joins: str = ""
    undone: bool = False


def part_of(before: FileText, after: FileText) -> Part:
    """Return what differs between two states of one file."""
    one, two = before.text, after.text
    if one is None or two is None:
        return Part(before.file, 0, one, two, _hash(two))
    start = _alike(one, two)
    tail = _alike(one[start:][::-1], two[start:][::-1])
    return Part(before.file, start, one[start : len(one) - tail], two[start : len(two) - tail], _hash(two))


def _alike(one: str, two: str) -> int:
    """Return how many characters two texts have in common from their beginning on."""
    for at, (first, second) in enumerate(zip(one, two, strict=False)):
        if first != second:
            return at
    return min(len(one), len(two))


def _hash(text: str | None) -> str:
    return "" if text is None else hashlib.sha256(text.encode()).hexdigest()[:24]


class History:
    """The steps of one manuscript, in files beneath an output folder."""

    def __init__(self, root: Path, out: Path) -> None:
        self._root, self._out, self._folder = root, out, out / FOLDER

    def add(self, step: Step) -> None:
        """Keep a step; steps that were taken back before it are forgotten.

        Raises:
            OutputError: if the folder is not ours or cannot be written.
        """
        claim(self._out)
        numbers = self._numbers()
        for number in reversed(numbers):
            last = self._read(number)
            if last is None or last.undone:
                self._path(number).unlink(missing_ok=True)
                numbers.remove(number)
                continue
            if step.joins and last.joins == step.joins and step.at - last.at < _TOGETHER_S:
                joined = self._joined(last, step)
                if joined is not None:
                    self._write(number, joined)
                    return
            break
        self._write(numbers[-1] + 1 if numbers else 1, step)
        for number in numbers[: max(0, len(numbers) + 1 - KEPT_STEPS)]:
            self._path(number).unlink(missing_ok=True)

    def _joined(self, last: Step, step: Step) -> Step | None:
        """Return two steps on one file as one, or None where that cannot be."""
        if len(last.parts) != 1 or len(step.parts) != 1:
            return None
        (one,), (two,) = last.parts, step.parts
        if one.file != two.file or None in (one.before, one.after, two.before, two.after):
            return None
        now = read_file(self._root, two.file)
        if now.text is None or _hash(now.text) != two.hash:
            return None
        between = _swapped(now.text, two, back=True)
        first = None if between is None or _hash(between) != one.hash else _swapped(between, one, back=True)
        if first is None:
            return None
        return replace(step, parts=(part_of(now.with_text(first), now),))

    def last(self) -> Step | None:
        """Return the step that `undo` would take back."""
        return next((step for _, step in self._steps() if not step.undone), None)

    def next(self) -> Step | None:
        """Return the step that `redo` would take again."""
        found = self._undone()
        return found[-1][1] if found else None

    def undo(self) -> Step | None:
        """Take back the last step and return it; None where there is none.

        Raises:
            OutputError: if a file has been changed since in the same place; nothing is written then.
        """
        found = next(((number, step) for number, step in self._steps() if not step.undone), None)
        return None if found is None else self._go(*found, back=True)

    def redo(self) -> Step | None:
        """Take again the step that was taken back last and return it; None where there is none.

        Raises:
            OutputError: as `undo`.
        """
        found = self._undone()
        return self._go(*found[-1], back=False) if found else None

    def _undone(self) -> list[tuple[int, Step]]:
        """Return the steps at the end that were taken back, the newest first."""
        return list(takewhile(lambda one: one[1].undone, self._steps()))

    def _go(self, number: int, step: Step, *, back: bool) -> Step:
        before = [read_file(self._root, part.file) for part in step.parts]
        write_files(before, [self._changed(part, back=back) for part in step.parts])
        self._write(number, replace(step, undone=back))
        return step

    def _changed(self, part: Part, *, back: bool) -> FileText:
        now = read_file(self._root, part.file)
        text = _swapped(now.text, part, back=back)
        whole = None in (part.before, part.after)
        if text is None and not (whole and now.text == (part.after if back else part.before)):
            raise OutputError(
                f"{part.file} has been changed since, in the same place; nothing was taken back.",
                hint="Look at the file, and change it by hand.",
            )
        return now.with_text(text if not whole else (part.before if back else part.after))

    # Files

    def _steps(self) -> Iterator[tuple[int, Step]]:
        """Yield the steps with their numbers, the newest first."""
        for number in reversed(self._numbers()):
            step = self._read(number)
            if step is not None:
                yield number, step

    def _numbers(self) -> list[int]:
        try:
            names = [path.stem for path in self._folder.glob("*.json")]
        except OSError:
            return []
        return sorted(int(name) for name in names if name.isdecimal())

    def _path(self, number: int) -> Path:
        return self._folder / f"{number:08d}.json"

    def _read(self, number: int) -> Step | None:
        try:
            values = json.loads(self._path(number).read_text(encoding="utf-8"))
            return Step(**{**values, "parts": tuple(Part(**part) for part in values["parts"])})
        except (OSError, ValueError, TypeError, KeyError):
            return None

    def _write(self, number: int, step: Step) -> None:
        with refused(self._folder):
            self._folder.mkdir(parents=True, exist_ok=True)
            put(self._path(number), json.dumps(asdict(step)).encode(), self._folder)


def _swapped(text: str | None, part: Part, *, back: bool) -> str | None:
    """Return a text with the part as it was before, or after; None where the text has no such part there."""
    there, wanted = (part.after, part.before) if back else (part.before, part.after)
    if text is None or there is None or wanted is None:
        return None
    end = part.start + len(there)
    if text[part.start : end] != there:
        return None
    return text[: part.start] + wanted + text[end:]
