"""What notes, chords and scales are called for a reader: F sharp or G flat.

Lives here: the names that a note or chord may have with their costs, the choice of all names of a phrase at
the least total cost, and courtesy accidentals. May import `editions.transpose`, `cost_table`, the
tables, and the floors below. Knows nothing of instruments.
"""
