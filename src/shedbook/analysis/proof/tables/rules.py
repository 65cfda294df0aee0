"""The rules of the proof-reader.

Row format: name; severity ("error", "warning", "advice"); what it says; how it is mended; an example that
fires it and one that does not, both run in the tests. An example is a phrase's changes, scales and line;
`edit` names a change made to the parsed phrase where the fault cannot be written as text. The examples of
the rules for a whole book hold a second phrase. All examples are invented.
"""

from __future__ import annotations

from typing import NamedTuple


class Example(NamedTuple):
    """A phrase as its author would write it; `edit` is made after reading it."""

    changes: str
    line: str
    scales: str = ""
    edit: str = ""
    changes_2: str = ""
    line_2: str = ""


class RuleRow(NamedTuple):
    """One rule."""

    name: str
    severity: str
    says: str
    mend: str
    fires: Example
    silent: Example


RULES: tuple[RuleRow, ...] = (
    RuleRow(
        "bar-does-not-fill", "error",
        "The notes and rests of a bar are longer or shorter than the bar.",
        "Add or take away what is too short or too long.",
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 g d g", edit="shorten the last bar"),
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 g d g"),
    ),
    RuleRow(
        "tie-to-another-pitch", "error",
        "A tie leads to a note of another pitch.",
        "Tie to the same pitch, or write a slur.",
        Example("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 g4 d g", edit="move the tied note"),
        Example("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 g4 d g"),
    ),
    RuleRow(
        "chord-contradicted", "error",
        "A note that speaks against the chord's own third, fifth or seventh is held or stands on a strong "
        "beat, and nothing excuses it.",
        "Change the note or the chord symbol.",
        Example("Cm7 | Fm7", "1/2 e4 g4 | 1/2 ab4 c4", "dorian | dorian"),
        Example("Cm7 | Fm7", "1/2 eb4 g4 | 1/2 ab4 c4", "dorian | dorian"),
    ),
    RuleRow(
        "strong-beat-outside", "error",
        "An outside note stands on a strong beat and nothing accounts for it.",
        "Move it off the beat, resolve it by step, or write the note of the scale beside it.",
        Example("Cmaj7", "1/8 c5 b4 g e 1/4 ab4 e4", "ionian"),
        Example("Cmaj7", "1/8 c5 b4 g e 1/8 ab4 g4 1/4 e4", "ionian"),
    ),
    RuleRow(
        "strong-beat-unexcused", "warning",
        "An outside note on a strong beat is accounted for, but by nothing that excuses an accent: it is no "
        "suspension, leaning note, start of an enclosure, blue note or part of a run of half steps.",
        "Move it to a weak place, or let it resolve by step within a beat.",
        Example("Cmaj7 | %", "1/4 c5 e5 1/2 ab4 | 1/1 g4", "ionian | %"),
        Example("Cmaj7 | %", "1/4 c5 e5 ab4 g4 | 1/1 g4", "ionian | %"),
    ),
    RuleRow(
        "outside-unresolved", "warning",
        "An outside note never resolves.",
        "Lead it by step into a chord tone or a scale tone.",
        Example("Cmaj7", "1/8 c5 f#5 c#5 g5 1/2 e5", "ionian"),
        Example("Cmaj7", "1/8 c5 f5 c#5 d5 1/2 e5", "ionian"),
    ),
    RuleRow(
        "likely-slip", "warning",
        "A lone note is not accounted for, and one a half step away would be.",
        "Check the accidental.",
        Example("Dm7", "1/8 d5 c a4 f a c#5 e a", "dorian"),
        Example("Dm7", "1/8 d5 c a4 f a c5 e a", "dorian"),
    ),
    RuleRow(
        "pass-through-held", "advice",
        "A scale tone a half step above a chord tone is held, or landed on and not resolved by step.",
        "Pass through it, or resolve it a step down.",
        Example("Cmaj7", "1/4 e5 d5 1/2 f5", "ionian"),
        Example("Cmaj7", "1/4 g5 f5 1/2 e5", "ionian"),
    ),
    RuleRow(
        "scale-does-not-fit", "warning",
        "The notes speak against the scale that is named, and for another.",
        "Name the other scale, or change the notes.",
        Example("G7", "1/4 g4 ab4 bb4 c#5", "mixolydian"),
        Example("G7", "1/4 g4 ab4 bb4 c#5", "half-whole diminished"),
    ),
    RuleRow(
        "leap-over-bar-line", "advice",
        "An awkward leap crosses a bar line.",
        "Move one of the two notes by an octave, or fill the leap.",
        Example("Dm7 | G7", "1/4 d4 f a d4 | b4 d5 c5 b4", "dorian | mixolydian",
                edit="raise the second bar"),
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4", "dorian | mixolydian"),
    ),
    RuleRow(
        "range", "warning",
        "The line lies in an extreme register, or spans more than most instruments play with ease.",
        "Move the phrase, or part of it, by an octave.",
        Example("Dm7", "1/4 d1 f4 a4 c5", "dorian"),
        Example("Dm7", "1/4 d4 f4 a4 c5", "dorian"),
    ),
    RuleRow(
        "long-phrase", "advice",
        "The phrase has more than 16 bars.",
        "Divide it into phrases, each with one thing to practise.",
        Example("Dm7" + " | %" * 16, "1/1 d4" + " | f4 | d4" * 8),
        Example("Dm7" + " | %" * 15, "1/1 d4" + " | f4 | d4" * 7 + " | f4"),
    ),
    RuleRow(
        "misread-accidental", "advice",
        "A note is written so that a reader will stumble: with a double accidental, as E sharp, B sharp, "
        "C flat or F flat where neither chord nor scale asks for it, or in two ways within a bar.",
        "Write the plain name.",
        Example("G7", "1/4 a#4 b4 bb4 g4", "half-whole diminished"),
        Example("G7", "1/4 bb4 b4 bb4 g4", "half-whole diminished"),
    ),
    RuleRow(
        "silence-names-no-rule", "warning",
        "A rule is silenced that does not exist.",
        "Write a rule's name as the table gives it.",
        Example("Dm7", "1/4 d4 f4 a4 c5", "dorian", edit="silence a rule that does not exist"),
        Example("Dm7", "1/4 d4 f4 a4 c5", "dorian"),
    ),
    RuleRow(
        "duplicate-phrase", "warning",
        "Two phrases of the book are the same up to transposition.",
        "Leave one of them out.",
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4", changes_2="Em7 | A7",
                line_2="1/4 e4 g b d5 | c#5 e5 d5 c#5"),
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4", changes_2="Em7 | A7",
                line_2="1/4 e4 g b d5 | c#5 e5 d5 e5"),
    ),
    RuleRow(
        "shifted-phrase", "advice",
        "Two phrases of the book have the same line, over other chords or from another beat.",
        "Say in the commentary that it is meant, or leave one out.",
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 -", changes_2="Dm7 | G7",
                line_2="1/4 - d4 f a | c5 b4 d5 c5"),
        Example("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 -", changes_2="Dm7 | G7",
                line_2="1/4 - f4 a d5 | c5 b4 g4 f4"),
    ),
)  # fmt: skip
