"""The command line: it formats and collects, and has no logic of its own.

One module a verb; each loads its floor when it is called, so that `shedbook --help` stays quick.
"""
