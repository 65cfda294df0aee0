"""What the interfaces call, one module a verb: build, check, explain, show, play, export, bring in, setup.

It may import every other room of the book; none of them may import it.
"""
