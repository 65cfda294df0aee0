"""Lines of our own at the borders of the roles: neighbours differ in one thing that a rule asks for.

What the titles say of a note is common practice of harmony teaching; by how much one reason is dearer is the
project's own hearing.
"""

from __future__ import annotations

from typing import NamedTuple


class Border(NamedTuple):
    """A line: a title that says what it is about, changes, scales, and whether they are heard as a blues."""

    title: str
    line: str
    changes: str
    scales: str
    metre: str = "4/4"
    blues: bool = False


def _over(changes: str, scales: str, *lines: tuple[str, str], metre: str = "4/4") -> tuple[Border, ...]:
    """Return lines over the same changes."""
    return tuple(Border(title, line, changes, scales, metre) for title, line in lines)


NEXT_CHORD = (
    *_over(
        "Cmaj7 | A7",
        "ionian | mixolydian",
        ("C# just before A7, and the line goes on", "1/8 c5 g4 e g a b c5 c# | 1/4 e5 g a e"),
        ("the same, then a rest", "1/8 c5 g4 e g a b c5 c# | 1/4 - g5 a e"),
        ("the same, struck again", "1/8 c5 g4 e g a b c5 c# | 1/4 c#5 g a e"),
        ("the same, held over", "1/8 c5 g4 e g a b c5 c# | + 1/4 g5 a e"),
        ("a beat before A7 it is too early", "1/8 c5 g4 e g a b 1/4 c#5 | 1/4 e5 g a e"),
        ("twice before A7", "1/8 c5 g4 e g a b 1/16 c#5 - 1/8 c# | 1/4 e5 g a e"),
        ("another note after it", "1/8 c5 g4 e g a b c5 1/16 c# g | 1/4 e5 g a e"),
        ("F#, of the next scale only, struck again", "1/8 c5 g4 e g a b e5 f# | 1/4 f#5 g a e"),
        ("F#, of the next scale only, and the line goes on", "1/8 c5 g4 e g a b e5 f# | 1/4 a5 g a e"),
        ("B, of the first chord and the second scale", "1/8 c5 g4 e g a g e5 b4 | 1/4 b4 g a e"),
    ),
    *_over(
        "Dm7 | G7",
        "dorian | mixolydian",
        ("E, of both scales and of neither chord", "1/8 d4 f a c5 d a4 c5 e | 1/4 e5 d b4 g"),
        ("the seventh of Dm7 held into G7", "1/4 d4 f4 a4 c5 | + 1/4 b4 g f"),
        ("the same, struck again", "1/4 d4 f4 a4 c5 | c5 b4 g f"),
        ("the same after a short rest", "1/4 d4 f4 a4 1/8 c5 - | 1/4 c5 b4 g f"),
        ("the same after a long rest", "1/4 d4 f4 c5 - | 1/4 c5 b4 g f"),
        ("the same, not opening the chord", "1/4 d4 f4 a4 c5 | d5 c5 b4 g"),
        ("the same, that rises", "1/4 d4 f4 a4 c5 | c5 d5 b4 g"),
        ("the same, that falls by a third", "1/4 d4 f4 a4 c5 | c5 a4 b4 g"),
        ("the same, struck early and held", "1/4 d4 f4 1/8 a4 d5 a4 c5 | + 1/4 b4 g f"),
        ("E struck again, down to D", "1/4 d4 f4 a4 e5 | e5 d5 b4 g"),
        ("E struck early and held, down to D", "1/4 d4 f4 1/8 a4 d5 a4 e5 | + 1/4 d5 g4 f"),
        ("A struck again, down to G", "1/4 d4 f4 d a4 | a4 g4 b4 f"),
        ("A and the resolution already over Dm7", "1/4 d4 f4 1/8 d4 f a4 g | + 1/4 b4 f g"),
    ),
    *_over(
        "G7 | Cmaj7",
        "mixolydian | ionian",
        ("D held, and up to the third", "1/4 g4 b4 g4 d5 | + 1/4 e5 g e"),
        ("D held, and down to the root", "1/4 g4 b4 g4 d5 | + 1/4 c5 g e"),
        ("F held for two beats", "1/4 g4 b4 d5 f5 | + 1/2 1/2 e5"),
        ("D held, and down to a note of the scale alone", "1/4 g4 b4 d5 g5 | + 1/4 f5 e g"),
    ),
    *_over(
        "C7 | F7",
        "mixolydian | mixolydian",
        ("an outside note struck again is kept from nowhere", "1/4 c5 e5 g5 b4 | b4 a4 c5 f5"),
        ("the third held, down into a note outside the chord", "1/4 c5 g5 c5 e5 | + 1/4 d5 c5 a4"),
    ),
)

PASSING = (
    *_over(
        "Cmaj7",
        "ionian",
        ("up by half steps", "1/8 c5 c# d e g e d c"),
        ("down by half steps", "1/8 e5 eb d c b4 g e g"),
        ("by a whole and a half step over a scale note", "1/8 a4 g f# e c e g c5"),
        ("by a half and a whole step over a scale note", "1/8 e5 eb db c g4 e c e"),
        ("by whole steps", "1/8 e4 f# g# a g e c g"),
        ("by a whole step and a third", "1/8 g4 f# eb d c e g c5"),
        ("after a rest", "1/8 c5 e c 1/4. - 1/8 c#5 d"),
        ("before a rest", "1/8 c5 e c c# 1/4 - 1/8 d5 e"),
        ("after an outside note that leaps", "1/8 c5 f# c# d e g e c"),
        ("half steps that turn round", "1/8 c5 c# c d d# e g c"),
        ("longer than a beat", "1/8 c5 1/4. c#5 1/8 d e 1/4 g"),
        ("as long as a beat", "1/8 c5 d 1/4 c#5 c5 e"),
        ("at the front", "1/8 c#5 d e c g4 e c e"),
        ("at the end", "1/8 e5 c g4 e g a c5 c#"),
    ),
    *_over(
        "G7",
        "half-whole diminished",
        ("by a whole and a half step through a gap of the scale", "1/8 b4 d5 c b4 g f d f"),
        ("by half steps between tones of the chord", "1/8 g4 f# f d b3 d4 f bb"),
    ),
    *_over(
        "G7b9",
        "phrygian dominant",
        ("two in a row", "1/8 d5 c b4 bb a ab g f"),
        ("two in a row that turn round", "1/8 d5 c b4 bb a bb b d5"),
    ),
    *_over(
        "C6",
        "major pentatonic",
        ("down through a gap of the scale", "1/8 c5 e g f# e c a4 c"),
        ("up through a gap of the scale", "1/8 c5 e f g e c a4 c"),
    ),
    *_over(
        "Cmaj7",
        "major pentatonic",
        ("two in a row upwards", "1/8 c5 a4 e f f# g e c"),
        ("a whole step among half steps", "1/8 g5 e eb db c b4 bb a"),
    ),
    *_over(
        "C7",
        "blues",
        ("two in a row down", "1/8 c5 bb4 a ab g f eb c"),
        ("two in a row up", "1/8 g4 ab a bb c5 g4 eb c"),
        ("three in a row", "1/8 g4 c5 b bb4 a ab g f"),
        ("the ninth, outside a blues scale", "1/8 c4 d eb f g bb g c5"),
    ),
)

NEIGHBOURS = _over(
    "Cmaj7",
    "ionian",
    ("above, a whole step off", "1/8 e5 f# e c g4 c5 e g"),
    ("below, a half step off", "1/8 g4 f# g e c e g c5"),
    ("above, a half step off", "1/8 g4 ab g e c e g c5"),
    ("a third off is none", "1/8 g4 bb g e c e g c5"),
    ("on a strong beat", "1/8 e4 g c5 g f# g e c"),
    ("after a rest", "1/8 e4 g c5 g4 1/4 - 1/8 f#4 g"),
    ("longer than a beat", "1/8 g4 1/4. f#4 1/8 g e 1/4 c"),
    ("of an outside note", "1/8 c5 g#4 f# g# a e c e"),
    ("in the scale, on a strong beat", "1/8 c5 g4 c5 e f e c g4"),
    ("in the scale, longer than a beat", "1/8 e5 1/4. f5 1/8 e c 1/4 g4"),
    ("in the scale, as long as a beat", "1/8 e5 c 1/4 d5 c5 e5"),
    ("in the scale, below", "1/8 e5 d e c g4 a g e"),
    ("in the scale, off a colour", "1/8 d5 c d g e c g4 a"),
    ("in the scale, a third off", "1/8 c5 a4 c5 e g e d c"),
    ("in the scale, struck again", "1/8 c5 d d c e d d e"),
)

APPROACHES = (
    *_over(
        "Cmaj7",
        "ionian",
        ("a half step below, by leap", "1/8 c5 d# e g c5 g4 e c"),
        ("a half step above, by leap", "1/8 c5 g#4 g e c e g c5"),
        ("a whole step below and above", "1/8 c5 f#5 g#4 bb4 c5 g4 bb4 ab"),
        ("a third off is none", "1/8 c5 f#5 a4 g e c g4 c"),
        ("to a note between the beats", "1/8 c5 g4 d# e c5 g4 c# d"),
        ("from a weak place to a weaker one", "1/8 c5 g4 1/16 d# e g c5 1/8 e c g4 e"),
        ("to a colour", "1/8 c5 c#4 d4 g e g c5 e"),
        ("to an outside note", "1/8 c5 d4 g# a# f# g c5 e"),
        ("on the strong beat", "1/8 c5 g4 c5 g4 d#4 e4 g c5"),
        ("longer than a beat", "1/8 g4 1/4. d#4 1/8 e g 1/4 c5"),
        ("at the end of the line", "1/8 c5 g4 e g c5 e g g#"),
        ("before a rest", "1/8 c5 d# 1/4 - 1/4 e5 c5"),
        ("a half step that arrives late", "1/8 c5 d# g e c5 g4 e c"),
        ("the same from above", "1/8 c5 ab5 e5 g5 e c g4 c"),
        ("with an outside note between", "1/8 c5 d#5 bb5 e5 c g4 e c"),
        ("to an outside note, late", "1/8 c5 d#5 g5 d5 g c# g4 c"),
        ("a whole step that arrives late", "1/8 c5 bb4 e5 c g4 e c e"),
        ("late, for longer than a beat", "1/8 g4 1/4. d#5 1/8 g e 1/4 c"),
    ),
    *_over(
        "G7",
        "mixolydian",
        ("two half steps up into beat 3", "1/8 g4 b4 c c# d5 b4 g f"),
        ("two half steps, the first outside, into beat 3", "1/8 g4 b4 c#5 c b4 g f d"),
        ("the same into beat 2", "1/8 c#5 c b4 g f d g b"),
        ("two half steps up, the first outside", "1/8 g4 d5 bb4 b c5 d b4 g"),
        ("both outside", "1/8 g4 d5 eb5 e f f# g d"),
        ("in two directions", "1/8 g4 b4 c#5 d c# c b4 g"),
        ("the first longer than a beat", "1/8 d5 1/4. c#5 1/8 c b4 1/4 g"),
        ("a half step and a whole step", "1/8 g4 b4 c#5 c bb4 g f d"),
        ("a rest between", "1/8 g4 b4 c#5 c 1/4 - 1/4 b4"),
    ),
    *_over(
        "Cmaj7",
        "ionian",
        ("in the scale, by leap, to the fifth on beat 3", "1/8 c5 e5 c5 f4 g4 e c e"),
        ("the same as a quarter", "1/4 c5 f4 g4 e"),
        ("the same by a third", "1/8 c5 e5 c a g e c e"),
        ("the same by a step", "1/8 c5 e5 g4 f e g c5 e"),
        ("the same to the ninth", "1/8 e5 g5 c6 e5 d5 g c g4"),
        ("the same to a weak beat", "1/8 c5 f4 g4 e c e g c5"),
        ("the same on the strong beat", "1/8 c5 e g c5 f4 g4 e c"),
        ("the same after a short rest", "1/4 c5 1/8 - f4 g4 e c e"),
        ("the same after a long rest", "1/8 c5 1/4 - 1/8 f4 g4 e c e"),
        ("the same by a leap away", "1/8 c5 e5 c5 f4 c5 e c e"),
    ),
)

LEANING = _over(
    "Cmaj7",
    "ionian",
    ("outside, on beat 3", "1/8 c5 e g c5 ab4 g4 e c"),
    ("outside, on beat 2", "1/8 c5 e ab4 g4 e c e g"),
    ("off the beat it does not lean", "1/8 c5 ab4 1/16 g4 e 1/8 c e g c5 e"),
    ("for longer than a beat it does not", "1/4 c5 e 1/4. ab4 1/8 g4"),
    ("for a beat it does", "1/4 ab4 g4 1/8 c5 e g e"),
    ("onto a firmer beat it does not", "1/4 c5 ab4 g4 e4"),
    ("to an outside note it does not", "1/8 c5 e g c5 bb4 ab4 g e"),
    ("by a third it does not", "1/8 c5 e g c5 bb4 g4 e c"),
    ("before a rest it does not", "1/8 c5 e g c5 ab4 1/4 - 1/8 g4"),
    ("the eleventh leans on beat 3", "1/8 c5 e g c5 f4 e4 g c5"),
    ("and onto a note of the scale it does not", "1/8 c5 e g c5 f4 d4 g c5"),
    ("the eleventh on beat 2 does not", "1/8 c5 e f4 e4 g c5 e c"),
    ("the thirteenth on beat 3 does not", "1/8 c5 e g c5 a4 g4 e c"),
)

ESCAPES = (
    *_over(
        "Cmaj7",
        "ionian",
        ("up by step, down by leap", "1/8 e5 f# c5 g4 e c g e"),
        ("down by step, up by leap", "1/8 e5 eb g e c g4 e c"),
        ("from a third off it does not escape", "1/8 c5 eb ab4 g e c g e"),
        ("on beat 3 it does not", "1/8 c5 e g e f# c5 g4 e"),
        ("a half step, then on by leap", "1/8 c5 c# g e c g4 e c"),
        ("a half step down, then on by leap", "1/8 a4 ab e g c5 g4 e c"),
        ("a whole step, then on by leap", "1/8 e5 f# c6 g5 e c g4 c"),
        ("from an outside note, back", "1/8 c5 g#4 a#4 e4 g c5 e c"),
        ("from an outside note, on", "1/8 c5 g#4 ab5 g e c5 e c"),
        ("from an outside note by half step, on", "1/8 c5 f# g# g#5 g c5 e c"),
        ("to an outside note", "1/8 e5 f# c#5 d g4 e c e"),
        ("on to an outside note", "1/8 c5 c# g# a g4 e c e"),
        ("before a rest", "1/8 c5 e5 f# 1/4. - 1/8 c5 g4"),
        ("a triad outside", "1/8 c5 g4 f# a# c#5 g4 e c"),
        ("the same with a rest inside", "1/8 c5 g4 f# a# 1/4 - 1/8 c#5 g4"),
        ("a minor triad with one note inside", "1/8 c5 g4 c5 eb5 ab5 g5 e c"),
        ("a minor triad outside", "1/8 c5 g4 eb f# bb g e c"),
        ("a triad with two notes inside", "1/8 c5 g4 a4 c#5 e5 g5 e c"),
        ("a diminished triad is none", "1/8 c5 g4 f# c#5 eb5 g5 e c"),
    ),
    *_over(
        "Cmaj7 | Ab7 | Cmaj7",
        "ionian | mixolydian | ionian",
        ("G struck over all three is a pedal", "1/4 c5 e c g4 | g4 c5 ab4 c5 | g4 e c g"),
        ("struck twice it is none", "1/4 c5 e c g4 | g4 c5 ab4 c5 | e4 e c e"),
        ("the third of them four notes on", "1/4 c5 g4 c c5 | ab4 g4 c5 eb5 | c5 g4 1/2 e4"),
        ("the third of them five notes on", "1/4 g4 e c c5 | ab4 g4 c5 eb5 | c5 g4 1/2 e4"),
    ),
    *_over(
        "Ab7 | Db7",
        "mixolydian | mixolydian",
        ("outside everywhere it is no pedal", "1/4 g4 c5 g4 c5 | g4 db5 ab4 f4"),
    ),
    *_over("Ab7 | %", "mixolydian | %", ("nor over one chord", "1/4 g4 c5 g4 c5 | g4 db5 g4 f4")),
)

ENCLOSURES = (
    *_over(
        "G7",
        "mixolydian",
        ("two scale notes into beat 3", "1/8 g4 d5 c5 a4 b4 g d g"),
        ("the same into beat 2", "1/8 c5 a4 b4 g d g b d5"),
        ("two scale notes, a whole step each, in a bar", "1/8 g4 b4 e5 c5 d5 b4 g d"),
        ("round a note just heard", "1/8 g4 b4 c5 a4 b4 g d g"),
        ("round a note heard before a rest", "1/8 b4 1/4 - 1/16 c5 a4 1/4 b4 g"),
        ("one outside note", "1/8 g4 d5 c5 bb4 b4 g d g"),
        ("one outside, to a note off the beat", "1/8 g4 c5 bb4 b4 g d f g"),
        ("one outside, a whole step off", "1/8 g4 b4 g4 e5 db5 b4 c5 b4"),
        ("two outside notes", "1/8 g4 b4 eb5 c#5 d5 b4 g d"),
        ("two outside notes into beat 2", "1/8 eb5 c#5 d5 b4 g d f g"),
        ("three half steps off is too wide", "1/8 g4 d5 d5 a4 b4 g d g"),
        ("the first longer than a beat", "1/8 g4 1/4. c5 1/8 bb4 b4 1/4 g"),
        ("the second longer than a beat", "1/8 g4 c5 1/4. bb4 1/8 b4 1/4 g"),
        ("both as long as a beat", "1/4 c5 bb4 b4 g"),
        ("the first struck early and held", "1/8 g4 d5 b4 1/4 c5 1/8 bb4 b4 g"),
        ("a rest inside", "1/8 g4 d5 c5 1/4 - 1/8 bb4 b4 g"),
        ("a rest before the target", "1/8 g4 d5 c5 bb4 1/4 - 1/8 b4 g"),
        ("the target itself inside", "1/8 g4 c5 b4 bb4 b4 g d g"),
        ("both from above", "1/8 g4 d5 db5 c5 b4 g d g"),
        ("three: above, below, below", "1/8 g4 c5 a4 bb4 b4 g d g"),
        ("three: above, above, below", "1/8 g4 b4 e5 eb5 c#5 d5 b4 g"),
        ("three: above, above, below, into beat 3", "1/8 b4 e5 eb5 c#5 d5 b4 g d"),
        ("three: below, above, below", "1/8 g4 a4 c5 bb4 b4 g d g"),
        ("three that pass first", "1/8 g4 a4 bb4 c5 b4 g d g"),
        ("three that pass in the end, to a weak beat", "1/8 g4 d5 c5 a4 bb4 b4 g d"),
        ("three that pass in the end, to the thirteenth", "1/8 g4 f5 d5 eb5 e5 d b4 g"),
        ("three from a strong beat", "1/4 c5 1/8 a4 bb4 b4 g d f"),
        ("three from an outside note on a strong beat", "1/4 bb4 1/8 c5 bb4 b4 g d f"),
        ("three inside a run", "1/8 f5 e5 eb5 c#5 d5 b4 g d"),
        ("three inside a run that turns", "1/8 d5 e5 eb5 c#5 d5 b4 g d"),
        ("three after a leap the same way", "1/8 g5 e5 eb5 c#5 d5 b4 g d"),
        ("three all of the scale", "1/8 g4 c5 a4 c5 b4 g d g"),
    ),
    *_over(
        "G7 | %",
        "mixolydian | %",
        (
            "two scale notes, a whole step each, over the bar line",
            "1/8 g4 b4 d5 g5 d5 b4 e5 c5 | d5 b4 g d 1/2 g",
        ),
        ("the same with the target early", "1/8 g4 b4 d5 g5 d5 e5 c5 d5 | + 1/4 b4 1/2 g"),
        ("three outside, over the bar line", "1/8 g4 b4 d5 g5 d5 b4 eb5 db5 | d5 b4 g d 1/2 g"),
    ),
    *_over(
        "Dm7 G7",
        "dorian, mixolydian",
        ("scale notes into the next chord inside a bar", "1/8 d4 f e5 c5 d5 b4 g d"),
        ("into the first note of the chord, a beat late", "1/8 d4 f a d5 - c5 bb4 b4"),
    ),
    *_over(
        "Dm7 | G7",
        "dorian | mixolydian",
        ("an arpeggio into its note", "1/8 d4 a c5 d a4 f a c5 | b4 g f d 1/2 g"),
        ("the same from above", "1/8 d4 a c5 e a c a4 c5 | b4 g f d 1/2 g"),
        ("a third and a step", "1/8 d4 a c5 e a4 f g a | b4 g f d 1/2 g"),
    ),
    *_over(
        "C6",
        "major pentatonic",
        ("three after a run of half steps", "1/8 g5 f# f d e c g4 c"),
        ("three after a leap", "1/8 c5 f# f d e c g4 c"),
    ),
    *_over(
        "Cmaj7",
        "ionian",
        ("two outside round a colour", "1/8 c5 g4 eb5 c#5 d5 c5 g4 e"),
        ("one outside round a colour", "1/8 c5 g4 e5 c#5 d5 c5 g4 e"),
        ("two scale notes round a colour", "1/8 c5 g4 e5 c5 d5 c5 g4 e"),
        ("round an outside note", "1/8 c5 g4 a g f# g e c"),
        ("round an outside note on beat 3", "1/8 c5 g4 g f f# g e c"),
        ("two from each side", "1/8 a4 ab f f# g e d c"),
        ("two from each side, turned", "1/8 f4 f# a ab g e d c"),
        ("two that go away again", "1/8 ab4 a f f# g e d c"),
        ("five notes", "1/8 f#4 a ab f f# g e d"),
    ),
)

BLUES = (
    *_over(
        "C7",
        "mixolydian",
        ("the flat third, held", "1/4 g4 1/2. eb5"),
        ("the flat third, by leap", "1/8 c5 g4 eb5 a4 c5 g4 e c"),
        ("the flat fifth by step", "1/8 c5 g4 f gb c5 g4 e c"),
        ("the flat fifth, left by step", "1/8 c5 gb f c e g c5 g4"),
        ("the flat fifth by a third", "1/8 c5 g4 eb gb c5 g4 e c"),
        ("the flat fifth, after a rest", "1/8 c5 g4 f 1/4 - 1/8 gb4 c5 g4"),
        ("the flat fifth, held", "1/4 c5 f4 1/2 gb"),
        ("the flat sixth is none", "1/8 c5 e5 c ab4 e c g c5"),
    ),
    *_over(
        "C6",
        "ionian",
        ("the flat third over a major chord, by a third", "1/8 c5 g4 c5 eb5 a4 g4 e c"),
        ("by a fourth it is none", "1/8 c5 g4 bb4 eb5 a4 g4 e c"),
        ("for longer than a beat it is none", "1/8 c5 1/4. eb5 1/8 c5 g4 1/4 e"),
        ("the flat seventh over a major chord", "1/8 c5 e5 g bb e c g4 c"),
    ),
    *_over("C7sus4", "mixolydian", ("the flat third over a suspended chord", "1/8 c5 g4 eb5 a4 c5 g4 f c")),
    *_over(
        "Cm7",
        "dorian",
        ("the flat fifth over minor", "1/8 c5 g4 f gb c5 g4 eb c"),
        ("the third after the minor third", "1/8 c5 eb5 e5 g5 eb5 c g4 c"),
        ("the third into the minor third", "1/8 c5 g5 e5 eb5 c5 g4 eb c"),
        ("the third from the fourth is none", "1/8 c5 f5 e5 g5 c5 g4 eb c"),
        ("the third after a rest is none", "1/8 eb5 1/4 - 1/8 e5 g5 c g4 c"),
        ("the third after the minor third, then a rest", "1/8 c5 g4 eb5 e5 1/4 - 1/8 c5 g4"),
        ("the third for longer than a beat is none", "1/8 eb5 1/4. e5 1/8 g c5 1/4 g4"),
        ("the major seventh by step", "1/8 c5 b4 g eb c eb g c5"),
        ("the major seventh left by step", "1/8 eb5 b4 c5 eb g eb c g4"),
        ("the major seventh by leap is none", "1/8 eb5 b4 g eb c eb g c5"),
    ),
    *_over("Cm6", "dorian", ("the major seventh over m6 is none", "1/8 c5 b4 g eb c eb g c5")),
    Border("the flat third over major in a blues, held", "1/4 c5 g4 1/2 eb4", "C6", "ionian", blues=True),
    Border("the flat fifth over minor in a blues, held", "1/4 c5 f4 1/2 gb", "Cm7", "dorian", blues=True),
)

CELLS = (
    *_over(
        "Cmaj7",
        "ionian",
        ("three notes again", "1/8 g5 f# a e d# f c a4"),
        ("three notes again, a half step other", "1/8 g5 f# a f d# g e d"),
        ("three notes again, a whole step other", "1/8 g5 f# a f d g# e d"),
        ("three notes, the last one longer", "1/8 g5 f# a e d# 1/4 f5 1/8 c"),
        ("three notes, a rest in the second", "1/8 g5 f# a 1/16 e - 1/8 d# f c a4"),
        ("four notes again", "1/8 e5 f# d c# d e c b4"),
        ("four notes again at the same pitch", "1/8 e5 d# g c e d# g c"),
        ("four notes that do not turn", "1/8 c6 b5 bb5 a f e eb d"),
        ("four notes that turn the other way", "1/8 e5 d# f g c c# b4 a"),
        ("the first move the other way", "1/8 g5 f# a e f d# c a4"),
    ),
    *_over(
        "Cmaj7 | %",
        "ionian | %",
        ("three notes, each time with a rest inside", "1/8 g5 f# 1/4 - 1/8 a e d# - | - f5 1/4 c5 1/2 g4"),
        ("three notes, three times", "1/8 g5 f# a e d# f c b4 | d5 g4 c5 e 1/2 c"),
        ("four notes, later than the front", "1/8 c5 e g e a f# g e | g e f d 1/2 c"),
        ("five notes again", "1/8 e5 d# f c d c b4 d5 | a4 b4 1/4 c5 1/2 g4"),
        ("six notes again", "1/8 e5 d# f c d b4 c5 b4 | d5 a4 b4 g 1/2 c"),
        ("an enclosure in a cell", "1/8 f5 d# e c e5 c# d b4 | 1/4 c5 g4 1/2 e"),
        ("an approach, the same again", "1/8 g4 d#5 e c5 f4 c#5 d a4 | 1/4 c5 g4 1/2 e"),
    ),
    *_over(
        "Dm7 | G7",
        "dorian | mixolydian",
        ("what was outside is inside the second time", "1/8 a5 g# b f# g f a d | 1/4 b4 d5 1/2 g4"),
    ),
)

METRES = (
    *_over(
        "Cmaj7 | %",
        "ionian | %",
        ("in 3/4, into beat 1", "1/4 c5 e 1/8 d d# | 1/4 e5 ab5 g5"),
        ("in 3/4, held over beat 1", "1/4 c5 e 1/8 d g | + 1/4 ab5 g5"),
        metre="3/4",
    ),
    *_over(
        "Cmaj7",
        "ionian",
        ("in 6/8, leaning on the second beat", "1/8 c5 e g ab5 g e"),
        ("in 6/8, a quarter is short", "1/4 c5 1/8 ab5 1/4 g 1/8 e"),
        metre="6/8",
    ),
    *_over(
        "Cmaj7 | %",
        "ionian | %",
        ("in 4/8, a scale step from one strong beat to the next", "1/8 c5 e5 f4 - | g4 e c e"),
        metre="4/8",
    ),
    *_over("Cmaj7", "ionian", ("in 2/2, a half note is a beat", "1/2 ab5 g"), metre="2/2"),
)

BORDERS = (
    *NEXT_CHORD,
    *PASSING,
    *NEIGHBOURS,
    *APPROACHES,
    *LEANING,
    *ESCAPES,
    *ENCLOSURES,
    *BLUES,
    *CELLS,
    *METRES,
)
