"""Who reads: instruments, and the editions that are made for them.

Lives here: the instruments of the table and the author's own, their written ranges, how awkward two notes in
a row are on each, and editions, one for each readership. May import `editions.fingering`, the tables, and the
floors below. Knows nothing
of keys, spelling or registers.
"""
