"""A printed score read back from its ink, to be held against the phrase that it should show.

Lives here: readers of a score's SVG and of a finished PDF, which give the ink of each score; a reader of
that ink, which gives pitches, accidentals in force, rhythms, ties, chord symbols, frets and key names; and
the comparison with a phrase. May import `phrase` and what is below it. It shares no code and no table with
`engrave`: an error there would otherwise be made twice and never be seen. So it knows the outlines of glyphs
by a table of its own, which `tools/make_glyph_shapes.py` writes from the fonts themselves.
"""
