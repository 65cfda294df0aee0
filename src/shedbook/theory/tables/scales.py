"""The scales, one row each.

Row format: name; aliases; `degrees` as they are printed; `spelled`, the same notes by the letters a
player writes (#9 over a chord is written as the plain minor third); source. Degrees count 1 to 7 with
accidentals; the diminished, altered and whole tone scales are named by the tensions they give a chord.
Letter case, hyphens, and the words "scale" and "mode" at the end make no difference in a name.

Set classes of all rows agree with Forte 1973, The Structure of Atonal Music, appendix 1.
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


_PRACTICE = "common practice"
_LEVINE = "Levine 1995, ch. 3; common practice"

SCALES: tuple[ScaleRow, ...] = (
    # Modes of the major scale.
    _row("ionian", "major, ionian major", "1 2 3 4 5 6 7", source=_LEVINE),
    _row("dorian", "", "1 2 b3 4 5 6 b7", source=_LEVINE),
    _row("phrygian", "", "1 b2 b3 4 5 b6 b7", source=_LEVINE),
    _row("lydian", "", "1 2 3 #4 5 6 7", source=_LEVINE),
    _row("mixolydian", "dominant", "1 2 3 4 5 6 b7", source=_LEVINE),
    _row("aeolian", "natural minor, pure minor, minor", "1 2 b3 4 5 b6 b7", source=_LEVINE),
    _row("locrian", "", "1 b2 b3 4 b5 b6 b7", source=_LEVINE),
    # Melodic minor and its modes.
    _row("melodic minor", "jazz minor, ascending melodic minor, minor major, ionian b3",
         "1 2 b3 4 5 6 7", source=_LEVINE),
    _row("dorian b2", "phrygian #6, phrygian natural 6, phrygian natural 13, dorian b9, sus b9, "
         "second mode of melodic minor", "1 b2 b3 4 5 6 b7", source=_LEVINE),
    _row("lydian augmented", "lydian #5, third mode of melodic minor",
         "1 2 3 #4 #5 6 7", source=_LEVINE),
    _row("lydian dominant", "lydian b7, overtone, acoustic, mixolydian #11, mixolydian #4, "
         "lydian mixolydian, fourth mode of melodic minor", "1 2 3 #4 5 6 b7", source=_LEVINE),
    _row("mixolydian b6", "mixolydian b13, aeolian dominant, melodic major, aeolian major, "
         "fifth mode of melodic minor", "1 2 3 4 5 b6 b7", source=_PRACTICE),
    _row("locrian natural 2", "half diminished, locrian #2, locrian natural 9, locrian #9, locrian 2, "
         "aeolian b5, sixth mode of melodic minor", "1 2 b3 4 b5 b6 b7", source=_LEVINE),
    _row("altered", "diminished whole tone, super locrian, superlocrian, alt, altered dominant, locrian b4, "
         "seventh mode of melodic minor",
         "1 b9 #9 3 #11 b13 b7", "1 b2 b3 3 b5 b6 b7", source=_LEVINE),
    # Harmonic minor and its modes.
    _row("harmonic minor", "aeolian natural 7, aeolian #7", "1 2 b3 4 5 b6 7", source=_PRACTICE),
    _row("locrian natural 6", "locrian #6, locrian natural 13, locrian 6, second mode of harmonic minor",
         "1 b2 b3 4 b5 6 b7", source=_PRACTICE),
    _row("ionian augmented", "ionian #5, augmented major, major #5, third mode of harmonic minor",
         "1 2 3 4 #5 6 7", source=_PRACTICE),
    _row("dorian #4", "dorian #11, romanian minor, ukrainian dorian, fourth mode of harmonic minor",
         "1 2 b3 #4 5 6 b7", source=_PRACTICE),
    _row("phrygian dominant", "fifth mode of harmonic minor, harmonic minor fifth mode, mixolydian b9 b13, "
         "mixolydian b2 b6, phrygian major, phrygian natural 3, spanish phrygian, spanish gypsy",
         "1 b2 3 4 5 b6 b7", source=_PRACTICE),
    _row("lydian #2", "lydian #9, sixth mode of harmonic minor", "1 #2 3 #4 5 6 7",
         "1 b3 3 #4 5 6 7", source=_PRACTICE),
    _row("altered bb7", "super locrian bb7, superlocrian bb7, ultralocrian, altered diminished, "
         "seventh mode of harmonic minor", "1 b2 b3 b4 b5 b6 bb7", "1 b2 b3 3 b5 b6 bb7", source=_PRACTICE),
    # Harmonic major and its modes.
    _row("harmonic major", "ionian b6, ionian b13, major b6", "1 2 3 4 5 b6 7", source=_PRACTICE),
    _row("dorian b5", "locrian natural 2 natural 6, locrian #2 #6, second mode of harmonic major",
         "1 2 b3 4 b5 6 b7", source=_PRACTICE),
    _row("phrygian b4", "altered natural 5, super phrygian, third mode of harmonic major",
         "1 b2 b3 b4 5 b6 b7", "1 b2 b3 3 5 b6 b7", source=_PRACTICE),
    _row("lydian b3", "lydian minor, lydian diminished, melodic minor #4, melodic minor #11, "
         "fourth mode of harmonic major", "1 2 b3 #4 5 6 7", source=_PRACTICE),
    _row("mixolydian b2", "mixolydian b9, fifth mode of harmonic major", "1 b2 3 4 5 6 b7", source=_PRACTICE),
    _row("lydian augmented #2", "lydian #2 #5, lydian #9 #5, sixth mode of harmonic major",
         "1 #2 3 #4 #5 6 7", "1 b3 3 #4 #5 6 7", source=_PRACTICE),
    _row("locrian bb7", "locrian diminished 7, seventh mode of harmonic major",
         "1 b2 b3 4 b5 b6 bb7", "1 b2 b3 4 b5 b6 bb7", source=_PRACTICE),
    # Symmetric scales.
    _row("half-whole diminished", "half whole, dominant diminished, diminished half whole, "
         "diminished dominant, half step whole step, half whole octatonic, "
         "octatonic half whole, half tone whole tone",
         "1 b9 #9 3 #11 5 13 b7", "1 b2 b3 3 #4 5 6 b7", source=_LEVINE),
    _row("whole-half diminished", "whole half, diminished, diminished whole half, fully diminished, "
         "whole step half step, whole half octatonic, octatonic whole half, octatonic, whole tone half tone",
         "1 9 b3 11 b5 b13 bb7 7", "1 2 b3 4 b5 b6 bb7 7", source=_LEVINE),
    _row("whole tone", "wholetone, augmented dominant", "1 9 3 #11 b13 b7", "1 2 3 #4 #5 b7", source=_LEVINE),
    _row("augmented", "symmetrical augmented, augmented hexatonic, hexatonic", "1 #2 3 5 #5 7",
         "1 b3 3 5 #5 7", source=_PRACTICE),
    # Bebop scales: a seven-note scale with one passing note, so that chord tones fall on the beats.
    _row("bebop dominant", "bebop, dominant bebop, mixolydian bebop, bebop mixolydian",
         "1 2 3 4 5 6 b7 7", source=_PRACTICE),
    _row("bebop major", "major bebop, bebop ionian", "1 2 3 4 5 #5 6 7", source=_PRACTICE),
    _row("bebop dorian", "dorian bebop, bebop minor, minor bebop", "1 2 b3 3 4 5 6 b7", source=_PRACTICE),
    _row("bebop melodic minor", "melodic minor bebop, bebop tonic minor", "1 2 b3 4 5 #5 6 7",
         source=_PRACTICE),
    # Pentatonic and blues scales.
    _row("major pentatonic", "pentatonic, pentatonic major", "1 2 3 5 6", source=_LEVINE),
    _row("minor pentatonic", "pentatonic minor", "1 b3 4 5 b7", source=_LEVINE),
    _row("blues", "minor blues, blues minor", "1 b3 4 b5 5 b7", source=_LEVINE),
    _row("major blues", "blues major", "1 2 b3 3 5 6", source=_PRACTICE),
    _row("chromatic", "twelve tone", "1 b2 2 b3 3 4 #4 5 b6 6 b7 7", source=_PRACTICE),
)  # fmt: skip

PASSING_NOTES: tuple[tuple[str, str], ...] = (
    ("bebop dominant", "7"),
    ("bebop major", "#5"),
    ("bebop dorian", "3"),
    ("bebop melodic minor", "#5"),
)
"""The scales that are another scale with one passing note, and that note: it passes, and is no colour of the
chord. Source: common practice."""
