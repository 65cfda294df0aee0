"""The keys of a phrase in the manuscript.

Row format: name; the form of its value in TOML; whether it must stand; what holds where it does not;
meaning. The source of every row is the design of the manuscript.
"""

from __future__ import annotations

from typing import NamedTuple


class FieldRow(NamedTuple):
    """One key of a TOML table."""

    name: str
    form: str
    needed: bool
    default: str
    meaning: str


FIELDS: tuple[FieldRow, ...] = (
    FieldRow("title", "text", False, "Phrase and its number", "the heading over the phrase"),
    FieldRow("id", "text", False, "", "a name of its own that keeps printed numbers stable"),
    FieldRow("key", "text", False, "inferred from the changes", 'home key: "C minor", "Bb major"'),
    FieldRow("metre", "text", False, "the book's, else 4/4", 'beats and their value: "3/4", "6/8"'),
    FieldRow("pickup", "text", False, "none", 'length of the bar before bar 1: "1/4", "1/8t", "3/8"'),
    FieldRow("tempo", "whole number", False, "the book's, else 120", "beats a minute, 20 to 400"),
    FieldRow("feel", "text", False, "the book's, else swing", "how it is played, from the table of feels"),
    FieldRow("changes", "text", True, "", "the chord symbols, bar by bar"),
    FieldRow("scales", "text", False, "chosen by the program", "the chord scale of each chord"),
    FieldRow("line", "text", True, "", "the melody"),
    FieldRow("commentary", "text", False, "", "what the author wants the reader to hear"),
    FieldRow(
        "sentences",
        "table of texts",
        False,
        "",
        "sentences of the explanation in the author's words: the computed one, and what stands in its place",
    ),
    FieldRow(
        "links",
        "table of texts",
        False,
        "",
        "a name and a web address each, such as a track or a video; printed with QR codes",
    ),
    FieldRow("silence", "table of texts", False, "", "proof-reading rules left out here, each with a reason"),
    FieldRow(
        "fold",
        "true or false",
        False,
        "the book's, else false",
        "whether an edition may go on an octave off where no octave lies on its instrument",
    ),
)
