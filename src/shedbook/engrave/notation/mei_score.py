"""A phrase as MEI, the XML of the Music Encoding Initiative, version 5. Pure: no library is called.

All decisions about notation are made here. The MEI holds no text that is meant to be read: chord symbols and
degrees are placeholders, as wide as what they stand for, so that Verovio keeps room. The room
`engrave.drawing` puts the real lettering in their place.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from itertools import pairwise
from types import MappingProxyType

from shedbook.editions.spelling.courtesy_accidentals import courtesies
from shedbook.engrave.notation.score_notes import ScoreBar, ScoreNote, score_bars
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS, StudyMarks
from shedbook.engrave.notation.system_breaks import first_bars, shares
from shedbook.errors import RenderError
from shedbook.phrase.accidentals import MEI_ACCIDENTALS, AccidentalReader
from shedbook.phrase.beaming import Span, tuplets_and_beams
from shedbook.phrase.model import Phrase
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch

CLEFS: Mapping[str, str] = MappingProxyType(
    {
        "G2": 'clef.shape="G" clef.line="2"',
        "G2-8": 'clef.shape="G" clef.line="2" clef.dis="8" clef.dis.place="below"',
        "F4": 'clef.shape="F" clef.line="4"',
        "F4-8": 'clef.shape="F" clef.line="4" clef.dis="8" clef.dis.place="below"',
        "C3": 'clef.shape="C" clef.line="3"',
        "C4": 'clef.shape="C" clef.line="4"',
    }
)
"""The clefs that a score may have, as attributes of MEI.

A name is the sign and the line on which it stands; with "-8" notes sound an octave lower than written."""

_HEAD = (
    '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt>'
    "<title/></titleStmt><pubStmt/></fileDesc></meiHead><music><body>"
)
_TAIL = "</body></music></mei>"
_ARTICULATIONS = {"staccato": "stacc", "tenuto": "ten", "accent": "acc"}
"""The marks that MEI has an articulation for, in the order in which they stand from the note outwards.

The order is that of Gould 2011, Behind Bars (from memory)."""
_NOTHING: Mapping[int, str] = MappingProxyType({})


def mei(
    phrase: Phrase,
    marks: StudyMarks = NO_STUDY_MARKS,
    *,
    clef: str = "G2",
    signature: bool = False,
    courtesy: str = "none",
    systems: tuple[int, ...] = (),
    room: Mapping[int, str] = _NOTHING,
    bars: tuple[ScoreBar, ...] = (),
) -> str:
    """Return the score of a phrase as a whole MEI document; see `movement` for the arguments and errors."""
    return document([
        movement(
            phrase, marks, clef=clef, signature=signature, courtesy=courtesy,
            systems=systems, room=room, bars=bars,
        )
    ])  # fmt: skip


def document(movements: Iterable[str]) -> str:
    """Return movements, each made by `movement`, as one MEI document."""
    return "".join([_HEAD, *movements, _TAIL])


def movement(
    phrase: Phrase,
    marks: StudyMarks = NO_STUDY_MARKS,
    *,
    clef: str = "G2",
    signature: bool = False,
    courtesy: str = "none",
    systems: tuple[int, ...] = (),
    room: Mapping[int, str] = _NOTHING,
    bars: tuple[ScoreBar, ...] = (),
    opening: str = "",
) -> str:
    """Return the score of a phrase as a movement of an MEI document.

    Args:
        phrase: the phrase, spelled as it is to be read.
        marks: the study marks. Of these only the degrees matter here: room is kept for each by its text.
        clef: one of `CLEFS`.
        signature: whether the key signature of the phrase's key is printed.
        courtesy: the rule for courtesy accidentals, one of `COURTESY_RULES`.
        systems: how many full bars each system has, a pick-up standing in the first; () for the best share.
        room: by index of a change, a text about as wide as its chord symbol. A change without one gets no
            symbol.
        bars: what `score_bars` gives for the phrase, where the caller has it already.
        opening: the text that opens the id of every note and symbol, so that several movements can stand in
            one document.

    Raises:
        KeyError: if the clef is not in the table.
        RenderError: if a note has more than three sharps or flats.
    """
    metre = phrase.metre
    keysig = _key_signature(phrase.key.signature) if signature else ""
    out = [
        f'<mdiv><score><scoreDef meter.count="{metre.beats}" meter.unit="{metre.unit}"{keysig}>'
        f'<staffGrp><staffDef n="1" lines="5" {CLEFS[clef]}/></staffGrp></scoreDef><section>',
    ]
    key = phrase.key if signature else None
    reader, reminders = AccidentalReader(key), courtesies(phrase, courtesy, signature=key)
    bars = bars or score_bars(phrase)
    slurs = _slurs(bars)
    chords = _placeholders(phrase, room)
    first, last = phrase.bars[0].number, phrase.bars[-1].number
    opening_bars = {first, *first_bars(systems or shares(last)[0])[1:]}
    for bar in bars:
        # Without a break at the start Verovio would break lines by itself.
        if bar.number in opening_bars:
            out.append("<sb/>")
        end = ' right="end"' if bar.number == last else ""
        short = ' metcon="false"' if bar.number == 0 else ""
        out.append(f'<measure{short}{end}><staff n="1"><layer n="1">')
        out.append(_layer(bar, metre, reader, marks.under, reminders))
        out.append("</layer></staff>")
        out.append(chords.get(bar.number, ""))
        out.append(slurs.get(bar.number, ""))
        out.append("</measure>")
        reader.bar_line()
    out.append("</section></score></mdiv>")
    return with_ids("".join(out), opening) if opening else "".join(out)


def with_ids(movement: str, opening: str) -> str:
    """Return a movement in which every id opens with `opening`.

    Plain replacement is safe here: a movement holds no words, so whatever looks like an id is one.
    """
    return movement.replace('xml:id="', f'xml:id="{opening}').replace('id="#', f'id="#{opening}')


def _key_signature(count: int) -> str:
    kind = "s" if count > 0 else "f"
    return f' keysig="{min(abs(count), 7)}{kind}"' if count else ""


def _placeholders(phrase: Phrase, room: Mapping[int, str]) -> dict[int, str]:
    """Return the placeholders of the chord symbols, by the number of the bar in which they stand."""
    found: dict[int, str] = {}
    for index, change in enumerate(phrase.changes):
        text = room.get(index)
        if text:
            beat = float(change.beat)
            found[change.bar] = found.get(change.bar, "") + (
                f'<harm xml:id="h{index}" staff="1" place="above" tstamp="{beat:g}">{text}</harm>'
            )
    return found


def _slurs(bars: Sequence[ScoreBar]) -> dict[int, str]:
    """Return the slurs, by the number of the bar in which they begin; a slur that never ends is left out."""
    begun: list[tuple[int, str]] = []
    found: dict[int, str] = {}
    for bar in bars:
        for note in bar.notes:
            for _ in range(min(note.slurs_close, len(begun))):
                number, start = begun.pop()
                slur = f'<slur staff="1" startid="#{start}" endid="#{note.id}"/>'
                found[number] = found.get(number, "") + slur
            begun += [(bar.number, note.id)] * note.slurs_open
    return found


def _layer(
    bar: ScoreBar, metre: Metre, reader: AccidentalReader, under: Mapping[int, str], reminders: frozenset[int]
) -> str:
    """Return the notes and rests of a bar, with their beams and tuplets."""
    notes = bar.notes
    if bar.number and all(note.pitch is None for note in notes):
        return "<mRest/>"
    drawn = []
    for note in notes:
        if note.pitch is None:
            drawn.append(("", _rest(note)))
        else:
            grace = _grace(note, reader) if note.grace else ""
            drawn.append((grace, _note(note, note.pitch, reader, under, reminders)))
    groups, beamed = tuplets_and_beams(
        tuple([note.value for note in notes]), tuple([note.pitch is None for note in notes]), bar.first, metre
    )
    return _nested(drawn, notes, groups, beamed)


def _nested(
    drawn: list[tuple[str, str]], notes: Sequence[ScoreNote], groups: list[Span], beamed: list[Span]
) -> str:
    """Return the notes inside the elements of their beams and tuplets.

    `drawn` holds for each note the text of its grace notes and its own. A tuplet stands inside a beam that is
    longer than it. Grace notes stand before a beam that opens at their note: inside it, Verovio would beam
    them together with the other notes.
    """
    before: list[list[str]] = [[] for _ in drawn]
    after: list[list[str]] = [[] for _ in drawn]
    for first, end in _cut(beamed, groups):
        before[first].append("<beam>")
        after[end - 1].append("</beam>")
    for first, end in groups:
        value = notes[first].value
        whole = any(start <= first and end <= stop for start, stop in beamed)
        opening = (
            f'<tuplet num="{value.actual}" numbase="{value.normal}" '
            f'bracket.visible="{"false" if whole else "true"}">'
        )
        outside = any(start < first or end < stop for start, stop in beamed if start <= first and end <= stop)
        if outside:
            before[first].append(opening)
            after[end - 1].insert(0, "</tuplet>")
        else:
            before[first].insert(0, opening)
            after[end - 1].append("</tuplet>")
    return "".join(
        grace + "".join(opening) + text + "".join(closing)
        for opening, (grace, text), closing in zip(before, drawn, after, strict=True)
    )


def _cut(beamed: list[Span], groups: list[Span]) -> list[Span]:
    """Return the beams, divided at the edges of tuplets that they overlap, so that the elements can nest."""
    if not groups:
        return beamed
    found = []
    for first, end in beamed:
        edges = {first, end}
        for start, stop in groups:
            if not (first <= start and stop <= end) and start < end and first < stop:
                edges |= {edge for edge in (start, stop) if first < edge < end}
        ordered = sorted(edges)
        found += [(low, high) for low, high in pairwise(ordered) if high - low > 1]
    return found


def _duration(note: ScoreNote) -> str:
    value = note.value
    return f'dur="{value.part}" dots="{value.dots}"' if value.dots else f'dur="{value.part}"'


def _rest(note: ScoreNote) -> str:
    return f"<rest {_duration(note)}/>"


def _note(
    note: ScoreNote,
    pitch: Pitch,
    reader: AccidentalReader,
    under: Mapping[int, str],
    reminders: frozenset[int],
) -> str:
    if note.part:
        reader.tied(pitch, over_bar=note.over_bar)
        shown = False
    else:
        shown = reader.needs(pitch)
    inside = ""
    if note.part == 0 and not shown and note.struck in reminders:
        attributes = f"{_place(pitch)} {_duration(note)}"
        # A ghost note stands in brackets together with its accidental, which needs none of its own.
        enclosed = "" if "ghost" in note.marks else ' enclose="paren"'
        inside = f'<accid accid="{MEI_ACCIDENTALS[pitch.alteration]}"{enclosed} func="caution"/>'
    else:
        attributes = f"{_spelled(pitch, shown)} {_duration(note)}"
    if note.tie_out or note.part:
        attributes += ' tie="m"' if note.tie_out and note.part else ' tie="i"' if note.tie_out else ' tie="t"'
    if note.marks:
        attributes += _marked(note.marks)
    text = under.get(note.struck) if note.part == 0 else None
    if text:
        inside += f'<verse n="1"><syl>{_room_for(text)}</syl></verse>'
    if inside:
        return f'<note xml:id="{note.id}" {attributes}>{inside}</note>'
    return f'<note xml:id="{note.id}" {attributes}/>'


def _marked(marks: tuple[str, ...]) -> str:
    articulation = " ".join(name for mark, name in _ARTICULATIONS.items() if mark in marks)
    artic = f' artic="{articulation}"' if articulation else ""
    return artic + (' head.mod="paren"' if "ghost" in marks else "")


@lru_cache(maxsize=1024)
def _spelled(pitch: Pitch, shown: bool) -> str:
    sign = MEI_ACCIDENTALS.get(pitch.alteration)
    if sign is None:
        raise RenderError(f"{pitch} cannot be written.", hint="Respell the phrase before engraving it.")
    accidental = f' accid="{sign}"' if shown else f' accid.ges="{sign}"' if pitch.alteration else ""
    return f"{_place(pitch)}{accidental}"


def _place(pitch: Pitch) -> str:
    return f'pname="{pitch.letter.lower()}" oct="{pitch.octave}"'


def _grace(note: ScoreNote, reader: AccidentalReader) -> str:
    one = len(note.grace) == 1
    kind = 'grace="unacc" dur="8"' if one else 'grace="unacc" dur="16"'
    notes = "".join(
        f'<note xml:id="{note.id}g{index}" {_spelled(pitch, reader.needs(pitch))} {kind} stem.dir="up"/>'
        for index, pitch in enumerate(note.grace)
    )
    return f"<graceGrp>{notes if one else '<beam>' + notes + '</beam>'}</graceGrp>"


def _room_for(text: str) -> str:
    """Return letters about as wide as a degree; Verovio keeps room for them, and nobody reads them."""
    return "".join("r" if character in "b#♭♯" else "n" for character in text)
