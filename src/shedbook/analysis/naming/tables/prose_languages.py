"""How the names of notes are written in the sentences of a language.

Row format: see `ProseRow`. Sources: the names are those of the language's common practice; which of them are
everyday words, and what tells the two apart, is the project's design (reasons in docs/spelling.md).
"""

from __future__ import annotations

from typing import NamedTuple


class ProseRow(NamedTuple):
    """The names of one language.

    Attributes:
        language: the language's tag, its first part.
        names: pairs of a name as it is written and the note name it means ("Es", "Eb").
        fold: whether names may be written in lower case.
        signs: pairs of a word after a name and its accidental ("flat", "b"); "" is a natural.
        modes: words after a name that make it a key or a scale.
        everyday: names that are also words of everyday speech, in the case in which they are.
        before: words after which an everyday word is the name of a note.
        joined: words that join the names of a list.
        verbs: words after which a name opens its sentence ("A is the third").
        literal_after: words after a name that make it no note ("string", "section").
        literal_before: words before a name that do so ("Part", "letter").
        degrees: words after name and accidental that make them an article and a degree ("A flat ninth").
        source: where the row comes from.
    """

    language: str
    names: tuple[tuple[str, str], ...]
    fold: bool
    signs: tuple[tuple[str, str], ...]
    modes: tuple[str, ...]
    everyday: tuple[str, ...]
    before: tuple[str, ...]
    joined: tuple[str, ...]
    verbs: tuple[str, ...] = ()
    literal_after: tuple[str, ...] = ()
    literal_before: tuple[str, ...] = ()
    degrees: tuple[str, ...] = ()
    source: str = "common practice"


_SCALES = (
    "ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian", "altered", "blues",
    "half-whole", "whole-half", "whole-tone", "bebop", "melodic", "harmonic", "diminished", "augmented",
    "half-diminished", "pentatonic", "dominant", "triad",
)  # fmt: skip
_GERMAN = (
    *((letter, letter) for letter in "CDEFGA"), ("H", "B"), ("B", "Bb"),
    ("Cis", "C#"), ("Dis", "D#"), ("Eis", "E#"), ("Fis", "F#"), ("Gis", "G#"), ("Ais", "A#"), ("His", "B#"),
    ("Ces", "Cb"), ("Des", "Db"), ("Es", "Eb"), ("Fes", "Fb"), ("Ges", "Gb"), ("As", "Ab"),
)  # fmt: skip
_FRENCH = (("do", "C"), ("ut", "C"), ("ré", "D"), ("mi", "E"), ("fa", "F"), ("sol", "G"), ("la", "A"),
           ("si", "B"))  # fmt: skip
_ITALIAN = (("do", "C"), ("re", "D"), ("mi", "E"), ("fa", "F"), ("sol", "G"), ("la", "A"), ("si", "B"))
_PORTUGUESE = (("dó", "C"), ("ré", "D"), ("mi", "E"), ("fá", "F"), ("sol", "G"), ("lá", "A"), ("si", "B"))

PROSE_LANGUAGES: tuple[ProseRow, ...] = (
    ProseRow(
        "en",
        tuple((letter, letter) for letter in "ABCDEFG"),
        fold=False,
        signs=(("double flat", "bb"), ("double sharp", "##"), ("flat", "b"), ("sharp", "#"), ("natural", "")),
        modes=("major", "minor", *_SCALES),
        everyday=("A",),
        before=(),
        joined=("and", "or", "to", "then", "into", "over"),
        verbs=(
            "is", "was", "falls", "rises", "drops", "goes", "moves", "comes", "leads", "resolves", "stands",
            "becomes", "belongs", "returns", "stays", "sounds", "sits", "lies", "hangs", "climbs", "steps",
            "leans", "pulls", "turns", "lands", "wants", "gives", "slides", "slips", "sinks", "sounds",
            "has", "does", "can", "may", "must", "will", "would", "should", "on", "in", "over", "against",
            "again", "here", "there", "itself", "then", "which", "arrives", "begins", "starts", "ends",
            "keeps", "takes", "makes", "needs", "answers", "opens", "closes", "waits", "tells",
            "clashes", "rubs", "pushes", "follows", "holds", "remains", "passes", "connects", "repeats",
        ),
        literal_after=(
            "section", "sections", "part", "parts", "string", "strings", "clef", "edition", "editions",
            "instrument", "instruments", "horn", "horns", "trumpet", "trumpets", "clarinet", "clarinets",
            "saxophone", "saxophones", "sax", "book", "player", "players", "tuning",
        ),
        literal_before=("section", "sections", "part", "letter", "plan", "take", "form", "bridge", "vitamin"),
        degrees=(
            "second", "third", "fourth", "fifth", "sixth", "seventh", "ninth", "eleventh", "thirteenth",
            "two", "three", "four", "five", "six", "seven", "nine", "eleven", "thirteen", "5", "9", "11",
            "13", "note", "notes", "sign", "key", "line", "hand", "ear", "sound", "attack", "turn", "bend",
        ),
    ),
    ProseRow(
        "de", _GERMAN, fold=True, signs=(), modes=("dur", "moll", "dorisch", "alteriert"),
        everyday=("es", "des", "as", "Es", "Des", "As", "a", "b", "c", "d", "e", "f", "g", "h"),
        before=("ton", "note", "nach", "von", "auf", "über", "zum", "vom", "das", "dem"),
        joined=("und", "oder", "nach", "zu"),
        literal_after=("teil", "saite", "schlüssel", "instrument", "instrumente", "ausgabe", "trompete"),
        literal_before=("teil", "buchstabe"),
    ),
    ProseRow(
        "fr", _FRENCH, fold=True, signs=(("bémol", "b"), ("dièse", "#"), ("bécarre", "")),
        modes=("majeur", "mineur"),
        everyday=("la", "si", "mi", "sol", "do"),
        before=("le", "un", "au", "du", "ce", "vers"),
        joined=("et", "ou", "à", "puis"),
    ),
    ProseRow(
        "it", _ITALIAN, fold=True, signs=(("bemolle", "b"), ("diesis", "#"), ("bequadro", "")),
        modes=("maggiore", "minore"),
        everyday=("do", "re", "mi", "fa", "sol", "la", "si"),
        before=("il", "un", "al", "dal", "del", "sul"),
        joined=("e", "o", "poi", "a"),
    ),
    ProseRow(
        "es", _ITALIAN, fold=True, signs=(("bemol", "b"), ("sostenido", "#"), ("becuadro", "")),
        modes=("mayor", "menor"),
        everyday=("do", "re", "mi", "fa", "sol", "la", "si"),
        before=("el", "un", "al", "del"),
        joined=("y", "o", "a", "luego"),
    ),
    ProseRow(
        "pt", _PORTUGUESE, fold=True, signs=(("bemol", "b"), ("sustenido", "#"), ("bequadro", "")),
        modes=("maior", "menor"),
        everyday=("dó", "ré", "sol", "lá", "si"),
        before=("o", "um", "ao", "do", "no", "pelo"),
        joined=("e", "ou", "a", "depois"),
    ),
)  # fmt: skip
