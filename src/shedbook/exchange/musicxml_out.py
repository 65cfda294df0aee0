"""A phrase as MusicXML 4.0: partwise, one part on one staff, chord symbols above it.

Pure: the same phrase gives the same text. What notation cannot hold stands in `miscellaneous-field`
elements (`tables.own_fields`), so that the way back gives the phrase again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from types import MappingProxyType

from shedbook.editions.transpose import moved_bar, renamed
from shedbook.errors import ShedbookError
from shedbook.exchange.harmony_elements import Degree, harmony_of
from shedbook.exchange.heads import Head, heads_of
from shedbook.exchange.own_links import print_links
from shedbook.exchange.own_rests import print_rests
from shedbook.exchange.sections import felt_beat
from shedbook.exchange.tables.notation_words import ARTICULATIONS, PARTS
from shedbook.exchange.tables.own_fields import (
    CHANGES,
    COMMENTARY,
    FOLD,
    ID,
    JOINED_RESTS,
    KEY,
    KEY_INFERRED,
    LINKS,
    PREFIX,
    SCALES,
    SILENCE,
)
from shedbook.phrase.changes_text import print_changes, print_scales
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import ChangeAt, Phrase, Value
from shedbook.phrase.rhythm import starts_of, tuplets
from shedbook.theory.interval import OCTAVE, UNISON, Interval
from shedbook.theory.pitch import NoteName, Pitch

_TYPES: Mapping[int, str] = MappingProxyType({part: name for name, part in PARTS})
_ACCIDENTALS: Mapping[int, str] = MappingProxyType(
    {-3: "triple-flat", -2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp",
     3: "triple-sharp"}
)  # fmt: skip
_ELEMENTS: Mapping[str, str] = MappingProxyType(
    {row.marks[0]: row.element for row in reversed(ARTICULATIONS) if row.exact and len(row.marks) == 1}
)
_ALLOWED_CONTROLS = "\t\n"
_BEATS: Mapping[Fraction, tuple[str, int]] = MappingProxyType(
    {Value(part, dots).quarters: (name, dots) for name, part in PARTS for dots in (0, 1)}
)
"""Each length that can be a beat, with the note that shows it and its dots."""

_DOCTYPE = (
    '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n'
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">\n'
)


@dataclass(frozen=True, slots=True)
class Setting:
    """How a phrase is set for one reader.

    `part` is the name over the part, `transposed` how much higher it is written than it sounds (a major
    ninth, (8, 14), for a tenor saxophone); `clef` is sign, line and octaves up ("G", 2, 0). `signature`
    writes the key signature; without it every accidental stands at its note.
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
) -> str:
    """Return a phrase as the text of a MusicXML 4.0 file.

    Args:
        phrase: in concert pitch, spelled as it is to be read in the concert score.
        setting: for whom it is written.
        book: the title of the book it comes from, "" for none.
        author: who wrote it, "" for nobody named.
        rights: the line of rights, "" for none.
        software: what the file names as its maker.
        links: names and web addresses that belong to the phrase.
        author_calls_it: the concert key's tonic by the author's name, B where the part makes it Cb.

    Raises:
        ShedbookError: if a text holds a character that XML cannot.
    """
    out = [
        f'{_DOCTYPE}<score-partwise version="4.0">\n',
        f"  <work><work-title>{_text(book)}</work-title></work>\n" if book else "",
        f"  <movement-title>{_text(phrase.title)}</movement-title>\n",
        _identification(
            _own_fields(renamed(phrase, author_calls_it or phrase.key.tonic), links), author, rights, software
        ),
        f'  <part-list><score-part id="P1"><part-name>{_text(setting.part)}</part-name>'
        f'<score-instrument id="P1-I1"><instrument-name>{_text(setting.part)}</instrument-name>'
        "</score-instrument></score-part></part-list>\n",
        '  <part id="P1">\n',
        *_measures(phrase, setting),
        "  </part>\n</score-partwise>\n",
    ]
    return "".join(out)


def _text(text: str) -> str:
    """Return a text as it stands in XML."""
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
        '<supports element="accidental" type="yes"/><supports element="beam" type="no"/>'
        '<supports element="stem" type="no"/></encoding>\n'
        f"    <miscellaneous>\n{fields}    </miscellaneous>\n  </identification>\n"
    )


def _own_fields(phrase: Phrase, links: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Yield name and text of everything that notation cannot hold."""
    yield CHANGES, print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    scales = print_scales(phrase.scales, phrase.changes, phrase.full_bars)
    if scales:
        yield SCALES, scales
    yield KEY, str(phrase.key)
    if phrase.key_inferred:
        yield KEY_INFERRED, "yes"
    if phrase.id:
        yield ID, phrase.id
    if phrase.commentary:
        yield COMMENTARY, phrase.commentary
    if phrase.fold is not None:
        yield FOLD, "yes" if phrase.fold else "no"
    rests = print_rests(phrase.bars)
    if rests:
        yield JOINED_RESTS, rests
    if links:
        yield LINKS, print_links(links)
    for rule, reason in phrase.silence:
        yield SILENCE + rule, reason


def _measures(phrase: Phrase, setting: Setting) -> Iterator[str]:
    fifths = phrase.key.signature + setting.transposed.fifths if setting.signature else 0
    while abs(fifths) > 7:
        fifths += -12 if fifths > 0 else 12
    divisions = _divisions(phrase)
    changes: dict[int, list[ChangeAt]] = {}
    for change in phrase.changes:
        changes.setdefault(change.bar, []).append(change)
    bars = tuple(moved_bar(bar, setting.transposed) for bar in phrase.bars)
    last = phrase.bars[-1].number
    for bar, heads in zip(bars, heads_of(bars, fifths), strict=True):
        implicit = ' implicit="yes"' if bar.number == 0 else ""
        yield f'    <measure number="{bar.number}"{implicit}>\n'
        if bar.number == bars[0].number:
            yield _attributes(phrase, setting, divisions, fifths)
            yield _direction(phrase)
        yield from _content(heads, changes.get(bar.number, []), phrase, setting, divisions)
        if bar.number == last:
            yield '      <barline location="right"><bar-style>light-heavy</bar-style></barline>\n'
        yield "    </measure>\n"


def _divisions(phrase: Phrase) -> int:
    """Return into how many parts a quarter note must be divided so that everything falls on one."""
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
    """Return what must be added to the written pitch, whole octaves apart."""
    if sounding == UNISON:
        return ""
    octaves = int(sounding.semitones / OCTAVE.semitones)  # towards zero: a ninth down is an octave and a step
    steps, semitones = sounding.steps - 7 * octaves, sounding.semitones - 12 * octaves
    change = f"<octave-change>{octaves}</octave-change>" if octaves else ""
    return f"<transpose><diatonic>{steps}</diatonic><chromatic>{semitones}</chromatic>{change}</transpose>"


def _direction(phrase: Phrase) -> str:
    """Return tempo and feel, for the reader and for the player program."""
    beat = felt_beat(phrase)
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
    heads: Sequence[Head],
    changes: Sequence[ChangeAt],
    phrase: Phrase,
    setting: Setting,
    divisions: int,
) -> Iterator[str]:
    """Yield chords and notes of a bar, each chord before the note during which it begins."""
    waiting = [((change.beat - 1) * phrase.metre.beat_quarters, change) for change in changes]
    values = [head.value for head in heads]
    missing = phrase.metre.bar_quarters - sum(value.quarters for value in values)
    edges = tuplets(values, starts_of(values, missing))  # a pick-up is the end of its bar
    place = Fraction(0)
    for index, head in enumerate(heads):
        end = place + head.value.quarters
        while waiting and (waiting[0][0] < end or index + 1 == len(heads)):
            start, change = waiting.pop(0)
            yield _harmony(change, int((start - place) * divisions), setting.transposed)
        if head.pitch is not None:
            yield from _graces(head.grace)
        starts = any(first == index for first, _ in edges)
        stops = any(end == index + 1 for _, end in edges)
        yield _note(head, int(head.value.quarters * divisions), starts=starts, stops=stops)
        place = end


# Chords


def _harmony(change: ChangeAt, offset: int, transposed: Interval) -> str:
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


def _degree(degree: Degree) -> str:
    """Return a degree that is not printed again, since the kind's text says it."""
    return (
        f'<degree print-object="no"><degree-value>{degree.value}</degree-value>'
        f"<degree-alter>{degree.alter}</degree-alter><degree-type>{degree.type}</degree-type></degree>"
    )


# Notes


def _pitch(pitch: Pitch) -> str:
    alter = f"<alter>{pitch.alteration}</alter>" if pitch.alteration else ""
    return f"<pitch><step>{pitch.letter}</step>{alter}<octave>{pitch.octave}</octave></pitch>"


def _graces(pitches: Sequence[Pitch]) -> Iterator[str]:
    kind, slash = ("eighth", ' slash="yes"') if len(pitches) == 1 else ("16th", "")
    for pitch in pitches:
        sign = f"<accidental>{_ACCIDENTALS[pitch.alteration]}</accidental>"
        yield (
            f"      <note><grace{slash}/>{_pitch(pitch)}<voice>1</voice><type>{kind}</type>"
            f"{sign if pitch.alteration else ''}</note>\n"
        )


def _note(head: Head, duration: int, *, starts: bool, stops: bool) -> str:
    value = head.value
    ties = ('<tie type="stop"/>' if head.tied_in else "") + ('<tie type="start"/>' if head.tied_out else "")
    sign = (
        f"<accidental>{_ACCIDENTALS[head.pitch.alteration]}</accidental>"
        if head.pitch and head.accidental
        else ""
    )
    ghost = '<notehead parentheses="yes">normal</notehead>' if "ghost" in head.marks else ""
    return (
        f"      <note>{_pitch(head.pitch) if head.pitch else '<rest/>'}<duration>{duration}</duration>{ties}"
        f"<voice>1</voice><type>{_TYPES[value.part]}</type>{'<dot/>' * value.dots}{sign}"
        f"{_time_modification(value)}{ghost}{_notations(head, starts=starts, stops=stops)}</note>\n"
    )


def _time_modification(value: Value) -> str:
    if value.actual == value.normal:
        return ""
    return (
        f"<time-modification><actual-notes>{value.actual}</actual-notes>"
        f"<normal-notes>{value.normal}</normal-notes></time-modification>"
    )


def _notations(head: Head, *, starts: bool, stops: bool) -> str:
    found = ['<tied type="stop"/>'] if head.tied_in else []
    found += ['<tied type="start"/>'] if head.tied_out else []
    found += [f'<slur type="stop" number="{number}"/>' for number in head.closes]
    found += [f'<slur type="start" number="{number}"/>' for number in head.opens]
    if starts:
        found.append('<tuplet type="start" bracket="yes"/>')
    if stops:
        found.append('<tuplet type="stop"/>')
    signs = "".join(f"<{_ELEMENTS[mark]}/>" for mark in head.marks if mark in _ELEMENTS)
    if signs:
        found.append(f"<articulations>{signs}</articulations>")
    return f"<notations>{''.join(found)}</notations>" if found else ""
