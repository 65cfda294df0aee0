"""Pitch, interval, scale, chord, key, metre and progression: pure values and tables.

Lives here: everything that is true of music whatever the phrase. Modules, from the bottom up:

    interval, pitch, key, metre     the values on which all others stand
    chord, scale                    what a chord symbol means; a scale of the table on a root
    chord_symbol                    reading and printing chord symbols; `chord_symbol_tokens` divides
                                    a symbol, `chord_symbol_meaning` says what its pieces mean
    slash_chords                    what sounds where a chord stands over another bass
    chord_context, chord_scales     what stands round a chord, and which scales go with it
    chord_function, progression     what chords do in a key; rows of chords that have a name
    lines_in_chords                 lines that move inside one chord

May import the standard library, `lattice`, `table_index` and `errors`. Knows nothing of phrases, files, pages
or sound.
"""
