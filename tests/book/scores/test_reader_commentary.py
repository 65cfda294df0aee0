"""The author's words beside a score in another key, on sentences of our own; common practice."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from shedbook.analysis.account import account
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.author_findings import CONTRADICTED, author_findings
from shedbook.book.scores.inputs import KeyOrder
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.reader_commentary import reader_commentary
from shedbook.book.scores.study import study
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key


def phrase(commentary: str) -> Phrase:
    return phrase_from_fields(
        {
            "key": "Bb major",
            "changes": "Cm7 | F7b9 | Bbmaj7",
            "line": "1/8 bb4 c5 d eb g f eb d | a4 c5 eb gb f eb c# c | 1/2 d5 bb4",
            "commentary": commentary,
        }
    )


@pytest.mark.parametrize(
    ("key", "expected"),
    [
        ("Bb", "B♭ falls to A over F7; G♭ is its flat nine. C♯ wraps D."),
        ("C", "C falls to B over G7; A♭ is its flat nine. D♯ wraps E."),
        ("G", "G falls to F♯ over D7; E♭ is its flat nine. A♯ wraps B."),
        ("Db", "D♭ falls to C over A♭7; A is its flat nine. E wraps F."),
    ],
)
def test_names_are_those_of_the_score(key: str, expected: str) -> None:
    own = phrase("B flat falls to A over F7; G flat is its flat nine. C sharp wraps D.")
    assert reader_commentary(own, in_key(own, Key.parse(key))) == expected


def test_the_chord_has_its_own_root_and_what_is_nowhere_goes_by_interval() -> None:
    own = phrase("Try B7, the tritone substitute, and the {G} string.")
    assert reader_commentary(own, in_key(own, Key.parse("C"))) == (
        "Try C♯7, the tritone substitute, and the G string."
    )


def test_a_language_that_is_not_known_keeps_its_words() -> None:
    own = phrase("B flat falls.")
    assert reader_commentary(own, in_key(own, Key.parse("C")), "pl") == "B flat falls."
    assert reader_commentary(replace(own, commentary=""), in_key(own, Key.parse("C"))) == ""


def test_no_commentary_of_half_the_demo_contradicts_its_score_in_any_key() -> None:
    demo = Path(__file__).parents[3] / "examples" / "tidewater"
    for source in open_manuscript(demo).phrases[::2]:
        own = read_phrase(source)
        for read in placing_of(study(own), KeyOrder(), edition_named("concert")).keys:
            seen = replace(read.phrase, commentary=reader_commentary(own, read.phrase))
            found = author_findings(account(seen))
            assert [one.message for one in found if one.rule == CONTRADICTED] == []
