"""A phrase in an edition becomes a picture of a score.

Lives here: the phrase as MEI (pure), the one door to Verovio, and the drawing of chord symbols and
study marks. May import `editions`, `analysis` and everything below. Knows nothing of manuscripts.
"""
