"""What the proof-reader says of one edition.

Row format: name; severity ("error", "warning", "advice"); what it says; how it is mended; source.
`EDITION_WORDS` are the sentences in English, by the names by which a table of words has them; in braces stand
names that are filled in.
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

_LIES = {"out-of-range": "outside the full range of", "out-of-reach": "out of reach of"}
_BEST = "{place}: in the best octave"

EDITION_WORDS: dict[str, str] = {
    **{f"finding.{row.name}.mend": row.mend for row in EDITION_RULES},
    # In which key it is found, as it is read; where that has another name, as it sounds.
    "finding.place": "In {key}",
    "finding.place.concert": "In {key} (concert {concert})",
    "finding.band": "{low} to {high}",
    **{
        f"finding.{rule}.one": f"{_BEST} one note lies {lies} {{reader}}, written {{band}}."
        for rule, lies in _LIES.items()
    },
    **{
        f"finding.{rule}.many": f"{_BEST} {{n}} notes lie {lies} {{reader}}, written {{band}}."
        for rule, lies in _LIES.items()
    },
    **{
        f"finding.{rule}.mend.no fold":
        "No fold at a rest or at the widest leap brings it in either: leave out the key, or write the "
        "outermost notes nearer."
        for rule in _LIES
    },
    "finding.folded.higher":
    "{place} the line goes on an octave higher from bar {bar}, beat {beat}, for {reader}.",
    "finding.folded.lower":
    "{place} the line goes on an octave lower from bar {bar}, beat {beat}, for {reader}.",
    "finding.off-fingerboard.one":
    "{place} one note is not on the fingerboard of {reader}, tuned {tuning}, with {frets} frets: the "
    "tablature is empty there.",
    "finding.off-fingerboard.many":
    "{place} {n} notes are not on the fingerboard of {reader}, tuned {tuning}, with {frets} frets: the "
    "tablature is empty there.",
    "finding.no-tablature.one": "The {editions} has no tablature: it needs an instrument with frets.",
    "finding.no-tablature.many": "The {editions} have no tablature: it needs an instrument with frets.",
    "finding.no-tablature.not made":
    "Tablature is wanted for the {name} edition, which is not among those made.",
}  # fmt: skip
