"""Phrases: notes, bars, changes, and the text in which an author writes them.

Lives here: the model and its text form. May import `theory` and `errors`. Knows nothing of files.
"""
