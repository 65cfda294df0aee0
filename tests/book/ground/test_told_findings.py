"""What the proof-reader says in the language of a book: every rule, each broken once, and no English left.

The phrases are invented. That H is B natural and B is B flat in German, and do ré mi in the others, is common
practice; what is said is our own design.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

import pytest

from analysis.broken_rules import findings
from shedbook.analysis.account import account
from shedbook.analysis.naming.sayings import Saying
from shedbook.analysis.proof import RULES, finding_in
from shedbook.book.ground.findings import PhraseFinding, finding_values, of_phrase
from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.told_findings import COMMAND_LINE, own
from shedbook.book.ground.words import EN, WORD_NAMES, words_of
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.manuscript.tablature import tablature_findings
from shedbook.book.manuscript.translation import UNTRANSLATED
from shedbook.book.scores.author_findings import AUTHOR_RULE_NAMES, author_findings
from shedbook.book.scores.edition_sayings import edition_sayings
from shedbook.book.scores.engraving import Reading, read_card
from shedbook.book.scores.inputs import card_input
from shedbook.book.tracks.recordings import UNUSED
from shedbook.book.verbs.look import look
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.reader_keys import ReaderKey
from shedbook.editions.reader_part import EditionFinding, reader_parts
from shedbook.editions.tables.edition_rules import EDITION_RULES, EDITION_WORDS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.key import Key

Pair = tuple[str, Saying, Saying]
"""The name of a rule, what is found, and its mend."""

WIDE = {"key": "C", "changes": "C | C", "line": "1/8 d4 e g c5 - e6 g c7 | 1/1 c7"}
ONE_HIGH = {"key": "C", "changes": "C", "line": "1/4 e3 g c4 c6"}
LOW = {"key": "C", "changes": "C", "line": "1/1 d2"}
COMMENTED = {
    "key": "C major", "changes": "G7b9", "scales": "half-whole diminished", "line": "1/4 g4 cb5 d bb",
    "commentary": "A sharp here.", "sentences": {"Long gone.": "0"},
}  # fmt: skip


def edition_findings() -> Iterator[EditionFinding]:
    """Yield what is found of notes too high, folded or not, too low for a guitar, and off its strings."""
    key = ReaderKey(Key.parse("C"), Key.parse("A"))
    concert = ReaderKey(Key.parse("C"), Key.parse("C"))
    alto, guitar = edition_named("alto sax"), edition_named("guitar")
    assert guitar.instrument is not None
    assert guitar.instrument.fingerboard is not None
    short = replace(guitar, tablature=replace(guitar.instrument.fingerboard, frets=5))
    wide, low, one_high = (phrase_from_fields(fields) for fields in (WIDE, LOW, ONE_HIGH))
    higher = phrase_from_fields({**WIDE, "line": "1/8 c7 g6 e6 c - g4 e d | 1/1 c4"})
    narrow = phrase_from_fields({**WIDE, "line": "1/8 c4 e g c5 - c6 e g | 1/1 a6"})
    jumps = phrase_from_fields({**WIDE, "line": "1/8 d3 c8 d3 c8 d3 c8 d3 c8 | 1/1 d3"})
    for phrase in (wide, higher, narrow, jumps):
        for fold in (False, True):
            for edition, its_key in ((alto, key), (short, concert)):
                for part in reader_parts(phrase, [its_key], edition, fold=fold):
                    yield from part.findings
    for phrase in (low, one_high):
        for part in reader_parts(phrase, [concert], short):
            yield from part.findings


@pytest.fixture(scope="module")
def of_editions() -> list[EditionFinding]:
    return list(edition_findings())


@pytest.fixture(scope="module")
def found(of_editions: list[EditionFinding]) -> list[Pair]:
    """Every rule of a phrase, of editions and of the author's names, broken."""
    plain = [one for rule in RULES.values() for one in findings(rule.row.fires)]
    plain += author_findings(account(phrase_from_fields(COMMENTED)))
    pairs = [(one.rule, *one.told) for one in plain if one.told is not None]
    return pairs + [(one.rule, *edition_sayings(one.told)) for one in of_editions]


def test_every_rule_is_broken_here(found: list[Pair], of_editions: list[EditionFinding]) -> None:
    rules = {*RULES, *AUTHOR_RULE_NAMES, *(row.name for row in EDITION_RULES)} - {"no-tablature"}
    assert sorted(rules - {rule for rule, _, _ in found}) == []
    rows = {one.told.row for one in of_editions} | {one.told.mend for one in of_editions}
    wanted = {row for row in EDITION_WORDS if "no-tablature" not in row}
    parts = {"finding.place", "finding.place.concert", "finding.band"}
    assert sorted(wanted - parts - rows) == []


def test_every_rule_has_its_rows() -> None:
    """A language that lacks one of these fails in `test_languages`."""
    for rule in (*RULES, *(row.name for row in EDITION_RULES), *AUTHOR_RULE_NAMES, UNTRANSLATED, UNUSED):
        rows = [row for row in ENGLISH if f"{row}.".startswith(f"finding.{rule}.")]
        assert f"finding.{rule}.mend" in rows
        assert [row for row in rows if ".mend" not in row]


def words_in(texts: Iterable[str]) -> set[str]:
    """Return the words of texts, without their gaps, what is quoted or typed, and figures."""
    return {
        word.lower()
        for text in texts
        for word in re.findall(r"[^\W\d_]{3,}", re.sub(r"\{[^}]*\}|„[^“]*“|«[^»]*»|“[^”]*”", " ", text))
    }


@pytest.mark.parametrize("tag", SHIPPED)
def test_no_english_word_is_left(found: list[Pair], tag: str) -> None:
    words = words_of(tag)
    english, its = words_in(ENGLISH.values()), words_in(words.table.values())
    for rule, message, mend in found:
        said = own(message, mend, words)
        assert sorted(words_in(said) & english - its - {"maj"}) == [], (rule, said)
        assert not re.search(r"[{}|]|  ", " ".join(said)) or rule == "commentary-names"
        assert all(text[0].isupper() or not text[0].isalpha() for text in said), said


def test_english_is_that_of_the_command_line(of_editions: list[EditionFinding]) -> None:
    """A book in English has no other sentences; the floor of the editions says the same as the table."""
    for one in of_editions:
        message, mend = edition_sayings(one.told)
        assert own(message, mend, EN) == ("", "")
        assert mend.said(COMMAND_LINE) == one.mend
        as_titled = message.said(COMMAND_LINE)
        assert as_titled.replace(" edition", "") == one.message


@pytest.mark.parametrize(
    ("tag", "message", "mend"),
    [
        ("de", "Das H steht im selben Takt auch als Ces.", "Schreib beide gleich."),
        ("fr", "Le si est aussi écrit do♭ dans la même mesure.", "Écris les deux de la même façon."),
        ("es", "El si está escrito también como do♭ en el mismo compás.", "Escribe las dos notas igual."),
        (
            "pt",
            "O si está escrito também como dó♭ no mesmo compasso.",
            "Escreva as duas notas da mesma forma.",
        ),
    ],
)
def test_notes_are_called_as_the_language_calls_them(tag: str, message: str, mend: str) -> None:
    text = {"title": "0", "changes": "Abm7", "scales": "dorian", "line": "1/4 cb5 b4 ab gb"}
    looked = look(text, settings_from_fields({"language": tag}))
    (shown,) = [one for one in looked.findings if one.finding.rule == "misread-accidental"]
    assert (shown.finding.message, shown.finding.mend) == (message, mend)
    assert shown.mends == {"line": "1/4 cb5 cb5 ab4 gb"}
    (plain,) = [
        one.finding
        for one in look(text, settings_from_fields({})).findings
        if one.finding.rule == "misread-accidental"
    ]
    assert plain.message == "B stands as C♭ in the same bar."
    assert finding_in(plain, words_of(tag)).message == message


def test_a_card_keeps_both_and_each_reader_gets_one() -> None:
    text = PhraseText({"title": "0", "changes": "Dm7 | G7", "line": "1/4 d1 f a c2 | b1 g d2 g"})
    card = read_card(card_input(text, settings_from_fields({"language": "de"})), Reading())
    (low,) = [one for one in card.findings if one.rule == "range"]
    assert low.message == "D1 lies in an extreme register."
    assert low.own_message == "Das D1 liegt in einer extremen Lage."
    listed = of_phrase(1, "0", "01.toml", low)
    assert finding_values(listed)["message"] == low.message
    assert finding_values(listed, own=True)["message"] == low.own_message
    assert finding_values(listed, own=True)["mend"] == low.own_mend
    assert set(finding_values(listed)) == set(listed._fields) - {"own_message", "own_mend"}
    plain = PhraseFinding("range", "warning", None, "", "It is high.", "Fold it.")
    assert finding_values(of_phrase(1, "0", "0", plain), own=True)["message"] == "It is high."


def test_an_author_s_row_takes_the_place_of_the_language_s() -> None:
    text = PhraseText({"title": "0", "changes": "Dm7", "line": "1/4 d1 f a c2"})
    rows = {"finding.range.extreme": "{note}: sehr tief oder sehr hoch."}
    card = read_card(card_input(text, settings_from_fields({"language": "de", "words": rows})), Reading())
    assert [one.own_message for one in card.findings if one.rule == "range"] == [
        "D1: sehr tief oder sehr hoch."
    ]


def test_what_is_said_of_the_whole_book() -> None:
    editions = (edition_named("bflat"), edition_named("flute"))
    (one,) = tablature_findings(editions, ("all",), (), "manuscript.toml", words_of("fr"))
    assert one.message == (
        "The B♭ edition and Flute edition have no tablature: it needs an instrument with frets."
    )
    assert one.own_message.startswith("Restent sans tablature\u00a0: Édition en si♭ et Édition pour flûte.")
    assert len(WORD_NAMES) == len(ENGLISH)
