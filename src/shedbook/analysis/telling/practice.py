"""What the explanation gives to practise: one thing that belongs to this phrase, the likeliest to help."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.melodic_links import CHANGE
from shedbook.analysis.account.note_account import explained_together
from shedbook.analysis.devices.everything import Devices
from shedbook.analysis.devices.skeleton import skeleton
from shedbook.analysis.roles.role_names import ENCLOSURE
from shedbook.analysis.telling.about_lines import CELL_TOPIC
from shedbook.analysis.telling.remark import PRACTICE, Remark
from shedbook.analysis.telling.slots import (
    Bar,
    BarNumber,
    Degree,
    Moves,
    Note,
    Notes,
    Of,
    Over,
    Size,
    Slot,
    Way,
    When,
)

_GUIDES = frozenset(("3", "b3", "b7", "7", "bb7"))
_HARD_LEAP = 8
_WORTH_MORE = 14
"""By how much a thing to practise is worth more than one that is merely told."""


def practice(account: Account, seen: Devices) -> Iterator[Remark]:
    """Yield what might be practised; one of them is told."""
    for frame in seen.frames[:1]:
        yield _order("frame", 70, frame.notes[0], {"notes": Notes(frame.notes)}, "frame")
    line = seen.guide_line
    if line:
        yield _order("guide line", 68, line[0], {"notes": Notes(line, once=False)}, "guides")
    yield from _echoes(seen)
    falls = seen.guide_falls
    if len(falls) > 1:
        pairs = tuple((fall.guide, fall.goal) for fall in falls[:4])
        yield _order("guides", 60, falls[0].guide, {"pairs": Moves(pairs)}, "guides")
    for cell in seen.cells[:1]:
        notes = tuple(range(cell.first, cell.first + cell.cell))
        yield _order("cell", 58, cell.first, {"notes": Notes(notes, once=False)}, CELL_TOPIC)
    bones = skeleton(account)
    if bones:
        yield _order("skeleton", 62, bones[0], {"notes": Notes(bones, once=False)})
    yield from _crossings(account)
    yield from _changes(account)
    yield from _leaps(account)
    for arpeggio in seen.arpeggios[:1]:
        notes = tuple(range(arpeggio.first, arpeggio.last + 1))
        yield _order("arpeggio", 46, arpeggio.first, {"notes": Notes(notes, once=False)})
    yield from _pushes(account)
    yield _the_line(account)


def _order(kind: str, worth: int, first: int, slots: dict[str, Slot], recalls: str = "") -> Remark:
    return Remark(f"practice.{kind}", worth + _WORTH_MORE, first, slots, part=PRACTICE, recalls=recalls)


def _echoes(seen: Devices) -> Iterator[Remark]:
    """The bars to learn first, because later ones begin like them."""
    for echo in seen.echoes:
        if echo.length > 1:
            earlier, later = echo.bars
            slots: dict[str, Slot] = {
                "earlier": BarNumber(earlier, earlier + echo.length - 1),
                "later": BarNumber(later, later + echo.length - 1),
                "size": Size(echo.semitones), "way": Way(echo.semitones, compared=True),
            }  # fmt: skip
            kind = "echo same" if echo.semitones == 0 else "echo"
            yield _order(f"{kind} whole" if echo.whole else kind, 74, echo.first, slots)


def _crossings(account: Account) -> Iterator[Remark]:
    """The enclosures that lead into a chord, and the crossings by an outside note."""
    for link in account.links:
        if link.kind != CHANGE or link.before is None or link.after is None:
            continue
        before, after = account.notes[link.before], account.notes[link.after]
        if before.role == ENCLOSURE and link.wrapped and after.inside:
            members = explained_together(account.notes, before)
            notes = (*(note.index for note in members), after.index)
            slots: dict[str, Slot] = {
                "notes": Notes(notes, once=False), "goal": Note(after.index), "bar": Bar(after.index),
                "when": When(after.index),
            }  # fmt: skip
            opens = after.arrival % account.phrase.metre.bar_quarters == 0 and after.start == after.arrival
            yield _order("crossing" if opens else "crossing inside", 57, notes[0], slots)


def _changes(account: Account) -> Iterator[Remark]:
    """The change that lands on the third or seventh of the new chord, the one that moves farthest."""
    best = None
    for link in account.links:
        if link.kind != CHANGE or link.before is None or link.after is None or not link.semitones:
            continue
        after = account.notes[link.after]
        firm = after.in_chord and after.degree in _GUIDES and after.landing
        if firm and (best is None or abs(link.semitones) > abs(best.semitones or 0)):
            best = link
    if best is not None and best.before is not None and best.after is not None:
        slots: dict[str, Slot] = {
            "before": Note(best.before), "goal": Note(best.after), "degree": Degree(best.after),
            "chord": Over(account.notes[best.after].span.index),
        }  # fmt: skip
        yield _order("change", 40, best.before, slots, "crossing")


def _leaps(account: Account) -> Iterator[Remark]:
    wide = [leap for leap in account.contour.leaps if _HARD_LEAP <= abs(leap.semitones) <= 24]
    for leap in sorted(wide, key=lambda one: -abs(one.semitones))[:1]:
        slots: dict[str, Slot] = {"before": Note(leap.first), "after": Note(leap.first + 1)}
        octave = abs(leap.semitones) % 12 == 0
        yield _order("octave" if octave else "leap", 52, leap.first, slots)


def _pushes(account: Account) -> Iterator[Remark]:
    for note in account.notes:
        if note.early and note.start < note.arrival and not note.arrival % account.phrase.metre.beat_quarters:
            slots: dict[str, Slot] = {
                "note": Note(note.index),
                "when": When(note.index),
                "bar": Bar(note.index),
            }
            yield _order("push", 54, note.index, slots)
            return


def _the_line(account: Account) -> Remark:
    """What is left: to sing the first and last note over their chords."""
    first, last = account.notes[0], account.notes[-1]
    if first.index == last.index or first.midi == last.midi:
        slots: dict[str, Slot] = {"first": Note(0), "chord": Over(first.span.index)}
        return _order("one note" if first.span.chord.root else "one note alone", 10, 0, slots)
    firm = max(
        account.landings,
        key=lambda landing: (landing.rank, landing.on_strong_beat, -landing.note),
        default=None,
    )
    if firm is not None and account.notes[firm.note].in_chord and firm.note > 0:
        slots = {"note": Note(firm.note), "of": Of(firm.note)}
        guide = account.notes[firm.note].degree in _GUIDES
        return _order("aim", 24 if guide else 12, firm.note, slots)
    slots = {"first": Note(0), "of": Of(0), "last": Note(last.index), "last_of": Of(last.index)}
    told = first.span.chord.root is not None and last.span.chord.root is not None
    return _order("line" if told else "line alone", 10, 0, slots)
