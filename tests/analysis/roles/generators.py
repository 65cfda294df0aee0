"""Every reason that a note can be given: what the search asks by turns, in one row."""

from __future__ import annotations

from shedbook.analysis.roles import blue_notes, enclosures, reasons
from shedbook.analysis.roles.superimposed_triads import superimposed_triad

GENERATORS = (
    reasons.plain, reasons.anticipation, reasons.suspension, reasons.passing, reasons.neighbour,
    enclosures.enclosures, reasons.leaning, reasons.approach, reasons.double_approach,
    reasons.scale_step_approach, reasons.delayed_approach, reasons.escape, reasons.pedal,
    superimposed_triad, blue_notes.blue, blue_notes.bent_third, blue_notes.major_seventh_of_minor,
)  # fmt: skip
