"""The page on languages as Markdown, made from the table: `python -m shedbook.book.ground.language_page`."""

from __future__ import annotations

from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.book.ground.tables.words import ENGLISH, LISTS

_READINGS: dict[str, str] = {
    "de": 'German | 159 | 154 | 152 | modes behind "die Skala" (3) and "daran hörst du" (2); to the student '
    'also "Zusatzton" and "D-Bebop-Dominant"',
    "fr": 'French | 159 | 153 | 151 | the note la beside the article la (4, to the student 6); "mode bebop '
    'dominant" (2), which many call a gamme',
    "es": 'Spanish | 159 | 157 | 154 | a scale that ends in the note la ("de la", 2); to the student also la '
    "beside the article la (3)",
    "pt": 'Portuguese | 159 | 155 | 154 | Brazilian spelling to a European eye ("harmônica", "jônia", '
    '"apojatura", 4); to the student also "nota acrescentada" (1)',
}
"""What two readings of a language marked: name, sentences of the demo, natural to each, the others."""

_HEAD = """\
# A book in another language

Every fixed word that a book prints or says is a row of one table: heads, advice, the names of notes, keys,
scales, progressions and feels, the sentences of the explanation, what the proof-reader says, the alternative
texts of scores. This page
is made from the table (`python -m shedbook.book.ground.language_page`).

`language = "de"` in manuscript.toml makes a book in German: what the program prints and says, not what you
wrote. A part behind the tag, as in "de-AT", is for your own words. There are TAGS.

## How natural they read

The sentences of each language are its own: written from the remarks, not from the English. Two readings of
all sentences of the demo's explanations marked each one natural or not, one as a teacher who hears it said,
one as a student who must do what it asks; what could be mended was mended first. Both were made by those who
wrote the sentences. **Native players have not read them yet**: before you sell a book, let one read it.

| language | sentences | natural to a teacher | to a student | what was marked |
|---|---|---|---|---|
READINGS

- German has H and B, `Es-Dur` and `c-Moll`, and says "du"; French has do, ré, mi♭, and says "tu"; Spanish has
  do, re, mi♭, and says "tú"; Portuguese has dó, ré, mi♭, the words that both sides of the Atlantic use, the
  Brazilian spelling, and the imperative of "você" without the pronoun. Chord symbols stay international, and
  the book says so where it explains its signs.
- What the proof-reader says (rows `finding.`) was read by two fresh readers a language, all of them programs.
  Of 119 rows the first found natural 55 (German), 58 (French), 45 (Spanish), 51 (Portuguese), and mended the
  others; the second, after that, 107, 93, 100, 105, and the rest were mended. No native player has read them
  yet. Each rule, broken once, is said in each language by a test that finds no English word.
- Octaves in the alternative texts are counted as in English (A 4 is 440 Hz) in every language.

## Change a row, add a language

To change a row, write it under `[words]` in manuscript.toml, by its name in quotes. For a language that does
not ship, copy the list below to the end of manuscript.toml and change the texts; a row that you leave out
stays English, and the proof-reader says how many do (`untranslated`, advice). A language is named by ISO
639; others are refused. A language that ships is a module in `book/ground/tables/languages` and a line there;
tests see that it has every row and that none is left in English.

```toml
language = "de"

[words]
"contents" = "Was drinsteht"
"device.run" = "Skalenlauf"
"tell.end" = "Die Linie endet auf dem {note}, {of 3}, und fragt weiter."
```

- Names in braces are filled in. A row may use those of its English text, in any order and as often as it
  likes, or leave some out. Any other name in braces is an error, with the row and the nearest name that
  there is; so is a row whose name is not in the table.
- A row `tell.` is the sentence of one kind of remark, a row `finding.` one of the proof-reader's. In their
  gaps stand notes, degrees, chords, scales, places and numbers, each a name by itself, so that a language may
  build the sentence anew; one kind of remark is always told by one row.
- Where words have to agree there are rows `one` and `many`. A degree, a size, a bar may have several forms,
  divided by ` | `, and a sentence asks for the second with `{of 2}`: in German they are nominative,
  accusative and dative. `{lower tonic}` is what fills the gap with a small letter at its start.
- `plural.one` lists the numbers that are singular, `plural.few` those with a second plural, whose row has
  `.few` behind its name; `*22` is every number from 100 up that ends so. A dash is none.
- `note.Eb` is `{usual}`: what `note.flat` makes of `note.E`. Write a name there where it is irregular.
  These names are for a voice that reads. `short note.Eb`, which `short note.flat` makes, is the name as it is
  printed everywhere: "E♭". Where a language has names of its own, write both.
- Chord symbols are international: `chord.symbol` is `{symbol}`, as you wrote it. `"{root}{kind}{slash}"`
  there, and names of your own in `short note`, change them in texts, never on the staff. `chord.minor` is
  how a plain minor chord is said.
- `sentence` is how a sentence begins: `{Text}` has a capital letter, `{text}` is as it stands. `inside` is
  how a text goes into the middle of one: `{lower text}`, or `{text}` where nouns keep their capitals.
- Lists are made of `list.two`, `list.more` and `list.last`: "x and y", "x, y", "x, y and z".
- LISTS are lists of single words, divided by spaces; a translation has
  as many. `numbers` may go on to 99, and a no-break space is part of a word.
- The letters drawn in scores are those of Western European languages; an accent that the letters lack is
  dropped.

Changing a row remakes what shows it.

## What the proof-reader says

Where the workbench shows what the proof-reader finds, beside a phrase and after a build, it says it in the
language of the book, with the notes, keys and chords as that language calls them. What you have to type (a
scale, a chord symbol, a note of the line, a key of a file) stands there in quotation marks, as it is typed.
The command line stays English in every book: `check`, `explain`, `build` and their JSON, and so do errors,
which say what cannot be read or made, the words of the workbench itself, the names of rules, and the names
and tags of tracks. A row `finding.` is one sentence of a rule; with `.mend` in its name it says how that is
mended. In a book in English no row is used but one that you have written, for the command line's sentences
do.

## Every row, in English

"""


def language_page() -> str:
    """Return the page."""
    lists = ", ".join(f"`{name}`" for name in LISTS[:-1]) + f" and `{LISTS[-1]}`"
    rows = "\n".join(f"{quoted(name)} = {quoted(text)}" for name, text in ENGLISH.items())
    readings = "\n".join(f"| {_READINGS[tag]} |" for tag in SHIPPED if tag in _READINGS)
    tags = ", ".join(f"`{tag}`" for tag in ("en", *SHIPPED))
    head = _HEAD.replace("LISTS", lists).replace("READINGS", readings).replace("TAGS", tags)
    return f"{head}```toml\n[words]\n{rows}\n```\n"


def quoted(text: str) -> str:
    """Return a text as TOML writes it on one line."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


if __name__ == "__main__":
    print(language_page(), end="")
