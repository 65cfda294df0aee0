"""New lines for an open phrase. The laws are the project's design: they can be read, and copy nothing."""

from pathlib import Path

import pytest

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.verbs.draft import _midi
from shedbook.book.verbs.look import read_fields
from shedbook.book.verbs.proposals import phrases_in
from shedbook.book.verbs.propose import PROPOSALS, Wishes, new_lines, variants
from shedbook.errors import NotationError, ReadError
from shedbook.phrase.model import sounding_notes

FIELDS = {
    "title": "Low tide",
    "changes": "Dm7b5 | G7b9 | Cm6 | %",
    "line": "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/2 eb4 1/4 c4 - | 1/1 c4",
    "tempo": 120,
}


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "phrases").mkdir()
    (tmp_path / "manuscript.toml").write_text('title = "Small water"\n')
    (tmp_path / "phrases" / "01.toml").write_text('title = "Broken"\nchanges = "Xm7"\nline = "h"\n')
    return tmp_path


def midi(fields: dict[str, object]) -> list[int]:
    return [note.pitch.midi for note in sounding_notes(read_fields(fields, Settings()))]


def test_lines_stand_over_the_same_chords_and_end_where_they_should(root: Path) -> None:
    answer = new_lines(FIELDS, Settings(), root, Wishes(shape="arch", last="Eb C"))
    assert len(answer.found) == PROPOSALS
    lines = [midi(dict(one.fields)) for one in answer.found]
    assert len({tuple(line) for line in lines}) == PROPOSALS
    for one, line in zip(answer.found, lines, strict=True):
        assert one.fields["changes"] == "Dm7b5 | G7b9 | Cm6 | %"
        assert line[-1] % 12 in (3, 0)
        assert 1 <= one.level <= 5
        assert one.said.startswith("It starts on")


def test_another_seed_gives_others_and_the_same_seed_the_same(root: Path) -> None:
    one, again, other = (
        [proposal.fields["line"] for proposal in new_lines(FIELDS, Settings(), root, Wishes(seed=seed)).found]
        for seed in (1, 1, 2)
    )
    assert one == again != other


def test_a_wish_that_nothing_satisfies_is_told_with_what_to_do(root: Path) -> None:
    answer = new_lines({**FIELDS, "changes": "Cm6", "line": "1/1 c4"}, Settings(), root, Wishes(last="C#"))
    assert not answer.found
    assert answer.instead


def test_what_is_no_note_is_refused(root: Path) -> None:
    with pytest.raises(NotationError, match="not a note"):
        new_lines(FIELDS, Settings(), root, Wishes(first="H5"))


def test_what_is_no_pitch_is_shown_as_far_as_it_is_short(root: Path) -> None:
    for text in ("H", "twenty letters of it"):
        with pytest.raises(NotationError, match=f'"{text}" is not a pitch'):
            _midi(text, None)
    with pytest.raises(NotationError, match='"twenty letters of it" is not'):
        _midi("twenty letters of it and more", None)
    assert (_midi("", 60), _midi("Bb3", 60)) == (60, 58)  # the octave changes at C (ISO 16 has A4)


def test_a_plain_folder_is_read_by_its_files_names(tmp_path: Path) -> None:
    with pytest.raises(ReadError, match="holds no phrases"):
        phrases_in(tmp_path)
    for name, title in (("02", "Second"), ("01", "First"), (".03", "Hidden")):
        text = f'title = "{title}"\nchanges = "C"\nline = "1/1 c4"\n'
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    (tmp_path / "04.txt").write_text("no phrase", encoding="utf-8")
    assert [one.title for one in phrases_in(tmp_path)] == ["First", "Second"]
    assert [one.title for one in phrases_in(tmp_path / "02.toml")] == ["Second"]


def test_variants_say_what_was_done_and_can_be_read() -> None:
    found = variants(FIELDS, Settings()).found
    assert {one.title.partition(", ")[2] for one in found} >= {"thin", "shift", "invert"}
    for one in found:
        assert midi(dict(one.fields))
        assert one.said.endswith(".")


def test_a_line_over_other_chords_by_their_name() -> None:
    (one,) = variants(FIELDS, Settings(), "ii-V-I in F").found
    assert str(one.fields["changes"]).startswith("Gm7")
    with pytest.raises(ReadError):
        variants(FIELDS, Settings(), "Xm7")
