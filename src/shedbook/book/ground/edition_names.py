"""What an edition is called in the words of a book."""

from __future__ import annotations

from shedbook.book.ground.words import Words, inside
from shedbook.editions.instruments.edition import Edition


def edition_name(edition: Edition, words: Words) -> str:
    """Return whom an edition is for: "Alto saxophone", "B♭"."""
    if words.has(f"edition.name.{edition.name}"):
        return words(f"edition.name.{edition.name}")
    return edition.name[:1].upper() + edition.name[1:]


def edition_title(edition: Edition, words: Words) -> str:
    """Return the title of an edition: "Alto saxophone edition"."""
    return words("edition.title", name=edition_name(edition, words))


def title_inside(edition: Edition, words: Words) -> str:
    """Return the title of an edition as it stands in a sentence: "alto saxophone edition", "B♭ edition"."""
    title = edition_title(edition, words)
    return inside(title, words) if edition.instrument or edition.clef == "F4" else title
