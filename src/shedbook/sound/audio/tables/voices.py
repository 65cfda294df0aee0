"""The program that can speak a count-in, and how it is asked.

It is run as a process where the system has it; nothing of it is part of this program or loaded into it (its
own licence is the GPL). Source: the manual page of espeak-ng 1.51.
"""

from __future__ import annotations

PROGRAM = "espeak-ng"
VERSION_ARGUMENTS = ("--version",)

LANGUAGE = "en"

SPEEDS = (160, 220, 300, 400)
"""Words a minute; the slowest at which a word ends before the next beat is taken."""

ARGUMENTS = ("--stdout", "-v", LANGUAGE, "-s")
"""Followed by the speed, then by what is said: a number, which the program says in words."""

FILLED = 0.85
"""How much of the time to the next word a word may take."""

HEARD_AT = 0.3
"""At what share of its greatest level a word is heard to begin: there it falls on the beat (common practice:
a syllable stands where its vowel begins; the figure is our own)."""

INSTALL = 'Install it: apt-get install espeak-ng, or write count = "struck".'
