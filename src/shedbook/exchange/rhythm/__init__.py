"""Played notes become written ones: where notes begin and end, where beats and bar lines lie, which values.

Knows no file format. May import `ground` of `exchange`, and `phrase` with the floors below it.
"""
