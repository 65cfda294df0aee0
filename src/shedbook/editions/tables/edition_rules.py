"""What the proof-reader says of one edition.

Row format: name; severity ("error", "warning", "advice"); what it says; how it is mended; source.
"""

from __future__ import annotations

from typing import NamedTuple


class EditionRule(NamedTuple):
    """One rule."""

    name: str
    severity: str
    says: str
    mend: str
    source: str


_BANDS = "ranges in three bands: Adler, The Study of Orchestration, from memory"

FOLDED_MEND = "No fold at a rest or at the widest leap brings it in either: leave out the key, or write the \
outermost notes nearer."
"""The mend that takes the place of a rule's own where the author already allows folds."""

_MEND = "Allow a fold (fold = true), leave out the key, or write the outermost notes nearer."

EDITION_RULES: tuple[EditionRule, ...] = (
    EditionRule("out-of-range", "warning",
                "In no octave do all notes lie in the full range of the instrument.",
                _MEND, _BANDS),
    EditionRule("out-of-reach", "error",
                "In no octave are all notes on the instrument at all.",
                _MEND, _BANDS),
    EditionRule("folded", "advice",
                "Part of a phrase stands an octave higher or lower than the author wrote it.",
                "If the fold is unwelcome, take fold = true away.", "the project's design"),
    EditionRule("off-fingerboard", "warning",
                "Notes are on no string of the fingerboard, so the tablature has nothing for them.",
                "Write them nearer, leave out the key, or name another tuning.", "the table of fingerboards"),
    EditionRule("no-tablature", "advice",
                "Tablature was asked for, and an edition has none.",
                "Name the editions that shall have it: tablature = [\"guitar\"].", "the project's design"),
)  # fmt: skip
