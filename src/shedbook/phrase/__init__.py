"""Phrases: notes, bars, changes, and the text in which an author writes them.

Lives here: the model, its text form, and what every notation makes of it: beams, tuplets, accidentals. May import `theory` and `errors`. Knows nothing of files.
"""
