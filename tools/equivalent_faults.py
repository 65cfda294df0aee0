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
    "e80004e0": "a phrase whose pages are held free prints no words, however long their lines",
    "9b8036b1": "numbers of notes are small whole numbers, and one object each",
    "258448f5": "the record is read by the program alone, to which both writings are one",
    "3641b29c": "any place serves that is the same for all kinds",
    "7e25ee03": "as many scores are drawn as are asked for",
    "20e54251": "nothing is defined in a drawing before its definitions begin",
    "532c1c05": "where a mark follows further on, there is a next letter",
    "a1f4109e": "tracks that the page follows are in one key",
    "2440d295": "of a phrase of another book the number is never read",
    "32497b6c": "there is one own score, or none, for each score",
    "8064348f": "what was made just now is there",
    "cffd34be": "what was made just now is there",
    "e53f6f66": "it is called with both in their places and singly by its name",
    "2f29d126": "how many jobs were run is always said",
    "f6e1b479": "loudness and peak are measured together or not at all",
    "fac3a9dd": "any name serves that is the same wherever it is asked for",
    "61c5b3d8": "no German name of a degree is declined",
}
