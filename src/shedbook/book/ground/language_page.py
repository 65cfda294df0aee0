"""The page on languages as Markdown, made from the table: `python -m shedbook.book.ground.language_page`."""

from __future__ import annotations

from shedbook.book.ground.tables.words import ENGLISH, LISTS

_HEAD = """\
# A book in another language

Every fixed word that a book prints or says is a row of one table: heads, advice, the names of notes, keys,
scales, progressions and feels, the sentences of the explanation, the alternative texts of scores. This page
is made from the table (`python -m shedbook.book.ground.language_page`).

To change a row, write it under `[words]` in manuscript.toml, by its name in quotes. To translate a book,
copy the list below to the end of manuscript.toml and change the texts; a row that you leave out stays
English, and the proof-reader says how many do (`untranslated`, advice). A language is named by ISO 639;
others are refused.

```toml
language = "de"

[words]
"note.B" = "H"
"note.Bb" = "B"
"note.Eb" = "Es"
"mode.minor" = "Moll"
"contents" = "Inhalt"
"tell.end" = "Die Linie endet auf {note}, {of}, und bleibt offen."
```

- Names in braces are filled in. A row may use those of its English text, in any order and as often as it
  likes, or leave some out. Any other name in braces is an error, with the row and the nearest name that
  there is; so is a row whose name is not in the table.
- A row `tell.` is the sentence of one kind of remark. In its gaps stand notes, degrees, chords, scales,
  places and numbers, each a name by itself, so that a language may build the sentence anew; one kind of
  remark is always told by one row.
- Where words have to agree there are rows `one` and `many`. A language with more plurals than two must find
  a wording that serves for all numbers above one.
- `note.Eb` is `{usual}`: what `note.flat` makes of `note.E`. Write a name there where it is irregular.
  These names are for a voice that reads. `short note.Eb`, which `short note.flat` makes, is the name as it is
  printed everywhere: "E♭". Where a language has names of its own, write both.
- Chord symbols are international: `chord.symbol` is `{symbol}`, as you wrote it. `"{root}{kind}{slash}"`
  there, and names of your own in `short note`, change them in texts, never on the staff. `chord.minor` is
  how a plain minor chord is said.
- `sentence` is how a sentence begins: `{Text}` has a capital letter, `{text}` is as it stands. `inside` is
  how a text goes into the middle of one: `{lower}`, or `{text}` where nouns keep their capitals.
- Lists are made of `list.two`, `list.more` and `list.last`: "x and y", "x, y", "x, y and z".
- LISTS are lists of single words, divided by spaces; a translation has as many.
- Write names of notes so that they are no other word of the language: `La`, not `la`. A phrase's page looks
  for the names in the sentences to see which notes they speak of.
- The letters drawn in scores are those of Western European languages; an accent that the letters lack is
  dropped.

Changing a row remakes what shows it. What the proof-reader says, the command line, and the names and tags
of tracks are for you, not for your reader, and stay English.

## Every row

"""


def language_page() -> str:
    """Return the page."""
    lists = ", ".join(f"`{name}`" for name in LISTS[:-1]) + f" and `{LISTS[-1]}`"
    rows = "\n".join(f"{quoted(name)} = {quoted(text)}" for name, text in ENGLISH.items())
    return f"{_HEAD.replace('LISTS', lists)}```toml\n[words]\n{rows}\n```\n"


def quoted(text: str) -> str:
    """Return a text as TOML writes it on one line."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


if __name__ == "__main__":
    print(language_page(), end="")
