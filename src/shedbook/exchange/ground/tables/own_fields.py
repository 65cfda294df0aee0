"""The texts that shedbook puts into a file for what notation cannot hold.

In MusicXML they are `miscellaneous-field` elements. Row format of `OWN_FIELDS`: the name
of the field after the prefix; what the field holds, in the form of the manuscript's key of that name; why
notation cannot hold it. The source is the project's own design, on MusicXML 4.0's `miscellaneous-field`.
"""

from __future__ import annotations

PREFIX = "shedbook-"
"""The name of each field in a MusicXML file begins so."""

MIDI_MAKER = "written by shedbook"
"""The text by which a MIDI file of shedbook is known: its ticks are exact. Another text names the feel."""

CHANGES, SCALES, KEY, KEY_INFERRED, ID, COMMENTARY, JOINED_RESTS, FOLD, LINKS = (
    "changes", "scales", "key", "key-inferred", "id", "commentary", "rests", "fold", "links",
)  # fmt: skip
SILENCE = "silence-"
"""The name of a field for a silenced rule begins so; the name of the rule follows."""

OWN_FIELDS: tuple[tuple[str, str, str], ...] = (
    (CHANGES, "the changes as the author wrote them", "no place for N.C. and accidentals as they were typed"),
    (SCALES, "the chord scales", "no element for a scale; holds only while the changes are the same"),
    (KEY, "the home key", "no key signature is printed as a rule; holds only while the changes are the same"),
    (KEY_INFERRED, "yes where the author named no key", "not a matter of notation"),
    (ID, "the phrase's own name", "not a matter of notation"),
    (COMMENTARY, "what the author wants heard", "not a matter of notation"),
    (
        JOINED_RESTS,
        "the rests of several values",
        "notation ties notes only; holds where so many rests stand there",
    ),
    (FOLD, "yes or no: may an edition set part of the line an octave off", "not a matter of notation"),
    (LINKS, "names and web addresses of the phrase, as JSON", "notation has no links"),
    (SILENCE + "RULE", "the reason for silencing a rule of the proof-reader", "not a matter of notation"),
)
