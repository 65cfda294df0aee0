"""A phrase on the screen: score cards as values, and a score video in step with what sounds.

Rooms, from the top down; each may import those below it:

    encoder_door               the one door to PyAV: frames and sound in, a file out; and read back
    frames                     the pictures of a video in the encoder's own colours, painted once each
    marks                      what is painted over a still page while a note sounds
    captions | card            words for the ear and eye in step | what stands where on a card
    moments                    when everything sounds and is shown
    tables                     the sizes of the screen, the encoders

A score comes in as a picture with its places. May import NumPy and the floors from `analysis` down; knows
nothing of manuscripts, of the engraver and of the players.
"""
