"""The picture of a score: Verovio's drawing with our own lettering and marks in it.

Lives here: words as outlines, the length of lines, what stands above and below a staff, tablature, and the
pictures that are put together of these. May import `engrave.engraver`, `engrave.notation` and the tables.
"""
