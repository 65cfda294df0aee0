"""A finished book read back: every score of its PDF, and the name of its key, held against the phrases.

May import `pages` and what is below it, and `read_back`; never `engrave`, nor a picture of the store.
"""
