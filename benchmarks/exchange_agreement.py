"""How far the MusicXML reader agrees with music21 on real files: every score of music21's own corpus.

For every part that music21 finds to be one line (no chords, no voices), and for the top staff of parts
with several, each bar's notes are compared: pitch as it sounds, place and length, tied notes joined. Chord
symbols are compared by place, root, bass and tones. Repeats are left as they stand on the page.

    python benchmarks/exchange_agreement.py [PART-OF-PATH …] [--files N] [--show N]

The corpus is part of the music21 package; nothing is fetched.
"""

from __future__ import annotations

import argparse
import sys
import time
import warnings
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

from shedbook.errors import ShedbookError
from shedbook.exchange.ground.long_line import LongLine
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.musicxml.reader import read_line

Notes = list[tuple[Fraction, Fraction, int]]
Symbols = list[tuple[Fraction, int, int, frozenset[int]]]
ENDINGS = (".xml", ".mxl", ".musicxml")


@dataclass
class Tally:
    """Counts over all files; `unlike` holds a line for each difference."""

    files: int = 0
    parts: int = 0
    parts_alike: int = 0
    bars: int = 0
    bars_alike: int = 0
    notes: int = 0
    notes_alike: int = 0
    symbols: int = 0
    symbols_alike: int = 0
    unlike: list[str] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    ours_s: float = 0.0


def corpus() -> Path:
    import music21  # noqa: PLC0415

    return Path(music21.__file__).parent / "corpus"


def files_of(wanted: list[str]) -> list[Path]:
    found = [path for path in sorted(corpus().rglob("*")) if path.suffix in ENDINGS]
    return [path for path in found if not wanted or any(text in str(path) for text in wanted)]


def one_line(part: Any) -> bool:
    """Say whether a part has no chords and no voices."""
    from music21 import chord, harmony, stream  # noqa: PLC0415

    if part.recurse().getElementsByClass(stream.Voice):
        return False
    return all(isinstance(one, harmony.Harmony) for one in part.recurse().getElementsByClass(chord.Chord))


def their_bar(measure: Any) -> Notes:
    """Return the notes of a bar as music21 reads it, tied ones joined."""
    from music21 import note  # noqa: PLC0415

    found: Notes = []
    tied = False
    for one in measure.getElementsByClass(note.Note):
        if one.duration.isGrace:
            continue
        start, length = Fraction(one.offset), Fraction(one.duration.quarterLength)
        last = found[-1] if found else None
        joins = tied and last is not None and last[0] + last[1] == start and last[2] == one.pitch.midi
        if joins and last is not None:
            found[-1] = (last[0], last[1] + length, last[2])
        else:
            found.append((start, length, one.pitch.midi))
        tied = one.tie is not None and one.tie.type in ("start", "continue")
    return found


def their_symbols(measure: Any) -> Symbols:
    """Return the chord symbols of a bar as music21 reads it."""
    from music21 import harmony  # noqa: PLC0415

    found: Symbols = []
    for one in measure.getElementsByClass(harmony.ChordSymbol):
        if isinstance(one, harmony.NoChord):
            continue
        tones = frozenset(pitch.pitchClass for pitch in one.pitches)
        found.append((Fraction(one.offset), one.root().pitchClass, one.bass().pitchClass, tones))
    return found


def our_bars(line: LongLine) -> Iterator[tuple[str, Notes, Symbols]]:
    for bar in line.bars:
        place = Fraction(0)
        notes: Notes = []
        for event in bar.events:
            if event.pitch is not None:
                notes.append((place, event.quarters, event.pitch.midi))
            place += event.quarters
        symbols: Symbols = []
        for start, chord in bar.chords:
            if chord.root is not None:
                bass = chord.bass or chord.root
                tones = chord.pitch_classes | {bass.pitch_class}
                symbols.append((start, chord.root.pitch_class, bass.pitch_class, frozenset(tones)))
        yield bar.label, notes, symbols


def close(one: Notes, other: Notes) -> bool:
    """Say whether two bars hold the same notes; music21 keeps some lengths as decimals."""
    if len(one) != len(other):
        return False
    return all(
        left[2] == right[2]
        and abs(left[0] - right[0]) < Fraction(1, 1000)
        and abs(left[1] - right[1]) < Fraction(1, 1000)
        for left, right in zip(one, other, strict=True)
    )


def compare(path: Path, tally: Tally) -> None:
    from music21 import converter, stream  # noqa: PLC0415

    name = path.relative_to(corpus()).as_posix()
    try:
        score = converter.parse(path, forceSource=True)
    except Exception as error:  # whatever music21 says, the file cannot be compared
        tally.unread.append(f"{name}: music21: {type(error).__name__}: {error}"[:140])
        return
    score = score.toSoundingPitch()
    data = path.read_bytes()
    tally.files += 1
    place, seen = 0, ""
    for part in score.parts:
        key = str(part.id).split("-Staff")[0] if isinstance(part, stream.PartStaff) else ""
        if key and key == seen:
            continue  # a further staff of the same part
        seen, place = key, place + 1
        if not one_line(part):
            continue
        start = time.process_time()
        try:
            line = read_line(data, name, Reporter(name), part=str(place), unroll=False)
        except ShedbookError as error:
            tally.unread.append(f"{name}: shedbook: {error.message}")
            return
        tally.ours_s += time.process_time() - start
        _compare_part(f"{name} part {place}", list(part.getElementsByClass(stream.Measure)), line, tally)


def _compare_part(name: str, measures: list[Any], line: LongLine, tally: Tally) -> None:
    tally.parts += 1
    ours = list(our_bars(line))
    alike = len(measures) == len(ours)
    if not alike:
        tally.unlike.append(f"{name}: {len(ours)} bars, music21 has {len(measures)}")
    with_symbols = any(their_symbols(measure) for measure in measures)
    for measure, (label, notes, symbols) in zip(measures, ours, strict=False):
        theirs, their_chords = their_bar(measure), their_symbols(measure)
        tally.bars += 1
        tally.notes += len(theirs)
        tally.symbols += len(their_chords)
        if close(theirs, notes):
            tally.bars_alike += 1
            tally.notes_alike += len(theirs)
        else:
            alike = False
            same = Counter(theirs) & Counter(notes)
            tally.notes_alike += sum(same.values())
            tally.unlike.append(f"{name} bar {label}: {_short(notes)} | music21 {_short(theirs)}")
        tally.symbols_alike += sum((Counter(their_chords) & Counter(symbols)).values())
        # A part without chord symbols gets those of another part from us, which music21 leaves there.
        if with_symbols and Counter(their_chords) != Counter(symbols):
            tally.unlike.append(f"{name} bar {label}: chords {symbols} | music21 {their_chords}")
    tally.parts_alike += alike


def _short(notes: Notes) -> str:
    return " ".join(f"{midi}@{start}:{length}" for start, length, midi in notes[:8])


def share(part: int, whole: int) -> str:
    return f"{part} of {whole} ({100 * part / whole:.2f} %)" if whole else "none"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("paths", nargs="*", help="only files whose path holds one of these")
    parser.add_argument("--files", type=int, default=0, help="only so many files")
    parser.add_argument("--show", type=int, default=60, help="how many differences to print")
    options = parser.parse_args()
    warnings.simplefilter("ignore")
    tally = Tally()
    files = files_of(options.paths)
    for number, path in enumerate(files[: options.files or None], 1):
        compare(path, tally)
        if number % 25 == 0:
            print(f"{number} of {len(files)} files", file=sys.stderr)
    print(f"files compared    {tally.files} (not comparable: {len(tally.unread)})")
    print(f"parts alike       {share(tally.parts_alike, tally.parts)}")
    print(f"bars alike        {share(tally.bars_alike, tally.bars)}")
    print(f"notes alike       {share(tally.notes_alike, tally.notes)}")
    print(f"chords alike      {share(tally.symbols_alike, tally.symbols)}")
    print(f"our reading took  {tally.ours_s:.1f} s in all")
    for line in (*tally.unread, *tally.unlike[: options.show]):
        print("  ", line)
    left = len(tally.unlike) - options.show
    if left > 0:
        print(f"   and {left} more")
    return 0


if __name__ == "__main__":
    sys.exit(main())
