"""Theory and editions against music21: ratios, not a timed test.

One phrase of 32 notes over four chords is taken into twelve keys. music21 gets the easier work: the
same 32 notes in a flat stream, once without and once with its own chord symbols. Run it with
`python benchmarks/theory_speed.py`.
"""

from __future__ import annotations

import time
import tracemalloc
from collections.abc import Callable

import music21

from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_keys
from shedbook.editions.spelling.note_spelling import respell
from shedbook.editions.transpose import transpose
from shedbook.phrase.changes_text import parse_changes, parse_scales
from shedbook.phrase.line_text import parse_line
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval, degree_interval
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre

LINE = "1/8 f4 ab c5 eb d f ab g | eb5 c# d f e d db b4 | c5 d eb g a g eb c | b4 c5 d eb f# g a c6"
CHANGES = "Dm7b5 | G7b9 | Cm6 | Cm6"
SCALES = "locrian | half-whole diminished | melodic minor | melodic minor"
INTERVALS = ("b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7", "8")
MUSIC21_INTERVALS = ("m2", "M2", "m3", "M3", "P4", "A4", "P5", "m6", "M6", "m7", "M7", "P8")


def phrase() -> Phrase:
    metre = Metre()
    bars = parse_line(LINE, metre)
    changes = parse_changes(CHANGES, metre).changes
    scales = parse_scales(SCALES, changes, len(bars))
    return Phrase("benchmark", Key.parse("C minor"), metre, bars, changes, scales)


def stream(source: Phrase, *, chords: bool) -> music21.stream.Stream:
    made = music21.stream.Stream()
    for bar in source.bars:
        for event in bar.events:
            assert event.pitch is not None
            made.append(music21.note.Note(str(event.pitch).replace("b", "-"), quarterLength=0.5))
    if chords:
        for place, symbol in zip((0, 4, 8, 12), ("Dm7b5", "G7b9", "Cm6", "Cm6"), strict=True):
            made.insert(place, music21.harmony.ChordSymbol(symbol))
    return made


def best_seconds(work: Callable[[], object], times: int) -> float:
    """Return the quickest of several runs, the first (which fills caches) not counted."""
    work()
    found = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def main() -> None:
    source = phrase()
    intervals: list[Interval] = [degree_interval(degree) for degree in INTERVALS]
    theirs = [music21.interval.Interval(name) for name in MUSIC21_INTERVALS]
    keys = key_cycle(source.key)
    plain, symbols = stream(source, chords=False), stream(source, chords=True)
    music21_plain = best_seconds(lambda: [plain.transpose(by) for by in theirs], 5)
    music21_symbols = best_seconds(lambda: [symbols.transpose(by) for by in theirs], 5)
    print(f"music21, twelve keys: {music21_plain * 1e3:.1f} ms, with symbols {music21_symbols * 1e3:.1f} ms")
    rows: tuple[tuple[str, Callable[[], object]], ...] = (
        ("transpose", lambda: [transpose(source, by) for by in intervals]),
        ("transpose and respell", lambda: [respell(transpose(source, by)) for by in intervals]),
        ("in_keys (register and spelling)", lambda: in_keys(source, keys)),
    )
    for name, work in rows:
        seconds = best_seconds(work, 30)
        tracemalloc.start()
        work()
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        print(
            f"{name}: {seconds * 1e3:.2f} ms, {music21_plain / seconds:.0f} times faster than music21's "
            f"notes ({music21_symbols / seconds:.0f} with symbols); peak memory {peak / 1024:.0f} KiB"
        )


if __name__ == "__main__":
    main()
