"""How well takes are read: known lines with planted slips, unknown lines, and pitch trackers on one set.

Takes are invented (`tests/listen/planted_takes.py`): phrases of the demo book through six programs of FluidR3
GM, clean, with noise (30 dB), with reverb (0.8 s), with a trio that leaks in (28 dB under the line). Weights
were fitted and costs chosen with other programs, other seeds and, since the notes that repeat a pitch have
weights of their own, the other half of the phrases. Measures are mir_eval's with its standard tolerances: a
note is right within 50 ms and 50 cents.

    python -m benchmarks.takes_figures [--takes N] [--trackers] [--seed N] [--processes N] [--sound-font FILE]

`--trackers` puts other pitch trackers in the place of our own evidence of pitch, where they are installed:
librosa's two; swift-f0 and basic-pitch, which are in none of the project's groups. `--sound-font` renders the
same takes through another SoundFont.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
import warnings
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path
from typing import NamedTuple

import mir_eval
import numpy as np
from numpy.typing import NDArray

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from listen.planted_takes import (  # noqa: E402 - the tests' folder must be on the path first
    CONDITIONS,
    PROGRAMS,
    Manner,
    Take,
    take_of,
)
from shedbook.book.manuscript.opening import open_manuscript  # noqa: E402
from shedbook.book.manuscript.source import read_phrase  # noqa: E402
from shedbook.listen.evidence import Evidence, evidence_of  # noqa: E402
from shedbook.listen.free_search import free_notes  # noqa: E402
from shedbook.listen.lines import PlayedNote, line_of, played_notes  # noqa: E402
from shedbook.listen.octave_slips import with_octaves_mended  # noqa: E402
from shedbook.listen.pitch_evidence import PITCHES  # noqa: E402
from shedbook.listen.sound_pieces import Heard, hear  # noqa: E402
from shedbook.listen.tables.hearing import LOWEST_MIDI  # noqa: E402
from shedbook.listen.take_reading import MISSING, TakeReading, takes_in  # noqa: E402
from shedbook.phrase.model import sounding_notes  # noqa: E402
from shedbook.sound.audio.tables.formats import RATE_HZ  # noqa: E402

DEMO = ROOT / "examples" / "tidewater"
Floats = NDArray[np.float32]
Tracker = Callable[[Floats, int, Evidence], tuple[Floats, Floats]]
"""Samples, their rate and our evidence, to the logarithm of each pitch and of its sounding, a row a frame."""


class Made(NamedTuple):
    """A take with its program and condition."""

    program: str
    condition: str
    take: Take
    heard: Heard


def made_takes(count: int, seed: int, font: Path | None = None) -> Iterator[Made]:
    """Yield takes, every program in every condition in turn."""
    dice = random.Random(seed)
    phrases = [read_phrase(source) for source in open_manuscript(DEMO).phrases][1::2]
    programs = list(PROGRAMS)
    for number in range(count):
        program = programs[number % len(programs)]
        condition = CONDITIONS[number // len(programs) % len(CONDITIONS)]
        manner = Manner(
            program=program,
            tempo=dice.uniform(0.85, 1.12),
            jitter_ms=dice.uniform(3, 12),
            cents=dice.uniform(-25, 25),
            moved=dice.randint(-6, 5),
            wrong=dice.choice((0, 1, 1, 2)),
            missing=dice.choice((0, 1, 1)),
            extra=dice.choice((0, 0, 1, 1)),
            condition=condition,
            font=font,
        )
        take = take_of(dice.choice(phrases), dice, manner)
        yield Made(program, condition, take, hear([take.samples], RATE_HZ, 2))


class Slips(NamedTuple):
    """Counts over takes: planted and found by kind, false alarms and notes by group."""

    planted: dict[str, int]
    found: dict[str, int]
    false: dict[str, int]
    notes: dict[str, int]
    right_phrase: int
    onset_ms: list[float]
    cents: list[float]


def held_against(made: Sequence[Made]) -> tuple[Slips, float]:
    """Return how takes were read against the whole book, and processor seconds for it."""
    phrases = [read_phrase(source) for source in open_manuscript(DEMO).phrases]
    lines = [line_of(phrase) for phrase in phrases]
    slips = Slips(defaultdict(int), defaultdict(int), defaultdict(int), defaultdict(int), 0, [], [])
    right, began = 0, time.process_time()
    for one in made:
        readings = takes_in(one.heard, lines).takes
        reading = next(
            (
                reading
                for reading in readings
                if phrases[reading.line].title == one.take.phrase.title and reading.moved == one.take.moved
            ),
            None,
        )
        if reading is None:
            for slip in one.take.planted:
                slips.planted[_kind(slip.kind, slip.midi, one, slip.which)] += 1
            continue
        right += 1
        _count(one, reading, slips)
    return slips._replace(right_phrase=right), time.process_time() - began


def _kind(kind: str, midi: int, one: Made, which: int) -> str:
    own = sounding_notes(one.take.phrase)[which].pitch.midi + one.take.moved
    return "extra, same pitch" if kind == "extra" and midi == own else kind


def _count(one: Made, reading: TakeReading, slips: Slips) -> None:
    left = list(reading.slips)
    for planted in one.take.planted:
        kind = _kind(planted.kind, planted.midi, one, planted.which)
        slips.planted[kind] += 1
        for slip in left:
            same_place = slip.which == planted.which and slip.kind == planted.kind
            near = slip.kind == planted.kind == "extra" and abs(slip.which - planted.which) <= 1
            same_pitch = slip.kind == MISSING or slip.sounded == planted.midi
            if (same_place or near) and same_pitch:
                slips.found[kind] += 1
                left.remove(slip)
                break
    for group in ("all", one.program, one.condition):
        slips.false[group] += len(left)
        slips.notes[group] += len(reading.played)
    true = {note.which: note for note in one.take.notes if note.which >= 0}
    for which, note in reading.right:
        if which in true:
            slips.onset_ms.append(1000 * (note.start_s - true[which].start_s))
            if note.cents is not None:
                slips.cents.append(note.cents - 100 * (true[which].pitch - note.midi))


def in_hertz(midi: Sequence[float]) -> NDArray[np.float64]:
    return np.asarray(440 * 2 ** ((np.asarray(midi, float) - 69) / 12))


class Score(NamedTuple):
    """Right, true and found notes."""

    right: int = 0
    true: int = 0
    found: int = 0

    def plus(self, other: Score) -> Score:
        """Return both together."""
        return Score(*(a + b for a, b in zip(self, other, strict=True)))

    def words(self) -> str:
        """Return F, precision and recall as cells of a table."""
        precision, recall = self.right / max(1, self.found), self.right / max(1, self.true)
        return f"{2 * self.right / max(1, self.true + self.found):.3f} | {precision:.3f} | {recall:.3f}"


def scored(take: Take, notes: Sequence[PlayedNote]) -> tuple[Score, bool]:
    """Return how many notes are right, and whether every one is and none is too many."""
    spans = np.array([(note.start_s, max(note.end_s, note.start_s + 0.02)) for note in take.notes])
    found = np.array([(note.start_s, note.end_s) for note in notes]).reshape(-1, 2)
    heard = [note.midi + (note.cents or 100 * _tuning(take)) / 100 for note in notes]
    true = in_hertz([note.pitch for note in take.notes])
    pairs = mir_eval.transcription.match_notes(spans, true, found, in_hertz(heard), offset_ratio=None)
    return Score(len(pairs), len(take.notes), len(notes)), len(pairs) == len(take.notes) == len(notes)


def _tuning(take: Take) -> float:
    return take.cents / 100


def free_scores(
    made: Sequence[Made], tracker: Tracker | None = None
) -> tuple[dict[str, Score], float, float]:
    """Return the scores by group, the share of takes without a slip, processor seconds a minute."""
    scores: dict[str, Score] = defaultdict(Score)
    whole, seconds, spent = 0, 0.0, 0.0
    for one in made:
        began = time.process_time()
        evidence = evidence_of(one.heard.samples, one.heard.rate)
        if tracker is not None:
            pitch, sounding = tracker(one.heard.samples, one.heard.rate, evidence)
            silent = np.log(np.maximum(1e-6, 1 - np.exp(np.minimum(sounding, -1e-6))))
            evidence = replace(evidence, pitch=pitch, sounding=sounding, silent=silent.astype(np.float32))
        notes = played_notes(with_octaves_mended(free_notes(evidence), evidence), evidence, 0.0)
        spent += time.process_time() - began
        seconds += one.heard.seconds
        score, right = scored(one.take, notes)
        whole += right
        for group in ("all", one.program, one.condition):
            scores[group] = scores[group].plus(score)
    return scores, whole / len(made), 60 * spent / seconds


# Trackers of others. Each gives a pitch a frame; a frame's evidence falls off around it.


def _from_pitch(
    midi: NDArray[np.floating], sure: NDArray[np.floating], evidence: Evidence
) -> tuple[Floats, Floats]:
    """Return the evidence of one pitch a frame: a bell of 35 cents over the pitches, and how sure it is."""
    tuned = midi - evidence.tuning_cents / 100 - LOWEST_MIDI
    away = (np.arange(PITCHES)[None] - tuned[:, None]) / 0.35
    pitch = np.maximum(-(away**2) / 2, -8.0)
    pitch -= np.log(np.exp(pitch).sum(axis=1, keepdims=True))
    return pitch.astype(np.float32), np.log(np.clip(sure, 1e-4, 1 - 1e-4)).astype(np.float32)


def _at_frames(
    times: NDArray[np.floating], values: NDArray[np.floating], evidence: Evidence
) -> NDArray[np.intp]:
    wanted = np.arange(evidence.frames) * evidence.frame_s
    return np.clip(np.searchsorted(times, wanted), 0, len(values) - 1)


def librosa_yin(samples: Floats, rate: int, evidence: Evidence) -> tuple[Floats, Floats]:
    import librosa

    hop = round(evidence.frame_s * rate)
    found = librosa.yin(samples, fmin=62, fmax=2400, sr=rate, frame_length=1024, hop_length=hop)
    at = np.minimum(np.arange(evidence.frames), len(found) - 1)
    return _from_pitch(librosa.hz_to_midi(found[at]), np.exp(evidence.sounding), evidence)


def librosa_pyin(samples: Floats, rate: int, evidence: Evidence) -> tuple[Floats, Floats]:
    import librosa

    hop = round(evidence.frame_s * rate)
    found, _, sure = librosa.pyin(
        samples, fmin=62, fmax=2400, sr=rate, frame_length=1024, hop_length=hop, fill_na=None
    )
    at = np.minimum(np.arange(evidence.frames), len(found) - 1)
    return _from_pitch(librosa.hz_to_midi(found[at]), sure[at], evidence)


def swift_f0(samples: Floats, rate: int, evidence: Evidence) -> tuple[Floats, Floats]:
    from swift_f0 import SwiftF0  # type: ignore[import-not-found]

    found = SwiftF0(threads=1).detect(samples, rate)
    at = _at_frames(np.asarray(found.timestamps), np.asarray(found.pitch_hz), evidence)
    midi = 69 + 12 * np.log2(np.maximum(np.asarray(found.pitch_hz)[at], 30) / 440)
    return _from_pitch(midi, np.asarray(found.confidence)[at], evidence)


def basic_pitch(samples: Floats, rate: int, evidence: Evidence) -> tuple[Floats, Floats]:
    import tempfile

    import soundfile
    from basic_pitch.inference import run_inference  # type: ignore[import-not-found]

    with tempfile.NamedTemporaryFile(suffix=".wav") as file:
        soundfile.write(file.name, samples, rate)
        found = run_inference(file.name, _basic_model())["note"]
    times = np.arange(len(found)) * 256 / 22050
    rows = found[_at_frames(times, found, evidence)]
    column = np.arange(PITCHES) + LOWEST_MIDI - 21
    chosen = np.clip(rows[:, column], 1e-4, 1)
    pitch = np.log(chosen / chosen.sum(axis=1, keepdims=True))
    return pitch.astype(np.float32), np.log(np.clip(rows.max(axis=1), 1e-4, 1 - 1e-4)).astype(np.float32)


_models: list[object] = []


def _basic_model() -> object:
    if not _models:
        from basic_pitch import FilenameSuffix, build_icassp_2022_model_path  # type: ignore[import-not-found]
        from basic_pitch.inference import Model

        _models.append(Model(build_icassp_2022_model_path(FilenameSuffix.onnx)))
    return _models[0]


TRACKERS: dict[str, Tracker | None] = {
    "ours: YIN's difference at every pitch": None,
    "librosa yin": librosa_yin,
    "swift-f0": swift_f0,
    "basic-pitch": basic_pitch,
    "librosa pyin": librosa_pyin,
}


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--takes", type=int, default=192)
    parser.add_argument("--seed", type=int, default=2027)
    parser.add_argument("--trackers", action="store_true")
    parser.add_argument("--processes", type=int, default=1)
    parser.add_argument("--sound-font", type=Path, default=None, metavar="FILE")
    options = parser.parse_args()
    warnings.filterwarnings("ignore")
    made = list(made_takes(options.takes, options.seed, options.sound_font))
    seconds = sum(one.heard.seconds for one in made)
    print(f"{len(made)} takes, {sum(len(one.take.notes) for one in made)} notes, {seconds:.0f} s of sound")
    if options.trackers:
        print("| tracker | F | precision | recall | worst instrument | processor seconds a minute |")
        for name, tracker in TRACKERS.items():
            try:
                free_scores(made[:1], tracker)  # what is loaded or compiled once is not counted
                scores, _, spent = free_scores(made, tracker)
            except ImportError as error:
                print(f"| {name} | not installed: {error.name} |", flush=True)
                continue
            worst = min(PROGRAMS, key=lambda program: 2 * scores[program].right / sum(scores[program][1:]))
            print(
                f"| {name} | {scores['all'].words()} | {worst} {scores[worst].words()[:5]} | {spent:.2f} |",
                flush=True,
            )
        return 0
    parts = [made[first :: options.processes] for first in range(options.processes)]
    with ProcessPoolExecutor(len(parts), get_context("fork")) as pool:
        _print_known(_together(pool.map(held_against, parts)), len(made), seconds)
        scores, whole, spent = _free_together(list(pool.map(free_scores, parts)), parts)
    print(f"\nunknown lines: {whole:.0%} of takes without a slip, {spent:.2f} processor seconds a minute")
    print("| | F | precision | recall |")
    for group in ("all", *PROGRAMS, *CONDITIONS):
        print(f"| {group} | {scores[group].words()} |")
    return 0


def _together(parts: Iterable[tuple[Slips, float]]) -> tuple[Slips, float]:
    """Return the counts of some takes and those of others as one."""
    all_slips, spent = Slips({}, {}, {}, {}, 0, [], []), 0.0
    for slips, seconds in parts:
        for whole, part in zip(all_slips[:4], slips[:4], strict=True):
            whole.update({group: whole.get(group, 0) + count for group, count in part.items()})
        all_slips.onset_ms.extend(slips.onset_ms)
        all_slips.cents.extend(slips.cents)
        all_slips = all_slips._replace(right_phrase=all_slips.right_phrase + slips.right_phrase)
        spent += seconds
    return all_slips, spent


def _free_together(
    found: Sequence[tuple[dict[str, Score], float, float]], parts: Sequence[Sequence[Made]]
) -> tuple[dict[str, Score], float, float]:
    """Return the scores of some takes and those of others as one."""
    scores: dict[str, Score] = defaultdict(Score)
    for part, _, _ in found:
        for group, score in part.items():
            scores[group] = scores[group].plus(score)
    takes = [len(part) for part in parts]
    seconds = [sum(one.heard.seconds for one in part) for part in parts]
    whole = sum(share * count for (_, share, _), count in zip(found, takes, strict=True)) / sum(takes)
    spent = sum(rate * each for (_, _, rate), each in zip(found, seconds, strict=True)) / sum(seconds)
    return scores, whole, spent


def _share(found: int, count: int) -> str:
    """Return a share as cells of a table, with Wilson's interval of 95 % (Wilson 1927, from memory)."""
    z, share = 1.96, found / count
    middle, more = share + z**2 / (2 * count), 1 + z**2 / count
    half = z * (share * (1 - share) / count + z**2 / (4 * count**2)) ** 0.5
    return f"{found} of {count} | {share:.1%} | {(middle - half) / more:.1%} to {(middle + half) / more:.1%}"


def _print_known(found: tuple[Slips, float], takes: int, seconds: float) -> None:
    slips, spent = found
    print(f"phrase and key found: {slips.right_phrase} of {takes}", flush=True)
    for kind, count in sorted(slips.planted.items()):
        print(f"| {kind} | {_share(slips.found.get(kind, 0), count)} |")
    for group in ("all", *PROGRAMS, *CONDITIONS):
        rate = 200 * slips.false.get(group, 0) / max(1, slips.notes.get(group, 0))
        print(f"| false alarms in 200 notes, {group} | {rate:.2f} | {slips.false.get(group, 0)} in all |")
    onset, cents = np.array(slips.onset_ms), np.array(slips.cents)
    print(
        f"onset: median {np.median(np.abs(onset)):.1f} ms, "
        f"95 % within {np.quantile(np.abs(onset), 0.95):.0f} ms, "
        f"lateness {np.median(onset):+.1f} ms; pitch: median {np.median(np.abs(cents)):.1f} cents, "
        f"95 % within {np.quantile(np.abs(cents), 0.95):.0f}, bias {np.median(cents):+.1f}"
    )
    print(f"processor: {seconds / spent:.0f} times real time on one core, the whole book compared")


if __name__ == "__main__":
    sys.exit(main())
