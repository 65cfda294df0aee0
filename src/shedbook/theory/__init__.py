"""Pitch, interval, scale, chord, key, metre, progression: pure values and tables.

Lives here: everything that is true of music whatever the phrase. May import the standard library and
`shedbook.errors` only. Knows nothing of phrases, files, pages or sound.
"""
