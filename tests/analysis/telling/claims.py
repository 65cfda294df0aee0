"""Claims: what each kind of remark says of its notes, computed anew from the notes and chord symbols alone.

A check takes a claim and says whether it holds. The checks share no code with the analysis; what the words
mean is common practice.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from typing import Any

from analysis.telling.plain_facts import SCALES, Facts, PlainChord
from shedbook.analysis.account import Account
from shedbook.analysis.telling.remark import Remark

HALF = Fraction(1, 2)


class Claim:
    """A remark with the facts that it has to agree with."""

    def __init__(self, remark: Remark, facts: Facts, whole: Account) -> None:
        """Keep them."""
        self.remark, self.facts, self.whole = remark, facts, whole

    def __getattr__(self, name: str) -> Any:
        """Return the note or notes of a slot, or what else it holds."""
        slot = self.remark.slots[name]
        return slot[0]

    def m(self, name: str) -> int:
        """Return the MIDI number of the note in a slot."""
        return self.facts.midi(getattr(self, name))

    def chord(self, note: int) -> PlainChord:
        """Return the chord that a note is told to be heard against."""
        heard = self.whole.notes[note].span
        return next(
            one for one in self.facts.over(note) if one.start == heard.start or one.text == heard.chord.text
        )

    def slot(self, name: str) -> Any:
        """Return a slot as it is."""
        return self.remark.slots[name]

    def scale_slot(self, name: str) -> Any:
        """Return the scale in a slot."""
        return self.remark.slots[name][0]

    def scale(self, note: int) -> set[int]:
        """Return the pitch classes of the scale that is named over a note."""
        scale = self.whole.notes[note].span.scale
        assert scale is not None
        return classes(scale)

    def on_beat(self, note: int) -> bool:
        """Say whether a note is struck on a beat in quarters."""
        return self.facts.notes[note].start % 1 == 0


def classes(scale: Any) -> set[int]:
    return {(scale.root.pitch_class + int(step)) % 12 for step in SCALES[scale.name].split()}


def falls(c: Claim, pairs: tuple[tuple[int, int], ...]) -> bool:
    for guide, goal in pairs:
        one, other = c.chord(guide), c.chord(goal)
        if c.facts.midi(guide) - c.facts.midi(goal) not in (1, 2):
            return False
        if one.above(c.facts.midi(guide)) != one.seventh or other.above(c.facts.midi(goal)) != other.third:
            return False
        if c.facts.chords.index(other) != c.facts.chords.index(one) + 1:
            return False
    return True


def falls_each(c: Claim) -> bool:
    return falls(c, c.pairs) and len(c.pairs) == len(c.facts.chords) - 1


def falls_counted(c: Claim) -> bool:
    return falls(c, c.pairs) and c.times == len(c.pairs)


def fall(size: int) -> Callable[[Claim], bool]:
    return lambda c: c.m("guide") - c.m("goal") == size


def guide_line(c: Claim) -> bool:
    chords = [c.facts.chords.index(c.chord(note)) for note in c.notes]
    firm = all(
        (one := c.chord(note)).above(c.facts.midi(note)) in (one.third, one.seventh) for note in c.notes
    )
    near = all(abs(c.facts.midi(a) - c.facts.midi(b)) <= 2 for a, b in pairwise(c.notes))
    return firm and near and all(b == a + 1 for a, b in pairwise(chords))


def guide_line_whole(c: Claim) -> bool:
    return guide_line(c) and len(c.notes) == len(c.facts.chords)


def steps(c: Claim) -> bool:
    near = all(1 <= abs(c.facts.midi(a) - c.facts.midi(b)) <= 2 and b == a + 1 for a, b in c.pairs)
    changes = all(c.chord(a) != c.chord(b) for a, b in c.pairs)
    return near and changes and len(c.pairs) == len(c.facts.chords) - 1


def cells(c: Claim) -> list[list[int]]:
    size, times = len(c.notes), len(c.starts)
    return [list(range(c.notes[0] + at * size, c.notes[0] + (at + 1) * size)) for at in range(times)]


def same_rhythm(c: Claim) -> bool:
    lengths = [
        [c.facts.notes[note].start - c.facts.notes[cell[0]].start for note in cell] for cell in cells(c)
    ]
    return all(one == lengths[0] for one in lengths)


def cell_exact(c: Claim) -> bool:
    shapes = [c.facts.moves(cell[0], cell[-1]) for cell in cells(c)]
    shifts = [c.facts.midi(b) - c.facts.midi(a) for a, b in pairwise(c.starts)]
    told = c.size if c.way > 0 else -abs(c.size)
    same = all(one == shapes[0] for one in shapes) and same_rhythm(c)
    return same and all(shift == told for shift in shifts) and c.times == len(c.starts)


def cell_shape(c: Claim) -> bool:
    shapes = [c.facts.moves(cell[0], cell[-1]) for cell in cells(c)]
    alike = all(
        abs(a - b) <= 1 and a * b > 0 for shape in shapes for a, b in zip(shape, shapes[0], strict=True)
    )
    return alike and same_rhythm(c) and c.times == len(c.starts)


def cell_across(c: Claim) -> bool:
    first, second = (c.facts.notes[note].start for note in c.starts[:2])
    return cell_shape(c) and second - first == Fraction(3, 2)


def staying(c: Claim) -> bool:
    chords = [c.facts.chords.index(c.chord(note)) for note in c.meanings]
    same = len({c.facts.midi(note) for note in c.meanings}) == 1
    return same and c.times == len(c.meanings) and all(b == a + 1 for a, b in pairwise(chords))


def shifted(c: Claim, alike: int = 5) -> bool:
    """Whether a bar begins like another in rhythm and, so much higher or lower, in pitch."""
    shift = 0 if "size" not in c.remark.slots else c.size if c.way > 0 else -abs(c.size)
    earlier, later = c.slot("earlier"), c.slot("later")
    count = 0
    for step in range((earlier[1] or earlier[0]) - earlier[0] + 1):
        here = c.facts.struck_in(earlier[0] + step)
        there = c.facts.struck_in(later[0] + step)
        equal = 0
        for one, other in zip(here, there, strict=False):
            if one.start != other.start or other.midi - one.midi != shift:
                break
            equal += 1
        if "whole" in c.remark.kind and not equal == len(here) == len(there):
            return False
        count += equal
    return count >= alike


def altered_echo(c: Claim) -> bool:
    here, there = c.facts.struck_in(c.earlier), c.facts.struck_in(c.later)
    rhythm = [(one.start, one.end) for one in here] == [(one.start, one.end) for one in there]
    differ = [(a.midi, b.midi) for a, b in zip(here, there, strict=True) if a.midi != b.midi]
    told = [(c.facts.midi(a), c.facts.midi(b)) for a, b in zip(c.old, c.new, strict=True)]
    return rhythm and differ == told


def frame(c: Claim) -> bool:
    midis = [c.facts.midi(note) for note in c.notes]
    moves = [b - a for a, b in pairwise(midis)]
    one_way = all(move * c.way > 0 for move in moves)
    if "diminished" in c.remark.kind:
        return one_way and all(abs(move) == 3 for move in moves)
    chord = c.chord(c.notes[0])
    return one_way and all(chord.above(midi) in chord.tones for midi in midis)


def arpeggio(c: Claim) -> bool:
    moves = c.facts.moves(c.first, c.last)
    up = c.remark.kind.endswith("up")
    one_way = all((move > 0) == up for move in moves) and len(moves) >= 3
    if "thirds" in c.remark.kind:
        return one_way and all(abs(move) in (3, 4) for move in moves)
    chord = c.chord(c.first)
    tones = all(chord.above(c.facts.midi(note)) in chord.tones for note in range(c.first, c.last + 1))
    return one_way and tones and ("octave" not in c.remark.kind or abs(sum(moves)) == 12)


def in_fourths(c: Claim) -> bool:
    return len({*c.facts.moves(c.first, c.last)}) == 1 and abs(c.facts.moves(c.first, c.last)[0]) == 5


def triad(*steps: int) -> Callable[[Claim], bool]:
    return lambda c: {(c.facts.midi(note) - c.m("root")) % 12 for note in c.notes} == {0, *steps}


def triad_outside(c: Claim) -> bool:
    outside = [note for note in c.notes if c.facts.midi(note) % 12 not in c.scale(note)]
    third = 4 if c.remark.kind.endswith("major") else 3
    return triad(third, 7)(c) and in_a_row(c) and len(outside) >= 2


def whole_scale(c: Claim) -> bool:
    scale = c.slot("scale")
    own = classes(scale.scale)
    over = [note for note in range(len(c.facts.notes)) if c.whole.notes[note].span.scale == scale.scale]
    if "bar" in c.remark.kind.partition(".")[2]:
        over = [note for note in over if c.facts.bar_of(note) == c.facts.bar_of(c.remark.first)]
    return own <= {c.facts.midi(note) % 12 for note in over}


def telling(c: Claim) -> bool:
    note = c.m("note") % 12
    own, other = classes(c.scale_slot("scale")), classes(c.scale_slot("other"))
    if "tone" not in c.remark.slots:
        return note in own - other
    tone = c.tone.pitch_class
    return note in own - other and tone in other - own and (tone - note) % 12 in (1, 11)


def colours(c: Claim) -> bool:
    core = (0, 7)
    return all(
        (above := (chord := c.chord(note)).above(c.facts.midi(note))) not in core
        and (above not in (chord.third, chord.seventh) or "alt" in chord.text)
        for note in c.notes
    )


def leaned_on(c: Claim) -> bool:
    one = c.facts.notes[c.note]
    return bool(one.end - one.start >= 1)


def tension_lets_go(c: Claim) -> bool:
    over = [c.chord(note) for note in c.notes]
    pulls = all(
        chord.above(c.facts.midi(note)) in (1, 3, 6, 8) for chord, note in zip(over, c.notes, strict=True)
    )
    goal = c.goal
    near = 1 <= abs(c.facts.midi(goal) - c.facts.midi(goal - 1)) <= 2
    next_chord = c.chord(goal)
    return pulls and near and next_chord != over[0] and next_chord.above(c.m("goal")) in next_chord.tones


def only_the_chord(c: Claim) -> bool:
    first = c.remark.first
    notes = [at for at in range(len(c.facts.notes)) if c.whole.notes[at].span is c.whole.notes[first].span]
    chord = c.chord(first)
    return len(notes) >= 5 and all(chord.above(c.facts.midi(note)) in chord.tones for note in notes)


def struck_early(c: Claim) -> bool:
    one = c.facts.notes[c.note]
    return any(one.start < chord.start <= one.start + HALF for chord in c.facts.chords)


def hangs_over(c: Claim) -> bool:
    one, goal = c.facts.notes[c.note], c.facts.notes[c.goal]
    change = c.chord(c.goal).start
    falls_by_step = 1 <= one.midi - goal.midi <= 2
    held = one.start < change < one.end or any(
        other.midi == one.midi and other.start < change for other in c.facts.notes[: c.note]
    )
    return falls_by_step and held


def leads_in(c: Claim) -> bool:
    return c.goal == c.note + 1 and c.m("goal") - c.m("note") == (1 if c.way > 0 else -1)


def stays(c: Claim) -> bool:
    after = c.slot("goal_of").note
    return after == c.note + 1 and c.facts.midi(after) == c.m("note") and c.chord(after) != c.chord(c.note)


def step_across(c: Claim) -> bool:
    move = c.m("goal") - c.m("before")
    size = 1 if "half" in c.remark.kind else 2
    return abs(move) == size and (move > 0) == (c.way > 0) and c.chord(c.goal) != c.chord(c.before)


def closes_in(c: Claim) -> bool:
    sides = [c.facts.midi(note) - c.m("goal") for note in c.notes]
    both = min(sides) < 0 < max(sides) and max(map(abs, sides)) <= 3
    size = {"half": {1}, "whole": {2}}.get(c.remark.kind.partition(".")[2])
    return both and c.goal == max(c.notes) + 1 and (size is None or set(map(abs, sides)) == size)


def run(c: Claim) -> bool:
    moves = c.facts.moves(c.first, c.last)
    up = c.remark.kind.endswith("up")
    sizes = {1} if "half" in c.remark.kind else {1, 2, 3}
    return all((move > 0) == up and abs(move) in sizes for move in moves) and len(moves) >= 4


def outside(c: Claim, note: int) -> bool:
    return c.facts.midi(note) % 12 not in c.scale(note)


def passes(c: Claim) -> bool:
    before, note, goal = c.m("before"), c.m("note"), c.m("goal")
    between = before < note < goal or before > note > goal
    return outside(c, c.note) and between and (goal > note) == (c.way > 0) and c.goal > c.note


def all_pass(c: Claim) -> bool:
    for note in c.notes:
        one, two = c.facts.moves(note - 1, note + 1)
        if not outside(c, note) or one * two <= 0 or max(abs(one), abs(two)) > 3:
            return False
    return "same" not in c.remark.kind or len({c.facts.midi(note) % 12 for note in c.notes}) == 1


def leads(c: Claim) -> bool:
    move = c.m("goal") - c.m("note")
    size = (1,) if "whole" not in c.remark.kind else (2,)
    return outside(c, c.note) and abs(move) in size and (move > 0) == (c.way > 0)


def all_lead(c: Claim) -> bool:
    return all(outside(c, note) and abs(c.facts.moves(note, note + 1)[0]) == 1 for note in c.notes)


def turns(c: Claim) -> bool:
    notes = (c.note,) if c.remark.kind.endswith("one") else c.notes
    for note in notes:
        one, two = c.facts.moves(note - 1, note + 1)
        if not outside(c, note) or one + two != 0 or not 1 <= abs(one) <= 2:
            return False
    return True


def leans(c: Claim) -> bool:
    near = 1 <= abs(c.m("goal") - c.m("note")) <= 2 and c.goal > c.note
    return outside(c, c.note) and near and (c.on_beat(c.note) or struck_for_beat(c, c.note))


def struck_for_beat(c: Claim, note: int) -> bool:
    one = c.facts.notes[note]
    beat = one.start // 1 + 1
    return one.start < beat < one.end


def extra_note(c: Claim) -> bool:
    tones = all((chord := c.chord(note)).above(c.facts.midi(note)) in chord.tones for note in c.notes)
    return tones and all(c.on_beat(note) for note in c.notes) and not c.on_beat(c.note)


def blue(*above: int) -> Callable[[Claim], bool]:
    return lambda c: c.chord(c.note).above(c.m("note")) in above


def pedal(c: Claim) -> bool:
    return outside(c, c.note) and any(one.midi == c.m("note") for one in c.facts.notes[: c.note])


def leap(c: Claim) -> bool:
    move = c.m("after") - c.m("before")
    if "back" in c.remark.kind:
        back = c.facts.midi(c.after + 1) - c.m("after")
        if back * move >= 0 or abs(back) > 2:
            return False
    size = abs(c.size) == abs(move) and (abs(move) == 12) == ("octave" in c.remark.kind)
    return c.after == c.before + 1 and abs(move) >= 8 and size and (move > 0) == (c.way > 0)


def top(c: Claim) -> bool:
    return [one.midi for one in c.facts.notes].count(c.m("note")) == 1 and c.m("note") == max(
        one.midi for one in c.facts.notes
    )


def open_end(c: Claim) -> bool:
    last = len(c.facts.notes) - 1
    chord = c.chord(last)
    return c.note == last and chord.above(c.facts.midi(last)) not in (0, 7, chord.third, chord.seventh)


def late(c: Claim) -> bool:
    return c.facts.notes[0].start >= 1


def off_beats(c: Claim) -> bool:
    notes = range(c.first, c.last + 1)
    everything = len(notes) == len(c.facts.notes) or "all" not in c.remark.kind
    return len(notes) >= 4 and everything and not any(c.on_beat(note) for note in notes)


def breath(c: Claim) -> bool:
    rests = [b.start - a.end for a, b in pairwise(c.facts.notes)]
    longest = rests[c.note] == max(rests) >= Fraction(3, 2)
    many = sum(rest >= Fraction(3, 2) for rest in rests)
    return longest and (many == 1) == c.remark.kind.endswith("one")


def strong(c: Claim, note: int) -> bool:
    """Whether a note is struck on beat 1 or 3, or struck before it and held over it."""
    one = c.facts.notes[note]
    half = c.facts.bar / 2 if c.facts.bar % 2 == 0 else c.facts.bar
    return one.start % half == 0 or (one.start // half + 1) * half < one.end


def skeleton(c: Claim) -> bool:
    tones = all(
        (chord := c.chord(note)).above(c.facts.midi(note)) in chord.tones or "alt" in chord.text
        for note in c.notes
    )
    return tones and 3 <= len(c.notes) <= 6 and all(strong(c, note) for note in c.notes)


def in_a_row(c: Claim) -> bool:
    return list(c.notes) == list(range(c.notes[0], c.notes[0] + len(c.notes)))


def crossing(c: Claim) -> bool:
    return in_a_row(c) and c.goal == c.notes[-1] and c.chord(c.goal) != c.chord(c.notes[0])


def far(c: Claim) -> bool:
    move = abs(c.m("after") - c.m("before"))
    return c.after == c.before + 1 and move >= 8 and (move % 12 == 0) == ("octave" in c.remark.kind)


def pushed(c: Claim) -> bool:
    return not c.on_beat(c.note) and (struck_for_beat(c, c.note) or struck_early(c))


def frame_alone(c: Claim) -> bool:
    return len(c.notes) >= 4 and all(strong(c, note) for note in c.notes)


def change(c: Claim) -> bool:
    other = c.chord(c.goal)
    return (
        c.goal == c.before + 1
        and other != c.chord(c.before)
        and other.above(c.m("goal")) in (other.third, other.seventh)
    )


def named_only(c: Claim) -> bool:
    """A sentence that says nothing of its notes but their names and, checked for all, their degrees."""
    return all(0 <= note < len(c.facts.notes) for note in (c.remark.first,))


HOMES = {
    "tritone substitute": (6, ("altered", "lydian dominant", "whole tone", "half-whole diminished")),
    "minor a fifth up": (7, ("dorian", "melodic minor")),
}


def home(c: Claim) -> bool:
    span = c.whole.spans[c.slot("chord").span]
    notes = [at for at, one in enumerate(c.whole.notes) if one.span is span]
    others = c.slot("others").chords
    assert span.heard.root is not None
    root = span.heard.root.pitch_class
    inside = [c.facts.midi(note) % 12 for note in notes if not outside(c, note)]
    if "diminished" in c.remark.kind:
        shift = sorted((one.root.pitch_class - root) % 12 for one in others)
        eight = SCALES[
            "half-whole diminished" if span.heard.family == "dominant" else "whole-half diminished"
        ]
        same = {(root + int(step)) % 12 for step in eight.split()}
        return shift == [3, 6, 9] and set(inside) <= same
    kind = c.remark.kind.removeprefix("home.").removesuffix(" with seventh")
    up, names = HOMES[kind]
    other = (root + up) % 12
    third = (c.m("third") - other) % 12
    fits = [
        name for name in names if set(inside) <= {(other + int(step)) % 12 for step in SCALES[name].split()}
    ]
    seventh = "seventh" not in c.remark.slots or "minor" in kind or (c.m("seventh") - other) % 12 == 10
    return (
        bool(others[0].root.pitch_class == other)
        and third == (4 if up == 6 else 3)
        and bool(fits)
        and seventh
    )


CHECKS: dict[str, Callable[[Claim], bool]] = {
    "falls.each": falls_each,
    "falls.both": falls_each,
    "falls.twice": falls_counted,
    "falls.some": falls_counted,
    "falls.many": lambda c: falls(c, c.pairs),
    "fall.half": fall(1),
    "fall.whole": fall(2),
    "fall.through": lambda c: (
        c.m("goal") < c.m("between") < c.m("guide") and c.between == c.goal - 1 == c.guide + 1
    ),
    "fall.late": lambda c: c.goal == c.guide + 2 and 1 <= c.m("guide") - c.m("goal") <= 2,
    "guide line.whole": guide_line_whole,
    "guide line.part": guide_line,
    "steps": steps,
    "cell.twice": cell_exact,
    "cell.steady": cell_exact,
    "cell.shape": cell_shape,
    "cell.often": cell_shape,
    "cell.across": cell_across,
    "staying note": staying,
    "echo.altered": altered_echo,
    **dict.fromkeys(("echo.one", "echo.whole one", "echo.same one", "echo.whole same one"), shifted),
    "frame.diminished": frame,
    "frame.own": frame,
    "fourths.up": in_fourths,
    "fourths.down": in_fourths,
    **{
        f"arpeggio.{start}{how}{way}": arpeggio
        for start in ("", "start ")
        for how in ("", "thirds ", "octave ")
        for way in ("up", "down")
    },
    "triad.major": triad(4, 7),
    "triad.minor": triad(3, 7),
    "triad.outside major": triad_outside,
    "triad.outside minor": triad_outside,
    "whole.bar": whole_scale,
    "whole.chord": whole_scale,
    "telling.place": telling,
    "telling.only": telling,
    "colours": colours,
    "colour": leaned_on,
    "only the chord": only_the_chord,
    "tension": tension_lets_go,
    "suspended": hangs_over,
    "early": struck_early,
    "led": leads_in,
    "kept": stays,
    "step.half": step_across,
    "step.whole": step_across,
    **{f"enclosure.{how}": closes_in for how in ("half", "whole", "any")},
    **{f"run.{how} {way}": run for how in ("step", "half steps") for way in ("up", "down")},
    "outside.passing note.one": passes,
    "outside.passing note.many": all_pass,
    "outside.passing note.same": all_pass,
    "outside.approach note.one": leads,
    "outside.approach whole.one": leads,
    "outside.approach note.many": all_lead,
    "outside.approach note.same": all_lead,
    **{f"outside.neighbour.{form}": turns for form in ("one", "many", "same")},
    "leaning": leans,
    "extra note": extra_note,
    "blue.note": blue(3, 6, 10),
    "blue.seventh of the minor": blue(11),
    "blue.bent third": blue(4),
    "pedal": pedal,
    **{f"leap.{how}": leap for how in ("back", "open", "octave")},
    "top": top,
    "end": open_end,
    "late": late,
    "off beats.all": off_beats,
    "off beats.some": off_beats,
    "breath.one": breath,
    "breath.many": breath,
    "practice.frame": frame_alone,
    "practice.guide line": guide_line,
    "practice.guides": lambda c: all(1 <= c.facts.midi(a) - c.facts.midi(b) <= 2 for a, b in c.pairs),
    **dict.fromkeys(
        ("practice.echo", "practice.echo whole", "practice.echo same", "practice.echo same whole"), shifted
    ),
    "practice.cell": in_a_row,
    "practice.skeleton": skeleton,
    "practice.crossing": crossing,
    "practice.crossing inside": crossing,
    "practice.change": change,
    "practice.leap": far,
    "practice.octave": far,
    "practice.arpeggio": in_a_row,
    "practice.push": pushed,
    "practice.aim": named_only,
    "practice.line": named_only,
    "practice.line alone": named_only,
    "practice.one note": named_only,
    "practice.one note alone": named_only,
    **{f"home.{kind}{more}": home for kind in HOMES for more in ("", " with seventh")},
    "home.same diminished scale": home,
}
