"""Divides the quality of a chord symbol into the tokens of the table, each with its place.

Offsets count from the start of the whole symbol. The longest token that fits is taken, unless what follows it
could then not be read: "madd9" is m and add9, and not ma and dd9.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.errors import ChordSymbolError
from shedbook.table_index import need
from shedbook.theory.tables.chord_qualities import TOKENS, TokenRow

_ALIKE = str.maketrans("♭♯−–△∆º˚Ø∅[]", "b#--ΔΔ°°øø()")
_DIVIDING_SLASH = re.compile(r"/[b#+-]?[0-9]")
_ALTERED = re.compile(r"[b#+-]([0-9]{1,2})")
_SEPARATORS = "(),/"


@dataclass(frozen=True, slots=True)
class Token:
    """One token of a chord symbol.

    Attributes:
        kind: the kind of its row in `tables.chord_qualities`, such as "quality" or "alteration".
        value: the value of that row, such as "minor" or "b9".
        text: what is written, with plain signs for those that look alike.
        start: the offset of its first character.
        end: the offset after its last character.
        bracketed: whether it stands in round brackets.
    """

    kind: str
    value: str
    text: str
    start: int
    end: int
    bracketed: bool


FILE = "src/shedbook/theory/tables/chord_qualities.py"
"""Where the tokens of chord symbols stand."""


def index(table: tuple[TokenRow, ...]) -> MappingProxyType[str, TokenRow]:
    """Return the rows by each of their spellings.

    Raises:
        TableError: if a spelling is used twice, or a row has no spelling or no source.
    """
    found: dict[str, TokenRow] = {}
    for row in table:
        said = f'the {row.kind} "{row.value}"'
        need(bool(row.spellings), f"There is no way to write {said}.", f"Write one in its row of {FILE}.")
        need(bool(row.source), f"There is no source for {said}.", f"Write one in its row of {FILE}.")
        for spelling in row.spellings:
            need(
                spelling not in found,
                f'"{spelling}" is written for two meanings: {_meaning(found.get(spelling))} and {said}.',
                f"Take it out of one of the two rows of {FILE}.",
            )
            found[spelling] = row
    return MappingProxyType(found)


def _meaning(row: TokenRow | None) -> str:
    return "" if row is None else f'the {row.kind} "{row.value}"'


_ROWS = index(TOKENS)
_LONGEST = max(len(spelling) for spelling in _ROWS)
_SIGNS = "+-"
_TWO_READINGS = MappingProxyType({"2": "add9 or sus2", "4": "sus4 or add11"})


def plain(text: str) -> str:
    """Return the text with one plain sign for all that look alike, such as b for ♭; offsets stay the same."""
    return text.translate(_ALIKE)


def _lookup(piece: str) -> TokenRow | None:
    row = _ROWS.get(piece)
    if row is None and len(piece) >= 3 and piece[:3].isalpha():
        row = _ROWS.get(piece.lower())
    return row


def _matches(text: str, at: int) -> list[tuple[str, TokenRow]]:
    """Return every token that can start here, longest first."""
    found = []
    for length in range(min(_LONGEST, len(text) - at), 0, -1):
        piece = text[at : at + length]
        row = _lookup(piece)
        if row is not None:
            found.append((piece, row))
    return found


def _choose(text: str, at: int, *, opening: bool) -> tuple[str, TokenRow] | None:
    """Return the longest match after which reading can go on; at the opening + and - are qualities."""
    matches = _matches(text, at)
    if opening and text[at] in _SIGNS and text[at : at + 2] != "+5":
        matches = [match for match in matches if match[1].kind == "quality"]
    for piece, row in matches:
        after = at + len(piece)
        if after == len(text) or text[after] in _SEPARATORS or _matches(text, after):
            return piece, row
    return matches[0] if matches else None


def symbol_tokens(text: str, start: int, end: int) -> tuple[Token, ...]:
    """Return the tokens of the part of a symbol, its quality, that lies between two offsets.

    Brackets and commas are checked, and are not among the tokens.

    Args:
        text: the whole symbol.
        start: the offset where the quality begins.
        end: the offset after its end.

    Raises:
        ChordSymbolError: at the first character that begins no token, or at a stray bracket or comma.
    """
    quality = plain(text[:end])
    found: list[Token] = []
    bracket: int | None = None
    at = start
    while at < end:
        if quality[at] in "(),":
            bracket = _punctuation(quality, at, bracket, found)
            at += 1
            continue
        if found and _DIVIDING_SLASH.match(quality, at):  # 7b9/13: this slash divides tensions
            at += 1
            continue
        chosen = _choose(quality, at, opening=at == start)
        if chosen is None:
            raise _unread(text, at, found)
        piece, row = chosen
        found.append(Token(row.kind, row.value, piece, at, at + len(piece), bracket is not None))
        at += len(piece)
    if bracket is not None:
        raise ChordSymbolError(
            f'The bracket in "{text}" is not closed.', hint='Write ")" after what it holds.', start=bracket
        )
    return tuple(found)


def _punctuation(quality: str, at: int, bracket: int | None, found: list[Token]) -> int | None:
    """Check one bracket or comma, and return the offset of the open bracket, or None where none is open."""
    sign, before = quality[at], quality[at - 1]
    if sign == "(":
        if bracket is not None:
            raise ChordSymbolError("A bracket stands inside a bracket.", hint='Write ")" first.', start=at)
        return at
    if before in "(,/" or (sign == "," and (not found or quality[at + 1 : at + 2] in ("", ")", ","))):
        raise ChordSymbolError(
            f'Nothing stands beside this "{sign}".',
            hint="Write an alteration such as b9 there, or leave it out.",
            start=at,
        )
    if sign == ")" and bracket is None:
        raise ChordSymbolError("This bracket was never opened.", hint='Write "(" before it.', start=at)
    return None if sign == ")" else bracket


def _unread(text: str, at: int, found: list[Token]) -> ChordSymbolError:
    """Return the error for a character that was not understood, with what could stand there."""
    sign = text[at]
    if sign.isspace():
        return ChordSymbolError(
            f'"{text}" has white space inside a chord symbol.', hint="Write the symbol without it.", start=at
        )
    if sign == "/":
        return ChordSymbolError(
            f'The slash in "{text}" leads to no bass note.',
            hint="After a slash stands one bass note, A to G with its accidental, or a tension: 6/9.",
            start=at,
        )
    altered = _ALTERED.match(plain(text), at)
    if altered is not None:
        number = altered[1]
        return ChordSymbolError(
            f'"{plain(sign)}{number}" in "{text}" is no alteration of a chord.',
            hint="A minor third is written m after the root: Cm, Cm7."
            if number == "3"
            else "Alterations are b5 #5 b9 #9 #11 b13.",
            start=at,
            end=at + 1 + len(number),
        )
    if sign in _TWO_READINGS:
        return ChordSymbolError(
            f'"{sign}" in "{text}" can be read in two ways.', hint=f"Write {_TWO_READINGS[sign]}.", start=at
        )
    return ChordSymbolError(
        f'"{sign}" in "{text}" was not understood.', hint=f"Here may stand {_expected(found)}.", start=at
    )


def _expected(found: list[Token]) -> str:
    """Return in words what could stand after the tokens that have been read."""
    kinds = {token.kind for token in found}
    endings = "an alteration (b5 #5 b9 #9 #11 b13), add9, no3, or / and a bass note"
    if not kinds:
        return "a quality (m, maj7, 7, 6, dim, ø, +, sus, alt …), " + endings
    if not kinds & {"number", "major seventh", "altered", "suspension"}:
        return "a number (6 7 9 11 13), " + endings
    return endings
