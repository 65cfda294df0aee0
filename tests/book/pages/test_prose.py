"""Prose in runs: the author's markup, chord symbols, Roman numerals."""

from __future__ import annotations

import pytest

from shedbook.book.ground.words import EN, words_of
from shedbook.book.pages.prose import (
    BULLET,
    CHORD,
    EMPHASIS,
    LINK,
    NUMERAL,
    PLAIN,
    STRONG,
    Block,
    blocks_of,
    sentence_runs,
)


def looks(text: str) -> list[tuple[str, str]]:
    (block,) = blocks_of(text, EN, "en")
    return [(run.text, run.look) for run in block.runs]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # CommonMark 0.31: emphasis, strong emphasis, links, backslash escapes.
        ("plain words", [("plain words", PLAIN)]),
        ("*so* it is", [("so", EMPHASIS), (" it is", PLAIN)]),
        ("**so** it is", [("so", STRONG), (" it is", PLAIN)]),
        (r"no \*stars\*", [("no *stars*", PLAIN)]),
        ("2 * 3 * 4", [("2 * 3 * 4", PLAIN)]),
        ("[here](https://example.org/a)", [("here", LINK)]),
        ("<b>no HTML</b>", [("<b>no HTML</b>", PLAIN)]),
        ("# no heading", [("# no heading", PLAIN)]),
        ("over Ebm7b5 then", [("over ", PLAIN), ("E♭m7(♭5)", CHORD), (" then", PLAIN)]),
        ("a ii-V-I in *C*", [("a ", PLAIN), ("ii–V–I", NUMERAL), (" in ", PLAIN), ("C", EMPHASIS)]),
        ("I am; A and E flat", [("I am; A and E\u00a0flat", PLAIN)]),
    ],
)
def test_looks(text: str, found: list[tuple[str, str]]) -> None:
    assert looks(text) == found


def test_lists() -> None:
    ends = [("3.", "3. three"), ("4.", "4. four"), ("", "Last.")]
    found = blocks_of("First:\n\n- one\n- two\n\n3. three\n4. four\n\nLast.", EN, "en")
    assert [(block.mark, block.text) for block in found] == [
        ("", "First:"), (BULLET, "• one"), (BULLET, "• two"), *ends,
    ]  # fmt: skip


def test_lines_of_a_paragraph_are_joined() -> None:
    assert [block.text for block in blocks_of("one\ntwo *three*\nfour\n\nfive", EN, "en")] == [
        "one two three four",
        "five",
    ]
    assert blocks_of("  \n\n ", EN, "en") == ()


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("G7b9#11", ("G", "7", "♭9 ♯11", "")),
        ("Bbmaj7/D", ("B♭", "maj7", "", "D")),
        ("Co7", ("C", "°7", "", "")),
        ("C-7", ("C", "–7", "", "")),
        ("C/E", ("C", "", "", "E")),
        ("F#m7b5", ("F♯", "m7", "♭5", "")),
    ],
)
def test_a_chord_symbol_has_the_parts_that_stand_over_the_staff(text: str, parts: tuple[str, ...]) -> None:
    (run,) = sentence_runs(text, EN, "en")
    assert (run.look, run.parts) == (CHORD, parts)


def test_what_is_no_chord_is_left_alone() -> None:
    assert [run.look for run in sentence_runs("A, Add, Bad, G and Emma; Gm is one", EN, "en")] == [
        PLAIN,
        CHORD,
        PLAIN,
    ]
    assert Block(()).text == ""


@pytest.mark.parametrize(
    ("text", "language", "chords"),
    [
        # Words of the languages that look like chord symbols, and symbols with true signs (common practice).
        ("Go up over E♭7♯11 and C♯m7♭5, then D♭7/A♭", "en", ["E♭7(♯11)", "C♯m7(♭5)", "D♭7/A♭"]),
        ("Do you hear B♭? Ah.", "en", []),
        ("Am Ende steht Am, nicht Am7.", "de", ["Am", "Am7"]),
        ("Em cada acorde, sobre Em e Em7.", "pt", ["Em", "Em7"]),
        ("Am is one, Em too", "en", ["Am", "Em"]),
    ],
)
def test_words_are_told_from_chords(text: str, language: str, chords: list[str]) -> None:
    found = sentence_runs(text, words_of(language), language)
    assert [run.text for run in found if run.look == CHORD] == chords


def test_no_line_breaks_before_a_small_number_or_a_last_short_word() -> None:
    (run,) = sentence_runs("In bar 3 play the sharp 11 from 1960, 8 times, and hear it go", EN, "en")
    assert run.text == "In bar\u00a03 play the sharp\u00a011 from 1960, 8 times, and hear it\u00a0go"
