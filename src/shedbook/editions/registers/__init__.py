"""In which octave a phrase lies in each of its keys.

Lives here: the choice of octaves for an edition at the least total cost, and folds, by which the rest of a
phrase goes on an octave higher or lower. May import `editions.instruments`, `editions.compass`,
`editions.transpose`, `editions.cost_table` and the floors below. Knows nothing of spelling.
"""
