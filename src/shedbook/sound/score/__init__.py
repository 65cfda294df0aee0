"""What a track plays, as values: the score as written, how it is swung and performed, and its MIDI file.

May import `sound.feels` and the floors below `sound`.
"""
