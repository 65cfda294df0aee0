"""A phrase over its changes becomes parts for players, then MIDI, then audio.

Lives here: the players, each with one cost table; the parts as MIDI; one door to the synthesiser, one to
the encoders, one to the meter. May import `analysis`, `editions` and everything below.
"""
