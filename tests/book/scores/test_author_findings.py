"""What is said of the author's own names; the phrases are invented, what is expected is common practice."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from shedbook.analysis.account import account
from shedbook.book.scores.author_findings import CONTRADICTED, STUMBLING, author_findings
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase


def phrase(line: str, commentary: str = "", scales: str = "half-whole diminished") -> Phrase:
    return phrase_from_fields(
        {"key": "C major", "changes": "G7b9", "scales": scales, "line": line, "commentary": commentary}
    )


def test_a_third_by_another_letter_is_found_with_its_mend() -> None:
    (finding,) = author_findings(account(phrase("1/4 g4 cb5 d f")))
    assert (finding.rule, finding.severity) == (STUMBLING, "advice")
    assert (finding.bar, finding.beat) == (1, Fraction(2))
    assert finding.message == "C♭ is printed as you typed it; a reader expects B here."
    assert "Write B" in finding.mend


def test_what_reads_well_either_way_is_left_alone() -> None:
    assert author_findings(account(phrase("1/4 g4 ab bb b"))) == ()


def test_the_commentary_is_read_against_the_score() -> None:
    seen = account(phrase("1/4 g4 ab bb b", "A flat, then A sharp and B. C sharp never comes."))
    (finding,) = author_findings(seen)
    assert (finding.rule, finding.severity) == (CONTRADICTED, "warning")
    assert finding.message == "The commentary says A♯; the score has B♭."
    assert (finding.bar, finding.beat) == (1, Fraction(3))


def test_braces_another_language_and_silence_quieten_it() -> None:
    own = phrase("1/4 g4 ab bb b", "Not {A sharp}.")
    assert author_findings(account(own)) == ()
    loud = replace(own, commentary="Not A sharp.")
    assert [one.rule for one in author_findings(account(loud))] == [CONTRADICTED]
    assert author_findings(account(loud), language="pl") == ()
    assert author_findings(account(loud), silenced=(CONTRADICTED,)) == ()
    assert author_findings(account(replace(loud, silence=((CONTRADICTED, "meant"),)))) == ()


def test_a_tension_of_the_chord_is_called_as_the_line_has_it() -> None:
    own = phrase("1/4 g4 g#4 bb b", "A flat is the flat nine.")
    messages = [one.message for one in author_findings(account(own)) if one.rule == CONTRADICTED]
    assert messages == ["The commentary says A♭; the score has G♯."]
    quiet = account(replace(own, commentary="F, the seventh, is not played."))
    assert CONTRADICTED not in {one.rule for one in author_findings(quiet)}
