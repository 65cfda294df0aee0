"""The scales, one row each.

Row format: name; aliases; `degrees` as they are printed; `spelled`, the same notes by the letters a
player writes (#9 over a chord is written as the plain minor third); source.
"""

from __future__ import annotations

from typing import NamedTuple


class ScaleRow(NamedTuple):
    """One scale; `degrees` and `spelled` are equally long and start with "1"."""

    name: str
    aliases: tuple[str, ...]
    degrees: tuple[str, ...]
    spelled: tuple[str, ...]
    source: str


def _row(name: str, aliases: str, degrees: str, spelled: str = "", *, source: str) -> ScaleRow:
    return ScaleRow(
        name,
        tuple(alias.strip() for alias in aliases.split(",") if alias.strip()),
        tuple(degrees.split()),
        tuple((spelled or degrees).split()),
        source,
    )


SCALES: tuple[ScaleRow, ...] = (
    _row("ionian", "major", "1 2 3 4 5 6 7", source="common practice"),
    _row("dorian", "", "1 2 b3 4 5 6 b7", source="common practice"),
    _row("mixolydian", "dominant", "1 2 3 4 5 6 b7", source="common practice"),
    _row("locrian", "", "1 b2 b3 4 b5 b6 b7", source="common practice"),
    _row("melodic minor", "jazz minor", "1 2 b3 4 5 6 7", source="common practice"),
    _row("half-whole diminished", "half whole, dominant diminished",
         "1 b9 #9 3 #11 5 13 b7", "1 b2 b3 3 #4 5 6 b7", source="Levine 1995, ch. 3"),
    _row("altered", "diminished whole tone, super locrian, alt",
         "1 b9 #9 3 #11 b13 b7", "1 b2 b3 3 b5 b6 b7", source="Levine 1995, ch. 3"),
)  # fmt: skip
