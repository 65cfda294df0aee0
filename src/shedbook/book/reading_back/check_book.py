"""The worker's part: a PDF is read, and each score in it is held against the phrase that it should show."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import zip_longest
from math import inf
from pathlib import Path

from shedbook.book.ground.paper import paper_of
from shedbook.book.ground.words import Words, words_of
from shedbook.book.reading_back.expected_scores import BY_KEY, HOME, PROOF, SCALE, Expected, expected_scores
from shedbook.book.reading_back.orders import BackOrder, ReadBack
from shedbook.book.scores.artefacts import PlacingCard
from shedbook.book.scores.inputs import Language, spoken_language
from shedbook.book.scores.worker import PhraseOrder, placing_name
from shedbook.book.workshop.store import Store
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import RenderError
from shedbook.read_back.comparison import (
    bar_lengths,
    degree_mismatches,
    mismatches,
    scale_mismatch,
    tab_mismatches,
    tempo_mismatches,
)
from shedbook.read_back.ink import Glyph, Stroke
from shedbook.read_back.pdf_ink import Picture, parts_of_pdf
from shedbook.read_back.pdf_ink import Words as Shown
from shedbook.read_back.reading import read_score
from shedbook.read_back.scale_reading import read_scale
from shedbook.read_back.staves import UnreadableError
from shedbook.read_back.written_notes import HEADS, RESTS
from shedbook.theory.pitch import LETTERS

_HEADS_AND_RESTS = HEADS.keys() | RESTS.keys()
_MOST = 3
"""How many mismatches of one score are told."""
_LEVEL = 12.0
"""How far over or under its strokes the words beside a score may stand, in points."""
_NEAR_GUTTER = 4.0
"""How far left of its gutter the words beside a score may begin, in points; a thumb stands farther out."""
_MM = 72 / 25.4
"""A millimetre in points."""
_REPORT = "This is a fault of shedbook; please report the phrase."


def read_book(order: BackOrder) -> ReadBack:
    """Read a book back.

    Raises:
        RenderError: if a card has vanished from the store.
    """
    return held_against(expected_of(order), parts_of_pdf(Path(order.target)), order)


def expected_of(order: BackOrder) -> list[Expected]:
    """Return the scores that a book should hold, in the order of its pages.

    Raises:
        RenderError: if a card has vanished from the store.
    """
    store = Store(Path(order.store))
    cards = {one.source.number: _card(store, one, order.edition) for one in order.orders}
    return list(expected_scores(order.data, order.orders, order.edition, cards))


def held_against(
    expected: Iterable[Expected], parts: Iterable[Shown | Picture], order: BackOrder
) -> ReadBack:
    """Hold the scores and the words of a PDF, in the order of its pages, against what it should hold."""
    language = spoken_language(order.orders[0].settings) if order.orders else Language()
    words = words_of(language.tag, dict(language.own))
    return compared(expected, parts, words, order.edition.title, Path(order.target).name, reach_pt(order))


def compared(
    expected: Iterable[Expected],
    parts: Iterable[Shown | Picture],
    words: Words,
    edition: str,
    name: str,
    reach: float = inf,
) -> ReadBack:
    """Hold the scores and the words of a PDF against what it should hold.

    Args:
        expected: the scores in the order of the pages.
        parts: what the pages show, in their order.
        words: the words of the book's language.
        edition: the title of the edition, for what is told.
        name: the name of the file, likewise.
        reach: how far left of its staves the words beside a score begin at most, in points.
    """
    errors: list[RenderError] = []
    pages: list[int] = []
    for one, seen in zip_longest(expected, _seen(parts)):
        if one is None or seen is None:
            what = "holds more scores than it should" if one is None else "does not hold every score"
            errors.append(RenderError(f"The book {name} {what}.", hint=_REPORT))
            break
        pages.append(seen.pictures[0].page)
        said = [wrong for picture in seen.pictures for wrong in _wrong(one, picture)]
        said = [*_key_wrong(one, seen, words, reach), *dict.fromkeys(said)]
        errors += [_error(one, edition, seen, says) for says in said[:_MOST]]
    return ReadBack(len(pages), tuple(errors), tuple(pages))


def reach_pt(order: BackOrder) -> float:
    """Return how far left of its staves the words beside a score begin at most, in points."""
    if not order.orders:
        return inf
    settings = order.orders[0].settings
    return paper_of(settings.page_size, large=settings.pages.large_print).gutter_mm * _MM + _NEAR_GUTTER


def _card(store: Store, order: PhraseOrder, edition: Edition) -> PlacingCard:
    card = store.read_value(PlacingCard, "card", placing_name(order, edition))
    if card is None:
        raise RenderError("A card vanished from the store while the book was read back.")
    return card


@dataclass(slots=True)
class _Seen:
    """A score of the PDF: its pieces, and the words on its page since the score before."""

    pictures: list[Picture]
    words: list[Shown]


def _seen(parts: Iterable[Shown | Picture]) -> Iterator[_Seen]:
    """Yield the scores of a PDF; the pieces of one that a page turn cuts are one score."""
    words: list[Shown] = []
    last: _Seen | None = None
    for part in parts:
        if isinstance(part, Shown):
            words.append(part)
        elif _empty(part):
            continue
        elif part.whole or last is None:
            if last is not None:
                yield last
            last, words = _Seen([part], [one for one in words if one.page == part.page]), []
        else:
            last.pictures.append(part)
    if last is not None:
        yield last


def _empty(picture: Picture) -> bool:
    """Say whether a picture has a clef and no note: one of the reader's own staves."""
    return not any(isinstance(mark, Glyph) and mark.name in _HEADS_AND_RESTS for mark in picture.ink.marks)


def _error(one: Expected, edition: str, seen: _Seen, says: str) -> RenderError:
    where = f'"{one.title}" in {one.tonic} {one.mode}, {edition}, page {seen.pictures[0].page}'
    return RenderError(f"{where}: {says}.", hint=_REPORT)


def _wrong(one: Expected, picture: Picture) -> Iterator[str]:
    """Yield what is wrong in the picture of a score."""
    try:
        if one.kind == SCALE and one.scale is not None:
            pitches, symbol = read_scale(picture.ink)
            wrong = scale_mismatch(pitches, symbol, one.scale.pitches, one.scale.chord)
            if wrong:
                yield f"the scale {one.scale.name}: {wrong}"
            return
        score = read_score(picture.ink, bar_lengths(one.phrase))
    except UnreadableError as error:
        yield f"the score cannot be read: {error}"
        return
    if not one.moved:
        yield "the notes do not sound as the author's do, moved by one interval"
    for mismatch in mismatches(score, one.phrase, signature=one.signature, reminders=one.reminders):
        yield str(mismatch)
    for mismatch in tempo_mismatches(score, one.phrase, one.feel):
        yield str(mismatch)
    for mismatch in degree_mismatches(score, one.phrase, one.under):
        yield str(mismatch)
    if one.tab is not None:
        stops = [None if stop is None else (stop.string, stop.fret) for stop in one.tab.notes]
        for mismatch in tab_mismatches(score, one.phrase, stops):
            yield str(mismatch)


# Names of keys.


def _key_wrong(one: Expected, seen: _Seen, words: Words, reach: float) -> Iterator[str]:
    """Yield what is wrong with the name of the key that stands with a score.

    Where books go by keys, what stands farther left than `reach`, in points, is the thumb of the page.
    """
    if one.kind == SCALE:
        return
    gutter = _beside(seen)
    if one.kind == HOME:
        lines = {shown.y for shown in seen.words if "·" in shown.text}
        facts = _joined(shown.text for shown in seen.words if shown.y in lines)
        names = _note_names(words).findall(facts)
        if one.tonic not in names:
            yield f"the key is {one.tonic}, but the page says {facts or 'none'}"
    elif one.kind == BY_KEY:
        gutter = _beside(seen, reach)
        if gutter.partition(" ")[0] != str(one.number):
            yield f"this is phrase {one.number}, but the page says {gutter or 'nothing'}"
    else:
        name = _note_names(words).match(gutter)
        rest = gutter[name.end() :].strip() if name else ""
        wrong_mode = one.kind != PROOF and not rest.startswith(one.mode)
        if name is None or name[0] != one.tonic or wrong_mode:
            yield f"the key is {one.tonic} {one.mode}, but the page says {gutter or 'none'}"


def _beside(seen: _Seen, reach: float = inf) -> str:
    """Return the words that stand at the left of a score, so far at most, on a level with its staves."""
    strokes = [mark for mark in seen.pictures[0].ink.marks if isinstance(mark, Stroke)]
    left = min((stroke.x1 for stroke in strokes), default=0.0)
    outer = left - reach
    upper = min((stroke.y1 for stroke in strokes), default=0.0) - _LEVEL
    lower = max((stroke.y2 for stroke in strokes), default=0.0) + _LEVEL
    said = [shown.text for shown in seen.words if outer < shown.x < left - 5 and upper < shown.y < lower]
    return _joined(said)


def _joined(said: Iterable[str]) -> str:
    """Return words as one text; a sign, which has a font of its own, stands close to its letter."""
    return _BEFORE_A_SIGN.sub("", " ".join(" ".join(said).split()))


_BEFORE_A_SIGN = re.compile(r"\s+(?=[♭♯])")


@lru_cache(maxsize=8)
def _note_names(words: Words) -> re.Pattern[str]:
    """Return a pattern for the names of notes in a language, of which the longest counts."""
    names = {
        words.key(f"{letter}{sign}{mode}")[0]
        for letter in LETTERS
        for sign in ("", "b", "#", "bb", "##")
        for mode in ("", " minor")  # some languages write the tonic of a minor key with a small letter
    }
    ordered: Sequence[str] = sorted(names, key=lambda name: (-len(name), name))
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, ordered))})(?![\w♭♯])")
