"""Spanish and Portuguese: names by their tradition, sentences that agree whatever fills them.

Source: the names of notes, keys and intervals are common practice of conservatories; that "a el" and "de el"
become "al" and "del", and "em o", "de a", "a o" one word each, is a rule of the language (common practice).
What the sentences say is our own design.
"""

import json
import re
from itertools import product
from pathlib import Path

import pytest

from book.ground.test_words_in_another_language import _without, data_of, manuscript, names_of_scales, texts
from shedbook.analysis.account import account
from shedbook.analysis.naming.language import joined
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.analysis.telling import explain
from shedbook.book.ground.json_values import to_json
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import Words, gaps, words_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.phrase.fields import phrase_from_fields

DEMO = Path(__file__).parents[5] / "examples/tidewater"
LANGUAGES = ("es", "pt")
TOLD = [row for row in WORDING if row.startswith("tell.")]


@pytest.mark.parametrize(
    ("tag", "name", "spoken", "printed"),
    [
        ("es", "C", "do", "do"), ("es", "A", "la", "la"), ("es", "Bb", "si bemol", "si♭"),
        ("es", "F#", "fa sostenido", "fa♯"), ("es", "Ebb", "mi doble bemol", "mi♭♭"),
        ("es", "F##", "fa doble sostenido", "fa♯♯"),
        ("pt", "C", "dó", "dó"), ("pt", "D", "ré", "ré"), ("pt", "F", "fá", "fá"), ("pt", "A", "lá", "lá"),
        ("pt", "Bb", "si bemol", "si♭"), ("pt", "F#", "fá sustenido", "fá♯"),
    ],
)  # fmt: skip
def test_names_of_notes(tag: str, name: str, spoken: str, printed: str) -> None:
    words = words_of(tag)
    assert words.note(name) == spoken
    assert words.whole_key(name) == printed


@pytest.mark.parametrize(
    ("tag", "key", "printed", "spoken"),
    [
        ("es", "Bb major", "si♭ mayor", "si bemol mayor"),
        ("es", "F# minor", "fa♯ menor", "fa sostenido menor"),
        ("pt-BR", "A minor", "lá menor", "lá menor"),
        ("pt-PT", "Eb major", "mi♭ maior", "mi bemol maior"),
    ],
)
def test_names_of_keys(tag: str, key: str, printed: str, spoken: str) -> None:
    assert words_of(tag).whole_key(key) == printed
    assert words_of(tag).voiced_key(key) == spoken


@pytest.mark.parametrize(
    ("tag", "number", "said"),
    [
        ("es", 1, "una"), ("es", 16, "dieciséis"), ("es", 21, "veintiuna"), ("es", 22, "veintidós"),
        ("es", 30, "treinta"), ("es", 31, "treinta y una"), ("es", 36, "treinta y seis"), ("es", 100, "100"),
        ("pt", 1, "uma"), ("pt", 2, "duas"), ("pt", 22, "vinte e duas"), ("pt", 36, "trinta e seis"),
    ],
)  # fmt: skip
def test_numbers_as_they_count_phrases_and_keys(tag: str, number: int, said: str) -> None:
    """Both nouns are feminine in both languages, and the numbers from 21 to 29 are one word in Spanish."""
    assert words_of(tag).number(number) == said


# The sentences.

NOTE_GAPS = (
    "note", "guide", "goal", "before", "after", "first", "last", "between", "second", "third", "seventh",
    "tone",
)  # fmt: skip
"""Gaps that one note fills."""
CHORDS_IN = {"tell.guide line.part": ("first", "last")}
"""Where a chord fills such a gap."""
ARTICLES = {
    "es": ("el", "al", "del", "segundo"),
    "pt": ("o", "ao", "do", "no", "pelo", "segundo"),
}


@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_note_stands_behind_an_article(tag: str) -> None:
    """So "la", "si", "mi" and "sol" are heard as notes, and no other word of the language."""
    for row in TOLD:
        text = words_of(tag).table[row]
        for gap in set(NOTE_GAPS) - set(CHORDS_IN.get(row, ())):
            for found in re.finditer(rf"(\S*)\s*\{{{gap}\}}", text):
                assert found[1].lower() in ARTICLES[tag], (row, gap)


UNMELTED = {
    "es": r"\b(?:a|de) el\b",
    "pt": r"\b(?:a|de|em|por) (?:o|a|os|as)\b(?! partir)",
}
"""Prepositions that melt into the article behind them."""
SINGULAR = {
    "es": r"\b(?:[Ee]l|al|del|un) (?:tercera|cuarta|quinta|sexta|séptima|octava|novena|oncena|trecena|fund)",
    "pt": r"\b(?:[Oo]|ao|do|um) (?:terça|quarta|quinta|sexta|sétima|oitava|nona|décima|fund)",
}
"""A masculine article before a feminine degree or interval."""


def long_words(text: str) -> set[str]:
    """Return the words of three letters and more of a text, its gaps left out."""
    return set(re.findall(r"[^\W\d_]{3,}", re.sub(r"\{[^}]*\}", " ", text).lower()))


SHARED = frozenset(
    [
        "alto",
        "bebop",
        "bii",
        "biii",
        "blues",
        "bossa",
        "bvi",
        "bvii",
        "funk",
        "iii",
        "iiiø",
        "iiø",
        "jazz",
        "maj",
        "pedal",
        "piano",
        "samba",
        "shuffle",
        "soprano",
        "swing",
        "tempo",
        "tenor",
        "viola",
        "viø",
        "alt",
        "sus",
        "dim",
        "add",
        "isbn",
        "pdf",
        "zip",
        "midi",
        "musicxml",
        "mel",
        "pent",
    ]
)
"""Words of the trade, and parts of symbols, that are written alike in all three languages."""
ALIKE = {
    "es": SHARED | {"accidental", "has", "once"},
    "pt": SHARED
    | {"chance", "for", "harm", "mezzo", "resolve", "tablet", "trombone", "use", "zero"}
    | {"delete", "down", "enter", "page", "shift"},
}
"""Those and the words that only look alike; in Portuguese also what stands on the keys of a keyboard."""
ENGLISH_WORDS = frozenset(long_words(" ".join(ENGLISH.values())))
FILLINGS = 4


TYPED = re.compile("«[^»]*»|“[^”]*”")


def english_in(tag: str, text: str) -> list[str]:
    """Return the words of the English table that a text has."""
    return sorted((ENGLISH_WORDS & long_words(text)) - ALIKE[tag])


@pytest.mark.parametrize("tag", LANGUAGES)
def test_no_row_has_an_english_word(tag: str) -> None:
    """In a finding, what stands in quotation marks is typed by the author, the same in every language."""
    left = {
        row: english_in(tag, TYPED.sub(" ", text) if row.startswith("finding.") else text)
        for row, text in words_of(tag).table.items()
    }
    assert {row: words for row, words in left.items() if words} == {}


def fillers(gap: str, row: str, words: Words, turn: int) -> str:
    """Return what fills a gap of a remark, one of several, among them the longest and the oddest."""
    name, _, form = gap.partition(" ")
    number = int(form) if form.isdigit() else 1
    note = [words.table[f"short note.{letter}"] for letter in "ABEF"]
    note[1] = words("short note.flat", letter=note[1])
    note[3] = words("short note.natural", letter=note[3])
    minor = words("chord.minor", root=note[0])
    chord = ("G7♭9", minor, "F♯m7♭5/A", words("chord.minor", root=note[1]))[turn]
    degrees = [
        words.form(f"degree.{degree}", number)
        for degree in ("1", "#11", "bb7", "b13", "b9", "5")[turn : turn + 3]
    ]
    scale = words.table[f"short scale.{('altered', 'whole tone', 'blues', 'locrian natural 2')[turn]}"]
    rooted = words("scale.on", root=note[turn], scale=scale)
    of = [words("degree.of chord", degree=degree, chord=chord) for degree in degrees]
    bar = words.form(("bar", "bar.pick-up", "bar", "bar")[turn], number, n=turn + 1)
    several = words.form(
        ("bars.two", "bars.many")[turn % 2], number, first=turn + 1, last=turn + 2 + turn % 2
    )
    compared = "compared " if "{size}" in words.table[row] and ("echo" in row or "cell" in row) else ""
    if name in CHORDS_IN.get(row, ()):
        return chord
    if name in NOTE_GAPS or name == "root":
        return note[(turn + len(name)) % 4]
    filled = {
        "notes": joined(note[: 2 + turn % 3], words), "starts": joined(note, words),
        "new": joined(note[:1], words), "old": joined(note[: 1 + turn % 2], words),
        "chord": chord, "others": joined([chord, "B♭7", "E7"], words),
        "other": rooted if "telling" in row else chord, "scale": rooted if "whole" in row else scale,
        "degree": degrees[0], "last_degree": degrees[-1], "degrees": joined(degrees, words),
        "meanings": joined(of if "staying" in row else degrees, words), "of": of[0], "goal_of": of[1],
        "last_of": of[2],
        "pairs": joined([words("move", a=a, b=b) for a, b in product(note[:2], note[2:])], words),
        "bar": bar, "earlier": several if "practice" in row else bar,
        "later": several if "practice" in row else bar,
        "when": words("beat.on", beat=words(("beat.half", "beat.other")[turn % 2], n=("2", "2⅔")[turn % 2])),
        "size": words.table[("size.2", "size.more", "size.9", "size.12")[turn]],
        "way": words.table[f"way.{compared}{('up', 'down')[turn % 2]}"],
        "times": words.table["numbers.small"].split()[3 + turn * 3],
    }  # fmt: skip
    return filled[name]


def told(row: str, words: Words, turn: int) -> str:
    """Return a remark with its gaps filled, as a sentence."""
    text = words.table[row]
    return words.sentence(text.format_map({gap: fillers(gap, row, words, turn) for gap in gaps(text)}))


def faults(tag: str, sentence: str) -> list[str]:
    """Return what is wrong with a sentence's grammar, or still English."""
    found = [pattern[tag] for pattern in (UNMELTED, SINGULAR) if re.search(pattern[tag], sentence)]
    if english_in(tag, sentence) or re.search(r"[{}|]|  | [,.;:]|[,.;:]{2}", sentence):
        found.append("left over")
    return found


@pytest.mark.parametrize("tag", LANGUAGES)
def test_every_remark_agrees_with_what_fills_it(tag: str) -> None:
    words = words_of(tag)
    for row, turn in product(TOLD, range(FILLINGS)):
        sentence = told(row, words, turn)
        assert faults(tag, sentence) == [], sentence
        assert sentence.endswith(".")


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
        ("es", "La línea baja a el sol."), ("es", "Termina en el novena."), ("es", "Over G7 the line falls."),
        ("pt", "A linha está em o compasso 2."), ("pt", "Termina no lá,  nona."),
        ("pt", "Vai de a terça ao mi."),
    ],
)  # fmt: skip
def test_a_fault_is_seen(tag: str, wrong: str) -> None:
    assert faults(tag, wrong)


def test_a_spanish_list_needs_no_other_word_for_and() -> None:
    """Before a word that sounds with "i" at its start "y" would be "e" (a rule of the language)."""
    table = words_of("es").table
    listed = [
        text for row, text in table.items() if row.startswith(("short note.", "degree.", "own degree."))
    ]
    assert [text for text in listed if re.match(r"h?i", text)] == []


def test_a_whole_explanation_is_said_in_either_language() -> None:
    phrase = phrase_from_fields(
        {"title": "0", "changes": "Dm7b5 | G7b9 | Cm6 | %", "key": "C minor",
         "line": "1/8 f4 ab c5 eb d c b4 ab | b d5 f ab g# f eb db | 1/4 c5 eb 1/8 g4 a b d5 | 1/1 c5"}
    )  # fmt: skip
    spanish = " ".join(explain(account(phrase), words=words_of("es")))
    portuguese = " ".join(explain(account(phrase), words=words_of("pt")))
    assert re.search(r"\b(?:el|al|del) (?:do|re|mi♭|fa|sol|la♭|si)\b", spanish)
    assert re.search(r"\b(?:o|ao|do|no) (?:dó|ré|mi♭|fá|sol|lá♭|si)\b", portuguese)
    assert "Dm7♭5" in spanish
    assert "Dm7♭5" in portuguese


@pytest.mark.parametrize("tag", LANGUAGES)
def test_no_english_word_is_on_the_pages_of_a_book(tmp_path: Path, tag: str) -> None:
    """The words are those of the English table, but for those that the language has as well."""
    book = manuscript(tmp_path, {}, f'language = "{tag}"')
    data = json.loads(to_json(data_of(book, "alto saxophone")))
    for name in ("paper", "language"):
        data["about"].pop(name)
    shown = [*texts(_without(data, ("key", "path", "place", "look"))), *names_of_scales(book).values()]
    said = [text for text in shown if not re.fullmatch(r"[A-G][b#]? (major|minor)", text)]
    assert len(said) > 100
    assert [(text, english_in(tag, text)) for text in said if english_in(tag, text)] == []
