"""Phrases of one book in another: in step, pinned, and everything that can be wrong. The design's laws."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.verbs.build import build
from shedbook.book.verbs.edit import Desk, PhraseRef
from shedbook.book.verbs.share import COPY_ALONE, GONE_ON, IN_STEP, PINNED, follow, pin, shared_phrases
from shedbook.errors import ReadError, UnknownNameError

LINE = "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/2 eb4 1/4 c4 - | 1/1 c4"
LOW_TIDE = (
    f'# walking\ntitle = "Low tide"\nid = "low-tide"\nchanges = "Dm7b5 | G7b9 | Cm6 | %"\nline = "{LINE}"\n'
    'links = { hear = "https://example.org/tide" }\n'
)


@pytest.fixture
def river(tmp_path: Path) -> Path:
    """A book, beside the one that it takes a phrase from."""
    for name, files in {
        "harbour": {"01.toml": LOW_TIDE},
        "river": {
            "01.toml": 'title = "Own"\nchanges = "Cmaj7"\nline = "1/1 e5"\n',
            "02.toml": '# from next door\nfrom = "../harbour#low-tide"\ntempo = 90\n',
        },
    }.items():
        (tmp_path / name / "phrases").mkdir(parents=True)
        (tmp_path / name / "manuscript.toml").write_text(f'title = "{name}"\ntempo = 140\n')
        for file, text in files.items():
            (tmp_path / name / "phrases" / file).write_text(text)
    (tmp_path / "river" / "manuscript.toml").write_text('title = "river"\ntempo = 200\nkeys = "C"\n')
    return tmp_path / "river"


def edit(root: Path, old: str, new: str) -> None:
    path = root / "phrases" / "01.toml"
    path.write_text(path.read_text().replace(old, new))


def harbour(river: Path) -> Path:
    return river.parent / "harbour"


def taken(river: Path) -> str:
    return str(open_manuscript(river).phrases[1].fields["line"])


def test_a_phrase_is_read_from_its_own_book_and_own_keys_stand_in_their_place(river: Path) -> None:
    one, two = open_manuscript(river).phrases
    assert two.title == "Low tide"
    assert read_phrase(two).tempo_bpm == 90
    assert read_phrase(one).tempo_bpm == 200
    assert two.fields["line"] == LINE
    assert "id" not in two.fields


def test_without_an_own_key_the_defaults_are_those_of_its_own_book(river: Path) -> None:
    (river / "phrases" / "02.toml").write_text('from = "../harbour#low-tide"\n')
    assert read_phrase(open_manuscript(river).phrases[1]).tempo_bpm == 140


def test_in_step_it_follows_its_source_and_the_build_sees_it(river: Path) -> None:
    request = Request(river, river.parent / "out", editions=("concert",), tracks=("none",))
    assert build(request).jobs_run
    assert build(request).jobs_run == 0
    edit(harbour(river), "1/1 c4", "1/1 eb4")
    assert taken(river).endswith("1/1 eb4")
    assert build(request).jobs_run
    assert build(request).jobs_run == 0


def test_pinned_it_stays_as_it_was(river: Path) -> None:
    assert [one.state for one in shared_phrases(river)] == [IN_STEP]
    (found,) = pin(river)
    assert (found.state, found.number, found.reference) == (PINNED, 2, "../harbour#low-tide")
    text = (river / "phrases" / "02.toml").read_text()
    assert text.startswith("# from next door\nfrom = ")
    assert f'version = "{found.version}"' in text
    edit(harbour(river), "1/1 c4", "1/1 eb4")
    (gone_on,) = shared_phrases(river)
    assert (gone_on.state, gone_on.pinned) == (GONE_ON, found.version)
    assert taken(river) == LINE
    (harbour(river) / "manuscript.toml").unlink()
    assert [one.state for one in shared_phrases(river)] == [COPY_ALONE]
    assert taken(river) == LINE


def test_let_go_it_follows_again(river: Path) -> None:
    pin(river, ["2"])
    edit(harbour(river), "1/1 c4", "1/1 eb4")
    assert [one.state for one in follow(river)] == [IN_STEP]
    assert taken(river).endswith("1/1 eb4")
    assert (
        river / "phrases" / "02.toml"
    ).read_text() == '# from next door\nfrom = "../harbour#low-tide"\ntempo = 90\n'


def test_a_phrase_of_a_phrase_of_a_phrase(river: Path) -> None:
    (river / "phrases" / "02.toml").write_text('id = "again"\nfrom = "../harbour#low-tide"\ntempo = 90\n')
    delta = river.parent / "delta"
    (delta / "phrases").mkdir(parents=True)
    (delta / "manuscript.toml").write_text("")
    (delta / "phrases" / "01.toml").write_text('from = "../river#again"\n')
    (one,) = open_manuscript(delta).phrases
    assert (one.title, read_phrase(one).tempo_bpm) == ("Low tide", 90)
    assert one.taken is not None
    files = [path for path in one.taken.files if path.parent.name == "phrases"]
    assert [path.parts[-3] for path in files] == ["river", "harbour"]


@pytest.mark.parametrize(
    ("text", "message", "hint"),
    [
        ('from = "../lake#low-tide"', "There is no manuscript in ../lake.", "from ="),
        ('from = "../harbour#low-tied"', 'No phrase of ../harbour has the id "low-tied".', "low-tide"),
        ('from = "../harbour"', '"../harbour" names no phrase of another book.', "id of the phrase"),
        ("from = 3", '"from" and "version" are texts.', "from ="),
        (
            'from = "../harbour#low-tide"\nversion = "000000000000"',
            "no copy of version 000000000000",
            "in step",
        ),
        ('version = "000000000000"\nchanges = "C"\nline = "1/1 c4"', "version", ""),
    ],
)
def test_what_cannot_be_taken_is_told_at_its_place(river: Path, text: str, message: str, hint: str) -> None:
    (river / "phrases" / "02.toml").write_text(text + "\n")
    with pytest.raises(ReadError) as caught:
        read_phrase(open_manuscript(river).phrases[1])
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert caught.value.place is not None
    assert caught.value.place.file == "phrases/02.toml"


def test_a_circle_is_told(river: Path) -> None:
    (river / "phrases" / "02.toml").write_text('id = "round"\nfrom = "../harbour#low-tide"\n')
    (harbour(river) / "phrases" / "01.toml").write_text('id = "low-tide"\nfrom = "../river#round"\n')
    with pytest.raises(ReadError, match="in a circle"):
        open_manuscript(river)


def test_a_mistake_in_the_source_is_told_in_the_source(river: Path) -> None:
    edit(harbour(river), "1/8 f4", "1/8 h4")
    with pytest.raises(ReadError) as caught:
        read_phrase(open_manuscript(river).phrases[1])
    assert caught.value.place is not None
    assert caught.value.place.file == "../harbour/phrases/01.toml"
    assert (caught.value.place.line, caught.value.place.bar) == (5, 1)


def test_a_copy_that_somebody_changed_is_told(river: Path) -> None:
    (found,) = pin(river)
    edit(harbour(river), "1/1 c4", "1/1 eb4")
    copy = river / "shared" / f"low-tide-{found.version}.toml"
    copy.write_text(copy.read_text().replace("Dm7b5", "Dm7"))
    with pytest.raises(ReadError, match=f"no longer version {found.version}"):
        open_manuscript(river)


def test_only_shared_phrases_are_pinned(river: Path) -> None:
    with pytest.raises(ReadError, match="own phrase"):
        pin(river, ["1"])
    with pytest.raises(UnknownNameError):
        pin(river, ["7"])
    assert not (river / "shared").exists()


def test_on_the_desk_what_is_written_stands_in_this_book_only(river: Path) -> None:
    desk = Desk(river, river.parent / "desk-out")
    ref = PhraseRef("phrases/02.toml")
    assert desk.shared(ref) == "../harbour#low-tide"
    assert desk.fields(ref)["line"] == LINE
    assert "from" not in desk.fields(ref)
    saved = desk.save(ref, {"line": (LINE, LINE.replace("1/1 c4", "1/1 g4"))})
    assert not saved.conflicts
    assert taken(river).endswith("1/1 g4")
    assert (harbour(river) / "phrases" / "01.toml").read_text() == LOW_TIDE
    desk.undo()
    assert taken(river) == LINE
