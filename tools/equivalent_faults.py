"""Planted faults that change nothing that can be seen, each looked at by a person: its name and why.

A fault is named by `tools/mutants.py` after its place and the changed text, so that a row is void as soon as
the module changes. Source: reading the code.
"""

from __future__ import annotations

EQUIVALENT: dict[str, str] = {
    "e6c26ddf": "no sharps and no flats are the same empty signature",
    "813697dc": "the index of a value never passes the end, and small whole numbers are one object",
    "bbc32a03": "any number serves that is the same for the whole group",
    "6c9e58e7": "the first edge is dropped before it is read",
    "7d82972d": "half as many ticks are still a common multiple of all values",
    "d704f98e": "as few ticks are still a common multiple of all values",
    "47e5d42d": "a bar of the right length was passed before",
    "7469a9cb": "the value only ends the list",
    "44ec0fe7": "only the denominator of the sum is read",
    "80171480": "the first beat comes to the same by the longer way",
    "ad2cee01": "both lists are made from the same events",
    "0bc657e3": "the whole word has to match, so the order of the ways makes no difference",
    "8345db7b": "all strokes of a word are alike",
    "7a965266": "every word that a value can be read of matches",
    "466cd9f9": "no other seventh of a chord with a major third stands behind it in the alphabet",
    "ac4a8d1b": "the name has more than one sharp or flat there",
    "9ab4bbd9": "a place never passes the end, and small whole numbers are one object",
    "1f117052": "a scale without any root was refused before",
    "0c453dd5": "the field was never read",
    "11de6bd2": "the part is read of notes only, which always have it",
    "17b52abf": "an equal scale is made anew",
    "4fc37dda": "no phrase begins with a tie",
    "e3139fc9": "each measure has its limits, which is checked when the table is read",
    "5e1ce05a": "the spans of a line are the same objects wherever they are equal",
    "e66de02f": "the names of memberships are one object each",
    "53feb613": "a chord without a root has no scales and is not asked",
    "80215421": "the part is read of words only that always have it",
    "0c5315f4": "the name has more than one sharp or flat there",
    "c2be984d": "the list has one part there",
    "1949a7bc": "the numbers of both tables are one object each",
    "e4ce8913": "notes longer than an eighth do not come there",
    "e60949b0": "all chords of a group have one root",
    "7c71fb37": "no token of another kind has the value",
    "711a0442": "no string has the number 0, so that the fret on it is not read",
    "3714f745": "both rows are made of the same names",
    "331acc58": "what has no root keeps none",
    "13dbb74a": "C is a plain name and was given back before",
    "65fb7fec": "there is a name for every struck note",
    "6756b0b6": "what nobody reads any more is kept for one place longer, and chosen alike",
    "95896a6a": "nobody asks for a thirteenth pitch class",
    "1ae9a4a6": "no name lies so far out",
}
