"""Outlines of our own signs for chord symbols, in the form of `outlines`: (advance, left, right, path data).

Units are 1/1000 em of the text font, whose capitals are 660 high and whose strokes are about 75 wide.
The source is our own drawing; what the signs mean is common practice.
"""

from collections.abc import Mapping

from shedbook.engrave.tables.outlines import Glyph

CHORD_SIGN_OUTLINES: Mapping[str, Glyph] = {
    # diminished: a ring at the height of the capitals' upper half
    "°": (
        378, 28, 350,
        "M189-662a161 161 0 0 0 0 322a161 161 0 0 0 0-322z"
        "M189-596a95 95 0 0 1 0 190a95 95 0 0 1 0-190z",
    ),
    # half-diminished: a ring as high as a small letter at the middle of the capitals, and a stroke from the
    # base line to their top that goes far beyond it on both sides, so that it is not taken for a sharp
    "ø": (
        700, 70, 680,
        "M370-575a245 245 0 0 0 0 490a245 245 0 0 0 0-490z"
        "M370-507a177 177 0 0 1 0 354a177 177 0 0 1 0-354z"
        "M78-22l540-672l48 38l-540 672z",
    ),
    # major seventh: a triangle on the base line
    "Δ": (640, 20, 620, "M320-640l300 640h-600zM320-470l-186 396h372z"),
}  # fmt: skip
