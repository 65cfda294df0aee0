"""Machinery that knows no music: the store of finished parts, the names of jobs, workers, the output folder.

It may import the ground.
"""
