"""One module a feel, called as the feel is; nothing else lives here.

Each defines FEEL. A module put here is found by itself; the feel's name and aliases stand in
`phrase/tables/feels.py`, and `known_feels` refuses either without the other.
"""
