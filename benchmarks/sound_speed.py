"""Making tracks against the bare cost of the synthesiser and the encoder on the same MIDI files.

Bare: the MIDI files made beforehand are rendered and encoded, nothing else. Ours: a phrase becomes parts,
MIDI, samples; is brought to its loudness, encoded, decoded and measured again, tagged and put in its place.
Times are processor seconds of one process; "both" is the wall time of as many processes as there are cores.
The last line tells what 65 phrases in twelve keys would take, from the same figures.

"Another kind" is a track without bass once the play-along is made, against the bare encoder on its samples.
With a number fewer tracks are made, and the cores are not tried together:

    python -m benchmarks.sound_speed [TRACKS]
"""

from __future__ import annotations

import multiprocessing
import os
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from typing import NamedTuple

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.tracks import SoundSettings, TrackSettings
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.tracks.orders import Playable, TrackOrder
from shedbook.book.tracks.plan import track_orders
from shedbook.book.tracks.worker import arrangement_order, make_track, track_versions
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.rendering import frames_of
from shedbook.sound.audio.soundfile_door import decode, encode
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.audio.tables.formats import FORMATS, RATE_HZ
from shedbook.sound.score.midi_file import smf
from shedbook.sound.track import performance_of

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "tidewater"
PHRASES, KEYS, SAMPLE = 65, 12, 12
ROUNDS = 4
JOBS = os.cpu_count() or 1


class Work(NamedTuple):
    """One MIDI file and how many samples it lasts."""

    midi: bytes
    frames: int


def main() -> None:
    synth = synth_for()
    few = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    print(f"{synth.name}, {synth.font.name}; {few or SAMPLE} demonstrations of {ROUNDS} rounds")
    print("format   audio/CPU s   bare   ours/bare   another kind/encoder   kB/s   both cores: audio/wall s")
    for row in FORMATS:
        if row.container:
            with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
                _report(Path(name), row.ending, few)


def _report(folder: Path, ending: str, few: int) -> None:
    found = orders(folder, ending)[: few or SAMPLE]
    work = list(bare_works(found))
    audio_s = sum(one.frames for one in work) / RATE_HZ
    row = format_of(ending)
    synth = synth_for()
    make_track(orders(folder / "first", ending)[-1])  # whatever is loaded only once
    bare_s = processor_seconds(lambda: [encode(synth.render(*one), row) for one in work])
    fresh = orders(folder / "fresh", ending)[: few or SAMPLE]
    ours_s = processor_seconds(lambda: [make_track(order) for order in fresh])
    size = sum(path.stat().st_size for path in Path(fresh[0].folder).iterdir()) / 1000 / audio_s
    line = (
        f"{row.name:7} {audio_s / ours_s:11.1f} {audio_s / bare_s:8.1f} {ours_s / bare_s:9.2f}"
        f" {_another_kind(folder, ending, few or SAMPLE):16.2f} {size:15.1f}"
    )
    if few:
        print(line, flush=True)
        return
    both_s = wall_seconds(orders(folder / "both", ending))
    book_s = both_s * PHRASES * KEYS / len(found)
    print(f"{line} {audio_s / both_s:14.1f} ({PHRASES} phrases x {KEYS} keys: {book_s / 60:.1f} min)")


def _another_kind(folder: Path, ending: str, tracks: int) -> float:
    """Return what a second kind of track of the same stems costs, against encoding its samples."""
    first = orders(folder / "kinds", ending, "play-along")[:tracks]
    second = orders(folder / "kinds", ending, "no-bass")[:tracks]
    row, ours_s, bare_s = format_of(ending), 0.0, 0.0
    for one, other in zip(first, second, strict=True):
        make_track(one)
        ours_s += processor_seconds(partial(make_track, other))
        path = next(Path(other.folder).glob(f"{other.stem}.*"))
        samples = decode(path.read_bytes())
        bare_s += processor_seconds(partial(encode, samples, row))
    return ours_s / bare_s


def orders(folder: Path, ending: str, kind: str = "demonstration") -> tuple[TrackOrder, ...]:
    """Return the orders for a dozen tracks of a kind in one format."""
    manuscript = open_manuscript(DEMO)
    settings = TrackSettings(
        kinds=(kind,),
        formats=(ending.removeprefix("."),),
        tempos="own",
        sound=SoundSettings(rounds=ROUNDS),
    )
    cards = []
    for source in manuscript.phrases[:: max(1, len(manuscript.phrases) // SAMPLE)][:SAMPLE]:
        phrase = read_phrase(source)
        keys = tuple(str(key) for key in key_cycle(phrase.key))
        cards.append((source, Playable(phrase.title, str(phrase.key), keys, phrase.tempo_bpm, phrase.feel)))
    return track_orders(manuscript, cards, folder / "store", folder / "out", track_versions(None), settings)


def bare_works(found: Sequence[TrackOrder]) -> Iterator[Work]:
    """Yield the MIDI files of the orders."""
    for order in found:
        assert order.source is not None
        performance = performance_of(
            read_phrase(order.source), arrangement_order(order), font=synth_for().font
        )
        yield Work(smf(performance), frames_of(performance, tail=True))


def processor_seconds(do: Callable[[], object]) -> float:
    start = time.process_time()
    do()
    return time.process_time() - start


def wall_seconds(found: Sequence[TrackOrder]) -> float:
    """Return how long as many processes as there are cores take, the font loaded beforehand in each."""
    with ProcessPoolExecutor(JOBS, mp_context=multiprocessing.get_context("spawn")) as pool:
        list(pool.map(_warm, range(JOBS * 2)))
        start = time.perf_counter()
        list(pool.map(make_track, found))
        return time.perf_counter() - start


def _warm(number: int) -> str:
    time.sleep(0.2)
    return synth_for().name


if __name__ == "__main__":
    main()
