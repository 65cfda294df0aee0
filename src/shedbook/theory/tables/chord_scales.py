"""Which scales go with a chord: kinds of chords, and a row for each kind and context.

`KINDS`: name; `has`, degrees that the chord must name (b9|#9 means one of them); `lacks`, degrees that it
must not name; source. The first row that fits is the chord's kind. A chord marked alt has the degree "alt".

`ROWS`: kinds, divided by ";"; context, one of the names in `chord_scales`; scales, best first. The first
row of a kind whose context holds is used, and each kind ends with a row for any context. A choice is
scale, reason, and the degree on which the scale starts. In a reason {symbol} is the chord, {root} its root,
{b13} and the like the notes of the degrees ({=b13} written as in a symbol), {coming} the root of the chord
that is to come and {next} its symbol.
A choice marked `colour` stays although it lacks a tone that the chord names.
"""

from __future__ import annotations

from typing import NamedTuple

_PRACTICE = "common practice"
_LEVINE = "Levine 1995, The Jazz Theory Book; common practice"


class KindRow(NamedTuple):
    """A kind of chord and how it is known."""

    name: str
    has: tuple[str, ...]
    lacks: tuple[str, ...]
    example: str
    source: str


def _kind(name: str, has: str, lacks: str = "", *, example: str, source: str = _PRACTICE) -> KindRow:
    return KindRow(name, tuple(has.split()), tuple(lacks.split()), example, source)


KINDS: tuple[KindRow, ...] = (
    _kind("altered dominant", "alt", example="C7alt"),
    _kind("suspended b9", "4|2 b7 b9", example="C7sus4(b9)"),
    _kind("suspended b9", "b7 b9 11", "3 b3", example="C11b9"),
    _kind("suspended seventh", "4|2 b7", example="C7sus4"),
    _kind("suspended seventh", "b7 11", "3 b3", example="C11"),
    _kind("suspended major seventh", "4|2 7", example="Cmaj7sus4"),
    _kind("suspended fourth", "4", example="Csus4"),
    _kind("suspended second", "2", example="Csus2"),
    _kind("diminished seventh", "bb7", example="Cdim7"),
    _kind("diminished seventh", "b3 b5 6", example="Cm6b5"),
    _kind("diminished major seventh", "b3 b5 7", example="Cdim(maj7)"),
    _kind("half-diminished 9", "b3 b5 b7 9", example="Cm9b5"),
    _kind("half-diminished", "b3 b5 b7", example="Cm7b5"),
    _kind("diminished triad", "b3 b5", example="Cdim"),
    _kind("minor major seventh", "b3 7", example="Cm(maj7)"),
    _kind("minor sixth", "b3 6", example="Cm6"),
    _kind("minor seventh", "b3 b7", example="Cm7"),
    _kind("minor triad", "b3", example="Cm"),
    _kind("dominant #5 with altered 9", "b7 #5 b9|#9", example="C7(#5,#9)"),
    _kind("dominant #5", "b7 #5", example="C7#5"),
    _kind("dominant 13 with altered 9", "b7 b9|#9 13", example="C13b9"),
    _kind("dominant #9 b13", "b7 #9 b13", example="C7(#9,b13)"),
    _kind("dominant b9 b13", "b7 b9 b13", example="C7(b9,b13)"),
    _kind("dominant with altered 9 and #11", "b7 b9|#9 #11|b5", example="C7(b9,#11)"),
    _kind("dominant #9", "b7 #9", example="C7#9"),
    _kind("dominant b9", "b7 b9", example="C7b9"),
    _kind("dominant #11 b13", "b7 #11|b5 b13", example="C7(#11,b13)"),
    _kind("dominant b13", "b7 b13", example="C7b13"),
    _kind("dominant b5", "b7 b5", example="C7b5"),
    _kind("dominant #11", "b7 #11", example="C7#11"),
    _kind("dominant 9 or 13", "b7 9|13", example="C9"),
    _kind("dominant", "b7", example="C7"),
    _kind("major #5", "7 #5", example="Cmaj7#5"),
    _kind("major #11", "7|6 #11|b5", example="Cmaj7#11"),
    _kind("major seventh", "7", example="Cmaj7"),
    _kind("six nine", "6 9", example="C6/9"),
    _kind("major sixth", "6", example="C6"),
    _kind("augmented triad", "#5", example="Caug"),
    _kind("major triad #11", "3 #11|b5", example="C(b5)"),
    _kind("major triad", "3", example="C"),
    _kind("power chord", "1", example="C5"),
)
"""Chords that sound alike are told apart by what they name, never by how they are written."""


class ScaleFit(NamedTuple):
    """A scale, why it goes with the chord, and the degree of the chord on which it starts.

    The start "coming" is the root of the chord that is to come.
    """

    scale: str
    reason: str
    start: str = "1"
    colour: bool = False


class ChordScaleRow(NamedTuple):
    """The scales of some kinds of chords in a context, best first."""

    kinds: tuple[str, ...]
    context: str
    fits: tuple[ScaleFit, ...]
    source: str


def _row(kinds: str, context: str, *fits: ScaleFit, source: str = _PRACTICE) -> ChordScaleRow:
    return ChordScaleRow(tuple(kind.strip() for kind in kinds.split(";")), context, fits, source)


_MIXOLYDIAN = ScaleFit("mixolydian", "The plain sound of the dominant: nothing in it is altered.")
_BEBOP = ScaleFit(
    "bebop dominant", "Mixolydian with {7} as a passing note, so that the chord tones fall on the beats."
)
_HALF_WHOLE = ScaleFit(
    "half-whole diminished",
    "It adds b9, #9 and #11 and keeps the 5 and the 13, {5} and {13}: tension that still opens "
    "to a major chord.",
)
_HALF_WHOLE_TO_MINOR = ScaleFit(
    "half-whole diminished",
    "It gives b9, #9 and #11 and keeps the 13; that 13, {13}, is the major third of the coming {coming}, "
    "so the line turns from bright to dark when the minor third comes.",
)
_HALF_WHOLE_ONLY = ScaleFit(
    "half-whole diminished",
    "The altered 9 beside the natural 13, {13}: half-whole gives both, and #11 with them.",
)
_ALTERED = ScaleFit(
    "altered", "Every tension is altered: b9, #9, #11 and b13, with {b13} in place of the 5 and the 13."
)
_ALTERED_TO_MINOR = ScaleFit(
    "altered",
    "It gives b9, #9 and #11 as half-whole does, and has b13 in place of 5 and 13: "
    "{b13} is the minor third of the coming {coming}.",
)
_FIFTH_MODE = ScaleFit(
    "phrygian dominant",
    "The fifth mode of {coming} harmonic minor: b9 and b13 over a plain 5, darker than the "
    "{coming} major that it leads to.",
)
_FIFTH_MODE_TO_MINOR = ScaleFit(
    "phrygian dominant",
    "The fifth mode of {coming} harmonic minor, the key that is coming: its b13, {b13}, is the "
    "coming minor third.",
)
_FIFTH_MODE_NAMED = ScaleFit(
    "phrygian dominant",
    "The fifth mode of {coming} harmonic minor has just these tensions, {b9} and {b13}, and "
    "keeps the 5, {5}.",
)
_LYDIAN_DOMINANT = ScaleFit(
    "lydian dominant", "Mixolydian with #11: {#11} takes the place of {4}, which would rub against the third."
)
_WHOLE_TONE = ScaleFit(
    "whole tone", "It holds the raised fifth, {#5}, and the 9, {9}: everything a whole step apart."
)
_DORIAN = ScaleFit(
    "dorian", "Its 6, {6}, lets every note sound over a minor seventh chord; nothing is to be avoided."
)
_AEOLIAN = ScaleFit(
    "aeolian", "It takes {b6} from the key; pass through it, since it lies a half step above the fifth."
)
_MELODIC_MINOR = ScaleFit("melodic minor", "A minor chord at rest bears the 6 and the major 7, {6} and {7}.")
_DORIAN_AT_REST = ScaleFit("dorian", "The softer colour at rest: the 6, {6}, with the minor seventh, {b7}.")
_IONIAN = ScaleFit(
    "ionian", "The major scale itself; {4} lies a half step above the third and wants to move on."
)
_LYDIAN = ScaleFit("lydian", "As ionian, with #11: {#11} may be held where {4} may not.")
_LYDIAN_FIRST = ScaleFit(
    "lydian", "Off the tonic a major chord takes #11: {#11} may be held where {4} may not."
)
_WHOLE_HALF = ScaleFit(
    "whole-half diminished",
    "Each chord tone with the note a whole step above it: {9}, {11}, {b13} and {7} are the tensions.",
)
_WHOLE_HALF_RISING = ScaleFit(
    "whole-half diminished",
    "{symbol} climbs to {next} and is that chord's {=b6}7b9 without its root, so whole-half from {root} "
    "is half-whole from {b6}.",
)
_COMING_HARMONIC_MINOR = ScaleFit(
    "harmonic minor", "The scale of the coming {coming} minor, in which {root} is the leading note.", "coming"
)
_COMING_HARMONIC_MAJOR = ScaleFit(
    "harmonic major",
    "The coming {coming} major with a lowered sixth, in which {root} is the leading note.",
    "coming",
)

ROWS: tuple[ChordScaleRow, ...] = (
    # Dominants.
    _row("altered dominant", "any", _ALTERED, source=_LEVINE),
    _row(
        "dominant",
        "tritone substitute",
        ScaleFit(
            "lydian dominant",
            "A half step above the coming {coming} it stands for {=#11}7: its #11, {#11}, is the "
            "root of that chord.",
        ),
        source=_LEVINE,
    ),
    _row("dominant", "to minor", _FIFTH_MODE_TO_MINOR, _ALTERED_TO_MINOR, _HALF_WHOLE_TO_MINOR),
    _row(
        "dominant",
        "bVII7",
        ScaleFit(
            "lydian dominant",
            "As bVII7 its #11, {#11}, is the major third of the tonic {9}, where {4} would be foreign.",
        ),
        source=_LEVINE,
    ),
    _row(
        "dominant",
        "II7",
        ScaleFit(
            "lydian dominant",
            "As II7 it colours the tonic {b7} rather than leaving it: #11, {#11}, where {4} "
            "would give the V chord away.",
        ),
        source=_LEVINE,
    ),
    _row(
        "dominant",
        "bVI7",
        ScaleFit(
            "lydian dominant",
            "As bVI7 its #11, {#11}, belongs to the key of {3}, where {4} would be foreign.",
        ),
    ),
    _row(
        "dominant",
        "tonic",
        ScaleFit("mixolydian", "At rest on the tonic, as in a blues, the dominant takes its plain scale."),
        ScaleFit(
            "blues", "Over the tonic seventh of a blues {b3} and {b5} are heard as blue notes.", colour=True
        ),
        _BEBOP,
    ),
    _row("dominant", "any", _MIXOLYDIAN, _BEBOP, _HALF_WHOLE, source=_LEVINE),
    _row(
        "dominant 9 or 13",
        "tritone substitute",
        ScaleFit(
            "lydian dominant",
            "A half step above the coming {coming} it stands for {=#11}7: its #11, {#11}, is the "
            "root of that chord.",
        ),
        source=_LEVINE,
    ),
    _row(
        "dominant 9 or 13",
        "to minor",
        ScaleFit(
            "mixolydian b6",
            "It keeps the natural 9, {9}, and its b13, {b13}, is the minor third of the coming {coming}.",
        ),
        _MIXOLYDIAN,
    ),
    _row("dominant 9 or 13", "off the dominant", _LYDIAN_DOMINANT, _MIXOLYDIAN),
    _row("dominant 9 or 13", "any", _MIXOLYDIAN, _BEBOP, _LYDIAN_DOMINANT),
    _row(
        "dominant b9",
        "to minor",
        _HALF_WHOLE_TO_MINOR,
        _ALTERED_TO_MINOR,
        _FIFTH_MODE_TO_MINOR,
        source=_LEVINE,
    ),
    _row("dominant b9", "any", _HALF_WHOLE, _FIFTH_MODE, _ALTERED, source=_LEVINE),
    _row("dominant 13 with altered 9", "any", _HALF_WHOLE_ONLY, source=_LEVINE),
    _row("dominant #9 b13", "any", _ALTERED, source=_LEVINE),
    _row("dominant b9 b13", "any", _FIFTH_MODE_NAMED, _ALTERED),
    _row("dominant #9", "to minor", _ALTERED_TO_MINOR, _HALF_WHOLE_TO_MINOR),
    _row("dominant #9", "any", _HALF_WHOLE, _ALTERED, source=_LEVINE),
    _row("dominant with altered 9 and #11", "to minor", _HALF_WHOLE_TO_MINOR, _ALTERED_TO_MINOR),
    _row("dominant with altered 9 and #11", "any", _HALF_WHOLE, _ALTERED),
    _row("dominant #5 with altered 9", "any", _ALTERED, source=_LEVINE),
    _row("dominant #5", "any", _WHOLE_TONE, _ALTERED, source=_LEVINE),
    _row("dominant #11 b13", "any", _WHOLE_TONE, _ALTERED),
    _row(
        "dominant b13",
        "to minor",
        _FIFTH_MODE_TO_MINOR,
        ScaleFit(
            "mixolydian b6",
            "It keeps the natural 9, {9}, beside {b13}, the minor third of the coming {coming}.",
        ),
        _ALTERED_TO_MINOR,
    ),
    _row(
        "dominant b13",
        "any",
        ScaleFit(
            "mixolydian b6",
            "Mixolydian with b13: the 9 and the 5 stay plain and {b13} is the one dark note.",
        ),
        _FIFTH_MODE,
        _ALTERED,
    ),
    _row(
        "dominant b5",
        "any",
        ScaleFit(
            "lydian dominant",
            "It names {b5}, heard as #11, and keeps everything else plain.",
        ),
        ScaleFit("whole tone", "It holds the flat fifth, {b5}, and raises the fifth as well, to {#5}."),
        source=_LEVINE,
    ),
    _row("dominant #11", "any", _LYDIAN_DOMINANT, source=_LEVINE),
    # Suspended chords.
    _row(
        "suspended seventh",
        "any",
        ScaleFit(
            "mixolydian",
            "With the fourth, {4}, in place of the third nothing in the scale rubs.",
        ),
        source=_LEVINE,
    ),
    _row(
        "suspended b9",
        "any",
        ScaleFit(
            "dorian b2",
            "The b9, {b9}, over a natural 13, {13}: the second mode of melodic minor.",
        ),
        ScaleFit("phrygian", "The b9, {b9}, with b13, {b13}: the darker choice."),
        source=_LEVINE,
    ),
    _row(
        "suspended major seventh",
        "any",
        ScaleFit("ionian", "The fourth, {4}, and the major seventh, {7}, are both in it."),
    ),
    _row(
        "suspended fourth",
        "tonic",
        ScaleFit("ionian", "On the tonic the fourth falls back to {3}."),
        ScaleFit("mixolydian", "With {b7} the chord leans forward."),
    ),
    _row(
        "suspended fourth",
        "any",
        ScaleFit("mixolydian", "Heard as a dominant that waits: {4} is a chord tone."),
        ScaleFit("ionian", "With {7} in place of {b7} the chord is a tonic whose fourth falls back to {3}."),
    ),
    _row(
        "suspended second",
        "any",
        ScaleFit("ionian", "The open second, {2}, asks for the plain scale of the root."),
        ScaleFit("lydian", "With #11, {#11}, brighter."),
        ScaleFit("mixolydian", "With {b7} the chord leans forward."),
    ),
    # Major chords.
    _row("major seventh;major triad;major sixth;six nine", "off the tonic", _LYDIAN_FIRST, _IONIAN),
    _row(
        "major triad", "dominant", ScaleFit("mixolydian", "As the dominant of the key the triad takes {b7}.")
    ),
    _row("major seventh;major triad", "any", _IONIAN, _LYDIAN, source=_LEVINE),
    _row(
        "major sixth",
        "any",
        _IONIAN,
        _LYDIAN,
        ScaleFit(
            "bebop major",
            "Ionian with {#5} as a passing note: the tones of the sixth chord fall on the beats.",
        ),
    ),
    _row(
        "six nine",
        "any",
        _IONIAN,
        _LYDIAN,
        ScaleFit(
            "major pentatonic",
            "Its five notes are the tones of the chord itself.",
        ),
    ),
    _row(
        "major #11;major triad #11",
        "any",
        ScaleFit("lydian", "It names {#11}: lydian is the major scale with #11."),
        source=_LEVINE,
    ),
    _row(
        "major #5",
        "any",
        ScaleFit(
            "lydian augmented",
            "It holds the raised fifth, {#5}, and with it #11: the third mode of melodic minor.",
        ),
        source=_LEVINE,
    ),
    _row(
        "augmented triad",
        "any",
        ScaleFit("whole tone", "It holds the raised fifth, {#5}, and leads nowhere of itself."),
        ScaleFit("augmented", "Each chord tone with the note a half step below it."),
        ScaleFit("lydian augmented", "With {7} and #11 the chord is at rest."),
    ),
    _row(
        "power chord",
        "any",
        ScaleFit("mixolydian", "With the third left open, heard as a dominant."),
        ScaleFit("dorian", "With the third left open, heard as minor."),
        ScaleFit("minor pentatonic", "Five notes that fit however the third is heard."),
    ),
    # Minor chords.
    _row(
        "minor seventh",
        "iii before VI",
        ScaleFit(
            "phrygian",
            "As iii it takes its notes from the key: {b2} and {b6} lead down into the VI chord.",
        ),
        ScaleFit("dorian", "Treated as the ii of a passing key, it takes {2} and {6}."),
        source=_LEVINE,
    ),
    _row(
        "minor seventh;minor triad",
        "iii",
        ScaleFit(
            "phrygian",
            "As iii it takes its notes from the key: {b2} and {b6} are passed through.",
        ),
        ScaleFit("dorian", "A brighter choice, with {2} and {6} from outside the key."),
    ),
    _row(
        "minor seventh;minor triad",
        "vi",
        _AEOLIAN,
        ScaleFit("dorian", "A brighter choice, with {6} from outside the key."),
    ),
    _row(
        "minor seventh;minor triad",
        "ii",
        ScaleFit(
            "dorian",
            "The scale of the key from its second degree; the 6, {6}, is the third of the V chord.",
        ),
        source=_LEVINE,
    ),
    _row(
        "minor seventh",
        "minor tonic",
        ScaleFit("dorian", "At rest on a minor tonic, with the natural 6, {6}."),
        _AEOLIAN,
    ),
    _row("minor seventh", "any", _DORIAN, _AEOLIAN, source=_LEVINE),
    _row("minor triad;minor sixth", "any", _MELODIC_MINOR, _DORIAN_AT_REST, source=_LEVINE),
    _row(
        "minor major seventh",
        "any",
        _MELODIC_MINOR,
        ScaleFit(
            "dorian",
            "The softer colour at rest; keep its {b7} short, since the chord names {7}.",
            colour=True,
        ),
        source=_LEVINE,
    ),
    # Half-diminished and diminished chords.
    _row(
        "half-diminished",
        "any",
        ScaleFit(
            "locrian",
            "The scale of the key to come, {b7} minor, from its second degree; {b9} passes, {11} "
            "and {b13} may be held.",
        ),
        ScaleFit(
            "locrian natural 2",
            "A colour: its 9, {9}, is the major third of a coming {b7} minor tonic, so use it "
            "with that in mind.",
        ),
        source=_LEVINE,
    ),
    _row(
        "half-diminished 9",
        "any",
        ScaleFit(
            "locrian natural 2",
            "The chord names the natural 9, {9}: the sixth mode of melodic minor.",
        ),
        source=_LEVINE,
    ),
    _row("diminished triad", "rising to minor", _WHOLE_HALF_RISING, _COMING_HARMONIC_MINOR),
    _row("diminished triad", "rising to major", _WHOLE_HALF, _COMING_HARMONIC_MAJOR),
    _row(
        "diminished triad",
        "leading note",
        ScaleFit("locrian", "As the triad on the leading note it takes its notes from the key."),
        _WHOLE_HALF,
    ),
    _row(
        "diminished triad",
        "any",
        _WHOLE_HALF,
        ScaleFit("locrian", "The plainest scale with a minor third and a flat fifth."),
    ),
    _row("diminished seventh", "rising to minor", _WHOLE_HALF_RISING, _COMING_HARMONIC_MINOR, source=_LEVINE),
    _row("diminished seventh", "rising to major", _WHOLE_HALF, _COMING_HARMONIC_MAJOR),
    _row("diminished seventh", "not rising", _WHOLE_HALF, source=_LEVINE),
    _row(
        "diminished seventh",
        "any",
        _WHOLE_HALF,
        ScaleFit(
            "harmonic minor",
            "Where it climbs to {coming} minor: the scale of that chord, in which {root} is the "
            "leading note.",
            "coming",
        ),
        source=_LEVINE,
    ),
    _row(
        "diminished major seventh",
        "any",
        ScaleFit(
            "whole-half diminished",
            "It holds {7} beside the diminished triad.",
        ),
    ),
)

BY_NOTES: tuple[ChordScaleRow, ...] = (
    _row(
        "dominant;dominant 9 or 13",
        "any",
        ScaleFit("mixolydian", "The line keeps the plain notes of the dominant."),
        ScaleFit("lydian dominant", "The line has the #11, {#11}, where mixolydian has {4}."),
        ScaleFit("mixolydian b6", "The line has the b13, {b13}, beside the plain 9, {9}."),
        ScaleFit("phrygian dominant", "The line has b9 and b13, {b9} and {b13}, over a plain 5."),
        ScaleFit("half-whole diminished", "The line has altered 9s or the #11 beside the natural 13, {13}."),
        ScaleFit("altered", "The line alters every tension: b9, #9, #11 and b13."),
        ScaleFit("whole tone", "The line goes by whole steps: {9}, {#11} and {#5}."),
    ),
    _row(
        "minor seventh;minor triad",
        "any",
        ScaleFit("dorian", "The line has the natural 6, {6}."),
        ScaleFit("aeolian", "The line has the flat 6, {b6}."),
        ScaleFit("phrygian", "The line has the flat 2, {b2}, and the flat 6, {b6}."),
        ScaleFit("melodic minor", "The line has the major 7, {7}, of a minor tonic.", colour=True),
        ScaleFit(
            "harmonic minor",
            "The line has the major 7, {7}, and the flat 6, {b6}, of a minor key.",
            colour=True,
        ),
    ),
    _row(
        "major seventh;major triad;major sixth;six nine",
        "any",
        ScaleFit("ionian", "The line has the plain fourth, {4}."),
        ScaleFit("lydian", "The line has the #11, {#11}."),
    ),
)
"""Scales that only the notes of a line may ask for over some kinds of chords, the commonest first.

They come after the choices of the context above, from which a line has to have driven them.
"""

MUST_SOUND: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("half-whole diminished", ("b9", "#11")),
    ("altered", ("b9", "b13")),
    ("lydian dominant", ("#11",)),
    ("whole tone", ("#11", "b13")),
)
"""Scales that are chosen over a plain dominant only where the line has one of these notes, or the chord names
one: a dominant without a b9, a #9 or a #11 in its notes is not half-whole. Source: common practice."""

FALLBACKS: tuple[str, ...] = (
    "ionian", "mixolydian", "dorian", "lydian", "aeolian", "lydian dominant", "phrygian", "locrian",
    "melodic minor", "dorian b2", "mixolydian b6", "phrygian dominant", "harmonic minor", "altered",
    "half-whole diminished", "whole-half diminished", "whole tone", "locrian natural 2", "lydian augmented",
    "dorian #4", "ionian augmented", "harmonic major", "mixolydian b2", "dorian b5", "lydian b3", "lydian #2",
    "phrygian b4", "locrian natural 6", "augmented", "bebop dominant", "bebop major", "bebop dorian",
    "bebop melodic minor", "chromatic",
)  # fmt: skip
"""Scales tried in this order when no scale of the row holds all that the chord names. Source: plainest first,
the project's own choice."""

ONLY_WHEN_NAMED: tuple[str, ...] = ("altered bb7", "lydian augmented #2", "locrian bb7", "major blues")
"""Scales that the program offers over no chord: they are there for authors who name them. Every other scale
stands in a row above or in the fallbacks. Source: modes that the trade names but hardly plays; the major
blues is a colour of the line."""

FALLBACK_REASON = "The plainest scale of the table that holds every tone of {symbol}."
