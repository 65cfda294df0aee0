"""What stands where on a card: title, score, author, marks, and the room for captions. Pure.

A card is one value that a template prints: words, bands behind the notes and one picture of a score, all in
pixels from the left upper corner.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from shedbook.errors import UnknownNameError, nearest
from shedbook.film.tables.screens import SAFE, SCREENS, ScreenRow

SCREEN_NAMES = tuple(row.name for row in SCREENS)
LEFT, MIDDLE, RIGHT = "left", "center", "right"
WHITE, NONE = "#ffffff", ""
BLACK = "#111111"
CAPTION_LINES = 2
_LINE = 1.3
"""The distance of two lines of words, in their size."""
_BAND_RISE = 0.35
"""How far a band reaches over and under its staff, in the staff's height."""
_LETTER, _KEY = 0.52, 3.0
"""The width of a letter, and of a piece of a band with the white round it, in the size of the letters."""
STROKES: Mapping[str, str] = MappingProxyType(
    {
        "enclosure": "solid", "run": "dashed", "arpeggio": "dotted", "sequence": "dash-dotted",
        "delayed resolution": "densely-dashed",
    }
)  # fmt: skip
"""The line along the foot of a figure's band, which tells the kinds apart without a colour [our own]."""
TINTS: Mapping[str, str] = MappingProxyType(
    {
        "enclosure": "#ffe2b8", "run": "#cfe6ff", "arpeggio": "#d8f0cf", "sequence": "#ead9fb",
        "delayed resolution": "#ffd6d6",
    }
)  # fmt: skip
"""The ground of a figure's band [our own]; black stands out from each by more than 14 to 1."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the card."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.width

    @property
    def foot(self) -> float:
        """Its lower edge."""
        return self.y + self.height


class Rooms(NamedTuple):
    """The parts of a card: the safe area, title, score, names of figures, captions, the author's line."""

    safe: Box
    title: Box
    score: Box
    legend: Box
    caption: Box
    foot: Box


class SystemPlace(NamedTuple):
    """One system of a score on its picture, in pixels: its first bar, the edges of its bars, its staff.

    `heads` are the abscissas of the middles of the heads by struck note.
    """

    first_bar: int
    edges: tuple[float, ...]
    top: float
    staff: float
    heads: Mapping[int, float]


@dataclass(frozen=True, slots=True)
class ScorePicture:
    """A score, or some of its systems: an SVG, its size on the card in pixels, and where its systems are."""

    svg: str
    width: float
    height: float
    staff: float
    systems: tuple[SystemPlace, ...]


@dataclass(frozen=True, slots=True)
class Words:
    """Words on a card: `x` and `y` are those of the left upper corner of the room in which they stand."""

    text: str
    x: float
    y: float
    width: float
    height: float
    size: float
    align: str = LEFT
    bold: bool = False
    lines: int = 1


@dataclass(frozen=True, slots=True)
class Band:
    """A figure's ground behind its notes, with the stroke along its foot."""

    x: float
    y: float
    width: float
    height: float
    tint: str
    stroke: str
    ink: str


@dataclass(frozen=True, slots=True)
class Card:
    """All that is printed on a card. `ground` is a colour, or "" for none: a transparent picture."""

    width: int
    height: int
    ground: str
    ink: str
    score: Box
    svg: str
    words: tuple[Words, ...]
    bands: tuple[Band, ...]
    language: str = "en"


class Figured(NamedTuple):
    """A figure to be shown: its kind, what it is called, its first and last struck note."""

    kind: str
    name: str
    first: int
    last: int


def screen_named(name: str) -> ScreenRow:
    """Return the row of a screen.

    Raises:
        UnknownNameError: if there is none of that name.
    """
    for row in SCREENS:
        if row.name == name:
            return row
    raise UnknownNameError(
        f'"{name}" is not a kind of card.',
        hint=nearest(name, SCREEN_NAMES) or f"There are {', '.join(SCREEN_NAMES)}.",
    )


def rooms_of(row: ScreenRow, *, captions: bool = False) -> Rooms:
    """Return the parts of a card of a kind: with room for `captions`, or for the names of figures."""
    across, down = row.width * SAFE, row.height * SAFE
    safe = Box(across, down, row.width - 2 * across, row.height - 2 * down)
    low = min(safe.foot, row.height - row.covered)
    title = Box(safe.x, safe.y, safe.width, row.title * _LINE)
    foot = Box(safe.x, low - row.words * _LINE, safe.width, row.words * _LINE)
    high = row.caption * _LINE * CAPTION_LINES if captions else 0.0
    caption = Box(safe.x, foot.y - high - row.words * 0.3, safe.width, high)
    gap = row.words * 0.5
    legend = Box(safe.x, caption.y - (0 if captions else row.words * _LINE), safe.width, row.words * _LINE)
    score = Box(safe.x, title.foot + gap, safe.width, legend.y - title.foot - 2 * gap)
    return Rooms(safe, title, score, legend, caption, foot)


def score_box(rooms: Rooms, score: ScorePicture) -> Box:
    """Return where a score stands: in the middle of its room."""
    room = rooms.score
    x = room.x + (room.width - score.width) / 2
    y = room.y + max(0.0, room.height - score.height) / 2
    return Box(round(x), round(y), score.width, score.height)


def card_of(
    row: ScreenRow,
    score: ScorePicture,
    said: tuple[str, str, str],
    *,
    ground: str = WHITE,
    ink: str = BLACK,
    figures: Sequence[Figured] = (),
    captions: bool = False,
    language: str = "en",
) -> Card:
    """Return a card.

    Args:
        row: its kind.
        score: the score, or some of its systems.
        said: the title, what stands beside it such as key and tempo, and the author's line; "" for none.
        ground: a colour, or NONE for a transparent picture.
        ink: the colour of everything that is printed.
        figures: the figures to be shown behind the notes.
        captions: whether room is kept for captions.
        language: the tag of the language of its words.
    """
    rooms = rooms_of(row, captions=captions)
    place = score_box(rooms, score)
    shown = side_by_side(figures)
    bands = tuple(
        band
        for figure in shown
        for system in score.systems
        if (band := _band(figure, system, place, ink, plain=not ground))
    )
    names = dict.fromkeys((figure.kind, figure.name) for figure in shown)
    title, facts, author = said
    words = [
        Words(
            title, rooms.title.x, rooms.title.y, rooms.title.width * 0.66, rooms.title.height, row.title,
            bold=True,
        ),
        Words(
            facts, rooms.title.x + rooms.title.width * 0.68, rooms.title.y, rooms.title.width * 0.32,
            rooms.title.height, row.words, RIGHT,
        ),
        Words(
            author, rooms.foot.x + rooms.foot.width * 0.55, rooms.foot.y, rooms.foot.width * 0.45,
            rooms.foot.height, row.words * 0.86, RIGHT,
        ),
    ]  # fmt: skip
    legend, keys = _legend(rooms, row, tuple(names), ink, plain=not ground)
    return Card(
        row.width, row.height, ground, ink, place, score.svg.replace("<svg ", f'<svg color="{ink}" ', 1),
        tuple(one for one in (*words, *legend) if one.text), (*bands, *keys), language,
    )  # fmt: skip


def side_by_side(figures: Sequence[Figured]) -> tuple[Figured, ...]:
    """Return figures that do not overlap by more than a note, the longer ones first; in order."""
    chosen: list[Figured] = []
    for one in sorted(figures, key=lambda figure: (figure.first - figure.last, figure.first)):
        if all(one.first >= other.last or one.last <= other.first for other in chosen):
            chosen.append(one)
    return tuple(sorted(chosen, key=lambda figure: figure.first))


def _band(figure: Figured, system: SystemPlace, place: Box, ink: str, *, plain: bool) -> Band | None:
    """Return what of a figure's band is seen in a system."""
    heads = [x for note, x in system.heads.items() if figure.first <= note <= figure.last]
    if not heads:
        return None
    more, rise = system.staff * 0.28, system.staff * _BAND_RISE
    left, right = min(heads) - more, max(heads) + more
    return Band(
        place.x + left, place.y + system.top - rise, right - left, system.staff + 2 * rise,
        NONE if plain else TINTS.get(figure.kind, "#eeeeee"), STROKES.get(figure.kind, "solid"), ink,
    )  # fmt: skip


def _legend(
    rooms: Rooms, row: ScreenRow, names: Sequence[tuple[str, str]], ink: str, *, plain: bool
) -> tuple[list[Words], list[Band]]:
    """Return the names of the figures, each with a piece of its band, in letters that let all of them in."""
    words, bands, room = [], [], rooms.legend
    letters = sum(_LETTER * len(name) + _KEY for _, name in names)
    size = min(row.words * 0.85, room.width / max(letters, 1.0))
    x = room.x
    for kind, name in names:
        tint = NONE if plain else TINTS.get(kind, "#eeeeee")
        bands.append(Band(x, room.y + size * 0.25, size * 1.6, size, tint, STROKES.get(kind, "solid"), ink))
        words.append(Words(name, x + size * 2, room.y, size * _LETTER * len(name), room.height, size))
        x += size * (_LETTER * len(name) + _KEY)
    return words, bands
