"""A phrase as MusicXML 4.0, partwise: one part on one staff, with chord symbols above it.

The same phrase always gives the same text. What notation cannot hold stands in `miscellaneous-field` elements
(`phrases.own_fields`), so that reading the file gives the same phrase again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from types import MappingProxyType

from shedbook.editions.transpose import moved_bar, renamed
from shedbook.errors import ShedbookError
from shedbook.exchange.ground.tables.own_fields import PREFIX
from shedbook.exchange.musicxml.harmony_elements import DegreeElement, harmony_of
from shedbook.exchange.musicxml.notation_names import TYPE_OF_PART
from shedbook.exchange.musicxml.note_writer import (
    ScoreNote,
    beam_elements,
    grace_elements,
    note_element,
    score_notes,
)
from shedbook.exchange.musicxml.study_marks import StudyMarks, words_element
from shedbook.exchange.phrases.own_fields import own_fields
from shedbook.exchange.phrases.tempo import tapped_beat
from shedbook.phrase.beaming import beams, starts_of, tuplets
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import ChangeAt, Phrase, Value
from shedbook.theory.interval import OCTAVE, UNISON, Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_ALLOWED_CONTROLS = "\t\n"
_BEATS: Mapping[Fraction, tuple[str, int]] = MappingProxyType(
    {Value(part, dots).quarters: (name, dots) for part, name in TYPE_OF_PART.items() for dots in (0, 1)}
)
"""The note value and its dots that show a beat in a metronome mark, by the length of the beat in quarters."""

_DOCTYPE = (
    '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">\n'
)


@dataclass(frozen=True, slots=True)
class Setting:
    """How a phrase is set for one reader.

    Attributes:
        part: the name of the part.
        transposed: how much higher it is written than it sounds, a major ninth (8, 14) for a tenor saxophone.
        clef: sign, line and octaves up, such as ("G", 2, 0).
        signature: whether the key signature is written. Without it each accidental stands at its note.
    """

    part: str = "Concert"
    transposed: Interval = UNISON
    clef: tuple[str, int, int] = ("G", 2, 0)
    signature: bool = False


CONCERT = Setting()


def musicxml(
    phrase: Phrase,
    setting: Setting = CONCERT,
    *,
    book: str = "",
    author: str = "",
    rights: str = "",
    software: str = "shedbook",
    author_calls_it: NoteName | None = None,
    links: Sequence[tuple[str, str]] = (),
    marks: StudyMarks | None = None,
) -> str:
    """Return a phrase as the text of a MusicXML 4.0 file.

    Args:
        phrase: the phrase in concert pitch, spelled as it is to be read in the concert score.
        setting: the reader for whom it is written.
        book: the title of the book from which it comes, "" for none.
        author: the name of its author, "" for none.
        rights: the line of rights, "" for none.
        software: the name of the program that the file gives as its maker.
        author_calls_it: the name that the author gives to the tonic of the concert key, such as B where the
            part is spelled in Cb; None where it is that of the phrase.
        links: names and web addresses that belong to the phrase.
        marks: the words for study over and under the line; None for none.

    Raises:
        ShedbookError: if a text has a character that XML cannot hold.
    """
    out = [
        f'{_DOCTYPE}<score-partwise version="4.0">\n',
        f"  <work><work-title>{_text(book)}</work-title></work>\n" if book else "",
        f"  <movement-title>{_text(phrase.title)}</movement-title>\n",
        _identification(
            own_fields(renamed(phrase, author_calls_it or phrase.key.tonic), links), author, rights, software
        ),
        f'  <credit page="1"><credit-type>home key</credit-type><credit-words>{_home(phrase, setting)}'
        "</credit-words></credit>\n",
        _part_list(setting),
        '  <part id="P1">\n',
        *_measures(phrase, setting, marks),
        "  </part>\n</score-partwise>\n",
    ]
    return "".join(out)


def musicxml_book(
    sections: Sequence[tuple[Phrase, StudyMarks | None]],
    setting: Setting = CONCERT,
    *,
    book: str = "",
    author: str = "",
    rights: str = "",
    software: str = "shedbook",
) -> str:
    """Return several phrases as the text of one MusicXML 4.0 file, a section a phrase.

    Each section begins on a new system with the title of the phrase as a rehearsal mark, and ends with a
    double bar. What notation cannot hold of a phrase is left out: for the way back there is a file a phrase.

    Args:
        sections: the phrases in concert pitch with their words for study, at least one.
        setting: the reader for whom they are written.
        book: the title of the book.
        author: the name of its author, "" for none.
        rights: the line of rights, "" for none.
        software: the name of the program that the file gives as its maker.

    Raises:
        ShedbookError: if a text has a character that XML cannot hold.
    """
    out = [
        f'{_DOCTYPE}<score-partwise version="4.0">\n',
        f"  <movement-title>{_text(book)}</movement-title>\n" if book else "",
        _identification((), author, rights, software),
        _part_list(setting),
        '  <part id="P1">\n',
    ]
    number = 1
    for at, (phrase, marks) in enumerate(sections, 1):
        place = _Section(number, phrase.title, last=at == len(sections), mark=f"{at}-")
        out += _measures(phrase, setting, marks, place)
        number += len(phrase.bars)
    return "".join([*out, "  </part>\n</score-partwise>\n"])


@dataclass(frozen=True, slots=True)
class _Section:
    """Where a phrase stands in a file: the number of its first bar, its heading, and how its marks begin."""

    number: int
    heading: str = ""
    last: bool = True
    mark: str = ""


def _part_list(setting: Setting) -> str:
    return (
        f'  <part-list><score-part id="P1"><part-name>{_text(setting.part)}</part-name>'
        f'<score-instrument id="P1-I1"><instrument-name>{_text(setting.part)}</instrument-name>'
        "</score-instrument></score-part></part-list>\n"
    )


def _home(phrase: Phrase, setting: Setting) -> str:
    """Return the home key as the reader of the part calls it, which a page shows beside the title."""
    key = phrase.key
    return _text(str(Key(key.tonic + setting.transposed, key.mode)))


def _text(text: str) -> str:
    """Return a text in the form in which it stands in XML."""
    for character in text:
        code = ord(character)
        if (code < 32 and character not in _ALLOWED_CONTROLS) or 0xD800 <= code < 0xE000 or code in (
            0xFFFE, 0xFFFF,
        ):  # fmt: skip
            raise ShedbookError(
                f"The character U+{code:04X} cannot be written in a MusicXML file.", hint="Take it out."
            )
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def _identification(own: Iterable[tuple[str, str]], author: str, rights: str, software: str) -> str:
    fields = "".join(
        f'<miscellaneous-field name="{_text(PREFIX + name)}">{_text(text)}</miscellaneous-field>\n'
        for name, text in own
    )
    return (
        "  <identification>\n"
        + (f'    <creator type="composer">{_text(author)}</creator>\n' if author else "")
        + (f"    <rights>{_text(rights)}</rights>\n" if rights else "")
        + f"    <encoding><software>{_text(software)}</software>"
        '<supports element="accidental" type="yes"/><supports element="beam" type="yes"/>'
        '<supports element="stem" type="no"/></encoding>\n'
        f"    <miscellaneous>\n{fields}    </miscellaneous>\n  </identification>\n"
    )


def _measures(
    phrase: Phrase, setting: Setting, marks: StudyMarks | None = None, section: _Section | None = None
) -> Iterator[str]:
    fifths = phrase.key.signature + setting.transposed.fifths if setting.signature else 0
    while abs(fifths) > 7:
        fifths += -12 if fifths > 0 else 12
    divisions = _divisions(phrase)
    changes: dict[int, list[ChangeAt]] = {}
    for change in phrase.changes:
        changes.setdefault(change.bar, []).append(change)
    bars = tuple(moved_bar(bar, setting.transposed) for bar in phrase.bars)
    last = phrase.bars[-1].number
    words = _Words(marks, phrase, section.mark if section else "")
    first = bars[0].number
    for bar, notes in zip(bars, score_notes(bars, fifths), strict=True):
        implicit = ' implicit="yes"' if bar.number == 0 else ""
        number = bar.number if section is None else section.number + bar.number - first
        yield f'    <measure number="{number}"{implicit}>\n'
        if bar.number == first:
            if section is not None and section.number > 1:
                yield '      <print new-system="yes"/>\n'
            yield _attributes(phrase, setting, divisions, fifths)
            if section is not None:
                yield _heading(section.heading)
            yield _direction(phrase)
        yield from _content(notes, changes.get(bar.number, []), phrase, setting, divisions, words)
        if bar.number == last:
            style = "light-heavy" if section is None or section.last else "light-light"
            yield f'      <barline location="right"><bar-style>{style}</bar-style></barline>\n'
        yield "    </measure>\n"


def _heading(text: str) -> str:
    """Return the title of a section as a rehearsal mark."""
    return (
        '      <direction placement="above"><direction-type>'
        f"<rehearsal>{_text(text)}</rehearsal></direction-type></direction>\n"
    )


class _Words:
    """Gives out the words for study of one phrase, in the order of its changes and of its notes."""

    def __init__(self, marks: StudyMarks | None, phrase: Phrase, mark: str) -> None:
        self._scales = {} if marks is None else dict(zip(phrase.changes, marks.scales, strict=True))
        self._degrees = iter(()) if marks is None else iter(enumerate(marks.degrees))
        self._mark = mark

    def over(self, change: ChangeAt, offset: int) -> str:
        """Return the direction with the scale of a change, "" for none."""
        name = self._scales.get(change, "")
        at = f"{self._mark}scale-{change.bar}-{str(change.beat).replace('/', '-')}"
        return words_element(_text(name), at, above=True, offset=offset) if name else ""

    def under(self) -> str:
        """Return the direction with the degree of the next note that is struck, "" for none."""
        index, degree = next(self._degrees, (0, ""))
        return words_element(_text(degree), f"{self._mark}note-{index}", above=False) if degree else ""


def _divisions(phrase: Phrase) -> int:
    """Return into how many parts a quarter must be divided so that every note and chord is a whole number."""
    lengths = {value.quarters for bar in phrase.bars for event in bar.events for value in event.values}
    lengths |= {phrase.change_start(change) for change in phrase.changes}
    return lcm(*(length.denominator for length in lengths))


def _attributes(phrase: Phrase, setting: Setting, divisions: int, fifths: int) -> str:
    sign, line, octaves = setting.clef
    mode = f"<mode>{phrase.key.mode}</mode>" if setting.signature else ""
    octave = f"<clef-octave-change>{octaves}</clef-octave-change>" if octaves else ""
    return (
        f"      <attributes><divisions>{divisions}</divisions>"
        f"<key><fifths>{fifths}</fifths>{mode}</key>"
        f"<time><beats>{phrase.metre.beats}</beats><beat-type>{phrase.metre.unit}</beat-type></time>"
        f"<clef><sign>{sign}</sign><line>{line}</line>{octave}</clef>"
        f"{_transpose(-setting.transposed)}</attributes>\n"
    )


def _transpose(sounding: Interval) -> str:
    """Return the `transpose` element: what must be added to a written pitch, whole octaves apart from it."""
    if sounding == UNISON:
        return ""
    octaves = int(sounding.semitones / OCTAVE.semitones)  # towards zero: a ninth down is an octave and a step
    steps, semitones = sounding.steps - 7 * octaves, sounding.semitones - 12 * octaves
    change = f"<octave-change>{octaves}</octave-change>" if octaves else ""
    return f"<transpose><diatonic>{steps}</diatonic><chromatic>{semitones}</chromatic>{change}</transpose>"


def _direction(phrase: Phrase) -> str:
    """Return the `direction` element with tempo and feel, for readers and for player programs."""
    beat = tapped_beat(phrase)
    if beat not in _BEATS:
        raise ShedbookError(
            f"The beat of {phrase.metre} cannot be shown in a metronome mark.",
            hint="Write the phrase in a metre whose beat is a single value with at most one dot.",
        )
    unit, dots = _BEATS[beat]
    dot = "<beat-unit-dot/>" * dots
    long, short = feel_row(phrase.feel).eighths
    ratio = f"<first>{long}</first><second>{short}</second><swing-type>eighth</swing-type>"
    played = ratio if long > short else "<straight/>"
    return (
        '      <direction placement="above">'
        f"<direction-type><words>{_text(phrase.feel)}</words></direction-type>"
        f"<direction-type><metronome><beat-unit>{unit}</beat-unit>{dot}"
        f"<per-minute>{phrase.tempo_bpm}</per-minute></metronome></direction-type>"
        f'<sound tempo="{float(phrase.tempo_bpm * beat):g}"><swing>{played}'
        f"<swing-style>{_text(phrase.feel)}</swing-style></swing></sound></direction>\n"
    )


def _content(
    notes: Sequence[ScoreNote],
    changes: Sequence[ChangeAt],
    phrase: Phrase,
    setting: Setting,
    divisions: int,
    words: _Words,
) -> Iterator[str]:
    """Yield the chords and notes of a bar; each chord stands before the note during which it begins."""
    waiting = [((change.beat - 1) * phrase.metre.beat_quarters, change) for change in changes]
    values = [note.value for note in notes]
    missing = phrase.metre.bar_quarters - sum(value.quarters for value in values)
    starts_at = starts_of(values, missing)  # a pick-up is the end of its bar
    edges = tuplets(values, starts_at)
    joined = beam_elements(
        values, beams(values, starts_at, [note.pitch is None for note in notes], phrase.metre)
    )
    place = Fraction(0)
    for index, note in enumerate(notes):
        end = place + note.value.quarters
        while waiting and (waiting[0][0] < end or index + 1 == len(notes)):
            start, change = waiting.pop(0)
            offset = int((start - place) * divisions)
            yield _harmony(change, offset, setting.transposed) + words.over(change, offset)
        if note.pitch is not None and not note.tied_in:
            yield words.under()
        if note.pitch is not None:
            yield from grace_elements(note.grace)
        starts = any(first == index for first, _ in edges)
        stops = any(end == index + 1 for _, end in edges)
        yield note_element(
            note, int(note.value.quarters * divisions), starts=starts, stops=stops, beams=joined[index]
        )
        place = end


# Chords


def _harmony(change: ChangeAt, offset: int, transposed: Interval) -> str:
    """Return the `harmony` element of a change, `offset` divisions behind the note that follows."""
    harmony = harmony_of(change.chord)
    root = harmony.root or NoteName(0)
    if change.chord.root is None:
        inner = '<root><root-step text="">C</root-step></root>'
    else:
        inner = f"<root>{_named('root', root + transposed)}</root>"
    text = _text(harmony.text or "")
    bass = f"<bass>{_named('bass', harmony.bass + transposed)}</bass>" if harmony.bass is not None else ""
    degrees = "".join(_degree(degree) for degree in harmony.degrees)
    moved = f'<offset sound="yes">{offset}</offset>' if offset else ""
    return (
        f'      <harmony print-frame="no">{inner}<kind text="{text}">{harmony.kind}</kind>'
        f"{bass}{degrees}{moved}</harmony>\n"
    )


def _named(tag: str, name: NoteName) -> str:
    alter = f"<{tag}-alter>{name.alteration}</{tag}-alter>" if name.alteration else ""
    return f"<{tag}-step>{name.letter}</{tag}-step>{alter}"


def _degree(degree: DegreeElement) -> str:
    """Return a `degree` element that is not printed, because the text of the kind already shows it."""
    return (
        f'<degree print-object="no"><degree-value>{degree.value}</degree-value>'
        f"<degree-alter>{degree.alter}</degree-alter><degree-type>{degree.type}</degree-type></degree>"
    )
