"""Prose as the template sets it: paragraphs and items of lists, cut into runs of one look. Pure.

The author's own texts may have a little of CommonMark: *emphasis*, **strong**, lists, and [words](address).
The library markdown-it-py reads it; nothing else of CommonMark means anything here, and HTML is plain text.
Chord symbols and Roman numerals are runs of their own, which the template sets like those over the staff.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from shedbook.book.ground.printed_text import SYMBOL, printed_prose, printed_signs
from shedbook.book.ground.typography import typeset
from shedbook.book.ground.words import Words
from shedbook.errors import ShedbookError
from shedbook.theory.chord_symbol import parse_chord, symbol_parts

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

PLAIN, EMPHASIS, STRONG, LINK, CHORD, NUMERAL = "", "emphasis", "strong", "link", "chord", "numeral"
"""How a run looks."""
PARAGRAPH, BULLET = "", "•"
"""What opens a block: nothing, a bullet, or the number of an item such as "1."."""

_MARKUP = re.compile(r"[*_\[\\]|^\s*(?:[-+]|\d{1,3}[.)])\s", re.MULTILINE)
_STEP = r"[♭♯#b]?(?:VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)[°ø]?7?"
_NUMERALS = re.compile(
    rf"(?<![\w–-]){_STEP}(?:[–-]{_STEP})+(?![\w–-])|(?<![\w–-])(?:♭|♯)(?:II|ii|i|VI|VII|III)(?!\w)"
)
_SENTENCE_START = re.compile(r"(?:^|[.!?:…]\s)[\s\"“„«(]*$")
_OPENING_WORDS: Mapping[str, str] = MappingProxyType({"de": "Am", "pt": "Em"})
"""Words that open a sentence of a language and look like a chord symbol."""
_BEFORE_NUMBER = re.compile(r"(?<=[^\W\d_]) (?=[♭♯]?\d{1,2}(?![\w.,:–-]*\d))")
_LAST_SPACE = re.compile(r" (?=\S{1,10}\Z)")
_NO_BREAK = "\u00a0"
_LINE = 60
"""What is longer, in letters, may take more than one line."""


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one look.

    `parts` are root, quality, raised alterations and bass of a chord, or the address of a link.
    """

    text: str
    look: str = PLAIN
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph, or an item of a list that opens with `mark`."""

    runs: tuple[Run, ...]
    mark: str = PARAGRAPH

    @property
    def text(self) -> str:
        """The plain words, as wide as they are printed."""
        return (f"{self.mark} " if self.mark else "") + "".join(run.text for run in self.runs)


def sentence_runs(text: str, words: Words, language: str) -> tuple[Run, ...]:
    """Return the runs of a text without markup."""
    return _kept_together(_runs(text, PLAIN, (), words, language))


def blocks_of(text: str, words: Words, language: str) -> tuple[Block, ...]:
    """Return the paragraphs and items of an author's text."""
    if _MARKUP.search(text) is None:
        parts = (" ".join(part.split()) for part in re.split(r"\n[ \t]*\n", text))
        return tuple(Block(sentence_runs(part, words, language)) for part in parts if part)
    return tuple(_marked_up(text, words, language))


@cache
def _reader() -> MarkdownIt:
    """Return the reader of markup; it is loaded only where a text has some."""
    from markdown_it import MarkdownIt  # noqa: PLC0415

    return MarkdownIt("zero").enable(["emphasis", "escape", "link", "list"])


def _marked_up(text: str, words: Words, language: str) -> Iterator[Block]:
    marks: list[str] = []
    mark = PARAGRAPH
    for token in _reader().parse(text):
        if token.type in ("bullet_list_open", "ordered_list_open"):
            marks.append(BULLET if token.type.startswith("bullet") else "")
        elif token.type in ("bullet_list_close", "ordered_list_close"):
            marks.pop()
        elif token.type == "list_item_open":
            mark = marks[-1] or f"{token.info}."
        elif token.type == "inline":
            yield Block(_kept_together(_inline(token.children or (), words, language)), mark)
            mark = PARAGRAPH


def _inline(tokens: Sequence[Any], words: Words, language: str) -> Iterator[Run]:
    look, address = PLAIN, tuple[str, ...]()
    for token in tokens:
        if token.type in ("em_open", "strong_open"):
            look = EMPHASIS if token.type == "em_open" else STRONG
        elif token.type == "link_open":
            look, address = LINK, (str(token.attrs.get("href", "")),)
        elif token.type.endswith("_close"):
            look, address = PLAIN, ()
        elif token.type in ("softbreak", "hardbreak"):
            yield Run(" ", look, address)
        elif token.content:
            said = re.sub(r"\s*\n\s*", " ", token.content)
            yield from _runs(said, look, address, words, language)


def _kept_together(runs: Iterable[Run]) -> tuple[Run, ...]:
    """Return runs in which no line breaks before a small number, as in "bar 2", nor before a last short word.

    So no short word is left alone on the last line of a paragraph.
    """
    found = [replace(run, text=_BEFORE_NUMBER.sub(_NO_BREAK, run.text)) for run in runs]
    if sum(len(run.text) for run in found) > _LINE and found[-1].look in (PLAIN, EMPHASIS, STRONG):
        found[-1] = replace(found[-1], text=_LAST_SPACE.sub(_NO_BREAK, found[-1].text))
    return tuple(found)


def _runs(text: str, look: str, parts: tuple[str, ...], words: Words, language: str) -> Iterator[Run]:
    """Yield the runs of a text that has one look but for its chords and numerals."""
    if look == LINK:
        yield Run(typeset(text, language), look, parts)
        return
    place = 0
    for start, end, run in sorted(_signs(text, language), key=lambda found: found[0]):
        if start < place:
            continue
        if start > place:
            yield Run(printed_prose(typeset(text[place:start], language), words), look, parts)
        yield run
        place = end
    if place < len(text):
        yield Run(printed_prose(typeset(text[place:], language), words), look, parts)


def _signs(text: str, language: str) -> Iterator[tuple[int, int, Run]]:
    """Yield the chord symbols and the progressions of a text with their places."""
    for found in _NUMERALS.finditer(text):
        yield found.start(), found.end(), Run(printed_signs(found[0]).replace("-", "–"), NUMERAL)
    word = _OPENING_WORDS.get(language.partition("-")[0])
    for found in SYMBOL.finditer(text):
        if found[0] == word and _SENTENCE_START.search(text[: found.start()]):
            continue
        run = _chord(found[0])
        if run is not None:
            yield found.start(), found.end(), run


def _chord(text: str) -> Run | None:
    """Return a chord symbol as it is set; None for a note's name, and for what is no symbol after all.

    "Go", "Do" and "Ah" are words.
    """
    if text[1:] in ("o", "h"):
        return None
    try:
        parts = symbol_parts(parse_chord(text))
    except ShedbookError:
        return None
    if not (parts.base or parts.raised or parts.bass):
        return None
    base = printed_signs(parts.base).replace("-", "–")
    base = f"°{base[1:]}" if base[:1] == "o" else base
    raised = " ".join(printed_signs(one) for one in parts.raised)
    pieces = (printed_signs(parts.root), base, raised, printed_signs(parts.bass))
    plain = pieces[0] + base + (f"({raised})" if raised else "") + (f"/{pieces[3]}" if parts.bass else "")
    return Run(plain, CHORD, pieces)
