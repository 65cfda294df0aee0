"""Pitch, interval, scale, chord, key, metre and progression: pure values and tables.

Lives here: everything that is true of music whatever the phrase. Modules, from the bottom up:

    interval, pitch, key, metre     the values on which all others stand
    chord, scale                    what a chord symbol means; a scale of the table on a root
    chord_symbol                    reading and printing chord symbols; `chord_symbol_tokens` divides a
    symbol,
                                    and `chord_symbol_meaning` says what the pieces mean
    chord_scales                    which scales go with a chord
    chord_function, progression     what chords do in a key; rows of chords that have a name

May import the standard library and `shedbook.errors` only. Knows nothing of phrases, files, pages or sound.
"""
