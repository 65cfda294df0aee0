"""A line as long as its file becomes phrases that the manuscript can hold.

Lives here: dividing a line, filling its bars, laying the author's changes under it, cutting it at its
progressions, and what our own files carry besides the notes. Knows no file format. May import `ground` of
`exchange`, `analysis`, `editions` and everything below.
"""
