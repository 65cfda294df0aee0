"""The scores of a book as plain rows of a manifest, and back to what a page is held against."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isinf
from pathlib import Path
from typing import Any

from pypdf import PdfReader

from shedbook.book.bundle.manifest import BookMusic, EditionRow, ScaleRow, ScoreRow
from shedbook.book.reading_back.check_book import expected_of, held_against, reach_pt
from shedbook.book.reading_back.expected_scores import Expected
from shedbook.book.reading_back.orders import BackOrder
from shedbook.book.scores.written_scales import WrittenScale
from shedbook.editions.fingering.tab import Stop, Tab
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import RenderError
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.read_back.pdf_ink import parts_of_pdf
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import Pitch

_MUSIC = ("title", "key", "metre", "pickup", "tempo", "feel", "changes", "line")
"""The keys of a phrase that say what its score shows."""


def text_of(phrase: Phrase) -> dict[str, Any]:
    """Return what the score of a phrase shows as the keys of a phrase file, from which it is read again."""
    fields = fields_from_phrase(replace(phrase, key_inferred=False))
    return {name: fields[name] for name in _MUSIC if name in fields}


def music_of_book(
    file: str, edition: Edition, expected: Sequence[Expected], pages: Sequence[int], printed: Sequence[str]
) -> BookMusic:
    """Return the scores of a PDF as rows.

    Args:
        file: the name of the PDF.
        edition: the edition of the book.
        expected: its scores in the order of the pages.
        pages: the page of each, from 1.
        printed: the number that stands on each page of the PDF.
    """
    texts: dict[str, int] = {}
    found: list[dict[str, Any]] = []
    rows = []
    for one, page in zip(expected, pages, strict=True):
        text = text_of(one.phrase)
        place = texts.setdefault(repr(text), len(found))
        if place == len(found):
            found.append(text)
        rows.append(_row(one, page, printed[page - 1], place))
    return BookMusic(file, edition.name, edition.title, tuple(rows), tuple(found))


def _row(one: Expected, page: int, printed: str, text: int) -> ScoreRow:
    scale = one.scale
    return ScoreRow(
        one.kind,
        one.number,
        one.title,
        str(one.phrase.key),
        one.tonic,
        one.mode,
        page,
        printed,
        text,
        None if scale is None else ScaleRow(scale.name, scale.chord.text, tuple(map(str, scale.pitches))),
        None
        if one.tab is None
        else tuple(None if at is None else (at.string, at.fret) for at in one.tab.notes),
        one.signature,
        tuple(sorted(one.reminders)),
        tuple(sorted(one.under.items())),
        one.feel,
    )


def expected_of_music(music: BookMusic) -> Iterable[Expected]:
    """Yield what the pages of a PDF are held against.

    Raises:
        ReadError: if a text cannot be read.
    """
    phrases = [phrase_from_fields(text) for text in music.texts]
    for row in music.scores:
        yield Expected(
            row.kind,
            row.number,
            row.title,
            phrases[row.text],
            row.tonic,
            row.mode,
            None if row.scale is None else _scale(row.scale),
            None if row.stops is None else _tab(row.stops),
            row.signature,
            frozenset(row.reminders),
            under=dict(row.under),
            feel=row.feel,
        )


def _scale(row: ScaleRow) -> WrittenScale:
    return WrittenScale(row.name, parse_chord(row.chord), tuple(map(Pitch.parse, row.pitches)), ())


def _tab(stops: Sequence[tuple[int, int] | None]) -> Tab:
    notes = tuple(None if stop is None else Stop(*stop, stop[1]) for stop in stops)
    return Tab(0, notes, ())


def edition_row(edition: Edition) -> EditionRow:
    """Return an edition as a row."""
    moved = edition.transposition
    return EditionRow(edition.name, edition.slug, edition.title, moved.semitones, moved.steps, edition.clef)


def texts_by_key(music: BookMusic) -> Mapping[tuple[int, str], Mapping[str, Any]]:
    """Return the text of each phrase in each written key, by number and key."""
    return {(row.number, row.written): music.texts[row.text] for row in music.scores}


@dataclass(frozen=True, slots=True)
class Told:
    """What the scores of a book are, or what is wrong with its pages."""

    music: BookMusic | None
    errors: tuple[RenderError, ...] = ()


def told_by(order: BackOrder) -> Told:
    """Read a book back and return its scores as rows; in a worker.

    Raises:
        RenderError: if a card has vanished from the store.
    """
    expected = expected_of(order)
    back = held_against(expected, parts_of_pdf(Path(order.target)), order)
    if back.errors:
        return Told(None, back.errors)
    labels = PdfReader(order.target).page_labels
    music = music_of_book(Path(order.target).name, order.edition, expected, back.pages, labels)
    reach = reach_pt(order)
    return Told(music if isinf(reach) else replace(music, reach_pt=reach))
