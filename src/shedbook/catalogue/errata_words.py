"""The change list as customers read it, in the language of the book. Pure."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from shedbook.book.ground.printed_text import printed_signs
from shedbook.book.ground.words import Words, words_of
from shedbook.catalogue.downloads import downloads, reach_of
from shedbook.catalogue.errata import CHANGED, Difference, Errata, Erratum

_NOTE = re.compile(r"([A-G](?:#{1,2}|b{1,2})?)(-?\d)((?:\.\w+)*)")
_ROWS = {"title": "title of", "links": "other"}
_LONGEST = 90


@dataclass(frozen=True, slots=True)
class Section:
    """A phrase that changed, or what is to be had anew: a head, and lines under it."""

    head: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangeList:
    """The whole list: its heads, its sections, and a last sentence."""

    title: str
    book: str
    between: str
    sections: tuple[Section, ...]
    last: str


def change_list(found: Errata) -> ChangeList:
    """Return what changed as a customer reads it.

    Raises:
        ValueError: if it is not known what was compared.
    """
    if found.old is None or found.new is None:
        raise ValueError("Nothing says which states of the book were compared.")
    words = words_of(found.new.language, dict(found.new.words))
    sections = [_section(one, found, words) for one in found.errata]
    had = [f"{one.edition}: {one.file}, {one.size / 1e6:.1f} MB" for one in downloads(found)]
    if had:
        sections.append(Section(words("errata.download"), tuple(had)))
    return ChangeList(
        words("errata.title"),
        found.new.title,
        words("errata.between", old=found.old.version, new=found.new.version),
        tuple(sections),
        words("errata.keep") if found.errata and all(one.goes_on for one in _there(found)) else "",
    )


def _there(found: Errata) -> Iterator[Erratum]:
    """Yield the phrases that were there before and are there now."""
    return (one for one in found.errata if one.was_number and one.happened in (CHANGED, "moved"))


def _section(one: Erratum, found: Errata, words: Words) -> Section:
    head = words("errata.phrase", number=one.number, title=one.title)
    if one.happened != CHANGED:
        head += f": {words(f'errata.{one.happened}', number=one.was_number)}"
    elif one.was_number != one.number:
        head += f" ({words('errata.moved', number=one.was_number)})"
    lines = [_line(each, words) for each in one.differences]
    if one.happened == CHANGED:
        reached = list(reach_of(one, found))
        keys = [key for each in reached[:1] for key in each.keys]
        if len(keys) > 1:
            names = ", ".join(words.whole_key(key) for key in keys)
            lines.append(words("errata.keys", names=names))
        lines += [
            words("errata.pages", edition=each.edition, pages=", ".join(map(str, each.pages)))
            for each in reached
            if each.pages
        ]
    return Section(head, tuple(lines))


def _line(one: Difference, words: Words) -> str:
    what = _ROWS.get(one.what, one.what)
    row = f"errata.{what}" if words.has(f"errata.{what}") else "errata.other"
    nothing = words("errata.nothing")
    was, now = (_said(text, one.what, words) or nothing for text in (one.was, one.now))
    said = words("errata.changed", what=words(row), was=was, now=now)
    if one.bar is None:
        return said
    return f"{words('errata.place', bar=one.bar, beat=one.beat)}: {said}"


def _said(text: str, what: str, words: Words) -> str:
    note = _NOTE.fullmatch(text) if what == "note" else None
    if note is not None:
        name = words.note(note[1])
        return f"{name}{' ' if ' ' in name else ''}{note[2]}{note[3].replace('.', ' ')}"
    short = text if len(text) <= _LONGEST else text[: _LONGEST - 1].rstrip() + "…"
    return printed_signs(short) if what == "chord" else short


def as_text(found: ChangeList, nothing: str) -> str:
    """Return the list as plain text; `nothing` is said where nothing changed."""
    parts = [f"{found.book}\n{found.title}\n{found.between}"]
    parts += ["\n".join((one.head, *(f"  {line}" for line in one.lines))) for one in found.sections]
    if not found.sections:
        parts.append(nothing)
    if found.last:
        parts.append(found.last)
    return "\n\n".join(parts) + "\n"


def changes_text(found: Errata) -> str:
    """Return the change list of two states of a book as the text that goes into a bundle."""
    words = words_of(found.new.language if found.new else "en")
    return as_text(change_list(found), words("errata.none"))
