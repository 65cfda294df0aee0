"""What the band plays, in figures, read from its MIDI: one line of figures a feel, and what is wrong.

Every feel is played over three phrases of the demo book, twice, and over two phrases in eighths; the figures
are those that `docs/sound.md` keeps. With `--sound` the levels of every player's sound come too
(`benchmarks.band_levels`). The same tree gives the same figures.

    python -m benchmarks.band_figures [--sound]
"""

from __future__ import annotations

import statistics
import sys
from bisect import bisect_right
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from shedbook.analysis.account import account
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.score.performance import Performance, perform
from shedbook.sound.score.tables.timing import ALTERNATES
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE, Part, PartNote, Score
from shedbook.sound.tables.drum_keys import CRASH, FOOT, KICK, RIDE, SNARE, TAP
from shedbook.theory.chord_symbol import parse_chord

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"
PHRASES, ROUNDS, SEEDS = (0, 20), 8, (0, 1)
TEMPOS = {"fast swing": 240, "ballad": 66, "samba": 200, "latin": 180, "funk": 100, "waltz": 150}
USUAL_TEMPO = 132
PASSAGES = ("round", "answer", "space", "set-up", "ending")
APPROACHES = {
    1: "half step", -1: "half step", 2: "whole step", -2: "whole step", 5: "dominant", -7: "dominant",
}  # fmt: skip
"""The interval into a new chord's first note to how bass teaching calls it (common practice)."""
ACCENT = 40
"""From this velocity on a stroke of snare or kick is heard as an accent of the comping."""


class Take(NamedTuple):
    """One track: the phrase, its score, and how it is played with and without small unevenness."""

    phrase: Phrase
    score: Score
    played: Performance
    even: Performance


def take(phrase: Phrase, feel: str, seed: int, parts: str = "both") -> Take:
    tempo = TEMPOS.get(feel, USUAL_TEMPO)
    order = Order(parts=parts, rounds=ROUNDS, feel=feel, tempo_bpm=tempo, seed=seed)
    score = arrange(phrase, order)
    return Take(phrase, score, perform(score, seed=seed), perform(score, seed=seed, human=False))


def takes(feel: str) -> list[Take]:
    phrases = [read_phrase(source) for source in open_manuscript(DEMO).phrases]
    chosen = (in_three(),) if feel == "waltz" else (*(phrases[number] for number in PHRASES), crowded())
    return [take(phrase, feel, seed) for phrase in chosen for seed in SEEDS]


def crowded() -> Phrase:
    """Return a phrase with two chords a bar, some of them where no pattern expects them."""
    line = "1/8 d5 f a4 c5 b4 d5 f ab | g5 e c#5 bb4 1/4 a - | 1/8 f4 a c5 e d b4 g f | 1/4 e g 1/2 -"
    changes = "Dm7 G7 | Em7 A7@2.5 | Dm7 G7@4 | Cmaj7 A7@4.5"
    return phrase_from_fields({"title": "Crowded", "changes": changes, "line": line})


def in_three() -> Phrase:
    line = "1/8 d5 f a4 c5 e d | b4 d5 f ab g f | 1/4 e 1/8 d c 1/4 g4 | 1/2. c5"
    return phrase_from_fields(
        {"title": "Three", "metre": "3/4", "changes": "Dm7 | G7b9 | Cmaj7 | A7", "line": line}
    )


def in_eighths(metre: str) -> Phrase:
    bar = "1/8 d5 e f 1/4. a" if metre == "6/8" else "1/8 d5 e f 1/4. a 1/8 g f e 1/4. d"
    return phrase_from_fields(
        {
            "title": "Eighths",
            "metre": metre,
            "changes": "Dm7 | G7 | Cmaj7 | A7",
            "line": " | ".join([bar] * 4),
        }
    )


def part(score: Score, player: str) -> Part:
    return next(one for one in score.parts if one.player == player)


# Chords, rounds and accents of a score.


def passages(score: Score) -> list[tuple[Fraction, Fraction, str]]:
    """Return start, end and kind of every passage."""
    starts = [(sign.start, sign.text) for sign in score.signs if sign.text in PASSAGES]
    ends = [start for start, _ in starts[1:]] + [score.quarters]
    return [(start, end, kind) for (start, kind), end in zip(starts, ends, strict=True)]


def new_chords(score: Score) -> list[tuple[Fraction, int]]:
    """Return where a chord comes that is another than the one before, with its lowest pitch class."""
    found: list[tuple[Fraction, int]] = []
    before = ""
    for sign in score.signs:
        if sign.text in (*PASSAGES, "count-in"):
            continue
        chord = parse_chord(sign.text)
        root = chord.bass or chord.root
        if sign.text != before and root is not None:
            found.append((sign.start, root.pitch_class))
        before = sign.text
    return found


def accents(score: Score) -> set[Fraction]:
    """Return where snare or kick comp with an accent off the beat."""
    return {
        note.start
        for note in part(score, DRUMS).notes
        if note.midi in (SNARE, KICK) and note.velocity >= ACCENT and note.start % 1
    }


def strikes(score: Score) -> list[tuple[Fraction, tuple[PartNote, ...]]]:
    found: dict[Fraction, list[PartNote]] = {}
    for note in part(score, COMPING).notes:
        found.setdefault(note.start, []).append(note)
    return [
        (start, tuple(sorted(notes, key=lambda note: note.midi))) for start, notes in sorted(found.items())
    ]


# The figures of a feel.


def share(hits: Iterable[bool]) -> float:
    rows = list(hits)
    return 100 * sum(rows) / len(rows) if rows else 0.0


def bass_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    missing = total = rooted = 0
    lengths: Counter[str] = Counter()
    again: list[bool] = []
    soft: list[bool] = []
    leads: list[bool] = []
    kinds: Counter[str] = Counter()
    heights: list[int] = []
    for one in all_takes:
        notes = part(one.score, BASS).notes
        for start, pitch_class in new_chords(one.score):
            total += 1
            # A note that is struck ahead for a chord, up to a beat before it, is that chord's.
            over = [note for note in notes if note.start <= start < note.end and start - note.start <= 1]
            own = [note for note in over if note.start == start or note.midi % 12 == pitch_class]
            missing += not own
            rooted += any(note.midi % 12 == pitch_class for note in own)
        for note, after in pairwise(notes):
            lengths[str(after.start - note.start)] += 1
            again.append(note.midi == after.midi)
            soft.append(note.velocity < 60)
            if after.start in dict(new_chords(one.score)):
                leads.append(after.midi - note.midi in (1, -1, 2, -2, 5, -7))
                kinds[APPROACHES.get(after.midi - note.midi, "other")] += 1
        heights += [note.midi for note in notes]
    common = ", ".join(
        f"{length} {100 * count / lengths.total():.0f}" for length, count in lengths.most_common(3)
    )
    return {
        "new chords without a bass note": f"{missing} of {total}",
        "new chords on their root": f"{100 * rooted / total:.1f} %",
        "into a new chord by step or dominant": f"{share(leads):.0f} %",
        "half step, whole step, dominant, other (%)": ", ".join(
            f"{100 * kinds[kind] / max(1, kinds.total()):.0f}"
            for kind in ("half step", "whole step", "dominant", "other")
        ),
        "register: lowest, median, highest": ", ".join(
            f"{height:.0f}" for height in (min(heights), statistics.median(heights), max(heights))
        ),
        "from note to note, quarters (%)": common,
        "a pitch again": f"{share(again):.0f} %",
        "ghosts and short notes": f"{share(soft):.0f} %",
    }


def piano_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    still: list[bool] = []
    same: list[bool] = []
    over: list[bool] = []
    silent = chords = hits = bars = 0
    for one in all_takes:
        rows = strikes(one.score)
        for (_, before), (_, after) in pairwise(rows):
            still.append(before[-1].midi == after[-1].midi)
            same.append([note.midi for note in before] == [note.midi for note in after])
        line = part(one.score, LINE).notes
        for start, notes in rows:
            with_it = [note.midi for note in line if note.start < notes[0].end and note.end > start]
            over += [notes[-1].midi >= min(with_it)] if with_it else []
        starts = [start for start, _ in rows]
        places = [place for place, _ in new_chords(one.score)]
        for place, end in zip(places, [*places[1:], one.score.quarters], strict=True):
            chords += 1
            silent += not any(place - Fraction(1, 2) <= start < end for start in starts)
        hits += len(rows)
        bars += int(one.score.quarters / one.score.metre.bar_quarters)
    return {
        "hits a bar": f"{hits / bars:.2f}",
        "top note unmoved": f"{share(still):.0f} %",
        "the same voicing again": f"{share(same):.0f} %",
        "top note in the line's register": f"{share(over):.0f} %",
        "chords that nobody strikes": f"{silent} of {chords}",
    }


def line_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    loud: list[int] = []
    landed: list[int] = []
    passed: list[int] = []
    for one in all_takes:
        own = [note.velocity for note in part(one.score, LINE).notes]
        loud += own
        read = account(one.phrase).notes
        for index, velocity in enumerate(own):
            (landed if read[index % len(read)].landing else passed).append(velocity)
    apart = statistics.mean(landed) - statistics.mean(passed) if landed and passed else 0
    return {
        "velocities from 80 to 97": f"{share(80 <= one <= 97 for one in loud):.0f} %",
        "spread of velocity": f"{statistics.pstdev(loud):.1f}",
        "landings over passing notes": f"{apart:+.1f}",
    }


def arc_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    """Mean velocity of the band, round by round, the mean over all takes."""
    rounds: dict[int, list[int]] = {}
    for one in all_takes:
        spans = [(start, end) for start, end, kind in passages(one.score) if kind == "round"]
        starts = [start for start, _ in spans]
        for player in (BASS, COMPING, DRUMS):
            for note in part(one.score, player).notes:
                at = bisect_right(starts, note.start) - 1
                if at >= 0 and note.start < spans[at][1]:
                    rounds.setdefault(at, []).append(note.velocity)
    means = [statistics.mean(rounds[at]) for at in sorted(rounds)]
    return {
        "mean velocity, softest and loudest round": f"{min(means):.1f} to {max(means):.1f}",
        "last round over the first": f"{means[-1] - means[0]:+.1f}",
    }


def listening_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    """How much likelier an accent of the drums is with an off-beat chord than without."""
    together = apart = with_it = without = 0
    for one in all_takes:
        struck = {start for start, _ in strikes(one.score) if start % 1}
        heard = accents(one.score)
        places = {Fraction(at, 2) for at in range(1, 2 * int(one.score.quarters), 2)}
        together += len(places & struck)
        with_it += len(places & struck & heard)
        apart += len(places - struck)
        without += len((places - struck) & heard)
    if not together or not apart:
        return {"drums with an off-beat chord, and without": "-"}
    return {
        "drums with an off-beat chord, and without": f"{100 * with_it / together:.0f} and "
        f"{100 * without / apart:.0f} %"
    }


def drum_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    twice: list[bool] = []
    for one in all_takes:
        last: dict[int, tuple[int, int]] = {}
        drums = next(row for row in one.played.parts if row.player == DRUMS)
        for note in drums.notes:
            key = RIDE if note.midi in (RIDE, 59) else SNARE if note.midi in (SNARE, 40) else note.midi
            now = (note.midi, note.velocity)
            twice += [last[key] == now] if key in last else []
            last[key] = now
    return {"a drum struck twice alike": f"{share(twice):.0f} %"}


def timing_figures(all_takes: Sequence[Take]) -> dict[str, str]:
    """Where each player stands against the even performance: mean, spread, and how slowly it changes."""
    found: dict[str, str] = {}
    for player in (LINE, BASS, COMPING, DRUMS):
        rows: list[float] = []
        pairs: list[tuple[float, float]] = []
        for one in all_takes:
            off = _offsets(one, player)
            rows += off
            pairs += list(pairwise(off))
        if len(pairs) > 2 and statistics.pstdev(rows):
            slow = statistics.correlation([a for a, _ in pairs], [b for _, b in pairs])
            found[f"{player}: spread in ms, from note to note"] = f"{statistics.pstdev(rows):.1f}, {slow:.2f}"
    found["bass after the ride, mean and spread in ms"] = _bass_after_ride(all_takes)
    return found


def _offsets(one: Take, player: str) -> list[float]:
    """Return by how many milliseconds each note comes after its even place; chords and kits once a place."""
    ms = one.played.tempo_us / 960 / 1000
    played = next(row for row in one.played.parts if row.player == player)
    even = next(row for row in one.even.parts if row.player == player)
    if len(played.notes) != len(even.notes):
        return []
    found: dict[int, float] = {}
    usual = {other: key for key, (other, _, _) in ALTERNATES.items()} if player == DRUMS else {}
    for heard, written in zip(
        sorted(played.notes, key=lambda note: (usual.get(note.midi, note.midi), note.start)),
        sorted(even.notes, key=lambda note: (usual.get(note.midi, note.midi), note.start)),
        strict=True,
    ):
        found.setdefault(written.start, (heard.start - written.start) * ms)
    return [found[place] for place in sorted(found)]


def _bass_after_ride(all_takes: Sequence[Take]) -> str:
    rows: list[float] = []
    for one in all_takes:
        ms = one.played.tempo_us / 960 / 1000
        drums = next(row for row in one.played.parts if row.player == DRUMS)
        time = sorted(note.start for note in drums.notes if note.midi not in (FOOT, CRASH, SNARE, TAP))
        for note in next(row for row in one.played.parts if row.player == BASS).notes:
            near = min(time, key=lambda tick: abs(tick - note.start))
            if abs(near - note.start) * ms < 45:
                rows.append((note.start - near) * ms)
    return f"{statistics.mean(rows):+.1f}, {statistics.pstdev(rows):.1f}" if len(rows) > 1 else "-"


FIGURES: tuple[Callable[[Sequence[Take]], dict[str, str]], ...] = (
    bass_figures, piano_figures, line_figures, arc_figures, listening_figures, drum_figures, timing_figures,
)  # fmt: skip


def eighths_figures() -> list[str]:
    """Where foot and snare, tap or rim fall in metres in eighths, in eighths from the bar line."""
    rows = []
    for metre in ("6/8", "12/8"):
        for feel in ("swing", "straight", "ballad"):
            score = arrange(in_eighths(metre), Order(parts="trio", rounds=2, feel=feel, count_in=0))
            bar = score.metre.bar_quarters
            feet = Counter(
                int(note.start % bar * 2) + 1 for note in part(score, DRUMS).notes if note.midi == FOOT
            )
            places = " ".join(str(place) for place in sorted(feet))
            rows.append(f"| {metre} {feel} | {places} |")
    return rows


def main() -> None:
    columns: dict[str, dict[str, str]] = {}
    for feel in FEELS:
        played = takes(feel)
        columns[feel] = {name: text for figures in FIGURES for name, text in figures(played).items()}
    names = list(dict.fromkeys(name for column in columns.values() for name in column))
    print(f"| | {' | '.join(columns)} |")
    print(f"|---|{'---|' * len(columns)}")
    for name in names:
        print(f"| {name} | {' | '.join(column.get(name, '-') for column in columns.values())} |")
    print("\n| the foot falls on eighth | |\n|---|---|")
    print("\n".join(eighths_figures()))
    if "--sound" in sys.argv:
        from benchmarks.band_levels import report  # noqa: PLC0415 - needs a synthesiser

        report()


if __name__ == "__main__":
    main()
