"""What MusicXML files say, read: notes, chords, forms of file, and the report of what is left out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exchange.scores import FOUR_FOUR, chords, harmony, line, note, read, remarks, score
from shedbook.errors import ReadError, UnknownNameError
from shedbook.exchange.ground.long_line import SPLITS
from shedbook.exchange.ground.mxl_container import packed
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

BAR = "".join(note(name, 2) for name in ("C4", "E4", "G4", "Bb4"))
PLAIN = score(BAR, note("C5"))

# Forms of file: each holds the same two bars.


def timewise(data: bytes) -> bytes:
    """Turn a one-part partwise score inside out."""
    text = data.decode().replace("score-partwise", "score-timewise")
    head, _, rest = text.partition('<part id="P1">')
    bars = rest.partition("</part></score-timewise>")[0]
    bars = bars.replace('<measure number="1">', '<measure number="1"><part id="P1">')
    bars = bars.replace('<measure number="2">', '<measure number="2"><part id="P1">')
    return f"{head}{bars.replace('</measure>', '</part></measure>')}</score-timewise>".encode()


def declared(encoding: str, *, bom: bytes = b"", codec: str = "") -> bytes:
    titled = PLAIN.decode().replace("<part-list>", "<movement-title>Über Fjörd</movement-title><part-list>")
    return bom + f'<?xml version="1.0" encoding="{encoding}"?>{titled}'.encode(codec or encoding)


FORMS = {
    "partwise": PLAIN,
    "timewise": timewise(PLAIN),
    "version 1.0": PLAIN.replace(b' version="4.0"', b""),
    "version 3.1": PLAIN.replace(b'"4.0"', b'"3.1"'),
    "compressed": packed(PLAIN),
    "compressed, without an index": packed(PLAIN).replace(
        b"META-INF/container.xml", b"META-INF/something.xml"
    ),
    "UTF-8 with a mark": b"\xef\xbb\xbf" + PLAIN,
    "UTF-16": declared("UTF-16"),
    "UTF-16 under another name": declared("UCS-2", codec="utf-16-le", bom=b"\xff\xfe"),
    "Latin-1": declared("ISO-8859-1"),
    "Latin-9": declared("iso-8859-15"),
    "Windows": declared("windows-1252"),
    "Mac": declared("macintosh", codec="mac-roman"),
    "Japanese": PLAIN.replace(b"<score", b'<?xml version="1.0" encoding="shift_jis"?><score', 1),
}


@pytest.mark.parametrize("data", FORMS.values(), ids=FORMS)
def test_forms_of_file(data: bytes) -> None:
    imported = read_musicxml(data, "form.xml")
    assert line(imported) == "1/4 c4 e g bb | 1/1 c5"
    if "Über".encode() in data or b"\xdcber" in data:
        assert imported.phrases[0].title == "Über Fjörd"


# Notes. Each row: what it is, the measures, the line as the manuscript writes it.

TRIPLET = (
    "<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes>"
    "</time-modification>"
)
SIX = FOUR_FOUR.replace("<divisions>2<", "<divisions>6<")
EIGHTHS_IN_FIVE = FOUR_FOUR.replace("<beats>4<", "<beats>3+2<").replace("<beat-type>4<", "<beat-type>8<")
TIE_ON, TIE_IN = '<tie type="start"/>', '<tie type="stop"/>'

NOTES = [
    ("dots and rests", (note("C4", 3) + note("-", 1) + note("D4", 4),), "1/4. c4 1/8 - 1/2 d"),
    (
        "a tie within the bar",
        (note("C4", 4, after=TIE_ON) + note("C4", 1, after=TIE_IN) + note("-", 3),),
        "1/2+1/8 c4 1/4. -",
    ),
    (
        "a tie over the bar line",
        (note("C4", 8, after=TIE_ON), note("C4", 4, after=TIE_IN) + note("D4", 4)),
        "1/1 c4 | + 1/2 d4",
    ),
    (
        "a tie said by its curve alone",
        (
            note("C4", 8, after='<notations><tied type="start"/></notations>'),
            note("C4", 8, after='<notations><tied type="stop"/></notations>'),
        ),
        "1/1 c4 | + 1/1",
    ),
    (
        "a grace note",
        (
            "<note><grace/><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch></note>"
            + note("G4"),
        ),
        "1/1 grace:f#4 g",
    ),
    (
        "slurs",
        (
            note("C4", 4, after='<notations><slur type="start"/></notations>')
            + note("D4", 4, after='<notations><slur type="stop"/></notations>'),
        ),
        "1/2 (c4 d)",
    ),
    (
        "marks",
        (
            note("C4", 4, after="<notations><articulations><accent/><staccato/></articulations></notations>")
            + note("D4", 4, after='<notehead parentheses="yes">normal</notehead>'),
        ),
        "1/2 c4.accent.staccato d.ghost",
    ),
    ("the top note of chords", (note("C4", 8) + note("E4", 8, inside="<chord/>"),), "1/1 e4"),
    (
        "the top voice",
        (
            note("E5", 8, after="<voice>1</voice>")
            + "<backup><duration>8</duration></backup>"
            + note("C4", 8, after="<voice>2</voice>"),
        ),
        "1/1 e5",
    ),
    (
        "the top staff",
        (
            note("E5", 8, after="<staff>1</staff>")
            + "<backup><duration>8</duration></backup>"
            + note("C3", 8, after="<staff>2</staff>"),
        ),
        "1/1 e5",
    ),
    (
        "a gap",
        (note("C4", 2) + "<forward><duration>2</duration></forward>" + note("D4", 4),),
        "1/4 c4 - 1/2 d",
    ),
    (
        "a sixty-fourth",
        (
            note("C4", 0, inside="").replace("<duration>0", "<duration>0.125")
            + note("D4", 0).replace("<duration>0", "<duration>7.875"),
        ),
        "1/32(2:1) c4 1/2..+1/16.+1/32(2:1) d",
    ),
]


@pytest.mark.parametrize(
    ("measures", "expected"), [row[1:] for row in NOTES[:-1]], ids=[row[0] for row in NOTES[:-1]]
)
def test_notes(measures: tuple[str, ...], expected: str) -> None:
    assert line(read(*measures)) == expected


def test_a_sixty_fourth_is_kept_exactly() -> None:
    imported = read(*NOTES[-1][1])
    events = imported.phrases[0].bars[0].events
    assert [event.quarters * 16 for event in events] == [1, 63]


def test_triplets_that_their_file_rounds_are_read_as_written() -> None:
    """Eight units a quarter cannot hold a triplet: 3 + 3 + 2 stand for three thirds."""
    first = FOUR_FOUR.replace("<divisions>2<", "<divisions>8<")
    three = "".join(note("C4", length, after=TRIPLET) for length in (3, 3, 2))
    assert line(read(three + note("D4", 24), first=first)) == "1/8t c4 c c 1/2. d"


def test_triplets_and_sums_of_beats() -> None:
    three = "".join(note("C4", 2, after=TRIPLET) for _ in range(3))
    assert line(read(three + note("D4", 18), first=SIX)) == "1/8t c4 c c 1/2. d"
    imported = read(note("C4", 5), first=EIGHTHS_IN_FIVE)
    assert str(imported.phrases[0].metre) == "5/8"


def test_a_length_that_no_value_says_is_rounded_and_named() -> None:
    first = FOUR_FOUR.replace("<divisions>2<", "<divisions>37<")
    imported = read(note("C4", 5) + note("D4", 143), first=first)
    assert [event.pitch for event in imported.phrases[0].bars[0].events]
    assert any("5/37" in remark for remark in remarks(imported))


# Transposition: written for a tenor saxophone (a major ninth up), sounding in concert pitch.

TENOR = FOUR_FOUR.replace("<fifths>0<", "<fifths>2<").replace(
    "</attributes>",
    "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose></attributes>",
)


def test_transposing_parts_come_to_concert_pitch() -> None:
    imported = read(harmony("D", "major-seventh") + note("D5", 4) + note("F#5", 4), first=TENOR)
    assert line(imported) == "1/2 c4 e"
    assert chords(imported) == "Cmaj7"
    assert imported.phrases[0].key == Key.parse("C")


@pytest.mark.parametrize(
    ("chromatic", "sounding"),
    [(-2, "bb3"), (-9, "eb3"), (3, "eb4"), (-12, "c3"), (-7, "f3"), (0, "c4")],
)
def test_a_transposition_without_letters_is_the_usual_interval(chromatic: int, sounding: str) -> None:
    first = FOUR_FOUR.replace(
        "</attributes>", f"<transpose><chromatic>{chromatic}</chromatic></transpose></attributes>"
    )
    assert line(read(note("C4"), first=first)) == f"1/1 {sounding}"


# Chords


def test_chords_stand_where_their_files_put_them() -> None:
    second = harmony("G", "dominant", "<offset>4</offset>")
    imported = read(
        harmony("D", "minor-seventh") + second + note("C4"), harmony("C", "major-sixth") + note("C4")
    )
    assert chords(imported) == "Dm7 G7 | C6"


def test_the_authors_writing_is_kept_where_it_agrees() -> None:
    imported = read(harmony("C", "minor-seventh", text="-7") + note("C4"))
    assert chords(imported) == "C-7"


def test_words_that_are_chords_serve_where_there_are_no_others() -> None:
    words = "<direction><direction-type><words>{}</words></direction-type></direction>"
    imported = read(words.format("D m7") + note("C4", 4) + words.format("G7") + note("C4", 4), note("C4"))
    assert chords(imported) == "Dm7 G7 | G7"
    plain = read(words.format("Ad lib.") + note("C4"))
    assert chords(plain) == "N.C."
    assert any("Ad lib." in remark for remark in remarks(plain))


def test_without_chords_every_bar_is_marked_so() -> None:
    imported = read(note("C4"), note("D4"))
    assert chords(imported) == "N.C. | %"
    assert any("no chord symbols" in remark for remark in remarks(imported))


def test_chords_of_another_part_serve() -> None:
    other = (
        f'<part id="P2"><measure number="1">{FOUR_FOUR}{harmony("F", "dominant")}{note("-")}</measure></part>'
    )
    data = score(note("C4")).replace(b"</part></score", b"</part>" + other.encode() + b"</score")
    imported = read_musicxml(data, "two parts")
    assert chords(imported) == "F7"
    assert any("those of the part" in remark for remark in remarks(imported))


def test_changes_that_the_author_gives_take_the_place_of_the_files() -> None:
    imported = read(
        note("C4", 2), harmony("F", "minor") + note("D4"), note("E4"), note("F4"), changes="Dm7 | G7@3"
    )
    assert chords(imported) == "Dm7 | G7@3 | Dm7"
    with pytest.raises(ReadError):
        read(note("C4"), changes="H7")


# Parts


def test_a_part_is_chosen_by_name_id_or_place() -> None:
    second = f'<part id="P2"><measure number="1">{FOUR_FOUR}{note("D4")}</measure></part>'
    data = (
        score(note("C4"))
        .replace(b"</part></score", b"</part>" + second.encode() + b"</score")
        .replace(b"</part-list>", b'<score-part id="P2"><part-name>Alto</part-name></score-part></part-list>')
    )
    assert line(read_musicxml(data, "x")) == "1/1 c4"
    for asked in ("alto", "P2", "2"):
        assert line(read_musicxml(data, "x", part=asked)) == "1/1 d4"
    with pytest.raises(UnknownNameError, match="no part"):
        read_musicxml(data, "x", part="Bass")


# Bars, repeats, pick-ups


def test_a_short_first_bar_is_a_pickup() -> None:
    imported = read(note("C4", 2), note("D4"), note("E4"))
    phrase = imported.phrases[0]
    assert [bar.number for bar in phrase.bars] == [0, 1, 2]
    assert phrase.full_bars == 2


def test_repeats_and_endings_are_written_out() -> None:
    def end(number: int, kind: str, repeat: str = "") -> str:
        return f'<barline><ending number="{number}" type="{kind}"/>{repeat}</barline>'

    back = '<repeat direction="backward"/>'
    imported = read(
        note("C4"),
        end(1, "start") + note("D4") + end(1, "stop", back),
        end(2, "start") + note("E4") + end(2, "stop"),
        note("F4"),
    )
    assert line(imported) == "1/1 c4 | d4 | c4 | e4 | f4"
    assert "repeats are written out." in remarks(imported)


def test_a_bar_that_a_repeat_divides_is_joined() -> None:
    imported = read(note("C4"), note("D4", 6), note("E4", 2), note("F4"))
    assert line(imported) == "1/1 c4 | 1/2. d4 1/4 e | 1/1 f4"


def test_short_bars_are_filled_and_long_ones_divided() -> None:
    imported = read(note("C4"), note("D4", 4), note("E4"), note("F4", 16))
    assert line(imported) == "1/1 c4 | 1/2 d4 - | 1/1 e4 | f4 | + 1/1"
    assert any("filled with a rest" in remark for remark in remarks(imported))
    assert any("are divided" in remark for remark in remarks(imported))


# Dividing a line

DOUBLE = '<barline location="right"><bar-style>light-light</bar-style></barline>'
MARK = "<direction><direction-type><rehearsal>B</rehearsal></direction-type></direction>"
SYSTEM = '<print new-system="yes"/>'
LONG = (note("C4") + DOUBLE, note("D4"), MARK + note("E4"), SYSTEM + note("F4"), note("-"), note("G4"))


@pytest.mark.parametrize(
    ("split", "lines"),
    [
        ((), ["1/1 c4 | d4 | e4 | f4 | - | g4"]),
        (("double-bars",), ["1/1 c4", "1/1 d4 | e4 | f4 | - | g4"]),
        (("rehearsal-marks",), ["1/1 c4 | d4", "1/1 e4 | f4 | - | g4"]),
        (("system-breaks",), ["1/1 c4 | d4 | e4", "1/1 f4 | - | g4"]),
        (("rests",), ["1/1 c4 | d4 | e4 | f4", "1/1 g4"]),
        (SPLITS, ["1/1 c4", "1/1 d4", "1/1 e4", "1/1 f4", "1/1 g4"]),
    ],
)
def test_dividing(split: tuple[str, ...], lines: list[str]) -> None:
    imported = read(*LONG, split=split)
    assert [line(imported, at) for at in range(len(imported.pieces))] == lines


def test_a_piece_says_where_it_comes_from_and_a_mark_names_it() -> None:
    imported = read(*LONG, head="<movement-title>Long one</movement-title>")
    assert [(piece.first_bar, piece.last_bar) for piece in imported.pieces] == [
        ("1", "1"),
        ("2", "2"),
        ("3", "6"),
    ]
    assert [phrase.title for phrase in imported.phrases] == ["Long one 1", "Long one 2", "Long one B"]


def test_a_change_of_metre_divides() -> None:
    three = "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>"
    imported = read(note("C4"), three + note("D4", 6), split=())
    assert [str(phrase.metre) for phrase in imported.phrases] == ["4/4", "3/4"]


def test_ties_and_slurs_that_a_cut_leaves_open_are_left_out() -> None:
    slur = '<notations><slur type="start"/></notations>'
    stop = '<notations><slur type="stop"/></notations>'
    imported = read(
        note("C4", 8, after=TIE_ON + slur) + DOUBLE,
        note("C4", 8, after=TIE_IN + stop),
        split=("double-bars",),
    )
    assert [line(imported, at) for at in (0, 1)] == ["1/1 c4", "1/1 c4"]
    assert any("ties" in remark for remark in remarks(imported))
    assert any("slurs" in remark for remark in remarks(imported))


# Tempo, feel, key


def test_tempo_and_feel() -> None:
    mark = (
        "<direction><direction-type><words>Bossa nova</words></direction-type><direction-type><metronome>"
        "<beat-unit>half</beat-unit><per-minute>ca. 66</per-minute></metronome></direction-type></direction>"
    )
    phrase = read(mark + note("C4")).phrases[0]
    assert (phrase.tempo_bpm, phrase.feel) == (132, "bossa")


@pytest.mark.parametrize(
    ("swing", "feel"),
    [
        ("<straight/>", "straight"),
        ("<first>2</first><second>1</second>", "swing"),
        ("<first>5</first><second>4</second>", "fast swing"),
        ("<first>2</first><second>1</second><swing-style>Shuffle</swing-style>", "shuffle"),
    ],
)
def test_swing(swing: str, feel: str) -> None:
    phrase = read(f"<sound><swing>{swing}</swing></sound>" + note("C4")).phrases[0]
    assert phrase.feel == feel


def test_the_key_is_that_of_the_changes_or_the_signature_or_the_one_asked_for() -> None:
    minor = (
        harmony("D", "half-diminished") + note("C4"),
        harmony("G", "dominant") + note("C4"),
        harmony("C", "minor") + note("C4"),
    )
    assert str(read(*minor).phrases[0].key) == "C minor"
    flats = FOUR_FOUR.replace("<fifths>0</fifths>", "<fifths>-4</fifths><mode>minor</mode>")
    assert str(read(note("C4"), first=flats).phrases[0].key) == "F minor"
    assert str(read(note("C4"), key=Key.parse("Eb")).phrases[0].key) == "Eb major"
    assert str(read(*minor, key=NoteName.parse("G")).phrases[0].key) == "G minor"


LEFT_OUT = {
    "lyrics": note("C4", 8, after="<lyric><text>la</text></lyric>"),
    "fermatas": note("C4", 8, after="<notations><fermata/></notations>"),
    "ornaments": note("C4", 8, after="<notations><ornaments><trill-mark/></ornaments></notations>"),
    "dynamics": "<direction><direction-type><dynamics><f/></dynamics></direction-type></direction>"
    + note("C4"),
    "quarter tones": note("C4").replace("<alter>0</alter>", "<alter>0.5</alter>"),
    "outside A0 to C8": note("C9"),
    "cue notes": note("C4", 8, inside="<cue/>"),
    "unpitched": "<note><unpitched/><duration>8</duration></note>",
    "strong-accent is taken as accent": note(
        "C4", 8, after="<notations><articulations><strong-accent/></articulations></notations>"
    ),
    "D.S. leads to no segno": '<sound dalsegno="x"/>' + note("C4"),
    "the words": "<direction><direction-type><words>rit.</words></direction-type></direction>" + note("C4"),
}


@pytest.mark.parametrize(("word", "measure"), LEFT_OUT.items(), ids=LEFT_OUT)
def test_what_is_left_out_is_named(word: str, measure: str) -> None:
    imported = read(measure)
    assert any(word in remark for remark in remarks(imported))


ELEMENTS = st.sampled_from(
    [
        note("C4", 2),
        note("Bb4", 1),
        note("-", 3),
        note("D4", 8),
        harmony("G", "dominant"),
        DOUBLE,
        MARK,
        SYSTEM,
        note("E4", 2, inside="<chord/>"),
        "<backup><duration>2</duration></backup>",
        "<forward><duration>3</duration></forward>",
        note("C4", 2, after=TIE_ON),
        note("C4", 2, after=TIE_IN),
        '<barline><repeat direction="forward"/></barline>',
        '<barline><repeat direction="backward"/></barline>',
        '<barline><ending number="1" type="start"/></barline>',
        '<barline><ending number="1" type="stop"/></barline>',
        "<note><grace/><pitch><step>F</step><octave>4</octave></pitch></note>",
        "<attributes><time><beats>3</beats><beat-type>8</beat-type></time></attributes>",
        note("C4", 2, after="<voice>2</voice>"),
        note("C4", 2, after="<staff>2</staff>"),
        "<attributes><divisions>3</divisions></attributes>",
    ]
)


@given(
    st.lists(st.lists(ELEMENTS, max_size=6).map("".join), min_size=1, max_size=5),
    st.sets(st.sampled_from(SPLITS)),
)
def test_whatever_a_score_holds_it_is_read_or_refused(measures: list[str], split: set[str]) -> None:
    """The phrases that come out are such as the manuscript can hold: the reader has them read back."""
    try:
        imported = read(*measures, split=split)
    except ReadError:
        return
    for phrase in imported.phrases:
        assert all(bar.quarters == phrase.metre.bar_quarters for bar in phrase.bars if bar.number)
