"""The players: each turns the chart of a track into the notes of one part.

The bass, the comping and the voicings are least-cost choices over one table of costs each; the drums and
the rhythms are drawn by seeded dice. May import `sound.score`, `sound.feels` and the floors below `sound`.
"""
