"""Which passages a track has, in which order, and who plays in them.

May import `sound.players` and what that may import.
"""
