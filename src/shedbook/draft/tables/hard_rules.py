"""The hard rules of a drafted line: each can be left out by its name, and some have a number.

Row format: name; what it demands, as it is said to the author when it has to be relaxed; source.
"""

from __future__ import annotations

from typing import NamedTuple


class HardRuleRow(NamedTuple):
    """One rule: its name, what it demands, what relaxing it means, and the source."""

    name: str
    demands: str
    relaxed: str
    source: str


_TRADE = "common practice"

HARD_RULES: tuple[HardRuleRow, ...] = (
    HardRuleRow(
        "strong beats", "chord tones or named tensions on the strong beats",
        "let any note of the scale stand on a strong beat", _TRADE,
    ),
    HardRuleRow(
        "outside notes", "notes outside the scale only in a figure that resolves, no longer than an eighth",
        "let notes outside the scale go unresolved", _TRADE,
    ),
    HardRuleRow(
        "links", "a step into every new chord, unless the line has breathed",
        "let the line leap into a new chord", _TRADE,
    ),
    HardRuleRow(
        "leaps recovered", "after a fourth or more, the line turns back by a third or less",
        "let leaps go on as they like", _TRADE,
    ),
    HardRuleRow(
        "one direction", "no more than so many moves in one direction", "let a run go on", _TRADE
    ),
    HardRuleRow("repetition", "no note struck twice running", "let a note be struck again", _TRADE),
    HardRuleRow("largest leap", "no leap wider than allowed", "allow wider leaps, up to an octave", _TRADE),
    HardRuleRow("coverage", "the whole scale over the chords that are marked",
                "cover the marked scales in part", "the author's wish"),
    HardRuleRow("ending", "a chord tone, or the ninth or sixth of a chord at rest, as the last note",
                "let the line end on any note of the scale", _TRADE),
    HardRuleRow("from", "the first note that was asked for", "begin on another note", "the author's wish"),
    HardRuleRow("to", "the last note that was asked for", "end on another note", "the author's wish"),
    HardRuleRow("fixed notes", "the notes that the author fixes", "give up a fixed note",
                "the author's wish"),
    HardRuleRow("range", "the range from the lowest to the highest note",
                "widen the range by a fourth at either end", "the author's wish"),
)  # fmt: skip
