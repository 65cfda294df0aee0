"""The texts that shedbook puts into a MusicXML file for what notation cannot hold.

They stand as `miscellaneous-field` elements of the identification. Row format: name after the prefix; what
it holds, in the form of the manuscript's key of that name; why notation cannot hold it.
"""

from __future__ import annotations

PREFIX = "shedbook-"
"""What the name of each field begins with."""

MIDI_MAKER = "written by shedbook"
"""The text by which a MIDI file of ours is known: its ticks are meant exactly. Another text is the feel."""

CHANGES, SCALES, KEY, KEY_INFERRED, ID, COMMENTARY, JOINED_RESTS, FOLD, LINKS = (
    "changes", "scales", "key", "key-inferred", "id", "commentary", "rests", "fold", "links",
)  # fmt: skip
SILENCE = "silence-"
"""Begins the name of a field for each silenced rule; the rule's name follows."""

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
