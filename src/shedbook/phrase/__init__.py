"""Phrases: notes, bars, changes, and the text in which an author writes them.

Lives here:

    model                        a phrase and its parts
    line_text, changes_text      the line, the changes and the scales as text; `line_words` reads single
                                 words, `line_reader` reads them in order, `value_text` note values
    fields, toml_values          a phrase from the keys of its TOML table, and values of TOML checked
    feels                        the names of feels
    beaming, accidentals         what every notation shows: beams, tuplets, accidentals

May import `theory` and the floors below it. Knows nothing of files.
"""
