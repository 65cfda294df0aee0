"""What hands do: where a line is played on a fretted instrument, and what fingers do between two notes.

Lives here: fingerboards, the string and fret of every note at the least total cost, and the moves from note
to note of fingers on woodwinds, of valves and slides, and of hands on strings. May import
`cost_table` and the tables of `editions`, and the floors below.
"""
