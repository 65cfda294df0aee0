"""What a teacher says of one phrase, topic by topic, in the order in which it is shown.

Every sentence is computed from the account: the chord and its scale and what the scale gives; what stands on
the strong beats; how the line crosses each change; what each outside note does; what to practise; where else
it fits. Sentences of the explanation stand where they say it; what none of them says is told plainly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shedbook.analysis.account import Account
from shedbook.analysis.account.melodic_links import CHANGE, Link
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.naming.language import Words
from shedbook.analysis.telling.explanation import offers
from shedbook.analysis.telling.reader_names import ReaderNames, reader_names
from shedbook.analysis.telling.remark import ELSEWHERE, PRACTICE, Remark
from shedbook.theory.metre import beat_words

_HARMONY = ("whole.", "telling.", "colour", "tension", "only the chord")
_CROSSING = ("led", "early", "suspended", "kept", "fall.", "enclosure.")
_OUTSIDE = ("outside.", "enclosure.", "leaning", "extra note", "blue.", "triad.outside", "pedal", "led")
_MOST_OF_HARMONY = 2
_SIGNS = str.maketrans({"b": "♭", "#": "♯"})


@dataclass(frozen=True, slots=True)
class Talk:
    """What is said of a phrase: sentences by topic, none where there is nothing to say."""

    chords: tuple[str, ...]
    landings: tuple[str, ...]
    crossings: tuple[str, ...]
    outside: tuple[str, ...]
    practice: tuple[str, ...]
    elsewhere: tuple[str, ...]


def talk(account: Account, words: Words) -> Talk:
    """Return what is said of a phrase, its notes named as the account's reader sees them.

    Raises:
        MissingRowError: if the words lack a row.
    """
    say = reader_names(account, words)
    if not account.notes:
        return Talk((words.sentence(words("no notes")),), (), (), (), (), ())
    remarks = tuple(offers(account))
    told = Talk(
        tuple(_chords(say, remarks)),
        tuple(_landings(say)),
        tuple(_crossings(say, remarks)),
        tuple(_outside(say, remarks)),
        tuple(_best(say, remarks, PRACTICE)),
        tuple(_best(say, remarks, ELSEWHERE)),
    )
    return told


def toned(note: NoteAccount, say: ReaderNames) -> str:
    """Return a note with its degree: "A♭ (♭3)"; over no chord its name alone."""
    return f"{say.name(note)} ({degree_signs(note.degree)})" if note.degree else say.name(note)


def degree_signs(degree: str) -> str:
    """Return a degree in figures with real signs: "♭9"."""
    return degree.translate(_SIGNS)


def line_of_notes(account: Account, words: Words) -> str:
    """Return the notes of a line bar by bar: "E A♭ C | A♭ G"."""
    say = reader_names(account, words)
    bars: dict[int, list[str]] = {}
    for note in account.notes:
        bars.setdefault(note.bar, []).append(say.name(note))
    numbers = range(min(bars, default=1), account.phrase.full_bars + 1)
    return " | ".join(" ".join(bars.get(number, ["–"])) for number in numbers)


# Chords and scales.


def _chords(say: ReaderNames, remarks: Sequence[Remark]) -> Iterator[str]:
    """Tell each chord with its scale once, and what the scale adds to it; then the weightiest of the rest."""
    words, seen = say.words, set[object]()
    for span in say.account.spans:
        if span.scale is None or span.chord.root is None or (span.chord.meaning, span.scale) in seen:
            continue
        seen.add((span.chord.meaning, span.scale))
        scale = say.rooted_scale(span.scale)
        notes = say.joined([say.tone(name) for name in span.scale.notes])
        yield words.sentence(words("lesson.chord", chord=say.chord(span), scale=scale, notes=notes))
        added = _added(span, say)
        if added:
            yield words.sentence(words("lesson.gives", notes=say.joined(added)))
    own = [remark for remark in remarks if remark.kind.startswith(_HARMONY)]
    own.sort(key=lambda remark: -remark.worth)
    topics = dict.fromkeys(remark.kind for remark in own)
    best = [next(remark for remark in own if remark.kind == kind) for kind in topics][:_MOST_OF_HARMONY]
    for remark in sorted(best, key=lambda one: one.first):
        yield _said(remark, say)


def _added(span: Span, say: ReaderNames) -> list[str]:
    """Return the notes of a scale that the chord does not have, with their degrees."""
    if span.scale is None:
        return []
    return [
        f"{say.tone(name)} ({degree_signs(span.degrees[name.pitch_class])})"
        for name in span.scale.notes
        if name.pitch_class not in span.chord_classes
    ]


# Strong beats.


def _landings(say: ReaderNames) -> Iterator[str]:
    """Tell bar by bar what stands on the strong beats."""
    notes = say.account.notes
    bars: dict[int, dict[str, None]] = {}
    for landing in say.account.landings:
        if landing.on_strong_beat:
            bars.setdefault(landing.bar, {})[toned(notes[landing.note], say)] = None
    for bar, names in bars.items():
        yield say.words.sentence(say.placed(bar, f"{say.joined(list(names))}."))


# Crossings.


def _crossings(say: ReaderNames, remarks: Sequence[Remark]) -> Iterator[str]:
    """Tell every change of chord: by a sentence of the explanation where there is one, else plainly."""
    known: dict[int, Remark] = {}
    for remark in sorted(remarks, key=lambda one: one.worth):
        if remark.kind.startswith(_CROSSING):
            known |= dict.fromkeys(sorted(remark.about), remark)
    done = set[str]()
    changes = [link for link in say.account.links if link.kind == CHANGE]
    for link in changes:
        text = _crossing(link, say, known)
        if text and text not in done:
            done.add(text)
            yield text
    if not changes:
        yield say.words.sentence(say.words("lesson.crossing.none"))


def _crossing(link: Link, say: ReaderNames, known: dict[int, Remark]) -> str:
    notes, words = say.account.notes, say.words
    if link.before is None or link.after is None:
        return ""
    before, after = notes[link.before], notes[link.after]
    remark = known.get(after.index)
    if remark is not None and before.index in remark.about:
        return _said(remark, say)
    chord = say.chord(after.span)
    if not link.semitones:
        return words.sentence(words("lesson.crossing.same", chord=chord, note=toned(after, say)))
    move = words("move", a=say.name(before), b=toned(after, say))
    return words.sentence(words("lesson.crossing", chord=chord, move=move, size=say.size(link.semitones)))


# Notes from outside.


def _outside(say: ReaderNames, remarks: Sequence[Remark]) -> Iterator[str]:
    """Tell what each note does that lies outside chord and scale, in the order of the line."""
    notes = say.account.notes
    left = {note.index for note in notes if not note.inside}
    if not left:
        yield say.words.sentence(say.words("lesson.outside.none"))
    told: list[tuple[int, str]] = []
    own = [remark for remark in remarks if remark.kind.startswith(_OUTSIDE)]
    for remark in sorted(own, key=lambda one: (-len(one.about & left), -one.worth)):
        if remark.about & left:
            left -= remark.about
            text = remark.said(say)
            if not remark.placed:
                text = say.placed(say.bar_number(notes[remark.first]), text)
            told.append((remark.first, say.words.sentence(text)))
    for index in sorted(left):
        note = notes[index]
        row = "lesson.outside.alone" if note.target is None else "lesson.outside"
        goal = "" if note.target is None else toned(notes[note.target], say)
        device = _device(note, say)
        text = say.words(row, note=say.name(note), device=device, goal=goal)
        told.append((index, say.words.sentence(say.placed(say.bar_number(note), text))))
    for _, text in sorted(told):
        yield text


def _device(note: NoteAccount, say: ReaderNames) -> str:
    """Return what a note does; where nothing accounts for it, the beat on which it stands."""
    row = f"device.{note.role}"
    return say.words.table[row] if say.words.has(row) else say.words("beat.other", n=beat_words(note.beat))


# What is told once.


def _best(say: ReaderNames, remarks: Sequence[Remark], part: int) -> Iterator[str]:
    """Tell the weightiest remark of a part of the explanation."""
    own = [remark for remark in remarks if remark.part == part]
    if own:
        yield _said(max(own, key=lambda remark: (remark.worth, -remark.first)), say)


def _said(remark: Remark, say: ReaderNames) -> str:
    return say.words.sentence(remark.said(say))
