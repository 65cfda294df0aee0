"""Recordings of one instrument that plays one note at a time: what was played, and how.

Samples come in, values go out; nothing here opens a file. `frames` hears pitches, levels and beginnings every
few milliseconds; `free_line` makes notes of them where nothing is known of the line, `known_line` where its
notes are; `which_phrase` finds the phrase and the key; `measures` says how it was played.

May import `phrase` and the floors below it.
"""
