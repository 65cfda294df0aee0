"""In which keys a phrase is read.

Lives here: the order in which a book goes through the keys, the names that keys have for a reader, and a
phrase moved to a key. May import `editions.spelling`, `editions.instruments` and what those may import.
"""
