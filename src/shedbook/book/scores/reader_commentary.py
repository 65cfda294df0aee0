"""The author's commentary for the reader of an edition, whose names are those of the reader's score. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from shedbook.analysis.naming.prose_names import (
    CHORD,
    NameInProse,
    prose_language,
    renamed_prose,
    without_marks,
)
from shedbook.analysis.naming.spoken_names import name_words
from shedbook.book.ground.printed_text import signed_prose
from shedbook.book.ground.words import EN, Words
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.chord import easy_name
from shedbook.theory.pitch import NoteName

Pairs = Mapping[NoteName, NoteName]


def reader_commentary(phrase: Phrase, read: Phrase, language: str = "en", words: Words = EN) -> str:
    """Return the author's words as they are printed beside the phrase `read`.

    Names have their signs, and the braces go that mark what is meant literally. In a key other than the
    author's a note is called as it stands in that score, a chord by its root there, and everything else by
    the interval between the two keys, by its easiest name. A language whose names are not known keeps the
    author's words.

    Args:
        phrase: the phrase as its author wrote it.
        read: the phrase as it is read, in one key of an edition.
        language: the language of the book, a tag such as "en".
        words: the words for notes.
    """
    return reader_prose(phrase.commentary, phrase, read, language, words)


def reader_prose(text: str, phrase: Phrase, read: Phrase, language: str = "en", words: Words = EN) -> str:
    """Return any text of the author's on a phrase as it is printed beside the phrase `read`.

    Args:
        text: the text, whose names are those of `phrase`.
        phrase: as for `reader_commentary`, as are the others.
        read: the phrase as it is read.
        language: the language of the book.
        words: the words for notes.
    """
    move = phrase.key.tonic.interval_to(read.key.tonic)
    if not text or not prose_language(language):
        return without_marks(text)
    notes = _most(
        (one.pitch.name, other.pitch.name)
        for one, other in zip(sounding_notes(phrase), sounding_notes(read), strict=True)
    )
    roots = _most(
        (one.chord.root, other.chord.root)
        for one, other in zip(phrase.changes, read.changes, strict=True)
        if one.chord.root is not None and other.chord.root is not None
    )

    def call(found: NameInProse) -> NoteName:
        if phrase.key.tonic == read.key.tonic:
            return found.name
        first, second = (roots, notes) if found.kind == CHORD else (notes, roots)
        name = first.get(found.name) or second.get(found.name)
        return name or easy_name(found.name + move)

    def spoken(name: NoteName, natural: bool) -> str:
        return (
            words("short note.natural", letter=name_words(name, words)) if natural else words.short_note(name)
        )

    return signed_prose(renamed_prose(text, call, spoken, language, frozenset(roots)))


def _most(pairs: Iterable[tuple[NoteName, NoteName]]) -> Pairs:
    """Return for each name what it is called most often."""
    counts = Counter(pairs)
    return {one: other for (one, other), _ in reversed(counts.most_common())}
