"""Nothing of a score is lost without a word: voices, changes inside a phrase, grace notes, words, marks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exchange.scores import FOUR_FOUR, chords, harmony, line, note, read, remarks, score
from shedbook.errors import ReadError
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.exchange.musicxml.writer import musicxml

REST = note("-", 8, after="<voice>1</voice>")
BACK = "<backup><duration>8</duration></backup>"
SECOND = note("E4", 8, after="<voice>2</voice>")
TOP = note("C5", 8, after="<voice>1</voice>")
HIDDEN = '<note print-object="no">'
LOW_STAFF = note("C3", 8, after="<voice>5</voice><staff>2</staff>")
WHOLE = note("C4")


def words(text: str) -> str:
    return f"<direction><direction-type><words>{text}</words></direction-type></direction>"


def metronome(per_minute: str, sound: str = "") -> str:
    mark = f"<metronome><beat-unit>quarter</beat-unit><per-minute>{per_minute}</per-minute></metronome>"
    return f"<direction><direction-type>{mark}</direction-type>{sound}</direction>"


def key(fifths: int, mode: str = "") -> str:
    said = f"<mode>{mode}</mode>" if mode else ""
    return f"<attributes><key><fifths>{fifths}</fifths>{said}</key></attributes>"


def grace(name: str) -> str:
    return note(name, inside="<grace/>").replace("<duration>8</duration>", "")


# Voices

VOICES = [
    ("another voice where the first rests", TOP + BACK + SECOND, REST + BACK + SECOND, "1/1 c5 | e4",
     ["of several voices the first that sounds is kept (bar 1).",
      "where the first voice rests the line goes on in another (bar 2)."]),
    ("another staff", TOP + BACK + LOW_STAFF, REST + BACK + LOW_STAFF, "1/1 c5 | -",
     ["of several staves the first is kept (bars 1, 2)."]),
    ("hidden notes in another voice", TOP, REST + BACK + SECOND.replace("<note>", HIDDEN), "1/1 c5 | -",
     ["hidden notes of another voice are left out (bar 2)."]),
    ("rests alone", REST + BACK + note("-", 8, after="<voice>2</voice>"), TOP, "1/1 - | c5", []),
]  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second", "text", "said"), [row[1:] for row in VOICES], ids=[row[0] for row in VOICES]
)
def test_voices(first: str, second: str, text: str, said: list[str]) -> None:
    imported = read(harmony("C", "dominant") + first, second)
    assert line(imported) == text
    assert remarks(imported) == said


# What holds


def test_a_later_metronome_mark_sets_the_tempo_of_what_follows() -> None:
    imported = read(
        harmony("C", "dominant") + metronome("120") + WHOLE
        + '<barline location="right"><bar-style>light-light</bar-style></barline>',
        metronome("200") + WHOLE,
    )  # fmt: skip
    assert [phrase.tempo_bpm for phrase in imported.phrases] == [120, 200]
    assert not remarks(imported)


def test_the_order_for_the_player_counts_before_the_mark_of_its_direction() -> None:
    imported = read(harmony("C", "dominant") + metronome("120", '<sound tempo="126"/>') + WHOLE)
    assert imported.phrases[0].tempo_bpm == 126


CHANGES_INSIDE = [
    ("tempo", metronome("220"), "a change of tempo, to 220 quarter notes a minute, is left out (bar 2)."),
    ("feel", words("Straight"), 'a change of feel, to "straight", is left out (bar 2).'),
    ("key", key(3), "a change of key signature, to 3 sharps, is left out (bar 2)."),
]  # fmt: skip


@pytest.mark.parametrize(
    ("more", "said"), [row[1:] for row in CHANGES_INSIDE], ids=[row[0] for row in CHANGES_INSIDE]
)
def test_a_change_inside_a_phrase_is_named_once(more: str, said: str) -> None:
    imported = read(harmony("C", "dominant") + metronome("120") + words("Swing") + WHOLE, more + WHOLE, WHOLE)
    assert remarks(imported) == [said]
    assert (imported.phrases[0].tempo_bpm, imported.phrases[0].feel) == (120, "swing")


@pytest.mark.parametrize(
    ("inside", "said"),
    [
        ('<sound tempo="4000"/>', "a tempo of 4000 quarter notes a minute is left out (bar 1)."),
        (metronome("fast"), "metronome marks that say no tempo are left out (bar 1)."),
        (key(0, "dorian"),
         'the mode "dorian" is left out, and its signature read as that of a major key (bar 1).'),
        (words("B"), 'the words "B" are left out (bar 1).'),
    ],
)  # fmt: skip
def test_what_decides_nothing_is_named(inside: str, said: str) -> None:
    assert said in remarks(read(inside + WHOLE))


def test_rehearsal_marks_that_divide_nothing_are_named() -> None:
    mark = "<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>"
    imported = read(harmony("C", "dominant") + mark + WHOLE, WHOLE, split=())
    assert remarks(imported) == ['the rehearsal mark "A" is left out (bar 1).']


def test_what_stands_round_the_music_is_named_but_not_in_our_own_files() -> None:
    head = (
        "<work><work-title>Suite</work-title></work><movement-title>Drift</movement-title>"
        '<identification><creator type="composer">A. Nobody</creator><rights>Free</rights></identification>'
        "<credit><credit-type>subtitle</credit-type><credit-words>a study</credit-words></credit>"
    )
    imported = read(harmony("C", "dominant") + WHOLE, head=head)
    assert remarks(imported) == [
        'the title "Suite" is left out.',
        'the composer "A. Nobody" is left out.',
        'the line of rights "Free" is left out.',
        'the subtitle "a study" is left out.',
    ]
    phrase = replace(imported.phrases[0], title="Drift")
    own = musicxml(phrase, book="Suite", author="A. Nobody", rights="Free")
    assert not remarks(read_musicxml(own.encode(), "own.musicxml"))


# Notes


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (note("C4", 6) + note("D4", 2) + grace("E4"), WHOLE),
        (grace("E4") + note("-", 4) + note("C4", 4), WHOLE),
        (WHOLE, WHOLE + grace("E4")),
    ],
    ids=["at the end of a bar", "before a rest", "at the end of the part"],
)
def test_grace_notes_that_lead_to_no_note(first: str, second: str) -> None:
    imported = read(harmony("C", "dominant") + first, second)
    bar = "2" if first == WHOLE else "1"
    assert remarks(imported) == [f"grace notes that lead to no note are left out (bar {bar})."]
    assert all(not event.grace for bar in imported.phrases[0].bars for event in bar.events)


def test_a_slash_is_silence() -> None:
    slash = note("B4", 2, after="<notehead>slash</notehead>")
    imported = read(harmony("C", "dominant") + 4 * slash)
    assert line(imported) == "1/4 - - - -"
    assert remarks(imported) == ["slashes say no notes: their bars are silent (bar 1)."]


def test_hidden_notes_are_named() -> None:
    hidden = note("B4", 4).replace("<note>", HIDDEN)
    imported = read(harmony("C", "dominant") + note("C5", 4) + hidden)
    assert line(imported) == "1/2 c5 b4"
    assert remarks(imported) == ["hidden notes are read like those that are seen (bar 1)."]


def test_a_tie_inside_a_bar_that_leads_to_another_pitch() -> None:
    tied = '<tie type="start"/>'
    imported = read(harmony("C", "dominant") + note("C4", 4, after=tied) + note("D4", 4), WHOLE)
    assert remarks(imported) == ["ties that lead to no note of their pitch are left out (bar 1)."]


def test_slurs_with_one_end_say_where() -> None:
    slur = '<notations><slur type="start" number="1"/></notations>'
    imported = read(harmony("C", "dominant") + WHOLE, note("C4", 8, after=slur))
    assert remarks(imported) == ["slurs with one end only are left out (bar 2)."]


def test_sixty_fourths_are_named() -> None:
    first = FOUR_FOUR.replace("<divisions>2</divisions>", "<divisions>16</divisions>")
    short = note("C5", 1, after="<type>64th</type>") * 2 + note("D5", 62)
    imported = read(harmony("C", "dominant") + short, first=first)
    assert line(imported).startswith("1/32(2:1) c5 c")
    assert remarks(imported) == [
        "64th notes are written as tuplets: a thirty-second is the shortest plain value (bar 1)."
    ]


# Changes


def test_a_chord_that_is_carried_over_is_a_chord_symbol() -> None:
    double = '<barline location="right"><bar-style>light-light</bar-style></barline>'
    imported = read(harmony("C", "dominant") + WHOLE + double, WHOLE)
    assert chords(imported, 1) == "C7"
    assert not remarks(imported)


def test_the_authors_changes_begin_anew_at_each_phrase() -> None:
    double = '<barline location="right"><bar-style>light-light</bar-style></barline>'
    imported = read(WHOLE, WHOLE, WHOLE + double, WHOLE, changes="Dm7 | G7")
    assert [chords(imported, at) for at in (0, 1)] == ["Dm7 | G7 | Dm7", "Dm7"]
    assert remarks(imported) == [
        "the line goes over 3 bars: the 2 of the changes are repeated (bar 1).",
        "the changes are 2 bars long, the line 1: the rest of them is cut off (bar 4).",
    ]


# Form of file


def test_a_beat_of_ever_so_many_notes_is_not_repeated() -> None:
    style = '<attributes><measure-style><beat-repeat type="start"/></measure-style></attributes>'
    beat = note("C4", 0) * 200 + note("C4", 2)
    imported = read(beat + style + "<forward><duration>800</duration></forward>")
    assert "a sign repeats a beat that cannot be told: it is left silent (bar 1)." in remarks(imported)


def test_a_score_whose_root_names_a_namespace() -> None:
    data = score(harmony("C", "dominant") + WHOLE).replace(
        b"<score-partwise ", b'<score-partwise xmlns="http://example.org/scores" '
    )
    assert line(read_musicxml(data, "ns.musicxml")) == "1/1 c4"


def test_a_prefix_of_a_namespace_is_named() -> None:
    with pytest.raises(ReadError, match="<score-partwise> in a namespace of its own"):
        read_musicxml(b'<m:score-partwise xmlns:m="http://example.org/scores"/>', "ns.musicxml")


HUGE = ("<forward><duration>999999996</duration></forward>", note("C4", 999_999_996))


@pytest.mark.parametrize("huge", HUGE, ids=["forward", "note"])
def test_a_bar_longer_than_any_music(huge: str) -> None:
    style = '<attributes><measure-style><beat-repeat type="start"/></measure-style></attributes>'
    with pytest.raises(ReadError, match="a bar of more than 1000 quarter notes"):
        read(note("C4", 2) + style + huge)


def test_tempo_and_feel_that_the_file_does_not_give_are_said_to_be_assumed() -> None:
    said = [str(remark) for remark in read(harmony("C", "dominant") + note("C4")).report.remarks]
    assert "the file gives no tempo: 120 is assumed." in said
    assert 'the file gives no feel: "swing" is assumed.' in said


def test_a_bar_whose_lengths_no_value_makes_is_rounded_and_its_phrase_kept() -> None:
    # Three notes of 59/672, 277/672 and 1008/672 of a quarter are no written values; 2/4 in all.
    def odd(name: str, length: int) -> str:
        return (
            f"<note><pitch><step>{name}</step><octave>4</octave></pitch><duration>{length}</duration></note>"
        )

    metre = "<time><beats>2</beats><beat-type>4</beat-type></time>"
    head = f"<attributes><divisions>672</divisions>{metre}</attributes>"
    imported = read(head + odd("C", 59) + odd("D", 277) + odd("E", 1008))
    assert len(imported.pieces) == 1
    assert any("is rounded to twenty-fourths of a quarter (bar 1)" in one for one in remarks(imported))
