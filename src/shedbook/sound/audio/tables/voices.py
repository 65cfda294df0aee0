"""The program that can speak a count-in, and how it is asked.

It is run as a process where the system has it; nothing of it is part of this program or loaded into it (its
own licence is the GPL). Source: the manual page of espeak-ng 1.51.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

PROGRAM = "espeak-ng"
VERSION_ARGUMENTS = ("--version",)

ENGLISH = "en"
VOICES: Mapping[str, str] = MappingProxyType({"en": "en", "de": "de", "fr": "fr", "es": "es", "pt": "pt"})
"""The voice of each language that books are printed in; a book in another one is counted in English."""

SPEEDS = (160, 220, 300, 400)
"""Words a minute; the slowest at which a word ends before the next beat is taken."""

ARGUMENTS = ("--stdout", "-v")
"""Followed by the voice, "-s" and the speed, then by a number, which the program says in words."""

FILLED = 0.85
"""How much of the time to the next word a word may take."""

HEARD_AT = 0.3
"""At what share of its greatest level a word is heard to begin: there it falls on the beat (common practice:
a syllable stands where its vowel begins; the figure is our own)."""

INSTALL = 'Install it: apt-get install espeak-ng, or write count = "struck".'
