"""A round trip a mistake: read and printed in the normal form, or refused with its mend. Common practice."""

from __future__ import annotations

import pytest

from phrase.slips import ACCEPTED, CHANGES, KEYS, SAID
from shedbook.book.ground.toml_files import read_toml
from shedbook.errors import ManuscriptError, ReadError
from shedbook.phrase.changes_text import parse_changes, print_changes
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields, read_key
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.other_ways import meant, meant_chord
from shedbook.theory.metre import Metre

FOUR = Metre()


def reprinted(line: str) -> str:
    return print_line(parse_line(line, FOUR))


def said(error: ReadError) -> str:
    return f"{error.message} {error.hint}"


def test_the_list_is_long_enough() -> None:
    assert len(ACCEPTED) + len(SAID) + len(CHANGES) + len(KEYS) + 3 >= 93


@pytest.mark.parametrize(
    ("line", "typed", "normal"), [row[1:] for row in ACCEPTED], ids=[row[0] for row in ACCEPTED]
)
def test_one_meaning_is_accepted(line: str, typed: str, normal: str) -> None:
    assert reprinted(line.format(typed)) == normal
    assert reprinted(normal) == normal


@pytest.mark.parametrize(
    ("line", "typed", "words", "mended"), [row[1:] for row in SAID], ids=[row[0] for row in SAID]
)
def test_what_was_meant_is_said(line: str, typed: str, words: tuple[str, ...], mended: str) -> None:
    with pytest.raises(ReadError) as caught:
        parse_line(line.format(typed), FOUR)
    text = said(caught.value)
    assert all(word in text for word in words), text
    assert "A note is a letter a to g" not in text
    assert reprinted(mended) == mended


@pytest.mark.parametrize(
    ("typed", "words", "mended"), [row[1:] for row in CHANGES], ids=[row[0] for row in CHANGES]
)
def test_what_was_meant_is_said_of_changes(typed: str, words: tuple[str, ...], mended: str) -> None:
    with pytest.raises(ReadError) as caught:
        parse_changes(typed, FOUR)
    text = said(caught.value)
    assert all(word in text for word in words), text
    again = parse_changes(mended, FOUR)
    assert print_changes(again.changes, again.bars, FOUR) == mended


@pytest.mark.parametrize(("typed", "key"), [row[1:] for row in KEYS], ids=[row[0] for row in KEYS])
def test_keys(typed: str, key: str) -> None:
    assert str(read_key(typed)) == key
    assert read_key(key) == read_key(typed)


def test_a_missing_bar_line_is_found() -> None:
    with pytest.raises(ReadError) as caught:
        parse_line("1/4 c5 d e f g a b c6", FOUR)
    assert 'a bar line is missing: write "|" before "g"' in said(caught.value)
    assert caught.value.place is not None
    assert reprinted("1/4 c5 d e f | g5 a b c6") == "1/4 c5 d e f | g5 a b c6"


@pytest.mark.parametrize("line", ["key = “C minor”", "title = ‘Low tide’"])
def test_curly_quotes_are_named(line: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        read_toml(f"tempo = 120\n{line}\n", "01.toml")
    text = said(caught.value)
    straight = line.translate(str.maketrans("“”‘’", '""""'))
    assert "curly" in text
    assert straight in text
    assert read_toml(straight, "01.toml")


@pytest.mark.parametrize(("typed", "length"), [("¼", "1/4"), ("♪", "1/8"), ("½", "1/2")])
def test_a_pick_up_may_have_the_same_signs(typed: str, length: str) -> None:
    fields = {"changes": "C6", "line": f"{length} c5 | 1/1 c5", "pickup": typed}
    assert fields_from_phrase(phrase_from_fields(fields))["pickup"] == length


@pytest.mark.parametrize("word", ["b" * 5000 + "z", "c" * 5000 + "!", "1" * 5000, "F" + "#" * 5000])
def test_a_long_word_is_refused_at_once(word: str) -> None:
    with pytest.raises(ReadError):
        parse_line(f"1/4 {word}", FOUR)


@pytest.mark.parametrize(
    ("word", "hint"),
    [
        ("bc5", 'comes after it: "cb5"'),
        ("#c", 'comes after it: "c#"'),
        ("bc", 'divides them: "b c"'),
        ("C13", ""),
    ],
)
def test_what_a_word_meant(word: str, hint: str) -> None:
    found = meant(word)
    assert (found is None) == (hint == "")
    assert found is None or hint in found.hint


@pytest.mark.parametrize(
    ("symbol", "message", "hint"),
    [
        ("C,", '"C," ends with ",".', 'write "C".'), ("Dm7;", '"Dm7;" ends with ";".', 'write "Dm7".'),
        ("C–G7", '"C–G7" runs chords together.', 'divides them: "C G7".'), ("C-Hq", "", ""),
    ],
)  # fmt: skip
def test_what_a_symbol_meant(symbol: str, message: str, hint: str) -> None:
    found = meant_chord(symbol)
    assert (found is None) == (message == "")
    assert found is None or (message in found.message and hint in found.hint)
