"""Which tracks a book has, and how the missing ones are made.

It may import the scores and the rooms below them, and not the pages.
"""
