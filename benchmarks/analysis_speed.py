"""How fast the account of a phrase is: `python benchmarks/analysis_speed.py`.

Prints the processor time of a full account of a 4-bar phrase and of its explanation, how the cost grows up
to 512 bars, and the ratio to reading the degrees of the same phrase through music21 (the chord symbol of
each note, and its interval from that root): first with both starting from text, that is note names and
chord symbols, then from the phrase and the part already read. The figures are the best of several calls,
so what is remembered from call to call (chords, scales, words) is warm; the first call is given too.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from itertools import cycle, islice

from music21 import harmony, interval, note, stream

from shedbook.analysis.account import account
from shedbook.analysis.hearing.chord_spans import spans_of
from shedbook.analysis.hearing.heard_notes import hear_notes
from shedbook.analysis.hearing.note_places import note_places
from shedbook.analysis.proof import proof
from shedbook.analysis.telling import explain
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

CHANGES = ("Cm7b5", "F7b9", "Bbm6", "Bbm6")
SCALES = ("locrian", "half-whole diminished", "melodic minor", "melodic minor")
BARS = (
    "1/8 eb4 gb4 bb4 c5 eb5 c5 bb4 ab4",
    "1/8 a4 c5 eb5 e5 f5 eb5 d5 c5",
    "1/8 db5 c5 bb4 a4 bb4 db5 f5 ab5",
    "1/8 g5 f5 db5 bb4 c5 a4 bb4 f4",
)


def phrase(bars: int) -> Phrase:
    def repeat(texts: tuple[str, ...]) -> str:
        return " | ".join(islice(cycle(texts), bars))

    return phrase_from_fields(
        {"title": "Speed", "changes": repeat(CHANGES), "scales": repeat(SCALES), "line": repeat(BARS)}
    )


def best_of(repeats: int, work: Callable[[], object]) -> float:
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def music21_part() -> stream.Part:
    """The 4 bars as a music21 part."""
    part = stream.Part()
    for number, (symbol, line) in enumerate(zip(("Cm7b5", "F7 addb9", "B-m6", "B-m6"), BARS, strict=True)):
        measure = stream.Measure(number=number + 1)
        measure.append(harmony.ChordSymbol(symbol))
        for name in line.split()[1:]:
            measure.append(note.Note(name[0].upper() + name[1:].replace("b", "-"), quarterLength=0.5))
        part.append(measure)
    return part


def degrees_through_music21(part: stream.Part) -> list[str]:
    """Read the chord of every note, and the note's interval from the chord's root."""
    found = []
    for one in part.recurse().getElementsByClass(note.Note):
        chord = one.getContextByClass(harmony.ChordSymbol)
        found.append(interval.Interval(chord.root(), one.pitch).semiSimpleName)
    return found


def degrees_here(written: Phrase) -> list[str]:
    spans = spans_of(written, written.scales)
    return [heard.degree for heard in hear_notes(spans, note_places(written)).notes]


def compare(start: str, theirs: float, degrees: float, whole: float) -> None:
    """Print the times, in seconds, and the ratios of music21's degrees to ours and to a full account."""
    print(f"{start}: degrees through music21 {theirs * 1000:.2f} ms,")
    print(f"  degrees here {degrees * 1000:.2f} ms, ratio {theirs / degrees:.0f};")
    print(f"  full account here {whole * 1000:.2f} ms, ratio {theirs / whole:.1f}")


def main() -> None:
    first = best_of(1, lambda: account(phrase(4)))
    print(f"first account of the process, from text: {first * 1000:.2f} ms")
    four = phrase(4)
    whole = best_of(30, lambda: account(four))
    told = account(four)
    print(f"account of 4 bars, {len(told.notes)} notes: {whole * 1000:.2f} ms")
    print(f"explanation of it: {best_of(30, lambda: explain(told)) * 1000:.2f} ms")
    print(f"proof-reading of it: {best_of(30, lambda: proof(told)) * 1000:.2f} ms")
    for bars in (8, 32, 128, 512):
        long = phrase(bars)
        spent = best_of(3, lambda long=long: account(long))  # type: ignore[misc]
        print(f"account of {bars} bars: {spent * 1000:.1f} ms, {spent / bars * 1000:.3f} ms a bar")
    theirs = best_of(5, lambda: degrees_through_music21(music21_part()))
    degrees = best_of(30, lambda: degrees_here(phrase(4)))
    from_text = best_of(30, lambda: account(phrase(4)))
    compare("from text", theirs, degrees, from_text)
    parts = iter([music21_part() for _ in range(5)])  # a part remembers what was read of it
    theirs = best_of(5, lambda: degrees_through_music21(next(parts)))
    compare("already read", theirs, best_of(30, lambda: degrees_here(four)), whole)


if __name__ == "__main__":
    main()
