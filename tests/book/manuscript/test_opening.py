from __future__ import annotations

import os
import pickle
from collections.abc import Sequence
from pathlib import Path

import pytest

from shedbook.book.ground.toml_files import LARGEST_BYTES
from shedbook.book.ground.writing import put
from shedbook.book.manuscript import opening
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.errors import ManuscriptError, ReadError
from shedbook.phrase.model import Phrase

LINE = '"1/4 f4 ab c5 eb | d f ab g"'
PHRASE = f'title = "Low tide"\nchanges = "Dm7b5 | G7b9"\nline = {LINE}\n'


def several(*titles: str) -> str:
    """Return a file of several phrases."""
    return "\n".join("[[phrase]]\n" + PHRASE.replace("Low tide", title) for title in titles)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A manuscript of three phrases in two files."""
    root = tmp_path / "my-book"
    (root / "phrases").mkdir(parents=True)
    (root / "manuscript.toml").write_text('title = "Tides"\ntempo = 90\nfeel = "ballad"\n')
    (root / "phrases/01-first.toml").write_text(several("One", "Two"))
    (root / "phrases/02-second.toml").write_text(PHRASE.replace("Low tide", "Three") + "tempo = 200\n")
    return root


def titles(path: Path) -> list[tuple[int, str]]:
    return [(source.number, source.title) for source in open_manuscript(path).phrases]


def read_all(sources: Sequence[PhraseSource]) -> list[Phrase]:
    return [read_phrase(source) for source in sources]


# What is opened


def test_phrases_in_order_of_file_names_then_places(book: Path) -> None:
    assert titles(book) == [(1, "One"), (2, "Two"), (3, "Three")]
    assert open_manuscript(book).title == "Tides"
    assert [source.index for source in open_manuscript(book).phrases] == [0, 1, 0]


def test_manuscript_toml_opens_the_whole(book: Path) -> None:
    assert titles(book / "manuscript.toml") == titles(book)


def test_the_list_of_phrases_is_the_order_and_the_whole(book: Path) -> None:
    (book / "phrases/03-third.toml").write_text(PHRASE)
    (book / "else.toml").write_text(PHRASE.replace("Low tide", "Four"))
    (book / "manuscript.toml").write_text(
        'phrases = ["else.toml", "phrases/02-second.toml", "01-first.toml"]'
    )
    assert titles(book) == [(1, "Four"), (2, "Three"), (3, "One"), (4, "Two")]


def test_a_list_that_changes_while_the_book_is_read_is_read_again(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another window takes the last phrase away between the list and its files; nothing is missing."""
    settings = book / "manuscript.toml"
    names = sorted(path.name for path in (book / "phrases").glob("*.toml"))
    text = settings.read_text()
    settings.write_text(f"phrases = {names}\n{text}".replace("'", '"'))
    listed_files = opening._listed_files

    def meanwhile(root: Path, listed: Sequence[str]) -> tuple[str, ...]:
        if len(listed) == len(names) > 1:
            put(settings, f"phrases = {names[:-1]}\n{text}".replace("'", '"').encode(), book)
            (book / "phrases" / names[-1]).unlink()
        return listed_files(root, listed)

    monkeypatch.setattr(opening, "_listed_files", meanwhile)
    assert {one.file for one in open_manuscript(book).phrases} == {f"phrases/{name}" for name in names[:-1]}


def test_other_files_among_the_phrases_are_not_read(book: Path) -> None:
    for name in ("notes.txt", ".hidden.toml", "01-first.toml~"):
        (book / "phrases" / name).write_bytes(b"\xff\x00")
    assert len(titles(book)) == 3


def test_a_file_of_a_manuscript_is_read_with_its_settings_and_numbers(book: Path) -> None:
    found = open_manuscript(book / "phrases/02-second.toml")
    assert [(source.number, source.title) for source in found.phrases] == [(3, "Three")]
    assert found.settings.title == "Tides"
    phrase = read_phrase(found.phrases[0])
    assert (phrase.tempo_bpm, phrase.feel) == (200, "ballad")


def test_a_file_of_a_manuscript_is_read_though_another_is_broken(book: Path) -> None:
    (book / "phrases/01-first.toml").write_text("title = ")
    assert titles(book / "phrases/02-second.toml") == [(2, "Three")]
    with pytest.raises(ManuscriptError, match="This is not TOML"):
        open_manuscript(book / "phrases/01-first.toml")


def test_a_listed_file_elsewhere_belongs_to_its_manuscript(book: Path) -> None:
    (book / "more").mkdir()
    (book / "more/a.toml").write_text(PHRASE)
    (book / "more/b.toml").write_text(PHRASE)
    (book / "manuscript.toml").write_text('title = "Tides"\nphrases = ["01-first.toml", "more/a.toml"]')
    assert open_manuscript(book / "more/a.toml").settings.title == "Tides"
    assert titles(book / "more/a.toml") == [(3, "Low tide")]
    assert open_manuscript(book / "more/b.toml").title == "b"  # neither in phrases/ nor listed


def test_an_unlisted_file_in_the_folder_of_phrases_belongs_to_its_manuscript(book: Path) -> None:
    (book / "manuscript.toml").write_text('title = "Tides"\nphrases = ["01-first.toml"]')
    found = open_manuscript(book / "phrases/02-second.toml")
    assert (found.title, found.phrases[0].number) == ("Tides", 1)


def test_a_file_outside_a_manuscript_stands_alone(tmp_path: Path) -> None:
    path = tmp_path / "tide.toml"
    path.write_text(PHRASE)
    found = open_manuscript(path)
    assert (found.title, [source.title for source in found.phrases]) == ("tide", ["Low tide"])
    assert read_phrase(found.phrases[0]).tempo_bpm == 120


def test_the_books_defaults_are_among_the_fields(book: Path) -> None:
    first, _, third = open_manuscript(book).phrases
    assert (first.fields["tempo"], first.fields["feel"]) == (90, "ballad")
    assert third.fields["tempo"] == 200
    assert read_phrase(first).tempo_bpm == 90


def test_a_phrase_without_a_title_is_called_by_its_number(book: Path) -> None:
    (book / "phrases/02-second.toml").write_text(PHRASE.replace('"Low tide"', '""'))
    source = open_manuscript(book).phrases[2]
    assert source.title == read_phrase(source).title == "Phrase 3"


def test_a_source_can_be_sent_to_another_process(book: Path) -> None:
    source = open_manuscript(book).phrases[1]
    assert read_phrase(pickle.loads(pickle.dumps(source))) == read_phrase(source)


def test_byte_order_mark_and_line_ends_of_other_systems(book: Path) -> None:
    path = book / "phrases/02-second.toml"
    path.write_bytes(b"\xef\xbb\xbf" + PHRASE.replace("\n", "\r\n").encode().replace(b"ab g", b"ab h"))
    with pytest.raises(ReadError) as caught:
        read_phrase(open_manuscript(book).phrases[2])
    place = caught.value.place
    assert place is not None
    assert (place.line, place.column, place.excerpt) == (3, 34, f"line = {LINE}".replace("ab g", "ab h"))


# What cannot be opened

# content of phrases/02-second.toml, line, part of the message, part of the hint
FILE_ERRORS = [
    pytest.param(b"", None, "holds no phrase", "title =", id="empty file"),
    pytest.param(b"title = \n", 1, "This is not TOML: invalid value", "quotes", id="no value"),
    pytest.param(
        b'title = "a\nline = 3', 1, "not closed by its quotation mark", "quotes", id="open quotation"
    ),
    pytest.param(
        b'title = "a"\nline = """\n1/4 c5', 3, "not closed by its quotation mark", "", id="open at the end"
    ),
    pytest.param(
        b'title = "a"\ntitle = "b"', 2, "This is not TOML: cannot overwrite a value", "", id="key twice"
    ),
    pytest.param(b"a = " + b"[" * 50_000, None, "nests too deeply", "lists", id="nested without end"),
    pytest.param(b"tempo = " + b"9" * 5_000, None, "a number that is too long", "", id="endless number"),
    pytest.param(b"PK\x03\x04\x00\x00", 1, "is not text", "UTF-8", id="binary"),
    pytest.param("title".encode("utf-16"), None, "is written in UTF-16", "UTF-8", id="UTF-16"),
    pytest.param(b'a = 1\nb = "\xe9"', 2, "is not UTF-8: byte 12 (0xe9), on line 2", "UTF-8", id="Latin-1"),
    pytest.param(b"#" * (LARGEST_BYTES + 1), None, "at most 1 million are read", "Divide", id="too long"),
    pytest.param(
        b"phrase = 3", 1, '"phrase" is not a list of phrases', "[[phrase]]", id="phrase is a number"
    ),
    pytest.param(
        b"phrase = []", 1, '"phrase" is not a list of phrases', "[[phrase]]", id="no phrases in the list"
    ),
    pytest.param(
        b"# x\n[phrase]\n", 2, '"phrase" is not a list of phrases', "[[phrase]]", id="single brackets"
    ),
    pytest.param(
        b'title = "a"\n[[phrase]]\n', 1, '"title" stands before the first', "[[phrase]]", id="key before"
    ),
]


@pytest.mark.parametrize(("content", "line", "message", "hint"), FILE_ERRORS)
def test_file_that_cannot_be_read(
    book: Path, content: bytes, line: int | None, message: str, hint: str
) -> None:
    (book / "phrases/02-second.toml").write_bytes(content)
    with pytest.raises(ManuscriptError) as caught:
        open_manuscript(book)
    error = caught.value
    assert message in error.message
    assert hint in error.hint
    assert error.place is not None
    assert (error.place.file, error.place.line) == ("phrases/02-second.toml", line)
    kept = open_manuscript(book, keep_going=True)
    assert [source.title for source in kept.phrases] == ["One", "Two"]
    assert [str(unread) for unread in kept.unread] == [error.message]


def test_a_long_file_is_refused_without_being_read(book: Path) -> None:
    with (book / "phrases/02-second.toml").open("wb") as file:
        file.truncate(10**12)  # no memory holds it
    with pytest.raises(ManuscriptError, match="at most 1 million are read"):
        open_manuscript(book)


def _folder(book: Path) -> None:
    (book / "phrases/03.toml").mkdir()


def _link_outside(book: Path) -> None:
    (book.parent / "outside.toml").write_text(PHRASE)
    (book / "phrases/03.toml").symlink_to(book.parent / "outside.toml")


def _folder_outside(book: Path) -> None:
    (book / "phrases").rename(book.parent / "phrases")
    (book / "phrases").symlink_to(book.parent / "phrases")


def _link_to_itself(book: Path) -> None:
    (book / "phrases/03.toml").symlink_to("03.toml")


def _pipe(book: Path) -> None:
    os.mkfifo(book / "phrases/03.toml")


def _no_manuscript(book: Path) -> None:
    (book / "manuscript.toml").unlink()


def _no_phrases(book: Path) -> None:
    for path in (book / "phrases").iterdir():
        path.unlink()


def _no_folder_of_phrases(book: Path) -> None:
    _no_phrases(book)
    (book / "phrases").rmdir()


def _phrases_is_a_file(book: Path) -> None:
    _no_folder_of_phrases(book)
    (book / "phrases").write_text("")


FOLDER_ERRORS = [
    pytest.param(_folder, "phrases/03.toml", "is a folder", "text file", id="folder for a file"),
    pytest.param(
        _link_outside, "phrases/03.toml", "leads out of the manuscript folder", "itself", id="link outside"
    ),
    pytest.param(
        _folder_outside, "phrases", "leads out of the manuscript folder", "itself", id="folder outside"
    ),
    pytest.param(_link_to_itself, "phrases/03.toml", "", "", id="link to itself"),
    pytest.param(_pipe, "phrases/03.toml", "not a file that can be read", "", id="pipe"),
    pytest.param(
        _no_manuscript, "manuscript.toml", "holds no manuscript.toml", "shedbook new", id="no settings"
    ),
    pytest.param(_no_phrases, "manuscript.toml", "This book has no phrases", "phrases/01", id="empty folder"),
    pytest.param(_no_folder_of_phrases, "manuscript.toml", "has no phrases", "phrases/01", id="no folder"),
    pytest.param(_phrases_is_a_file, "phrases", "cannot be read", "", id="file for a folder"),
]


@pytest.mark.parametrize(("spoil", "file", "message", "hint"), FOLDER_ERRORS)
def test_folder_that_cannot_be_read(book: Path, spoil: object, file: str, message: str, hint: str) -> None:
    assert callable(spoil)
    spoil(book)
    with pytest.raises(ManuscriptError) as caught:
        open_manuscript(book)
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert caught.value.place is not None
    assert caught.value.place.file == file


@pytest.mark.parametrize("name", ["nowhere", "no/where.toml", "a\0b", "x" * 5000])
def test_what_does_not_exist(tmp_path: Path, name: str) -> None:
    with pytest.raises(ManuscriptError, match="There is no file or folder"):
        open_manuscript(tmp_path / name)


def test_two_phrases_with_one_id(book: Path) -> None:
    (book / "phrases/01-first.toml").write_text(several("One", "Two").replace("line", 'id = "tide"\nline', 1))
    (book / "phrases/02-second.toml").write_text(PHRASE + 'id = "tide"\n')
    with pytest.raises(ManuscriptError, match=r'The id "tide" is that of "One"') as caught:
        open_manuscript(book)
    assert str(caught.value.place) == "phrases/02-second.toml:4:6"
    assert len(open_manuscript(book, keep_going=True).phrases) == 3


# A phrase that cannot be read: what is written, the place, what is underlined

PHRASE_ERRORS = [
    pytest.param(PHRASE.replace("ab g", "ab h"), "3:34  bar 2, beat 4", "h", id="note in a short text"),
    pytest.param(
        PHRASE.replace(LINE, '"""\n\n1/4 f4 ab c5 eb |\n\td f ab h"""'),
        "6:9  bar 2, beat 4",
        "h",
        id="note in a long text",
    ),
    pytest.param(
        PHRASE.replace(LINE, "'''1/4 f4 ab\nc5 eb | d f ab h'''"),
        "4:16  bar 2, beat 4",
        "h",
        id="note in a literal text",
    ),
    pytest.param(
        PHRASE.replace(LINE, r'"1/4 f4 \u0061b c5 eb | d\tf ab h"'),
        "3:40  bar 2, beat 4",
        "h",
        id="after escapes",
    ),
    pytest.param(
        PHRASE.replace(LINE, '"""\\\n   1/4 f4 ab c5 \\\n  eb | d f ab h"""'),
        "5:15  bar 2, beat 4",
        "h",
        id="after line ends that say nothing",
    ),
    pytest.param(PHRASE.replace("G7b9", "Hm7"), "2:20  bar 2", "H", id="chord symbol"),
    pytest.param(PHRASE + 'scales = "locrian | altred"', "4:21  bar 2, beat 1", "altred", id="scale"),
    pytest.param(PHRASE + "tempo = 12 # slow", "4:9", "12", id="number"),
    pytest.param(PHRASE + 'lien = "x"', "4:1", "lien", id="unknown key"),
    pytest.param(PHRASE + '"lien" = "x"', "4:1", '"lien"', id="unknown key in quotes"),
    pytest.param(PHRASE + "silence = { a = 1 }", "4:11", "{ a = 1 }", id="inline table"),
    pytest.param(PHRASE + "silence.a = 1", "4:13", "1", id="dotted key"),
    pytest.param(PHRASE + "[silence]\na = 1", "4:1", "[silence]", id="table"),
    pytest.param('title = "a"\n', "1:1", "t", id="missing key"),
    pytest.param(
        'title = "a"\nchanges = """\nDm7 |\nG7 | C"""\nline = ' + LINE, "4:6  bar 3", "C", id="more bars"
    ),
    pytest.param(
        "[[phrase]]\n" + PHRASE + "\n[[phrase]]\n" + PHRASE.replace("G7b9", "Hm7"),
        "8:20  bar 2",
        "H",
        id="second of a file",
    ),
    pytest.param(
        "[[phrase]]\n" + PHRASE + '\n[[phrase]]\ntitle = "b"', "6:1", "[[phrase]]", id="second lacks a key"
    ),
    pytest.param(
        "[[phrase]]\n" + PHRASE + "\n[[phrase]] # b\n" + PHRASE + "[phrase.silence]\na = 1\n",
        "10:1",
        "[phrase.silence]",
        id="table of the second",
    ),
    pytest.param('phrase = [{title = "a"}]', "1:1", "phrase", id="phrases in a list"),
]


@pytest.mark.parametrize(("content", "place", "meant"), PHRASE_ERRORS)
def test_place_of_an_error(book: Path, content: str, place: str, meant: str) -> None:
    (book / "phrases/02-second.toml").write_text(content)
    found = open_manuscript(book).phrases[2:]
    with pytest.raises(ReadError) as caught:
        read_all(found)
    where = caught.value.place
    assert where is not None
    assert where.column is not None
    assert str(where) == f"phrases/02-second.toml:{place}"
    assert where.excerpt[where.column - 1 : where.column - 1 + where.width] == meant
    assert where.phrase == found[-1].title
    text, mark = where.picture().split("\n")
    assert text[mark.index("^") : mark.rindex("^") + 1] == meant


def test_an_error_looks_as_designed(book: Path) -> None:
    # The picture of an error in the house style.
    text = 'title = "Low tide"\nchanges = "Dm7b5 | G7b9"\n\nscales = "|"\nline = """\n\n'
    line = "1/8 d5 f ab c6 bb5 ab g f | d f ab c6 bb5 h5 ab g"
    (book / "phrases/02-second.toml").write_text(f'{text}{line}\n"""\n')
    with pytest.raises(ReadError) as caught:
        read_phrase(open_manuscript(book).phrases[2])
    assert caught.value.place is not None
    assert str(caught.value.place) == "phrases/02-second.toml:7:43  bar 2, beat 3½"
    assert caught.value.place.picture() == f"    {line}\n    {' ' * 42}^^"
    assert caught.value.message == '"h5" is a note by its German name.'


def test_a_file_that_went_away(book: Path) -> None:
    path = book / "phrases/02-second.toml"
    path.write_text(PHRASE.replace("G7b9", "Hm7"))
    source = open_manuscript(book).phrases[2]
    path.unlink()
    with pytest.raises(ManuscriptError, match="does not exist"):
        read_phrase(source)
