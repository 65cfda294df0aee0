"""Sentences that the author has written anew [the project's design]."""

from shedbook.analysis.telling import explain
from shedbook.book.scores.author_findings import author_findings
from shedbook.book.scores.inputs import KeyOrder
from shedbook.book.scores.placing import placing_of, reader_explanation
from shedbook.book.scores.study import study
from shedbook.editions.instruments.edition import edition_named
from shedbook.phrase.fields import phrase_from_fields

FIELDS = {
    "title": "Low tide",
    "changes": "Dm7b5 | G7b9 | Cm6",
    "line": "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/1 eb4",
}


def test_the_authors_sentence_stands_in_its_place_by_the_names_of_each_reader() -> None:
    computed = explain(study(phrase_from_fields(FIELDS)).account, with_commentary=False)
    own = "Land on E flat as if it were the only note."
    phrase = phrase_from_fields({**FIELDS, "sentences": {computed[1]: own}})
    studied = study(phrase)
    for edition, said in (("concert", own.replace("E flat", "E♭")), ("bflat", own.replace("E flat", "F"))):
        home = placing_of(studied, KeyOrder(), edition_named(edition)).home
        told = reader_explanation(studied, home)
        assert told[1] == said
        assert len(told) == len(computed)
    assert not [one for one in author_findings(studied.account) if one.rule == "sentence-outdated"]


def test_the_author_is_told_when_the_music_under_it_has_changed() -> None:
    computed = explain(study(phrase_from_fields(FIELDS)).account, with_commentary=False)
    other = {**FIELDS, "line": "1/4 c5 - - - | - - - - | 1/1 c5", "sentences": {computed[1]: "My own."}}
    studied = study(phrase_from_fields(other))
    (found,) = [one for one in author_findings(studied.account) if one.rule == "sentence-outdated"]
    assert "My own." in found.message
    home = placing_of(studied, KeyOrder(), edition_named("concert")).home
    assert "My own." not in reader_explanation(studied, home)
    quiet = author_findings(studied.account, silenced=("sentence-outdated",))
    assert "sentence-outdated" not in [one.rule for one in quiet]
