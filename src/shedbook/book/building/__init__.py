"""The whole build: what is missing is found, made, laid out and recorded.

It may import reading back, the pages, the tracks and the rooms below them.
"""
