"""A score of which only the systems that are new are engraved, for a phrase that changes at every key.

A system into which no tie and no slur crosses is drawn alone as it is drawn in the whole score; only how far
it lies below the one before must be found out. Verovio adds to the distance of two systems what the upper one
reaches down and what the lower one reaches up. So each is drawn with a short one below it, of always the same
music, which tells both, and the picture comes out exactly as `draw` draws it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.score_drawing import Written, draw, lettered, notated, write
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.engraver.verovio_svg import DrawnPage, DrawnScore, DrawnSystem, read_verovio_svg
from shedbook.engrave.notation.mei_score import document, with_ids
from shedbook.engrave.notation.score_notes import ScoreNote
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.phrase.model import Phrase

_MOST = 128
"""How many systems are kept; one takes about 30 kB."""
_BREAK, _END = "<sb/>", "</section></score></mdiv>"
_SHORT = (
    '<mdiv><score><scoreDef><staffGrp><staffDef n="1" lines="5" clef.shape="G" clef.line="2"/></staffGrp>'
    '</scoreDef><section><sb/><measure><staff n="1"><layer n="1"><mRest/></layer></staff></measure>'
    "</section></score></mdiv>"
)
_ID = re.compile(r'(id="#?)([nh])(\d+)')
_NOTE, _SYMBOL = re.compile(r'xml:id="n(\d+)'), re.compile(r'xml:id="h(\d+)')
_NAME, _LINK = re.compile(r'xml:id="(n\d+(?:t\d+)?)"'), re.compile(r'id="#([^"]*)"')
_NUMBER = re.compile(r"\d+")


class _Room(NamedTuple):
    """How lines are laid out on a page of Verovio's."""

    width: int
    stretch: bool
    looseness: float


class _Asked(NamedTuple):
    """One system: its music as a movement whose ids count from 0, and all else that its picture depends on.

    `marks` are those of its notes, of which the music does not hold all.
    """

    music: str
    marks: tuple[tuple[str, ...], ...]
    room: _Room
    prefix: str


class _Kept(NamedTuple):
    """A system as it was drawn; how far it reaches up from its staff, and down to the next."""

    system: DrawnSystem
    drawn: frozenset[str]
    outlines: Mapping[str, str]
    width: int
    above: int
    below: int


class _Part(NamedTuple):
    """A system of a score: what is asked, and the numbers of its first note and chord symbol."""

    asked: _Asked
    note: int
    symbol: int
    notes: Mapping[str, ScoreNote]


class KeptSystems:
    """The systems that were drawn last."""

    def __init__(self) -> None:
        self._kept: dict[_Asked, _Kept] = {}

    def draw(self, phrase: Phrase, style: ScoreStyle) -> Drawing:
        """Draw the score of a phrase without study marks, exactly as `score_drawing.draw` does.

        Raises:
            RenderError: as that.
        """
        one = write(phrase, NO_STUDY_MARKS, style)
        parts = _parts(one, style)
        if parts is None:
            return draw(phrase, NO_STUDY_MARKS, style)
        missing = {part.asked: part for part in parts if part.asked not in self._kept}
        for stretch in {asked.room.stretch for asked in missing}:
            some = [part for asked, part in missing.items() if asked.room.stretch == stretch]
            self._kept.update(_engraved(some))
        found = [self._kept[part.asked] for part in parts]
        for part, kept in zip(parts, found, strict=True):  # those that were used last stand last
            self._kept.pop(part.asked, None)
            self._kept[part.asked] = kept
        for old in list(self._kept)[: max(0, len(self._kept) - _MOST)]:
            del self._kept[old]
        page = _joined(parts, found, style.prefix)
        return lettered(one, page.scores[0], page, NO_STUDY_MARKS, NO_STUDY_MARKS, style)


def _parts(one: Written, style: ScoreStyle) -> list[_Part] | None:
    """Return the systems of a score; None where a tie or a slur crosses from one into another."""
    layout = one.layout
    head, *texts = notated(one, NO_STUDY_MARKS, style).removesuffix(_END).split(_BREAK)
    later = head.replace(" meter.count", ' meter.form="invis" meter.count')
    found = []
    for place, text in enumerate(texts):
        names = _NAME.findall(text)
        if text.count('tie="i"') != text.count('tie="t"') or not set(_LINK.findall(text)) <= set(names):
            return None
        note, symbol = _first(_NOTE, text), _first(_SYMBOL, text)
        notes = _counted_from(note, [one.notes[name] for name in names])
        asked = _Asked(
            f"{later if place else head}{_BREAK}{_renamed(text, note, symbol)}{_END}",
            tuple(row.marks for row in notes.values()),
            _Room(layout.width, layout.stretch_last or place + 1 < len(texts), layout.looseness),
            style.prefix,
        )
        found.append(_Part(asked, note, symbol, notes))
    return found


def _first(kind: re.Pattern[str], text: str) -> int:
    found = kind.search(text)
    return int(found[1]) if found else 0


def _counted_from(first: int, notes: Sequence[ScoreNote]) -> dict[str, ScoreNote]:
    """Return score notes by their names, counted from a struck note."""
    found = {}
    for note in notes:
        struck = note.struck - first
        name = f"n{struck}t{note.part}" if note.part else f"n{struck}"
        found[name] = note._replace(id=name, struck=struck)
    return found


def _renamed(text: str, note: int, symbol: int) -> str:
    """Return music whose ids count from 0; `note` and `symbol` are the first numbers in it."""
    first = {"n": note, "h": symbol}
    return _ID.sub(lambda found: f"{found[1]}{found[2]}{int(found[3]) - first[found[2]]}", text)


# What Verovio draws


def _engraved(parts: Sequence[_Part]) -> dict[_Asked, _Kept]:
    """Return systems as Verovio draws them; all are laid out in the same room."""
    room, prefix = parts[0].asked.room, parts[0].asked.prefix
    movements = [
        text
        for number, part in enumerate(parts)
        for text in (with_ids(part.asked.music, f"k{number}-"), _SHORT)
    ]
    page = _page(movements, room, [one for part in parts for one in (part.notes, {})], prefix)
    tops = [score.systems[0].top for score in page.scores]
    own, beyond = _short(room)
    found = {}
    for place, part in zip(range(0, len(tops), 2), parts, strict=True):
        score, top = page.scores[place], tops[place]
        above = top - tops[place - 1] - beyond if place else top
        outlines = {code: page.outlines[code] for code in score.music}
        below = tops[place + 1] - top - own
        kept = _Kept(score.systems[0], frozenset(score.drawn), outlines, page.width, above, below)
        found[part.asked] = kept
    return found


@lru_cache(maxsize=64)
def _short(room: _Room) -> tuple[int, int]:
    """Return how far the short system reaches up from its staff, and down to the next."""
    one, two = _page([_SHORT, _SHORT], room, [{}, {}], "").scores
    above = one.systems[0].top
    return above, two.systems[0].top - 2 * above


def _page(
    movements: Sequence[str], room: _Room, notes: Sequence[Mapping[str, ScoreNote]], prefix: str
) -> DrawnPage:
    picture = verovio_door.svg(
        document(movements), width=room.width, stretch_last=room.stretch, looseness=room.looseness
    )
    return read_verovio_svg(picture, notes, prefix)


# The systems become one score


def _joined(parts: Sequence[_Part], kept: Sequence[_Kept], prefix: str) -> DrawnPage:
    """Return the page that Verovio would draw of the whole score."""
    score, outlines = DrawnScore(), dict[str, str]()
    reach = 0
    for part, one in zip(parts, kept, strict=True):
        top = reach + one.above
        reach = top + one.below
        score.systems.append(_placed(one.system, part, top, prefix))
        score.drawn |= {_moved(name, part.note) for name in one.drawn}
        score.music |= one.outlines.keys()
        outlines |= one.outlines
    return DrawnPage((score,), kept[0].width, outlines)


def _placed(system: DrawnSystem, part: _Part, top: int, prefix: str) -> DrawnSystem:
    """Return a system at its place on the page, with the numbers of its notes in the whole score."""
    opening = f'<g id="{prefix}n'
    return replace(
        system,
        top=top,
        parts=[
            f'<g id="{prefix}{_moved(text[len(opening) - 1 : -2], part.note)}">'
            if text.startswith(opening) else text
            for text in system.parts
        ],
        symbols=[(index + part.symbol, x, y) for index, x, y in system.symbols],
        places={struck + part.note: x for struck, x in system.places.items()},
        named={_moved(name, part.note): x for name, x in system.named.items()},
    )  # fmt: skip


def _moved(name: str, by: int) -> str:
    """Return the name of a note, such as "n3t1", with its number moved."""
    return _NUMBER.sub(lambda found: str(int(found[0]) + by), name, count=1)
