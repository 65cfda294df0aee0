"""Variants of a phrase: one transformation each, named, with what it did; the notes that are fixed stay.

`sketch` holds a line apart from its bars and fits it to chords; the other modules hold the transformations;
`varying` is the door.
"""
