"""How fast MIDI files are read: our reader of bytes against mido and symusic, and the whole import.

    python benchmarks/midi_speed.py

`symusic` is compared where it is installed; it is no dependency of the project. Prints the best of some
runs, ratios, the share of the search for the rhythm, and the peak of memory.
"""

from __future__ import annotations

import importlib
import importlib.util
import io
import random
import time
import tracemalloc
from collections.abc import Callable
from fractions import Fraction

import mido

from shedbook.exchange.midi.file_bytes import parse_midi as read_bytes
from shedbook.exchange.midi.reader import read_midi
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.exchange.rhythm.quantise import quantise
from shedbook.theory.metre import Metre

_TICKS = 480
_SIZES = (32, 500, 20_000)
_CHORDS = ("Dm7", "G7", "Cmaj7", "A7b9")


def line_file(count: int, *, uneven: int = 8, seed: int = 1) -> bytes:
    """Return a file with a line of eighths, a chord a bar, played a little unevenly (ticks of 480)."""
    dice = random.Random(seed)
    file = mido.MidiFile(type=1, ticks_per_beat=_TICKS)
    head, line = mido.MidiTrack(), mido.MidiTrack()
    file.tracks += [head, line]
    for bar in range(-(-count // 8)):
        head.append(mido.MetaMessage("marker", text=_CHORDS[bar % 4], time=1920 if bar else 0))
    before = 0
    key = 65
    for at in range(count):
        key = min(84, max(55, key + dice.choice((-3, -2, -1, 1, 2, 4))))
        start = max(before, at * 240 + dice.randint(-uneven, uneven))
        end = start + 200
        line.append(mido.Message("note_on", note=key, velocity=80, time=start - before))
        line.append(mido.Message("note_off", note=key, velocity=0, time=end - start))
        before = end
    out = io.BytesIO()
    file.save(file=out)
    return out.getvalue()


def played(data: bytes) -> list[RecordedNote]:
    """Return the notes of a file as the quantiser gets them."""
    notes = [note for track in read_bytes(data).tracks for note in track.notes]
    return [
        RecordedNote(note.start * GRAINS // _TICKS, note.end * GRAINS // _TICKS, note.key) for note in notes
    ]


def best(call: Callable[[], object], runs: int) -> float:
    """Return the shortest time of some calls, in seconds."""
    found = []
    for _ in range(runs):
        began = time.perf_counter()
        call()
        found.append(time.perf_counter() - began)
    return min(found)


def main() -> None:
    symusic = importlib.import_module("symusic") if importlib.util.find_spec("symusic") else None
    for count in _SIZES:
        data = line_file(count)
        runs = 20 if count < 1000 else 5
        ours = best(lambda data=data: read_bytes(data), runs)  # type: ignore[misc]
        theirs = best(lambda data=data: mido.MidiFile(file=io.BytesIO(data)), runs)  # type: ignore[misc]
        print(f"{count} notes, {len(data):,} bytes")
        print(f"  bytes to notes      {ours * 1e3:8.2f} ms   {count / ours:,.0f} notes a second")
        print(f"  mido's parse        {theirs * 1e3:8.2f} ms   {theirs / ours:.1f} times ours")
        if symusic is not None:
            fast = best(lambda data=data: symusic.Score.from_midi(data), runs)  # type: ignore[misc]
            print(f"  symusic's parse     {fast * 1e3:8.2f} ms   ours takes {ours / fast:.0f} times as long")
        if count <= 5000:
            whole = best(lambda data=data: read_midi(data, "x", split=()), 3)  # type: ignore[misc]
            print(f"  to phrases          {whole * 1e3:8.2f} ms   {whole / count * 1e3:.2f} ms a note")
            line = played(data)
            rhythm = best(
                lambda line=line: quantise(line, Metre(), Fraction(120), ticks_per_quarter=_TICKS),  # type: ignore[misc]
                3,
            )
            print(f"  of that the rhythm  {rhythm * 1e3:8.2f} ms   {rhythm / whole:.0%}")
    tracemalloc.start()
    read_bytes(data)
    print(f"peak of memory for the last: {tracemalloc.get_traced_memory()[1] / 1e6:.1f} MB")


if __name__ == "__main__":
    main()
