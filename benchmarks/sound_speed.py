"""Making tracks against the bare cost of the synthesiser and the encoder on the same MIDI files.

Bare: the MIDI files made beforehand are rendered and encoded, nothing else. Ours: a phrase becomes parts,
MIDI, samples; is brought to its loudness, encoded, decoded and measured again, tagged and put in its place.
Times are processor seconds of one process; "both" is the wall time of as many processes as there are cores.
The last line tells what 65 phrases in twelve keys would take, from the same figures.
"""

from __future__ import annotations

import multiprocessing
import os
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
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
from shedbook.sound.audio.soundfile_door import encode
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
    print(f"{synth.name}, {synth.font.name}; {SAMPLE} demonstrations of {ROUNDS} rounds")
    print("format   audio/CPU s   bare   ours/bare   both cores: audio/wall s   65 phrases x 12 keys")
    for row in FORMATS:
        if row.container:
            with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
                _report(Path(name), row.ending)


def _report(folder: Path, ending: str) -> None:
    found = orders(folder, ending)
    work = list(bare_works(found))
    audio_s = sum(one.frames for one in work) / RATE_HZ
    row = format_of(ending)
    synth = synth_for()
    make_track(found[0])  # whatever is loaded only once
    bare_s = processor_seconds(lambda: [encode(synth.render(*one), row) for one in work])
    fresh = orders(folder / "fresh", ending)
    ours_s = processor_seconds(lambda: [make_track(order) for order in fresh])
    both_s = wall_seconds(orders(folder / "both", ending))
    book_s = both_s * PHRASES * KEYS / len(found)
    print(
        f"{row.name:7} {audio_s / ours_s:11.1f} {audio_s / bare_s:8.1f} {ours_s / bare_s:9.2f}"
        f" {audio_s / both_s:18.1f} {book_s / 60:20.1f} min ({audio_s / len(found):.0f} s a track)"
    )


def orders(folder: Path, ending: str) -> tuple[TrackOrder, ...]:
    """Return the orders for a dozen demonstrations in one format."""
    manuscript = open_manuscript(DEMO)
    settings = TrackSettings(
        kinds=("demonstration",),
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
