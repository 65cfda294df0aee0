"""What the pages of a lesson plan and of a take sheet print: frozen values that go to Typst as JSON."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PageScore:
    """A score on a page: what stands over it, the picture, its size in millimetres, and what it says."""

    label: str
    svg: str
    width_mm: float
    height_mm: float
    alt: str


@dataclass(frozen=True, slots=True)
class PageBlock:
    """A paragraph or a head, with the scores that stand behind it."""

    kind: str
    text: str
    level: int = 0
    scores: tuple[PageScore, ...] = ()


@dataclass(frozen=True, slots=True)
class LessonPages:
    """The pages of a lesson plan."""

    title: str
    author: str
    language: str
    blocks: tuple[PageBlock, ...]


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A row of a take sheet: a take by its columns, or, where it has one cell only, a rest."""

    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetPages:
    """The pages of a take sheet: its head, what is to be known, the names of its columns, its rows."""

    title: str
    author: str
    language: str
    says: tuple[str, ...]
    columns: tuple[str, ...]
    rows: tuple[SheetRow, ...]
