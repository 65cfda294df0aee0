"""Fit the weights of `listen/tables/weights.py` on invented takes, and print them.

    python tools/fit_listening.py [--takes N]

The takes come through programs of FluidR3 GM; none is among those of the figures in docs/listening.md.
Weights of pitch: a conditional logit over all pitches (SciPy); of a sounding frame, of a beginning and of one
at the pitch that sounds: logistic regression (scikit-learn). The last are fitted on takes of every other
phrase, in which many notes repeat a pitch and long ones may tremble, so that trembling is no beginning.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from sklearn.linear_model import LogisticRegression

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from listen.planted_takes import (  # noqa: E402 - the tests' folder must be on the path first
    CONDITIONS,
    OTHERS,
    Manner,
    Take,
    take_of,
)
from shedbook.book.manuscript.opening import open_manuscript  # noqa: E402
from shedbook.book.manuscript.source import read_phrase  # noqa: E402
from shedbook.listen.evidence import pitch_features, seen_of  # noqa: E402
from shedbook.listen.sound_pieces import hear  # noqa: E402
from shedbook.listen.tables.hearing import LOWEST_MIDI  # noqa: E402
from shedbook.sound.audio.tables.formats import RATE_HZ  # noqa: E402

Floats = NDArray[np.floating]
_AWAY_FRAMES = 7
_A_TAKE = 300


Slips = Callable[[random.Random, int], dict[str, Any]]
"""What is wrong in a take, by its turn: fields of `Manner`."""


def takes(count: int, seed: int) -> list[Take]:
    """Return takes, every program in every condition in turn."""
    return _takes(count, seed, 1, lambda dice, turn: {
        "wrong": dice.choice((0, 1, 1, 2)),
        "missing": dice.choice((0, 1, 1)),
        "extra": dice.choice((0, 0, 1, 1)),
    })  # fmt: skip


def takes_with_repeats(count: int, seed: int) -> list[Take]:
    """Return takes of every other phrase, with many repeated notes; a third of them tremble."""
    return _takes(count, seed, 2, lambda dice, turn: {
        "wrong": 1, "extra": 1, "repeated": 0.3, "trembling": turn % 3 == 2,
    })  # fmt: skip


def _takes(count: int, seed: int, every: int, slips: Slips) -> list[Take]:
    """Return takes of every so-manieth phrase; a turn is once through all programs."""
    dice = random.Random(seed)
    sources = open_manuscript(ROOT / "examples" / "tidewater").phrases
    phrases = [read_phrase(source) for source in sources][::every]
    programs, found = list(OTHERS), []
    for number in range(count):
        turn = number // len(programs)
        manner = Manner(
            program=programs[number % len(programs)],
            tempo=dice.uniform(0.85, 1.12),
            jitter_ms=dice.uniform(3, 12),
            cents=dice.uniform(-25, 25),
            moved=dice.randint(-6, 5),
            condition=CONDITIONS[turn % len(CONDITIONS)],
            **slips(dice, turn),
        )
        found.append(take_of(dice.choice(phrases), dice, manner))
    return found


def repeat_rows(take: Take, chance: np.random.Generator) -> tuple[Floats, Floats]:
    """Return the features of the notes that repeat a pitch, and of frames at which none begins."""
    heard = hear([take.samples], RATE_HZ, 2)
    seen = seen_of(heard.samples, heard.rate)
    frames, free = len(seen.dips), np.ones(len(seen.dips), bool)
    free[: max(0, int(take.notes[0].start_s / seen.frame_s) - 3)] = False
    begins = []
    for before, note in pairwise(take.notes):
        at = round(note.start_s / seen.frame_s)
        if abs(before.pitch - note.pitch) < 0.4 and note.start_s - before.end_s < 0.12 and at + 3 < frames:
            begins.append(at)
            free[max(0, at - 5) : at + 6] = False
    return seen.dips[begins], seen.dips[chance.permutation(np.flatnonzero(free))[: _A_TAKE + 200]]


def print_repeat_weights(count: int) -> None:
    """Fit the weights of a beginning at the pitch that sounds, and print them."""
    chance = np.random.default_rng(0)
    rows = [repeat_rows(take, chance) for take in takes_with_repeats(count, 21)]
    begins, none = (np.concatenate(part) for part in zip(*rows, strict=True))
    share = len(begins) / (len(begins) + len(none))
    found = LogisticRegression(C=1, max_iter=3000).fit(
        np.concatenate([begins, none]), np.arange(len(begins) + len(none)) < len(begins)
    )
    print("REPEAT =", np.round(found.coef_[0], 3).tolist())
    print("REPEAT_AT_ALL =", round(float(found.intercept_[0]) - float(np.log(share / (1 - share))), 3))


def pitch_weights(features: Floats, true: NDArray[np.intp]) -> Floats:
    """Return the weights under which the true pitches are likeliest, with a little ridge."""
    rows = np.arange(len(true))

    def cost(weights: Floats) -> tuple[float, Floats]:
        value = features @ weights
        value -= value.max(axis=1, keepdims=True)
        share = np.exp(value)
        total = share.sum(axis=1)
        share /= total[:, None]
        loss = float(np.mean(np.log(total) - value[rows, true]))
        share[rows, true] -= 1
        slope = np.einsum("np,npk->k", share, features) / len(true)
        return loss + 1e-4 * float(weights @ weights), slope + 2e-4 * weights

    found = minimize(cost, np.zeros(features.shape[2]), jac=True, method="L-BFGS-B")
    return np.asarray(found.x)


def main() -> int:
    """Fit, and print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--takes", type=int, default=88)
    options = parser.parse_args()
    chance = np.random.default_rng(0)
    pitch, true, voiced, sounding, starts, begins = [], [], [], [], [], []
    for take in takes(options.takes, 2):
        heard = hear([take.samples], RATE_HZ, 2)
        seen = seen_of(heard.samples, heard.rate)
        time = np.arange(len(seen.by_pitch)) * seen.frame_s
        label = np.full(len(time), -2)
        ends, nexts = [0.0], []
        for note in take.notes:
            inside = (time > note.start_s + 0.01) & (time < note.end_s - 0.005)
            label[inside] = round(note.pitch - take.cents / 100) - LOWEST_MIDI
            nexts.append(note.start_s)
            ends.append(note.end_s)
        for end, following in zip(ends, [*nexts, time[-1]], strict=True):
            label[(time > end + 0.12) & (time < following - 0.05)] = -1
        held = chance.permutation(np.flatnonzero(label >= 0))[:_A_TAKE]
        pitch.append(pitch_features(seen.by_pitch[held]))
        true.append(label[held])
        known = np.flatnonzero(label != -2)
        voiced.append(seen.voicing[known])
        sounding.append(label[known] >= 0)
        onsets = np.array([note.start_s for note in take.notes]) / seen.frame_s
        at = np.round(onsets).astype(int)
        at = at[at < len(time)]
        away = np.abs(np.arange(len(time))[:, None] - onsets[None]).min(axis=1) > _AWAY_FRAMES
        none = chance.permutation(np.flatnonzero(away))[: _A_TAKE + 100]
        starts += [seen.around[at], seen.around[none]]
        begins += [np.ones(len(at)), np.zeros(len(none))]
    print("PITCH =", np.round(pitch_weights(np.concatenate(pitch), np.concatenate(true)), 2).tolist())
    voice = LogisticRegression(C=10, class_weight="balanced").fit(
        np.concatenate(voiced), np.concatenate(sounding)
    )
    print("VOICED =", [*np.round(voice.coef_[0], 3).tolist(), round(float(voice.intercept_[0]), 3)])
    beginning = np.concatenate(begins)
    onset = LogisticRegression(C=0.3, max_iter=3000).fit(np.concatenate(starts), beginning)
    share = float(beginning.mean())
    print("ONSET_AT_ALL =", round(float(onset.intercept_[0]) - float(np.log(share / (1 - share))), 3))
    print("ONSET =", np.round(onset.coef_[0].reshape(-1, 8), 3).tolist())
    print_repeat_weights(options.takes * 3 // 2)
    return 0


if __name__ == "__main__":
    sys.exit(main())
