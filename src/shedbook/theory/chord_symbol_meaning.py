"""What the tokens of a chord symbol mean together: third, fifth, seventh and tensions.

Two tokens that cannot both be meant are an error, which points at the later one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.errors import ChordSymbolError
from shedbook.table_index import need
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol_tokens import Token
from shedbook.theory.tables.chord_qualities import (
    ALTERED_TENSIONS,
    STACKS,
    TENSION_ORDER,
    TOKENS,
    StackRow,
    TokenRow,
)

_STACKED = ("7", "9", "11", "13")
_MINOR = ("minor", "diminished", "half-diminished")
_MAJOR = ("major", "delta")


_FILE = "src/shedbook/theory/tables/chord_qualities.py"
_OVER = ("dominant", "major", "minor", "suspended")
_MEANT = MappingProxyType({
    "quality": (*_MAJOR, *_MINOR, "augmented", "dominant"),
    "number": ("5", "6", "6/9", *_STACKED),
    "major seventh": ("7",),
    "suspension": ("4", "2", "2 4"),
    "altered": ("alt",),
    "alteration": ("b5", "#5", *TENSION_ORDER),
    "signed": ("b5", "#5", "7", *TENSION_ORDER),
    "add": ("6", *TENSION_ORDER),
    "omit": ("3", "5", *TENSION_ORDER),
})  # fmt: skip
"""Kind of token to the values that `build` has a meaning for."""


def check_meanings(tokens: Iterable[TokenRow], stacks: Iterable[StackRow]) -> None:
    """See that every token has a meaning here, and every stacking number its tensions over every chord.

    Raises:
        TableError: if one has not.
    """
    for row in tokens:
        need(
            row.value in _MEANT.get(row.kind, ()),
            f'"{row.spellings[0]}" is read as the {row.kind} "{row.value}", but that has no meaning.',
            "Give it a meaning in src/shedbook/theory/chord_symbol_meaning.py, "
            "and write it into _MEANT there.",
        )
    named = {(row.number, row.over) for row in stacks}
    for number in _STACKED[1:]:
        for over in _OVER:
            need(
                bool({(number, over), (number, "any")} & named),
                f"What a {number} names over a chord of the kind {over} is not said.",
                f'Write StackRow("{number}", "{over}", …) into STACKS in {_FILE}.',
            )


check_meanings(TOKENS, STACKS)


@dataclass(frozen=True, slots=True)
class _Symbol:
    """The tokens of one symbol.

    `quality` is the word that opens it, such as "minor", or "". `head` is the number that says how far thirds
    are stacked, such as the 9 of Cm9, or None.
    """

    text: str
    tokens: tuple[Token, ...]
    quality: str
    head: Token | None

    def of_kind(self, *kinds: str) -> tuple[Token, ...]:
        return tuple(token for token in self.tokens if token.kind in kinds)

    @property
    def number(self) -> str:
        """The stacking number as text, or an empty string."""
        return "" if self.head is None else self.head.value

    @property
    def major_seventh(self) -> bool:
        """Whether a token makes the seventh, if there is one, major."""
        return any(_says_major(token) for token in self.tokens)

    @property
    def omitted(self) -> frozenset[str]:
        """The degrees that the symbol takes away."""
        return frozenset(token.value for token in self.of_kind("omit"))


def chord_meant(text: str, found: tuple[Token, ...]) -> Chord:
    """Return the chord that the tokens mean, without its root and its slash bass.

    Args:
        text: the whole symbol, for the chord and for errors.
        found: the tokens of its quality.

    Raises:
        ChordSymbolError: if two tokens contradict each other, or one can be read in two ways.
    """
    quality = found[0].value if found and found[0].kind == "quality" else ""
    symbol = _Symbol(text, found, quality, _head(found))
    _check_qualities(symbol)
    _check_numbers(symbol)
    if symbol.of_kind("altered"):
        return _altered(symbol)
    third = _third(symbol)
    seventh = _seventh(symbol)
    fifth, instead = _fifth(symbol, seventh)
    tensions = _tensions(symbol, seventh)
    if instead and "11" in tensions:
        raise _clash(symbol, symbol.tokens[-1], "b5 and #5 with an 11 cannot all be meant", "Write 7alt.")
    tensions |= {*instead}
    if third in ("b3", "4", "2"):
        _check_third(symbol, third)
    return Chord(text, None, third, fifth, seventh, tuple(one for one in TENSION_ORDER if one in tensions))


def _clash(symbol: _Symbol, token: Token, why: str, hint: str) -> ChordSymbolError:
    return ChordSymbolError(
        f'"{token.text}" contradicts the rest of "{symbol.text}": {why}.',
        hint=hint,
        start=token.start,
        end=token.end,
    )


def _unclear(symbol: _Symbol, token: Token, choices: str) -> ChordSymbolError:
    return ChordSymbolError(
        f'"{token.text}" in "{symbol.text}" can be read in two ways.',
        hint=f"Write {choices}.",
        start=token.start,
        end=token.end,
    )


def _says_major(token: Token) -> bool:
    signed = token.kind == "signed" and token.value == "7"
    return token.kind == "major seventh" or signed or (token.kind == "quality" and token.value in _MAJOR)


def _head(found: tuple[Token, ...]) -> Token | None:
    """Return the number that says how far thirds are stacked, if there is one.

    A 9, 11 or 13 alone in brackets is not one, but a tone added to the triad: C(9) is Cadd9. After "maj" it
    is one even in brackets, as in Cm(maj9).
    """
    for index, token in enumerate(found):
        if token.kind == "number":
            after_major = index > 0 and found[index - 1].value in _MAJOR
            added = token.bracketed and token.value in ("9", "11", "13") and not after_major
            return None if added else token
        if token.kind not in ("quality", "suspension"):
            return None
    return None


def _check_qualities(symbol: _Symbol) -> None:
    """Refuse a second quality, unless it is a major seventh or an augmented fifth."""
    for token in symbol.tokens[1:]:
        if _says_major(token):
            _check_major_seventh(symbol, token)
        elif token.kind == "quality" and token.value != "augmented":
            raise _clash(
                symbol, token, "a quality stands right after the root", 'Write it there, once: "m7", "dim7".'
            )
    repeated = symbol.of_kind("altered", "suspension")[1:]
    if repeated:
        raise _clash(symbol, repeated[0], "only one of the two can stand", "Keep one of them.")


def _check_major_seventh(symbol: _Symbol, token: Token) -> None:
    """Check a major seventh that stands after something else: m(maj7), +M7, m#7, 7sus4(maj7)."""
    if symbol.quality in ("half-diminished", "dominant", *_MAJOR):
        raise _clash(symbol, token, "its seventh is already said", "Keep one of the two.")
    if symbol.head is not None and symbol.head.start < token.start:
        raise _clash(symbol, token, "its seventh is already said", "Keep one of the two sevenths.")
    if token.kind == "signed" and not (token.bracketed and symbol.quality in _MINOR):
        raise _unclear(symbol, token, "maj7 or #5")
    if token.value == "major" and symbol.number not in _STACKED:
        raise ChordSymbolError(
            f'"{token.text}" in "{symbol.text}" needs its number.',
            hint="Write maj7.",
            start=token.start,
            end=token.end,
        )


def _check_numbers(symbol: _Symbol) -> None:
    """Refuse numbers that cannot stand where they do."""
    head = symbol.head
    if head is not None and head.value == "5" and symbol.tokens[0] is not head:
        raise _clash(
            symbol, head, "a 5 alone is the chord of root and fifth", "Write b5 or #5, or no 5 at all."
        )
    if symbol.number in ("6", "6/9") and symbol.quality in ("diminished", "half-diminished"):
        raise _clash(symbol, symbol.tokens[-1], "a diminished chord has no sixth", "Write dim7, or m6(b5).")
    previous: Token | None = None
    for token in symbol.tokens:
        if token.kind == "number" and token is not head:
            # "79" runs two numbers together; "7(9)" and "7b9,13" do not.
            joined = previous is not None and previous.kind == "number" and previous.end == token.start
            if joined or token.value not in ("6", "9", "11", "13"):
                raise _clash(
                    symbol, token, "a number is already said", "Write one number, or (9), #11 and so on."
                )
        previous = token
    for token in symbol.of_kind("signed"):
        if token.value not in ("b5", "#5", "7") and symbol.number not in _STACKED:
            raise _unclear(symbol, token, f"add{token.value.strip('b#')} or ({token.value})")


def _altered(symbol: _Symbol) -> Chord:
    """Return the chord that is marked "alt". The symbol may repeat what "alt" means, and say nothing else."""
    same = {*ALTERED_TENSIONS, "b5", "#5"}
    for token in symbol.tokens:
        said = token.kind in ("alteration", "signed") and token.value in same
        seventh = token.kind == "number" and token.value == "7"
        no_third = token.kind == "omit" and token.value == "3"
        if not (token.kind == "altered" or said or seventh or no_third or token.value == "dominant"):
            raise _clash(
                symbol, token, "alt means 3, b7, b9, #9, #11 and b13", "Keep alt, or write each alteration."
            )
    third = "" if "3" in symbol.omitted else "3"
    return Chord(symbol.text, None, third, "", "b7", ALTERED_TENSIONS, altered=True)


def _third(symbol: _Symbol) -> str:
    """Return the third: major, minor, suspended or none."""
    suspended = symbol.of_kind("suspension")
    if suspended:
        return suspended[0].value[-1]
    if "3" in symbol.omitted or symbol.number == "5" or not _stack(symbol)[1]:
        return ""
    return "b3" if symbol.quality in _MINOR else "3"


def _check_third(symbol: _Symbol, third: str) -> None:
    """Refuse what contradicts a minor or suspended third."""
    if third == "b3":
        for token in symbol.of_kind("alteration", "signed", "add"):
            if token.value == "#9":
                raise _clash(symbol, token, "it is the minor third itself", "Write 7#9 for a dominant chord.")
        return
    if symbol.quality in _MINOR:
        raise _clash(
            symbol, symbol.of_kind("suspension")[0], "a suspended chord has no third",
            "Write 7sus4 without the minor, or m7(11).",
        )  # fmt: skip
    for token in symbol.of_kind("omit"):
        if token.value == "3":
            raise _clash(symbol, token, "a suspended chord has no third to leave out", "Leave it out.")


def _stack(symbol: _Symbol) -> tuple[tuple[str, ...], bool]:
    """Return the tensions that the stacking number names, and whether the third stays."""
    if symbol.number == "6/9":
        return ("9",), True
    over = "dominant"
    if symbol.of_kind("suspension"):
        over = "suspended"
    elif symbol.quality in _MINOR:
        over = "minor"
    elif symbol.major_seventh:
        over = "major"
    for row in STACKS:
        if row.number == symbol.number and row.over in ("any", over):
            return row.tensions, row.keeps_third
    return (), True


def _seventh(symbol: _Symbol) -> str:
    """Return the seventh, a sixth in its place, or "" for a triad."""
    if symbol.number in ("6", "6/9"):
        return "6"
    if symbol.number in _STACKED:
        if symbol.major_seventh:
            return "7"
        return "bb7" if symbol.quality == "diminished" else "b7"
    if any(_says_major(token) and token.value != "major" for token in symbol.tokens):
        return "7"
    if symbol.quality == "half-diminished" or _implied_dominant(symbol):
        return "b7"
    if any(token.value == "6" for token in symbol.of_kind("add")):
        return "6"
    return ""


def _implied_dominant(symbol: _Symbol) -> bool:
    """Say whether the symbol is "susb9": with a flat ninth a suspended chord means the seventh chord."""
    nines = [token for token in symbol.of_kind("alteration") if token.value == "b9"]
    return bool(nines and symbol.of_kind("suspension"))


def _fifth(symbol: _Symbol, seventh: str) -> tuple[str, tuple[str, ...]]:
    """Return the fifth, and the tension that stands in for a second altered fifth.

    A dominant that is written with both b5 and #5 means "alt": #5 stays the fifth, and b5 becomes #11.
    """
    wanted: dict[str, Token] = {}
    for index, token in enumerate(symbol.tokens):
        degree = token.value if token.value in ("b5", "#5") else ""
        if token.kind == "quality" and token.value == "augmented":
            degree = "#5"
        elif not index and token.value in ("diminished", "half-diminished"):
            degree = "b5"
        if degree:
            wanted.setdefault(degree, token)
    if "5" in symbol.omitted:
        if wanted:
            raise _clash(symbol, symbol.of_kind("omit")[-1], "its fifth is said", "Keep one of the two.")
        return "", ()
    if len(wanted) == 2:
        if seventh != "b7" or symbol.quality in _MINOR:
            later = max(wanted.values(), key=lambda token: token.start)
            raise _clash(
                symbol, later, "a chord has one fifth", "Write b5 or #5, or one of them as #11 or b13."
            )
        return "#5", ("#11",)
    return next(iter(wanted), "5"), ()


def _tensions(symbol: _Symbol, seventh: str) -> set[str]:
    """Return the tensions. An altered one replaces the plain one that the stacking number implies."""
    explicit: dict[str, Token] = {}
    if symbol.head is not None and symbol.head.value in _stack(symbol)[0]:
        explicit[symbol.head.value] = symbol.head
    for token in symbol.of_kind("suspension"):
        if token.value == "2 4":
            explicit["9"] = token  # both seconds and fourths: the fourth suspends, the second is a 9
    for token in symbol.of_kind("alteration", "signed", "add", "number"):
        degree = token.value
        if token is symbol.head or degree in ("b5", "#5", "7"):
            continue
        if degree == "6":
            if token.kind == "add" and seventh == "6" and symbol.number not in ("6", "6/9"):
                continue
            degree = "13"
        if degree in explicit:
            raise _clash(symbol, token, f"{degree} is said twice", "Keep one of the two.")
        if seventh == "6" and degree in ("13", "b13"):
            raise _clash(symbol, token, "its sixth is already said", "Write one of 6, b13 and 13.")
        _check_against(symbol, token, degree, explicit)
        explicit[degree] = token
    replaced = {degree.strip("b#") for degree in explicit}
    implied = {degree for degree in _stack(symbol)[0] if degree not in replaced}
    return (implied | set(explicit)) - (symbol.omitted - set(explicit))


def _check_against(symbol: _Symbol, token: Token, degree: str, explicit: dict[str, Token]) -> None:
    """Refuse a natural and an altered tension of the same number in one chord."""
    number = degree.strip("b#")
    for other in explicit:
        if other.strip("b#") == number and number in (other, degree):
            raise _clash(symbol, token, f"{other} and {degree} cannot both be meant", "Keep one of the two.")
