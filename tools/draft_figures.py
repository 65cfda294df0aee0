"""Fits how real lines move, and writes the table that drafts in the learnt style are weighed by.

Run it from the root of the repository with the path of the data (see `benchmarks/real_lines.py`):

    python -m tools.draft_figures PATH/real-lines.json.gz

The likelihood of a phrase is the product, note by note, of one choice among the 25 moves up to an octave; each
choice weighs the figures of `draft/figures.py` over the states of the drafts' own lattice, without its hard
rules. Their sum is made as likely as can be (maximum likelihood, held a little towards zero). Two thirds of the
solos are fitted; the others say how good the fit is. Only these figures are written, no line.
"""

from __future__ import annotations

import argparse
import importlib
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from random import Random
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
from benchmarks.draft_judges import Case, cases, loose_rules, obeys, strict_rules
from benchmarks.real_lines import Split, split_lines
from scipy.optimize import minimize

from shedbook.draft import figures as fig
from shedbook.draft import whole_lines as whole
from shedbook.draft.ground import TICKS, ground_under
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import SIZE_OF, WIDEST, last_class
from shedbook.draft.places import places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.phrase.model import Phrase, sounding_notes

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

OUT = Path("src/shedbook/draft/tables/line_figures.py")
SHRINK, SHRINK_WHOLE = 20.0, 4.0
OBEYING = 5.0
CANDIDATES = 200
"""How many lines are drawn by the notes alone for each real one."""
OFFSETS = dict(zip(fig.SHAPES, np.cumsum([0, *[int(np.prod(s)) for s in fig.SHAPES.values()]]), strict=False))
TOTAL = sum(int(np.prod(s)) for s in fig.SHAPES.values())
NONE = TOTAL  # a feature that is always zero


class Data(NamedTuple):
    """Notes to be fitted: by note and move the features, and how far that is from the middle; the move made.

    The shapes are [notes, 25, features], [notes, 25] and [notes].
    """

    rows: npt.NDArray[np.int32]
    far: Floats
    chosen: Ints


def feature(name: str, *at: int) -> int:
    return int(OFFSETS[name]) + int(np.ravel_multi_index(at, fig.SHAPES[name]))


def notes_of(phrase: Phrase) -> tuple[Rhythm, list[int]]:
    """Return the rhythm and the pitches of a phrase."""
    notes = sounding_notes(phrase)
    onsets = tuple(round(note.start * TICKS) for note in notes)
    ends = tuple(round(note.end * TICKS) for note in notes)
    return Rhythm(onsets, ends, ()), [note.pitch.midi for note in notes]


def middles(phrases: Sequence[Phrase]) -> dict[int, float]:
    """Return the mean pitch of each solo."""
    found: dict[int, list[int]] = {}
    for phrase in phrases:
        found.setdefault(solo_of(phrase), []).extend(notes_of(phrase)[1])
    return {solo: float(np.mean(midi)) for solo, midi in found.items()}


def solo_of(phrase: Phrase) -> int:
    return int(phrase.title.split(".")[0])


def examples(phrase: Phrase, middle: float) -> Iterator[tuple[list[list[int]], Floats, int]]:
    """Yield (features [25, k], register [25], chosen move) for each note but the first."""
    rhythm, midi = notes_of(phrase)
    places = places_of(rhythm, ground_under(phrase))
    last, run, sign = 0, 0, 0
    for at in range(1, len(midi)):
        place, move = places[at], midi[at] - midi[at - 1]
        if abs(move) > WIDEST:
            last, run, sign = 0, 0, 0
            continue
        if place.breathed:
            last, run, sign = 0, 0, 0
        family = fig.FAMILIES.index(place.chord.family)
        before_outside = midi[at - 1] % 12 not in places[at - 1].chord.inside
        rows = []
        for way in range(-WIDEST, WIDEST + 1):
            pitch, size = midi[at - 1] + way, SIZE_OF[abs(way)]
            above = (pitch - place.chord.root) % 12
            standing = (
                0
                if pitch % 12 in place.chord.span.chord_classes
                else 1
                if pitch % 12 in place.chord.inside
                else 2
            )
            on = int(way != 0 and np.sign(way) == sign)
            rows.append(
                [
                    feature("moves", last, way + WIDEST),
                    NONE if place.breathed else feature("runs", min(run, 6), on),
                    feature("degrees", family, above, int(place.strong)),
                    feature("standings", standing, fig.beat_class(place)),
                    feature("endings", above) if at == len(midi) - 1 else NONE,
                    feature("guides", int(pitch % 12 in place.chord.guides)) if place.enters else NONE,
                    feature("enters", size) if place.enters else NONE,
                    feature("waits", fig.wait_class(place), size),
                    feature("resolving", way + WIDEST) if before_outside else NONE,
                    feature("progress", fig.fifth(at, len(midi)), int(np.sign(way)) + 1),
                ]
            )
        far: Floats = np.arange(-WIDEST, WIDEST + 1, dtype=np.float64)
        far = (midi[at - 1] + far - middle) / fig.REGISTER
        yield rows, far, move + WIDEST
        now = int(np.sign(move))
        size = SIZE_OF[abs(move)]
        run = 1 if now != sign or size >= 4 or now == 0 else run + 1
        sign, last = now, last_class(now, size)


def gather(phrases: Sequence[Phrase]) -> Data:
    rows, far, chosen = [], [], []
    middle = middles(phrases)
    for phrase in phrases:
        for one in examples(phrase, middle[solo_of(phrase)]):
            rows.append(one[0])
            far.append(one[1])
            chosen.append(one[2])
    return Data(np.array(rows, dtype=np.int32), np.array(far), np.array(chosen))


def starts(phrases: Sequence[Phrase]) -> tuple[Floats, Floats]:
    """Return the logarithms of how often phrases begin at each distance from the middle, and on each degree."""
    middle = middles(phrases)
    far, above = np.full(13, 2.0), np.full(12, 2.0)
    for phrase in phrases:
        rhythm, midi = notes_of(phrase)
        place = places_of(rhythm, ground_under(phrase))[0]
        far[fig.start_class(np.array([midi[0] - middle[solo_of(phrase)]]))[0]] += 1
        above[(midi[0] - place.chord.root) % 12] += 1
    return np.log(far / far.max()), np.log(above / above.max())


def likelihood(theta: Floats, data: Data) -> tuple[float, Floats]:
    """Return the sum of the logarithms of the likelihoods, and its gradient."""
    rows, far, chosen = data
    register = OFFSETS["register"]
    padded = np.append(theta, 0.0)
    scores = padded[rows].sum(axis=2) + theta[register] * far + theta[register + 1] * far**2
    scores -= scores.max(axis=1, keepdims=True)
    shares = np.exp(scores)
    shares /= shares.sum(axis=1, keepdims=True)
    at = np.arange(len(chosen))
    value = np.log(shares[at, chosen]).sum()
    error = -shares
    error[at, chosen] += 1
    weights = np.repeat(error.ravel(), rows.shape[2])
    gradient: Floats = np.bincount(rows.ravel(), weights, minlength=TOTAL + 1)[:TOTAL].astype(np.float64)
    gradient[register] = (error * far).sum()
    gradient[register + 1] = (error * far**2).sum()
    return float(value), gradient


def fit(data: Data) -> Floats:
    def cost(theta: Floats) -> tuple[float, Floats]:
        value, gradient = likelihood(theta, data)
        return -value + 0.5 * SHRINK * float((theta**2).sum()), -gradient + SHRINK * theta

    found = minimize(cost, np.zeros(TOTAL), jac=True, method="L-BFGS-B", options={"maxiter": 150})
    return np.asarray(found.x)


def fit_whole(phrases: Sequence[Phrase]) -> dict[str, float]:
    """Return what a line as a whole is worth, by maximum likelihood (held a little towards zero).

    The likelihood of a real line is the exponential of its worth over what lines drawn by the notes alone, on
    the same rhythm and chords, come to on the average; so each feature is as frequent in lines that are drawn
    in two steps as in the real ones. Lines that obey the teaching rules are held against lines drawn under
    them besides, and count `OBEYING` times, for they are few.
    """
    importlib.reload(importlib.import_module("shedbook.draft.tables.line_figures"))
    fig.learnt_figures.cache_clear()
    known = list(cases(phrases))
    names, free = beside_drawn(known, loose_rules)
    _, ruled = beside_drawn([case for case in known if obeys(case)], strict_rules)
    print(f"{len(free)} lines, {len(ruled)} that obey the rules")
    table = np.concatenate([free, ruled])
    scale = free.reshape(-1, free.shape[-1]).std(axis=0) + 1e-9
    counts = np.repeat([1.0, OBEYING], [len(free), len(ruled)])
    theta = whole_weights(table / scale, counts) / scale
    return dict(zip(names, theta.tolist(), strict=True))


def beside_drawn(known: Sequence[Case], rules_of: Callable[[Case], LineRules]) -> tuple[list[str], Floats]:
    """Return the names of features, and them [line, the real one and those drawn by notes alone, feature]."""
    figures, dice = fig.learnt_figures(), Random(13)
    rows: list[Floats] = []
    names: list[str] = []
    for case in known:
        rules = rules_of(case)
        weights = fig.weighing(figures, case.places, rules.low, rules.high, case.middle)
        lines = Lines(case.places, rules, weights)
        if lines.possible:
            both = np.concatenate([np.array([case.midi]), lines.drawn(CANDIDATES, dice)])
            seen = whole.features(both, case.places)
            names = list(seen)
            rows.append(np.stack(list(seen.values()), axis=1))
    return names, np.array(rows)


def whole_weights(table: Floats, counts: Floats) -> Floats:
    """Return the likeliest weights of features [line, the real one and those drawn, feature]."""
    real, drawn = table[:, 0], table[:, 1:]

    def cost(theta: Floats) -> tuple[float, Floats]:
        score = drawn @ theta
        top = score.max(axis=1, keepdims=True)
        shares = np.exp(score - top)
        whole_share = shares.sum(axis=1, keepdims=True)
        value = float((counts * (np.log(whole_share) + top)[:, 0]).sum() - counts @ (real @ theta))
        expected = np.einsum("ld,ldf->f", counts[:, None] * shares / whole_share, drawn)
        held = SHRINK_WHOLE * theta
        return value + 0.5 * float(held @ theta), expected - counts @ real + held

    found = minimize(cost, np.zeros(table.shape[-1]), jac=True, method="L-BFGS-B", options={"maxiter": 200})
    return np.asarray(found.x)


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("data", type=Path)
    parser.add_argument("--whole", action="store_true", help="leave the figures of notes as they are")
    options = parser.parse_args()
    lines = split_lines(options.data)
    text = OUT.read_text().partition(WHOLE)[0] if options.whole else figures_of_notes(lines)
    OUT.write_text(text + WHOLE + "{}\n")
    found = fit_whole(lines.tuned)
    rows = "".join(f'    "{name}": {one:.4f},\n' for name, one in found.items())
    OUT.write_text(text + WHOLE + "{\n" + rows + "}\n")


def figures_of_notes(lines: Split) -> str:
    """Fit the figures of notes; return the table up to those of whole lines."""
    data, held = gather(lines.tuned), gather(lines.held)
    theta = fit(data)
    for name, logs in zip(("starts", "start_degrees"), starts(lines.tuned), strict=True):
        theta[OFFSETS[name] : OFFSETS[name] + len(logs)] = logs
    nats = [-likelihood(theta, one)[0] / len(one.chosen) for one in (data, held)]
    plain = np.bincount(data.chosen, minlength=25) / len(data.chosen)
    unigram = -np.log(plain[held.chosen]).mean()
    print(
        f"{len(data.chosen)} notes fitted, {nats[0]:.3f} nats; {len(held.chosen)} held, {nats[1]:.3f} nats; by interval alone {unigram:.3f}"
    )
    text = HEAD.format(notes=len(data.chosen), held=nats[1], alone=unigram)
    for name, shape in fig.SHAPES.items():
        size = int(np.prod(shape))
        numbers = [str(round(100 * one)) for one in theta[OFFSETS[name] : OFFSETS[name] + size]]
        text += f'    "{name}": """\n'
        for start in range(0, size, 25):
            text += " ".join(numbers[start : start + 25]) + "\n"
        text += '""",\n'
    return text + "}\n\n"


WHOLE = "WHOLE_FIGURES: Final[dict[str, float]] = "
HEAD = '''"""How real lines move: the figures of `draft/figures.py`, fitted to them.

Written by `python -m tools.draft_figures`; do not edit. Figures are hundredths of a natural logarithm, in the
order of `draft.figures.SHAPES`, the last index first.
Source: {notes} notes of two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside
the Jazzomat, 2017; Open Database Licence). Held out, a note costs {held:.2f} nats; by its interval alone {alone:.2f}.
"""

from __future__ import annotations

from typing import Final

# fmt: off
LINE_FIGURES: Final[dict[str, str]] = {{
'''

if __name__ == "__main__":
    main()
