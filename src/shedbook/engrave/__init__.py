"""A phrase in an edition becomes a picture of a score.

Rooms, from the top down; each may import those below it:

    drawing    the picture: Verovio's drawing with our own lettering, study marks and tablature
    engraver   the one door to Verovio, and the reading of what it draws
    notation   what stands in the score, and the score as MEI; pure
    tables     outlines of letters and signs

May import `editions`, `analysis` and everything below. Knows nothing of manuscripts.
"""
