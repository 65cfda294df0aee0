"""A phrase as MEI: pure, no library, the notation decisions in one place.

Conventions: the MEI holds no text that is meant to be read. Chord symbols and degrees are narrow or
neutral placeholders that make Verovio keep room; `drawing` puts the real lettering in their place.
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
from shedbook.phrase.beaming import Span, spans_of
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
"""The clefs a score may have, by the name of sign and line; "-8" sounds an octave lower than plain."""

_HEAD = (
    '<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt>'
    "<title/></titleStmt><pubStmt/></fileDesc></meiHead><music><body>"
)
_TAIL = "</body></music></mei>"
_ARTICULATIONS = {"staccato": "stacc", "tenuto": "ten", "accent": "acc"}
"""Marks as MEI has them, from the head outwards (Gould 2011, Behind Bars, from memory)."""
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
    """Return the score of a phrase as MEI; for the arguments and errors see `movement`."""
    return document([
        movement(
            phrase, marks, clef=clef, signature=signature, courtesy=courtesy,
            systems=systems, room=room, bars=bars,
        )
    ])  # fmt: skip


def document(movements: Iterable[str]) -> str:
    """Return several scores as one MEI document."""
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
        phrase: what to engrave, spelled as it is to be read.
        marks: only where degrees stand matters here; their text sets the room kept for them.
        clef: one of `CLEFS`.
        signature: print the key signature of the phrase's key.
        courtesy: the rule by which accidentals in brackets remind the reader, one of `COURTESY_RULES`.
        systems: the full bars of each system, a pick-up going with the first; () for the best share.
        room: for each change the placeholder as wide as its symbol; absent changes get none.
        bars: the heads of the phrase, where the caller has them already.
        opening: opens the id of every note and symbol, so that movements can stand beside one another.

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
    """Return a movement in which every id opens so; it holds no words, so what looks like an id is one."""
    return movement.replace('xml:id="', f'xml:id="{opening}').replace('id="#', f'id="#{opening}')


def _key_signature(count: int) -> str:
    kind = "s" if count > 0 else "f"
    return f' keysig="{min(abs(count), 7)}{kind}"' if count else ""


def _placeholders(phrase: Phrase, room: Mapping[int, str]) -> dict[int, str]:
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
    """Return the slurs by the number of the bar in which they begin; one without an end is left out."""
    begun: list[tuple[int, str]] = []
    found: dict[int, str] = {}
    for bar in bars:
        for head in bar.heads:
            for _ in range(min(head.slurs_close, len(begun))):
                number, start = begun.pop()
                slur = f'<slur staff="1" startid="#{start}" endid="#{head.id}"/>'
                found[number] = found.get(number, "") + slur
            begun += [(bar.number, head.id)] * head.slurs_open
    return found


def _layer(
    bar: ScoreBar, metre: Metre, reader: AccidentalReader, under: Mapping[int, str], reminders: frozenset[int]
) -> str:
    heads = bar.heads
    if bar.number and all(head.pitch is None for head in heads):
        return "<mRest/>"
    drawn = []
    for head in heads:
        if head.pitch is None:
            drawn.append(("", _rest(head)))
        else:
            grace = _grace(head, reader) if head.grace else ""
            drawn.append((grace, _note(head, head.pitch, reader, under, reminders)))
    groups, beamed = spans_of(
        tuple([head.value for head in heads]), tuple([head.pitch is None for head in heads]), bar.first, metre
    )
    return _nested(drawn, heads, groups, beamed)


def _nested(
    drawn: list[tuple[str, str]], heads: Sequence[ScoreNote], groups: list[Span], beamed: list[Span]
) -> str:
    """Wrap beams and tuplets round the heads, each given with its grace notes.

    A tuplet goes inside a beam that is longer than it. Grace notes go before what opens at their head,
    for Verovio beams a grace note that opens a beam with the rest.
    """
    before: list[list[str]] = [[] for _ in drawn]
    after: list[list[str]] = [[] for _ in drawn]
    for first, end in _cut(beamed, groups):
        before[first].append("<beam>")
        after[end - 1].append("</beam>")
    for first, end in groups:
        value = heads[first].value
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
    """Cut beams at the edges of tuplets that they hold only in part, so that the two nest."""
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


def _duration(head: ScoreNote) -> str:
    value = head.value
    return f'dur="{value.part}" dots="{value.dots}"' if value.dots else f'dur="{value.part}"'


def _rest(head: ScoreNote) -> str:
    return f"<rest {_duration(head)}/>"


def _note(
    head: ScoreNote,
    pitch: Pitch,
    reader: AccidentalReader,
    under: Mapping[int, str],
    reminders: frozenset[int],
) -> str:
    if head.part:
        reader.tied(pitch, over_bar=head.over_bar)
        shown = False
    else:
        shown = reader.needs(pitch)
    inside = ""
    if head.part == 0 and not shown and head.note in reminders:
        attributes = f"{_place(pitch)} {_duration(head)}"
        # The brackets of a ghost note take in its accidental: no brackets within brackets.
        enclosed = "" if "ghost" in head.marks else ' enclose="paren"'
        inside = f'<accid accid="{MEI_ACCIDENTALS[pitch.alteration]}"{enclosed} func="caution"/>'
    else:
        attributes = f"{_spelled(pitch, shown)} {_duration(head)}"
    if head.tie_out or head.part:
        attributes += ' tie="m"' if head.tie_out and head.part else ' tie="i"' if head.tie_out else ' tie="t"'
    if head.marks:
        attributes += _marked(head.marks)
    text = under.get(head.note) if head.part == 0 else None
    if text:
        inside += f'<verse n="1"><syl>{_room_for(text)}</syl></verse>'
    if inside:
        return f'<note xml:id="{head.id}" {attributes}>{inside}</note>'
    return f'<note xml:id="{head.id}" {attributes}/>'


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


def _grace(head: ScoreNote, reader: AccidentalReader) -> str:
    one = len(head.grace) == 1
    kind = 'grace="unacc" dur="8"' if one else 'grace="unacc" dur="16"'
    notes = "".join(
        f'<note xml:id="{head.id}g{index}" {_spelled(pitch, reader.needs(pitch))} {kind} stem.dir="up"/>'
        for index, pitch in enumerate(head.grace)
    )
    return f"<graceGrp>{notes if one else '<beam>' + notes + '</beam>'}</graceGrp>"


def _room_for(text: str) -> str:
    """Return neutral letters about as wide as a degree: Verovio keeps the room, nobody reads them."""
    return "".join("r" if character in "b#♭♯" else "n" for character in text)
