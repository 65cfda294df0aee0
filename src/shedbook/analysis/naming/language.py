"""The words of a language: rows with gaps, sentences, numbers, and lists of several things.

Conventions: `Words` is asked by the names of the rows in `tables.wording`; names in braces are gaps to be
filled in. "{of 2}" is the second of the forms that a row gives for it, divided by " | "; "{lower tonic}" is
it with a small letter at its start. It is a value that is handed in; where none is, the words are English.
One value is made for each language and kept, so that what is remembered of it is found again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.table_index import Rows
from shedbook.theory.pitch import NoteName

_TABLE = "words of a language"
_FILE = "src/shedbook/analysis/naming/tables/wording.py, or for the pages in the book's own table of words"


FORMS = " | "
"""What divides the forms of a row."""


class _Filled(dict[str, object]):
    """What fills the gaps of a row."""

    def __missing__(self, gap: str) -> str:
        """Return what fills a gap with "lower " before its name."""
        how, _, name = gap.partition(" ")
        if how != "lower" or name not in self:
            raise KeyError(gap)
        return lowered(str(self[name]))


@dataclass(frozen=True, slots=True)
class Gaps:
    """The gaps of a row whose values say themselves: "{of}", its second form "{of 2}", or "{lower root}".

    `said` gives the text of a value by its name and the form in which it is wanted.
    """

    said: Callable[[str, int], str]

    def __getitem__(self, gap: str) -> str:
        bare = gap.removeprefix("lower ")
        name, _, form = bare.partition(" ")
        text = self.said(name, int(form or 1))
        return lowered(text) if bare != gap else text


def lowered(text: str) -> str:
    """Return a text with a small letter at its start."""
    return text[:1].lower() + text[1:]


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """The words of one language, or of one book: `table` gives a text for the name of a row.

    Every look-up raises MissingRowError where the table has no such row.
    """

    table: Mapping[str, str]

    def __post_init__(self) -> None:
        """Hold the rows so that a missing one is named."""
        object.__setattr__(self, "table", Rows(_TABLE, _FILE, self.table))

    def __call__(self, row: str, /, **filled: object) -> str:
        """Return a row with its gaps filled.

        Raises:
            MissingRowError: if the table has no such row.
        """
        return self.table[row].format_map(_Filled(filled))

    def form(self, row: str, form: int = 1, /, **filled: object) -> str:
        """Return one of the forms that a row has, from 1, its gaps filled; the last one where it has fewer.

        Raises:
            MissingRowError: if the table has no such row.
        """
        return self.form_of(row, form).format_map(_Filled(filled))

    def form_of(self, row: str, form: int = 1) -> str:
        """Return one of the forms that a row has as `form` does, its gaps open.

        Raises:
            MissingRowError: if the table has no such row.
        """
        forms = self.table[row].split(FORMS)
        return forms[min(form, len(forms)) - 1]

    def of_number(self, number: int, one: str, many: str) -> str:
        """Return the row of a noun that goes with a number: `one`, `many`, or `many` with ".few" behind."""
        if self._in_list(number, "plural.one"):
            return self.table[one]
        return self.table[f"{many}.few" if self._in_list(number, "plural.few") else many]

    def _in_list(self, number: int, row: str) -> bool:
        """Say whether a list has a number: "2" is that number, "*02" every one from 100 up that ends so."""
        listed = self.table[row].split()
        return (str(number) if number < 100 else f"*{number % 100:02}") in listed

    def must_have(self, rows: Iterable[str], why: str) -> None:
        """Check that there are these rows; `why` says what needs them. A module asks when it is imported.

        Raises:
            MissingRowError: for the first row that is missing.
        """
        Rows(_TABLE, _FILE, self.table).must_have(rows, why)

    def has(self, row: str) -> bool:
        """Say whether there is such a row."""
        return row in self.table

    def note(self, name: str) -> str:
        """Return "B flat" for "Bb", for a voice that reads; a double accidental is said as it is written."""
        return note_as_written(NoteName.parse(name), self)

    def short_note(self, name: NoteName) -> str:
        """Return a note's name as it is printed: "B♭"; its plain text beyond double accidentals."""
        return str(name) if abs(name.alteration) > 2 else _note(name, self, "short note")

    def number(self, number: int) -> str:
        """Return a number in words from 0 to 99, a larger one in figures.

        A no-break space is part of a word: a language may list "trente et un" as one.
        """
        units, tens = self.table["numbers"].split(" "), self.table["tens"].split(" ")
        if number < len(units):
            return units[number]
        if number >= 100:
            return str(number)
        ten, one = divmod(number, 10)
        return self("tens and ones", tens=tens[ten], ones=units[one]) if one else tens[ten]

    def key(self, key: str) -> tuple[str, str]:
        """Return ("B♭", "minor") for "Bb minor"; the mode is "" where none is said."""
        tonic, _, mode = key.partition(" ")
        said = self._tonic(self.short_note(NoteName.parse(tonic)), mode)
        return said, self.table[f"mode.{mode}"] if mode else ""

    @property
    def small_minor(self) -> bool:
        """Whether the name of a minor key begins with a small letter, also where a text begins: "c-Moll"."""
        return self._tonic("C", "minor") == "c"

    def _tonic(self, tonic: str, mode: str) -> str:
        """Return a tonic as it stands before a mode: a minor key may have a small letter."""
        return self("tonic.minor", tonic=tonic) if mode == "minor" and self.has("tonic.minor") else tonic

    def whole_key(self, key: str) -> str:
        """Return "B♭ minor" for "Bb minor"."""
        tonic, mode = self.key(key)
        return self("key", tonic=tonic, mode=mode) if mode else tonic

    def voiced_key(self, key: str) -> str:
        """Return "B flat minor" for "Bb minor", for a voice that reads."""
        tonic, _, mode = key.partition(" ")
        said = self._tonic(self.note(tonic), mode)
        return self("key", tonic=said, mode=self.table[f"mode.{mode}"]) if mode else said

    def named(self, kind: str, name: str) -> str:
        """Return what a thing of a kind is called, such as the "scale" "dorian"; "" where it has no name."""
        return self.table[f"{kind}.{name}"] if name else ""

    def sentence(self, text: str) -> str:
        """Return a text as a sentence begins: with a capital letter, where the language has them."""
        return self("sentence", text=text, Text=text[:1].upper() + text[1:])


ENGLISH = Words(WORDING)
"""The words of an explanation in English."""

_ACCIDENTALS = {-2: "double flat", -1: "flat", 1: "sharp", 2: "double sharp"}
"""Half steps by which a letter is altered, and the row that says so."""


def note_as_written(name: NoteName, words: Words) -> str:
    """Return a note's name in words, double accidentals kept: "B double flat".

    Raises:
        MissingRowError: if the table has no row for the name, such as one with a triple flat.
    """
    return _note(name, words, "note")


@lru_cache(maxsize=512)
def _note(name: NoteName, words: Words, form: str) -> str:
    """Return a note's name by the rows of a form, "note" or "short note"."""
    letter = words(f"{form}.{name.letter}")
    if not name.alteration:
        return letter
    accidental = _ACCIDENTALS.get(name.alteration, f"{name.alteration:+d} half steps")
    return words(f"{form}.{name}", usual=words(f"{form}.{accidental}", letter=letter))


def number_words(number: int, words: Words = ENGLISH) -> str:
    """Return a number from 0 to 12 in words ("no" for 0), any other in figures."""
    small = words.table["numbers.small"].split()
    return small[number] if 0 <= number < len(small) else str(number)


def joined(parts: list[str], words: Words = ENGLISH) -> str:
    """Return "a", "a and b", "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    if len(parts) == 2:
        return words("list.two", first=parts[0], last=parts[1])
    return words("list.last", first=strung(parts[:-1], "list.more", words), last=parts[-1])


def strung(parts: Iterable[str], row: str, words: Words = ENGLISH) -> str:
    """Return parts joined one after the other by a row that has the gaps "first" and "next"."""
    said = ""
    for part in parts:
        said = words(row, first=said, next=part) if said else part
    return said
