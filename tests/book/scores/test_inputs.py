"""Names of jobs: equal where nothing matters has changed, different where anything has."""

import pytest

from shedbook.book.scores.inputs import HOME, Look, card_job, job, pages_job, score_jobs

FIELDS = {"title": "Low tide", "changes": "G7", "line": "1/1 g4", "tempo": 132, "commentary": "Listen."}


def _scores(fields: dict[str, object], look: Look = Look(), versions: str = "1") -> tuple[str, ...]:  # noqa: B008
    return tuple(one.name for one in score_jobs(fields, (HOME, "C major", "F major"), look, versions))


def test_equal_inputs_give_equal_names_in_whatever_order() -> None:
    turned = dict(reversed(FIELDS.items()))
    assert _scores(FIELDS) == _scores(turned)
    assert card_job(FIELDS, [], "1") == card_job(turned, [], "1")


def test_every_key_has_a_name_of_its_own() -> None:
    assert len(set(_scores(FIELDS))) == 3


@pytest.mark.parametrize(
    ("field", "value"),
    [("line", "1/1 a4"), ("changes", "G7b9"), ("tempo", 133), ("title", "High tide"), ("scales", "altered")],
)
def test_a_change_of_the_music_renames_card_and_scores(field: str, value: object) -> None:
    changed = {**FIELDS, field: value}
    assert set(_scores(changed)).isdisjoint(_scores(FIELDS))
    assert card_job(changed, [], "1").name != card_job(FIELDS, [], "1").name


@pytest.mark.parametrize("field", ["commentary", "id", "silence"])
def test_words_that_no_score_shows_rename_the_card_alone(field: str) -> None:
    changed = {**FIELDS, field: "other"}
    assert _scores(changed) == _scores(FIELDS)
    assert card_job(changed, [], "1").name != card_job(FIELDS, [], "1").name


def test_versions_and_look_rename_everything() -> None:
    assert set(_scores(FIELDS, versions="2")).isdisjoint(_scores(FIELDS))
    assert set(_scores(FIELDS, Look(degrees=False))).isdisjoint(_scores(FIELDS))
    assert card_job(FIELDS, [], "2").name != card_job(FIELDS, [], "1").name
    assert pages_job({}, "2").name != pages_job({}, "1").name


def test_what_is_done_is_part_of_the_name() -> None:
    assert job("card", {}, "1").name != job("score", {}, "1").name
