"""A phrase as one reader needs it: in their keys and their register, spelled, and with fingerings.

Lives here: pure functions from a phrase to a phrase. Every choice is the one with the least total cost, and
the costs stand in `tables`. Modules and rooms, from the top down; each may import those below it:

    reader_part            a phrase in each key of an edition, as its reader sees it
    registers              in which octave a phrase lies in each key
    keys                   the order of keys, their names, and a phrase moved to a key
    instruments, spelling  who reads; what notes and chords are called
    fingering, compass, transpose, cost_table

May import `phrase` and the floors below it.
"""
