"""A phrase over its changes becomes parts for players, then MIDI, then audio.

Lives here: the feels, each one value; the players with their cost tables; the arrangement of a track; the
parts as MIDI; one door to each synthesiser, to the encoders and to the meter. May import `dense_chains` and
the floors below it.
"""
