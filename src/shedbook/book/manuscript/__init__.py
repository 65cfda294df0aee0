"""The author's folder: its files opened, its settings read, its phrases found; and what is asked of a build.

It may import the ground. It reads TOML and plain text; notes are read when `read_phrase` is called.
"""
