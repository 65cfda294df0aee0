"""Who reads: instruments, and the editions that are made for them.

Lives here: the instruments of the table and the author's own, their written ranges, and editions, one for
each readership. May import `editions.fingering.fingerboard`, the tables, and the floors below. Knows nothing
of keys, spelling or registers.
"""
