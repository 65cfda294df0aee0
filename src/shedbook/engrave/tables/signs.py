"""Signs of our own for chord symbols, in the form of `outlines`: (advance, left, right, path data).

Units are 1/1000 em of the text font, whose capitals are 660 high and whose strokes are about 75 wide.
"""

from collections.abc import Mapping

from shedbook.engrave.tables.outlines import Glyph

SIGNS: Mapping[str, Glyph] = {
    # diminished: a ring at the height of the capitals' upper half
    "°": (
        378, 28, 350,
        "M189-662a161 161 0 0 0 0 322a161 161 0 0 0 0-322z"
        "M189-596a95 95 0 0 1 0 190a95 95 0 0 1 0-190z",
    ),
    # half-diminished: the same ring with a stroke through it
    "ø": (
        398, 10, 388,
        "M199-662a161 161 0 0 0 0 322a161 161 0 0 0 0-322z"
        "M199-596a95 95 0 0 1 0 190a95 95 0 0 1 0-190z"
        "M54-300l250-446l46 26l-250 446z",
    ),
    # major seventh: a triangle on the base line
    "Δ": (640, 20, 620, "M320-640l300 640h-600zM320-470l-186 396h372z"),
}  # fmt: skip
