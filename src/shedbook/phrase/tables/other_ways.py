"""What musicians type for a note, a value or a sign, and how it is written in a line.

Source of every row: common practice in the country or the trade that writes so.
"""

from __future__ import annotations

LETTERS_ELSEWHERE: dict[str, tuple[str, str]] = {
    # Name as it is typed, in lower case: our name, and whose name it is.
    "h": ("b", "German"), "his": ("b#", "German"), "hes": ("bb", "German"),
    **{f"{letter}is": (f"{letter}#", "German") for letter in "cdefga"},
    **{f"{letter}es": (f"{letter}b", "German") for letter in "cdfg"},
    "es": ("eb", "German"), "as": ("ab", "German"), "bes": ("bb", "Dutch"),
    **{f"{letter}isis": (f"{letter}##", "German") for letter in "cdfga"},
    "do": ("c", "solfège"), "ut": ("c", "solfège"), "re": ("d", "solfège"), "ré": ("d", "solfège"),
    "mi": ("e", "solfège"), "fa": ("f", "solfège"), "sol": ("g", "solfège"), "la": ("a", "solfège"),
    "si": ("b", "solfège"), "ti": ("b", "solfège"),
}  # fmt: skip
"""Names of notes in other languages."""

SIGN_WORDS: dict[str, str] = {
    "flat": "b", "sharp": "#", "natural": "", "bemol": "b", "bémol": "b", "bemolle": "b", "diese": "#",
    "dièse": "#", "diesis": "#", "sostenido": "#",
}  # fmt: skip
"""Words for accidentals."""

VALUE_WORDS: dict[str, tuple[str, str]] = {
    # What is typed, in lower case: our value, and what it is called.
    **dict.fromkeys(("w", "wn", "whole", "semibreve", "1.0"), ("1/1", "whole note")),
    **dict.fromkeys(("h", "hn", "half", "minim", "0.5", ".5", "0,5"), ("1/2", "half note")),
    **dict.fromkeys(("q", "qn", "quarter", "crotchet", "0.25", ".25", "0,25", "4th"), ("1/4", "quarter")),
    **dict.fromkeys(("en", "8n", "eighth", "quaver", "0.125", ".125", "8th"), ("1/8", "eighth")),
    **dict.fromkeys(("s", "sn", "16n", "sixteenth", "semiquaver", "0.0625", "16th"), ("1/16", "sixteenth")),
    **dict.fromkeys(("32n", "32nd", "0.03125"), ("1/32", "thirty-second")),
    **dict.fromkeys(("0.375", "q.", "dotted"), ("1/4.", "dotted quarter")),
    **dict.fromkeys(("0.75", "h."), ("1/2.", "dotted half note")),
    **dict.fromkeys(("0.1875", "e."), ("1/8.", "dotted eighth")),
    **dict.fromkeys(("triplet", "8t", "t8", "1/12"), ("1/8t", "eighth of a triplet")),
    **dict.fromkeys(("1/6", "4t"), ("1/4t", "quarter of a triplet")),
    "2/4": ("1/2", "half note"), "3/8": ("1/4.", "dotted quarter"), "3/4": ("1/2.", "dotted half note"),
    "3/16": ("1/8.", "dotted eighth"), "4/4": ("1/1", "whole note"), "2/8": ("1/4", "quarter"),
}  # fmt: skip
"""Words and numbers for note values."""

ACCEPTED_SIGNS: dict[str, str] = {
    "♭": "b", "♯": "#", "𝄫": "bb", "𝄪": "##", "♮": "", "–": "-", "—": "-", "−": "-", "⁄": "/",
    "¼": "1/4", "½": "1/2", "⅛": "1/8", "♩": "1/4", "♪": "1/8", "𝅝": "1/1", "𝅗𝅥": "1/2", "𝅘𝅥𝅯": "1/16",
}  # fmt: skip
"""Signs that have one meaning, and what is read in their place."""

MARK_SIGNS: dict[str, str] = {
    ">": "accent", "^": "accent", "!": "staccato", "*": "staccato", "x": "ghost",
}  # fmt: skip
"""Signs beside a note that are meant as marks."""
