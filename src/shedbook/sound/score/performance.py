"""From the written score to what is played: swing, lying back, small unevenness, in ticks.

Conventions: a tick is 1/960 of a quarter, an integer; pitch bend in cents. The same score and seed give
the same ticks. Within a part no two notes of one key overlap, and the line and the bass play one note at a
time; nothing starts before the first tick or sounds past the last bar line.
"""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from types import MappingProxyType

from shedbook.sound.score.drift import by_tempo, drift
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.swing import Swing, swing, swings
from shedbook.sound.score.tables.mix import VOLUMES
from shedbook.sound.score.tables.timing import (
    AHEAD_MS,
    ALTERNATES,
    BENDS,
    PLAYERS,
    SHARED_DRIFT_MS,
    STROKE_CENTS,
    STROKE_FILTER_CENTS,
    PlayerTiming,
)
from shedbook.sound.score.written_score import (
    BASS,
    COUNT,
    COUNT_IN,
    DRUMS,
    LINE,
    PLAYER_NAMES,
    KeyAt,
    Part,
    Score,
    Sign,
)
from shedbook.sound.tables.drum_keys import SNARE, STANDARD_KIT
from shedbook.table_index import need
from shedbook.theory.metre import Metre

TICKS_A_QUARTER = 960
_SHORTEST = 20
_ONE_AT_A_TIME = (LINE, BASS)
_MONO_GAP = 4


def check_players(timing: Mapping[str, PlayerTiming], volumes: Mapping[str, int]) -> None:
    """See that every player stands in time and has a place in the mix.

    Raises:
        TableError: if one has no row.
    """
    folder = "src/shedbook/sound/score/tables"
    for player in PLAYER_NAMES:
        need(
            player in timing,
            f'Nothing says when the player "{player}" plays.',
            f'Write PlayerTiming("{player}", …) into PLAYERS in {folder}/timing.py.',
        )
        need(
            player in volumes,
            f'Nothing says how loud the player "{player}" is.',
            f'Write "{player}" into VOLUMES in {folder}/mix.py.',
        )


_TIMING: Mapping[str, PlayerTiming] = MappingProxyType({row.player: row for row in PLAYERS})
check_players(_TIMING, VOLUMES)


@dataclass(frozen=True, slots=True)
class PlayedNote:
    """One note as played, in ticks from the first beat of the track."""

    start: int
    end: int
    midi: int
    velocity: int
    bend: str = ""


@dataclass(frozen=True, slots=True)
class Bend:
    """The pitch bend of a part from a tick on, in cents."""

    tick: int
    cents: float


@dataclass(frozen=True, slots=True)
class PlayedPart:
    """What one player plays, as `written_score.Part`, in ticks.

    `filters` say by how many cents the filter of a drum's strokes is lower from a tick on.
    """

    player: str
    name: str
    program: int
    channel: int
    pan: int
    notes: tuple[PlayedNote, ...]
    bends: tuple[Bend, ...] = ()
    filters: tuple[Bend, ...] = ()


@dataclass(frozen=True, slots=True)
class TempoFrom:
    """The tempo from a tick on: microseconds a quarter, and taps a minute."""

    tick: int
    tempo_us: int
    tempo_bpm: int


@dataclass(frozen=True, slots=True)
class Performance:
    """A score as played; `ticks` is its length up to the last bar line, `tempo_us` microseconds a quarter.

    Where the tempo changes, `later` says from which tick on how many microseconds a quarter has. `texts` are
    said at its beginning. `drums_db` is how loud the drums are over the bass, in LU, None for the stage's
    own.
    """

    title: str
    parts: tuple[PlayedPart, ...]
    ticks: int
    tempo_us: int
    metre: Metre
    keys: tuple[KeyAt, ...]
    signs: tuple[Sign, ...]
    texts: tuple[str, ...] = ()
    drums_db: float | None = None
    later: tuple[TempoFrom, ...] = ()
    counted: tuple[tuple[int, int], ...] = ()

    @property
    def band_tick(self) -> int:
        """Where the count-in is over."""
        return next((to_ticks(sign.start) for sign in self.signs if sign.text != COUNT_IN), 0)

    @property
    def seconds(self) -> float:
        """How long the track lasts up to its last bar line."""
        return self.seconds_at(self.ticks)

    def seconds_at(self, tick: int) -> float:
        """Return when a tick sounds, in seconds from the first beat of the track."""
        passed, at, tempo_us = 0, 0, self.tempo_us
        for row in self.later:
            if row.tick >= tick:
                break
            passed, at, tempo_us = passed + (row.tick - at) * tempo_us, row.tick, row.tempo_us
        return (passed + (tick - at) * tempo_us) / TICKS_A_QUARTER / 1_000_000


def to_ticks(place: Fraction) -> int:
    """Return a place in quarters as ticks, to the nearest."""
    return (2 * TICKS_A_QUARTER * place.numerator + place.denominator) // (2 * place.denominator)


def perform(score: Score, *, seed: int = 0, human: bool = True) -> Performance:
    """Return a score as it is played, in ticks.

    Args:
        score: what is written, in quarters.
        seed: another seed gives other small unevennesses.
        human: whether there are any; without them the same notes come out exactly swung.

    How much the eighths swing and a soloist lays back comes from the score's feel and tempo
    (`tables.swing`: Friberg & Sundström 2002), who plays how late from `tables.timing`.
    """
    ticks = to_ticks(score.quarters)
    parts = tuple(_played(part, score, ticks, seed if human else None) for part in score.parts)
    later = tuple(
        TempoFrom(to_ticks(row.start), _us(row.tempo_qpm), row.tempo_bpm) for row in score.later_tempos
    )
    return Performance(
        score.title,
        parts,
        ticks,
        _us(score.tempo_qpm),
        score.metre,
        score.keys,
        score.signs,
        drums_db=score.feel.drums.level_db,
        later=later,
        counted=tuple((to_ticks(place), number) for place, number in score.counted),
    )


def _us(tempo_qpm: Fraction) -> int:
    """Return how many microseconds a quarter has."""
    return round(60_000_000 / tempo_qpm)


@dataclass(frozen=True, slots=True)
class _Manner:
    """How one player plays at one tempo: where a tick falls on a key, how late and uneven he is, in ticks."""

    bent: Callable[[int, int], int]
    late: int
    ahead: Mapping[int, int]
    jitter: int


def _manner(part: Part, score: Score, row: PlayerTiming, tempo_qpm: Fraction) -> _Manner:
    ahead = {key: _ms_ticks(ms * 1000, tempo_qpm) for key, ms in AHEAD_MS.items()}
    return _Manner(
        _bending(part, swing(score.feel, tempo_qpm), score.metre, row),
        _ms_ticks(round(row.offset_ms * 1000 * by_tempo(tempo_qpm)), tempo_qpm),
        ahead if part.player == DRUMS else {},
        _ms_ticks(row.jitter_us, tempo_qpm),
    )


def _played(part: Part, score: Score, ticks: int, seed: int | None) -> PlayedPart:
    row = _TIMING[part.player]
    dice = None if seed is None else seeded(seed, "play", part.player, score.name)
    drifting = _drifting(score, row, seed)
    tempos = [score.tempo_qpm, *(one.tempo_qpm for one in score.later_tempos)]
    manners = {tempo: _manner(part, score, row, tempo) for tempo in tempos}
    notes = []
    for note in part.notes:
        own = manners[score.tempo_at(note.start)]
        shift = own.late - own.ahead.get(note.midi, 0)
        loud = note.velocity
        if dice is not None:
            shift += drifting(note.start) + _uneven(dice, own.jitter)
            loud += _uneven(dice, row.jitter_velocity)
        start = min(max(0, own.bent(to_ticks(note.start), note.midi) + shift), ticks - _SHORTEST)
        end = min(max(start + _SHORTEST, own.bent(to_ticks(note.end), note.midi) + shift), ticks)
        notes.append(PlayedNote(start, end, note.midi, min(127, max(1, loud)), note.bend))
    clear = _untangled(notes, mono=part.player in _ONE_AT_A_TIME)
    bends, filters = _bends(clear, score), tuple[Bend, ...]()
    if dice is not None and part.player == DRUMS and part.name != COUNT:
        bends = _strokes_apart(clear, dice)
        filters = tuple(Bend(bend.tick, -abs(_uneven(dice, STROKE_FILTER_CENTS))) for bend in bends)
        clear = tuple(_alternate(note, part.program, dice) for note in clear)
    return PlayedPart(part.player, part.name, part.program, part.channel, part.pan, clear, bends, filters)


def _alternate(note: PlayedNote, kit: int, dice: random.Random) -> PlayedNote:
    """Return a stroke, now and then on another drum of the same kind."""
    other = ALTERNATES.get(note.midi)
    if other is None or (note.midi == SNARE and kit != STANDARD_KIT):
        return note
    key, percent, harder = other
    if dice.randrange(100) >= percent:
        return note
    return replace(note, midi=key, velocity=min(127, note.velocity + harder))


def _drifting(score: Score, row: PlayerTiming, seed: int | None) -> Callable[[Fraction], int]:
    """Return by how many ticks a player is late at a place: his own slow drift, and the one all share.

    Both stand still at the first beat and at the last bar line, so that a count-in is even and a loop joins.
    """
    if seed is None:
        return lambda place: 0
    beats = ceil(score.quarters)
    tempos = [score.tempo_at(Fraction(beat)) for beat in range(beats + 1)]
    shared = drift(seeded(seed, "play", "band", score.name), beats, SHARED_DRIFT_MS)
    own = drift(seeded(seed, "play", "drift", row.player, score.name), beats, row.drift_ms)
    late = [
        _ms_ticks(round(1000 * by_tempo(tempo) * (one + two)), tempo)
        for one, two, tempo in zip(shared, own, tempos, strict=True)
    ]

    def drifting(place: Fraction) -> int:
        top, bottom = place.numerator, place.denominator
        beat = min(top // bottom, beats - 1)
        inside = top / bottom - beat
        return round(late[beat] + (late[beat + 1] - late[beat]) * inside)

    return drifting


def _strokes_apart(notes: Iterable[PlayedNote], dice: random.Random) -> tuple[Bend, ...]:
    """Return a small bend of the pitch at every stroke: a drum of one sample does not repeat itself."""
    found = [Bend(tick, 0) for tick in sorted({note.start for note in notes})]
    return tuple(replace(bend, cents=round(_uneven(dice, 100 * STROKE_CENTS) / 100, 2)) for bend in found)


def _uneven(dice: random.Random, most: int) -> int:
    """Return a small whole number round 0, at most `most` away, the small ones likelier."""
    return round((dice.random() + dice.random() - 1) * most)


def _ms_ticks(us: int, tempo_qpm: Fraction) -> int:
    """Return microseconds in ticks."""
    return round(us * tempo_qpm * TICKS_A_QUARTER / 60_000_000)


def _bending(part: Part, how: Swing, metre: Metre, row: PlayerTiming) -> Callable[[int, int], int]:
    """Return where a tick of the score falls when this player plays it, on a key.

    Whether a beat is even is judged for the player as a whole; for the drums, which are several voices, for
    each key.
    """
    one_by_one = part.player == DRUMS
    onsets: dict[tuple[int, int], set[Fraction]] = defaultdict(set)
    for note in part.notes:
        top, bottom = note.start.numerator, note.start.denominator
        if bottom > 1:
            onsets[top // bottom, note.midi * one_by_one].add(Fraction(top % bottom, bottom))
    even_off = TICKS_A_QUARTER // 2
    compound = metre.unit > 4
    even = frozenset(place for place, inside in onsets.items() if not swings(frozenset(inside)))
    lag = to_ticks(how.lag) if row.lays_back else 0
    off_beat = to_ticks(how.off_beat)

    def bent(tick: int, midi: int) -> int:
        beat, inside = divmod(tick, TICKS_A_QUARTER)
        start = tick - inside
        if compound or off_beat == even_off or (beat, midi * one_by_one) in even:
            return tick + lag  # a group that is played even is late as a whole
        if inside >= even_off:
            return start + off_beat + (inside - even_off) * (TICKS_A_QUARTER - off_beat) // even_off
        # Late on the beat, together with the drummer on the off-beat.
        return start + lag + inside * (off_beat - lag) // even_off

    return bent


def _untangled(notes: Sequence[PlayedNote], *, mono: bool) -> tuple[PlayedNote, ...]:
    """Return notes in order that do not overlap on one key, and not at all where one is played at a time."""
    ordered = sorted(notes, key=lambda note: (note.start, note.midi, -note.end))
    found: list[PlayedNote] = []
    last: dict[int, int] = {}
    for note in ordered:
        key = 0 if mono else note.midi
        before = last.get(key)
        if before is not None:
            earlier = found[before]
            if earlier.start >= note.start:
                continue
            if earlier.end > note.start - _MONO_GAP * mono:
                cut = max(earlier.start + 1, note.start - _MONO_GAP * mono)
                found[before] = replace(earlier, end=min(earlier.end, cut))
        last[key] = len(found)
        found.append(note)
    return tuple(found)


def _bends(notes: Iterable[PlayedNote], score: Score) -> tuple[Bend, ...]:
    """Return the pitch bends of scooped and falling notes, each ended by a return to 0."""
    found: list[Bend] = []
    for note in notes:
        row = next((row for row in BENDS if row.mark == note.bend), None)
        if row is None:
            continue
        tempo_qpm = score.tempo_at(Fraction(note.start, TICKS_A_QUARTER))
        length = min(note.end - note.start, _ms_ticks(1000 * row.ms, tempo_qpm))
        first = note.start if row.at_start else note.end - length
        last = len(row.path) - 1
        found += [Bend(first + length * step // last, cents) for step, cents in enumerate(row.path)]
        if row.path[-1]:
            found.append(Bend(note.end, 0))
    return tuple(found)
