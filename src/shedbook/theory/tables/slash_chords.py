"""Chords over a bass that is none of their tones, and what they are heard as.

Row format: `uppers`, the qualities of the chord over the bass, divided by ";" (the plain major triad is
"major"); `above`, the degree of its root above the bass; `heard`, the quality of the chord on the bass that
sounds; an example over C; source. A chord over one of its own tones is an inversion and has no row: it is
heard on its own root.
"""

from __future__ import annotations

from typing import NamedTuple

_PRACTICE = "common practice"
_LEVINE = "Levine 1995, The Jazz Theory Book, on slash chords (from memory); common practice"


class SlashChordRow(NamedTuple):
    """One upper structure over a bass, and the chord on the bass that it is heard as."""

    uppers: tuple[str, ...]
    above: str
    heard: str
    example: str
    source: str


def _row(uppers: str, above: str, heard: str, example: str, source: str = _PRACTICE) -> SlashChordRow:
    return SlashChordRow(
        tuple("" if upper == "major" else upper for upper in uppers.split(";")), above, heard, example, source
    )


SLASH_CHORDS: tuple[SlashChordRow, ...] = (
    # Suspended dominants on the bass.
    _row("major;6", "b7", "9sus4", "Bb/C", _LEVINE),
    _row("maj7", "b7", "13sus4", "Bbmaj7/C", _LEVINE),
    _row("m;m7", "5", "9sus4", "Gm7/C", _LEVINE),
    _row("m;m6", "b7", "7sus4(b9)", "Bbm/C", _LEVINE),
    _row("m7", "b7", "7sus4(b9,b13)", "Bbm7/C"),
    _row("m7b5", "5", "7sus4(b9)", "Gm7b5/C", _LEVINE),
    _row("major", "b2", "7sus4(b9,b13)", "Db/C", _LEVINE),
    # Dominants on the bass.
    _row("m6", "5", "9", "Gm6/C"),
    _row("m7b5", "3", "9", "Em7b5/C"),
    _row("dim7", "3", "7b9", "Edim7/C"),
    _row("dim7", "5", "7b9", "Gdim7/C"),
    _row("dim7", "b7", "7b9", "Bbdim7/C"),
    _row("dim7", "b2", "7b9", "Dbdim7/C"),
    _row("major", "6", "13b9", "A/C", _LEVINE),
    _row("major;7", "b5", "7(b9,#11)", "Gb/C", _LEVINE),
    _row("m", "b5", "13(b9,#11)", "F#m/C"),
    _row("m", "b2", "7(b9,b13)", "C#m/C"),
    # Major chords on the bass.
    _row("major", "2", "maj7#11", "D/C", _LEVINE),
    _row("major", "3", "maj7#5", "E/C", _LEVINE),
    _row("major", "5", "maj9", "G/C"),
    _row("maj7", "5", "maj9#11", "Gmaj7/C"),
    _row("m", "7", "maj9#11", "Bm/C"),
    _row("m", "3", "maj7", "Em/C"),
    _row("m7", "3", "maj9", "Em7/C"),
    # Minor, half-diminished and diminished chords on the bass.
    _row("major", "b3", "m7", "Eb/C"),
    _row("maj7", "b3", "m9", "Ebmaj7/C"),
    _row("m", "b3", "m7b5", "Ebm/C"),
    _row("major", "7", "dim(maj7)", "B/C", _LEVINE),
)
