"""The keys of manuscript.toml.

Row format: as in the table of a phrase's keys. The source of every row is the design of the manuscript.
"""

from __future__ import annotations

from types import MappingProxyType

from shedbook.phrase.tables.fields import FieldRow

BOOK_FIELDS: tuple[FieldRow, ...] = (
    FieldRow("title", "text", False, "the folder's name", "the book's title"),
    FieldRow("subtitle", "text", False, "", "a line under the title"),
    FieldRow("author", "text", False, "", "your name as it shall be printed"),
    FieldRow("rights", "text", False, "", "the line about copyright"),
    FieldRow("language", "text", False, "en", 'the language of your own words, as "en", "de", "pt-BR"'),
    FieldRow("keys", "text or list", False, "fourths",
             'order of the keys: "fourths", "fifths", "chromatic", or tonics: "C F Bb"'),
    FieldRow("enharmonic", "text or list", False, "the name with fewer accidentals",
             'the names you prefer where a key has two: "F# Db"'),
    FieldRow("keys_are", "text", False, "concert",
             'whether "keys" names "concert" keys or the "written" keys of each edition\'s reader'),
    FieldRow("editions", "text or list", False, "concert",
             'which books to make: "concert", "bflat", "eflat", "bass", "f", or names of instruments'),
    FieldRow("instrument", "list of tables", False, "",
             "instruments of your own, as the page on editions describes them"),
    FieldRow("fold", "true or false", False, "false", "what holds for phrases that do not say it"),
    FieldRow("courtesy", "text", False, "after-bar",
             'accidentals in brackets as reminders: "none", "after-bar", "always"'),
    FieldRow("key_signatures", "true or false", False, "false",
             "whether key signatures are printed, or every accidental stands at its note"),
    FieldRow("tablature", "true or false, or names", False, "false",
             "whether editions of fretted instruments have tablature, or which of them"),
    FieldRow("tunings", "table of texts", False, "as usual",
             'other tunings of fretted instruments, by their names: guitar = "D2 A2 D3 G3 B3 E4"'),
    FieldRow("page_size", "text", False, "a4", '"a4", "letter" or "tablet"'),
    FieldRow("large_print", "true or false", False, "false",
             "staff and text half as large again"),
    FieldRow("study_marks", "text or list", False, "sparse",
             'marks for study: "none", "sparse", "all", or a choice of ["scales", "degrees"]'),
    FieldRow("own_staves", "true or false", False, "true",
             "empty staves after a phrase for the reader's own line"),
    FieldRow("chord_style", "text or table", False, "as you wrote each",
             'one way of writing chord symbols: "letters", "signs", or a form for each quality'),
    FieldRow("parts", "text", False, "none", 'what divides the book: "progression", "scale" or "none"'),
    FieldRow("arrange", "text", False, "phrases",
             'one phrase in all keys, "phrases", or one key with all phrases, "keys"'),
    FieldRow("date", "text or date", False, "", 'the day of publication: "2026-05-01"'),
    FieldRow("words", "table of texts", False, "", "your own words in place of fixed ones, by their names"),
    FieldRow("metre", "text", False, "4/4", "the metre of phrases that name none"),
    FieldRow("tempo", "whole number", False, "120", "the tempo of phrases that name none"),
    FieldRow("feel", "text", False, "swing", "the feel of phrases that name none"),
    FieldRow("tempos", "list of whole numbers", False, "", "tempos for practice, in beats a minute"),
    FieldRow("feels", "list of texts", False, "", "feels in which tracks are made"),
    FieldRow("links", "table of texts", False, "", "a name and a web address each"),
    FieldRow("phrases", "list of texts", False, "every file in phrases/, by name",
             "the phrase files of the book, in order"),
    FieldRow("silence", "table of texts", False, "",
             "proof-reading rules left out in the whole book, each with a reason"),
    FieldRow("tracks", "table", False, "no tracks",
             "which tracks are made, and how they sound; its keys stand in a table of their own"),
)  # fmt: skip

RENAMED_FIELDS = MappingProxyType({"styles": "feels"})
"""Keys that earlier versions read, to what they are called now."""
