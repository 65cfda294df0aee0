"""Where a line is played on a fretted instrument.

Lives here: fingerboards, and the string and fret of every note at the least total cost. May import
`cost_table` and the tables of `editions`, and the floors below.
"""
