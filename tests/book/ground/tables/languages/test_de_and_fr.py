"""German and French: names by their tradition, sentences that agree whatever fills them.

Sources: the German names of notes are those of Duden and of common practice (H is B natural, B is B flat;
minor keys have a small letter); the French ones are common practice (do to si; "ut" only names clefs);
gender, case and what "de" and "à" do before an article are rules of the languages. What is said is our own
design.
"""

import re
from itertools import product
from pathlib import Path

import pytest

from shedbook.analysis.account import account
from shedbook.analysis.naming.language import joined
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.analysis.telling import explain
from shedbook.book.ground.words import Words, gaps, words_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase

DEMO = Path(__file__).parents[5] / "examples/tidewater"
LANGUAGES = ("de", "fr")
TOLD = [row for row in WORDING if row.startswith("tell.")]
# Duden: the names as they are written in lower case there; common practice for the capital letter.
GERMAN = {
    "C": "C", "D": "D", "E": "E", "F": "F", "G": "G", "A": "A", "B": "H",
    "Cb": "Ces", "Db": "Des", "Eb": "Es", "Fb": "Fes", "Gb": "Ges", "Ab": "As", "Bb": "B",
    "C#": "Cis", "D#": "Dis", "E#": "Eis", "F#": "Fis", "G#": "Gis", "A#": "Ais", "B#": "His",
    "Cbb": "Ceses", "Dbb": "Deses", "Ebb": "Eses", "Fbb": "Feses", "Gbb": "Geses", "Abb": "Asas",
    "Bbb": "Heses", "C##": "Cisis", "D##": "Disis", "E##": "Eisis", "F##": "Fisis", "G##": "Gisis",
    "A##": "Aisis", "B##": "Hisis",
}  # fmt: skip


@pytest.mark.parametrize(("name", "said"), GERMAN.items())
def test_german_names_of_notes(name: str, said: str) -> None:
    assert words_of("de").note(name) == said
    assert words_of("de-AT").whole_key(name) == said


@pytest.mark.parametrize(
    ("name", "spoken", "printed"),
    [
        ("C", "do", "do"), ("D", "ré", "ré"), ("E", "mi", "mi"), ("F", "fa", "fa"), ("G", "sol", "sol"),
        ("A", "la", "la"), ("B", "si", "si"), ("Eb", "mi bémol", "mi♭"), ("F#", "fa dièse", "fa♯"),
        ("Bbb", "si double bémol", "si♭♭"), ("F##", "fa double dièse", "fa♯♯"),
    ],
)  # fmt: skip
def test_french_names_of_notes(name: str, spoken: str, printed: str) -> None:
    assert words_of("fr").note(name) == spoken
    assert words_of("fr-CA").whole_key(name) == printed


@pytest.mark.parametrize(
    ("tag", "key", "printed", "spoken"),
    [
        ("de", "Eb major", "Es-Dur", "Es-Dur"), ("de", "C minor", "c-Moll", "c-Moll"),
        ("de", "Bb minor", "b-Moll", "b-Moll"), ("de", "F# minor", "fis-Moll", "fis-Moll"),
        ("de", "B major", "H-Dur", "H-Dur"), ("fr", "Eb major", "mi♭ majeur", "mi bémol majeur"),
        ("fr", "A minor", "la mineur", "la mineur"),
    ],
)  # fmt: skip
def test_names_of_keys(tag: str, key: str, printed: str, spoken: str) -> None:
    assert words_of(tag).whole_key(key) == printed
    assert words_of(tag).voiced_key(key) == spoken


@pytest.mark.parametrize(
    ("tag", "number", "said"),
    [
        ("de", 1, "eine"), ("de", 2, "zwei"), ("de", 21, "einundzwanzig"), ("de", 30, "dreißig"),
        ("de", 36, "sechsunddreißig"), ("de", 77, "siebenundsiebzig"), ("de", 99, "neunundneunzig"),
        ("fr", 1, "une"), ("fr", 21, "vingt et une"), ("fr", 22, "vingt-deux"), ("fr", 70, "soixante-dix"),
        ("fr", 71, "soixante et onze"), ("fr", 79, "soixante-dix-neuf"), ("fr", 80, "quatre-vingts"),
        ("fr", 81, "quatre-vingt-une"), ("fr", 91, "quatre-vingt-onze"), ("fr", 99, "quatre-vingt-dix-neuf"),
        ("fr", 100, "100"),
    ],
)  # fmt: skip
def test_numbers_as_they_count_phrases_and_keys(tag: str, number: int, said: str) -> None:
    assert words_of(tag).number(number).replace("\u00a0", " ") == said


@pytest.mark.parametrize(
    ("tag", "number", "noun"), [("de", 0, "Phrasen"), ("fr", 0, "phrase"), ("fr", 2, "phrases")]
)
def test_what_a_number_of_phrases_is_called(tag: str, number: int, noun: str) -> None:
    """In French nought is singular (CLDR, plural rules)."""
    assert words_of(tag).of_number(number, "phrase", "phrases") == noun


NOTES = ("note", "guide", "goal", "before", "after", "first", "last", "between", "second", "third", "seventh",
         "tone", "root")  # fmt: skip
"""Gaps that one note fills."""
DEGREES = tuple(row.removeprefix("degree.") for row in WORDING if re.match(r"degree\.[b#\d]", row))
TURNS = len(DEGREES)


def filler(gap: str, row: str, words: Words, turn: int) -> str:
    """Return what fills a gap of a remark: every degree in turn, the longest and oddest of other things."""
    low = gap.startswith("lower ")
    name, _, number = gap.removeprefix("lower ").partition(" ")
    form = int(number or 1)
    notes = [words.whole_key(one) for one in ("A", "Eb", "F#", "Ab", "B", "E", "Bb")]
    minor = words("chord.minor", root=notes[turn % 7])
    chord = ("G7♭9", minor, "F♯m7♭5/A", "Am(maj7)")[turn % 4]
    degrees = [words.form(f"degree.{DEGREES[(turn + more) % TURNS]}", form) for more in range(3)]
    of = [words("degree.of chord", degree=one, chord=chord) for one in degrees]
    scale = words.table[
        f"short scale.{('altered', 'whole tone', 'blues', 'half-whole diminished')[turn % 4]}"
    ]
    rooted = words("scale.on", root=notes[turn % 7], scale=scale)
    bar = words.form(("bar", "bar.pick-up")[turn % 2], form, n=turn + 1)
    several = words.form(("bars.two", "bars.many")[turn % 2], form, first=1, last=2 + turn % 2)
    earlier = several if "practice" in row else words.form("bar", form, n=turn + 1)
    compared = "compared " if "echo" in row or "cell" in row else ""
    if name in NOTES:
        said = chord if row == "tell.guide line.part" else notes[(turn + len(name)) % 7]
        return said[:1].lower() + said[1:] if low else said
    return {
        "notes": joined(notes[: 2 + turn % 5], words),
        "starts": joined(notes[:3], words), "new": joined(notes[:1], words), "old": joined(notes[1:3], words),
        "chord": chord, "others": joined([chord, "B♭7", "E7"], words),
        "other": rooted if "telling" in row else chord, "scale": rooted if "whole" in row else scale,
        "degree": degrees[0], "last_degree": degrees[1], "degrees": joined(degrees, words),
        "meanings": joined(of if "staying" in row else degrees, words), "of": of[0], "goal_of": of[1],
        "last_of": of[2], "bar": bar, "earlier": earlier, "later": earlier,
        "pairs": joined([words("move", a=a, b=b) for a, b in product(notes[:2], notes[2:4])], words),
        "when": words("beat.on", beat=words(("beat.half", "beat.other")[turn % 2], n=("2", "2⅔")[turn % 2])),
        "size": words.form(("size.1", "size.more", "size.6", "size.12", "size.2")[turn % 5], form),
        "way": words.table[f"way.{compared}{('up', 'down')[turn % 2]}"],
        "times": words.table["numbers.small"].split()[2 + turn % 11],
    }[name]  # fmt: skip


_FEMININE_DE = (
    r"(?:(?:große|kleine|reine|verminderte|übermäßige)n? )?(?:Terz|Quarte|Quinte|Sexte|Septime|Oktave)"
)
_FEMININE_FR = (
    r"(?:fondamentale|tierce|quarte|quinte|sixte|septième|neuvième|onzième|treizième|octave|mesure|levée)"
)
FAULTS = {
    "de": (
        rf"\b(?:zum|vom|im|ins|dem|den|das|ein|einen) {_FEMININE_DE}",
        r"\b(?:[Dd]ie|das|eine|einer) (?:Grundton|Halbton|Ganzton|Tritonus)",
        r"\b(?:[Vv]om|zum|auf dem|dem nächsten) \S+, (?:die|den|das|des)\b(?! Takte)",  # a dative follows
        r"\b(?:ins|auf das|umspielen das|[Kk]oste das) \S+, (?:der|dem|des)\b",  # an accusative follows
        r"^Das \S+, (?:den|dem|des)\b",  # a nominative follows
        r"\bist (?:den|dem)\b|\bum \S+ höher|(?<=jedes Mal )ein (?:Halb|Ganz)ton",
        r"\ber (?:großen|kleinen)\b",
    ),
    "fr": (
        r"\b(?:de|à) les?\b(?! reste)", r"\bd’plus", rf"\b(?:[Ll]e|du|au|un) {_FEMININE_FR}",
        r"\b(?:la|une) (?:ton|demi-ton|triton|unisson)\b", r"\bla la\b", r"[^\u00a0][:;»]|«[^\u00a0]",
        r"\bde (?:un|une|de)\b", r"'",
    ),
}  # fmt: skip
ENGLISH = re.compile(
    r"\b(?:the|and|of|with|from|bars?|beats?|chord|over|scale|first|flat|sharp|third|fifth|down|up)\b"
)


def faults(tag: str, sentence: str) -> list[str]:
    """Return what is wrong with a sentence's grammar, or still English, or not filled in."""
    found = [pattern for pattern in FAULTS[tag] if re.search(pattern, sentence)]
    if ENGLISH.search(sentence):
        found.append("English")
    if re.search(r"[{}|]|  | [,.]|[,.;:]{2}", sentence):
        found.append("left over")
    return found


@pytest.mark.parametrize("tag", LANGUAGES)
def test_every_remark_agrees_with_what_fills_it(tag: str) -> None:
    words = words_of(tag)
    wrong = set()
    for row, turn in product(TOLD, range(TURNS)):
        text = words.table[row]
        said = words.sentence(text.format_map({gap: filler(gap, row, words, turn) for gap in gaps(text)}))
        assert said.endswith(".")
        wrong |= {(row, said, *faults(tag, said))} if faults(tag, said) else set()
    assert wrong == set()


@pytest.mark.parametrize("tag", LANGUAGES)
def test_the_explanations_of_the_demo(tag: str) -> None:
    words = words_of(tag)
    for source in open_manuscript(DEMO).phrases:
        found = account(read_phrase(source))
        sentences = explain(found, with_commentary=False, words=words)
        assert len(sentences) == len(explain(found, with_commentary=False))
        assert [(one, faults(tag, one)) for one in sentences if faults(tag, one)] == []


@pytest.mark.parametrize(
    ("tag", "wrong"),
    [
        ("de", "Das F geht zum E, die Terz von C7."), ("de", "Die Linie führt ins E, der Terz von C7."),
        ("de", "Das F, den Grundton von F7, bleibt."), ("de", "Die Grundton ist F."),
        ("de", "Der third note."), ("de", "Vom G, der 9,, steigst du."),
        ("fr", "La ligne va de le mi au la."), ("fr", "Le tierce de C7."), ("fr", "Il monte de un ton."),
        ("fr", "C'est la fin."), ("fr", "La fin : do."),
    ],
)  # fmt: skip
def test_a_fault_is_seen(tag: str, wrong: str) -> None:
    assert faults(tag, wrong)


@pytest.mark.parametrize("row", TOLD)
def test_the_reader_is_spoken_to_as_a_friend(row: str) -> None:
    assert not re.search(
        r"\b(?:Sie|Ihr|Ihnen|Ihre)\b(?! (?:gehen|steigen|fallen|stehen))", words_of("de").table[row]
    )
    assert not re.search(r"\b(?:vous|votre|vos|\w+ez)\b", words_of("fr").table[row])
