"""What is found of an edition, as sentences that any language can say. Pure.

The floor of the editions knows no table of words: it gives rows and values, and English. Here these values
are put into the words of a book.
"""

from __future__ import annotations

from typing import NamedTuple

from shedbook.analysis.naming.sayings import HighNote, KeyName, Saying, Tonic, Value, saying
from shedbook.book.ground.edition_names import title_inside
from shedbook.book.ground.words import Words
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.instruments.instrument import Band
from shedbook.editions.reader_part import InKey, Told
from shedbook.editions.reader_part import Value as EditionValue


def edition_sayings(told: Told) -> tuple[Saying, Saying]:
    """Return the message and the mend of a finding."""
    filled = tuple((name, _value(value)) for name, value in told.filled)
    return Saying(told.row, filled), Saying(told.mend, filled)


def _value(value: EditionValue) -> Value | str | int:
    if isinstance(value, InKey):
        key = KeyName(value.key.written)
        if not value.transposes:
            return saying("finding.place", key=key)
        return saying("finding.place.concert", key=key, concert=Tonic(value.key.concert.tonic))
    if isinstance(value, Edition):
        return _Reader(value)
    if isinstance(value, Band):
        low, high = HighNote(value.low, plain=True), HighNote(value.high, plain=True)
        return saying("finding.band", low=low, high=high)
    return _Tuning(value) if isinstance(value, Fingerboard) else value


class _Reader(NamedTuple):
    """For whom an edition is: "the alto saxophone edition"."""

    edition: Edition

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return words.form("finding.reader", form, title=title_inside(self.edition, words))


class _Tuning(NamedTuple):
    """How the open strings are tuned: "E2 A2 D3 G3 B3 E4"."""

    board: Fingerboard

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return " ".join(HighNote(string, plain=True).said(words, form) for string in self.board.strings)
