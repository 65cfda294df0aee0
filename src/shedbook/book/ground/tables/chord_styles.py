"""How a chord symbol's quality may be written.

Row format: the name of the quality, then its forms, the usual one first.

Source: the forms that players read (Brandt & Roemer 1976, Standardized Chord Symbol Notation, read at second
hand; the rest common practice). Every form is one that `theory.chord_symbol` reads.
"""

from __future__ import annotations

QUALITY_FORMS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("major seventh", ("maj7", "Δ7", "Δ", "M7", "ma7")),
    ("minor", ("m", "-", "min", "mi")),
    ("half-diminished", ("m7b5", "ø7", "ø", "-7b5")),
    ("diminished", ("dim", "°", "o")),
    ("augmented", ("aug", "+")),
)

NAMED_STYLES: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    ("letters", (("major seventh", "maj7"), ("minor", "m"), ("half-diminished", "m7b5"),
                 ("diminished", "dim"), ("augmented", "aug"))),
    ("signs", (("major seventh", "Δ7"), ("minor", "-"), ("half-diminished", "ø7"), ("diminished", "°"),
               ("augmented", "+"))),
)  # fmt: skip
