"""How well judges tell drafts from real lines.

    python -m benchmarks.draft_judges PATH/real-lines.json.gz [--lines 600]

Every real phrase of the third of the solos that nothing was fitted to is matched by a draft over its own
changes,
in its own rhythm and length. Two games are judged: drafts in the learnt style without hard rules against all
of these phrases, and drafts under the hard rules, with both tables of weights, against the phrases that obey
them.
A judge sees figures of pitch and harmony of one line. Logistic regression and boosted trees (scikit-learn)
are
trained and tried in five folds; a phrase, its draft and all phrases of its solo are in one fold. Printed are
the balanced
accuracy with an interval of 95 % (bootstrap over solos), the confusion, and what gives drafts away.
"""

from __future__ import annotations

import argparse
import itertools
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from random import Random
from typing import NamedTuple

import numpy as np
from benchmarks.real_lines import split_lines
from numpy.typing import NDArray

from shedbook.draft.figures import Figures, weighing
from shedbook.draft.ground import ground_under
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import SIZE_OF, WIDEST, Habits
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.whole_lines import drawn_by_whole
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.phrase.model import Phrase

LOOSE = Habits(largest=WIDEST, run=0, recover=False, repeats=True, figures=False)
STRICT = Habits(largest=9, run=6, recover=True, repeats=False, figures=True)
FOLDS = 5


class Case(NamedTuple):
    """A real line with what a draft of its own needs; low, middle and high are those of its whole solo."""

    solo: int
    rhythm: Rhythm
    places: tuple[Place, ...]
    midi: tuple[int, ...]
    low: int
    middle: float
    high: int


def cases(phrases: Iterable[Phrase]) -> Iterator[Case]:
    """Yield the phrases of 8 notes and more, without leaps over an octave, that can be drafted after."""
    known = list(phrases)
    of_solo: dict[int, list[int]] = {}
    for phrase in known:
        of_solo.setdefault(_solo(phrase), []).extend(midi_of(phrase))
    for phrase in known:
        midi, rhythm, all_ = midi_of(phrase), rhythm_of(phrase), of_solo[_solo(phrase)]
        widest = max(abs(after - before) for before, after in itertools.pairwise(midi))
        if len(midi) >= 8 and widest <= WIDEST:
            places = places_of(rhythm, ground_under(phrase))
            yield Case(_solo(phrase), rhythm, places, midi, min(all_), float(np.mean(all_)), max(all_))


def _solo(phrase: Phrase) -> int:
    return int(phrase.title.split(".")[0])


def loose_rules(case: Case) -> LineRules:
    """Return no rules but the range of the solo."""
    return LineRules(case.low, case.high, LOOSE, strong=False, links=False, ending=False)


def strict_rules(case: Case) -> LineRules:
    """Return the teaching rules in the same range."""
    return LineRules(case.low, case.high, STRICT, ending=False)


def drafted(case: Case, rules: LineRules, figures: Figures, dice: Random) -> tuple[int, ...] | None:
    """Return one draft on a real line's rhythm and chords, drawn in proportion to its weight."""
    weights = weighing(figures, case.places, rules.low, rules.high, case.middle)
    lines = Lines(case.places, rules, weights)
    return drawn_by_whole(lines, dice) if lines.possible else None


def obeys(case: Case) -> bool:
    """Whether a real line is among the lines that the teaching rules allow."""
    lines = Lines(case.places, strict_rules(case))
    if not lines.possible:
        return False
    try:
        lines.weight_of(case.midi)
    except ValueError:
        return False
    return True


def features(case: Case, midi: Sequence[int]) -> dict[str, float]:
    """Return what a judge sees of a line."""
    moves = np.diff(midi)
    size = np.array([SIZE_OF[min(12, abs(move))] for move in moves.tolist()])
    notes, count = len(midi), len(moves)
    found: dict[str, float] = {f"size {one}": float((size == one).mean()) for one in range(6)}
    found |= {
        f"interval {one}": float((np.abs(moves) == one).mean())
        for one in (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)
    }
    signs = np.sign(moves)
    turns = (signs[1:] * signs[:-1] < 0).mean() if count > 1 else 0.0
    leaps = size[:-1] >= 4
    found["turns"] = float(turns)
    found["leaps turned back"] = float(np.mean((signs[1:] * signs[:-1] < 0)[leaps])) if leaps.any() else 0.5
    found["leaps to a step"] = float(np.mean(size[1:][leaps] <= 2)) if leaps.any() else 0.5
    runs = [len(list(group)) for _, group in itertools.groupby(signs.tolist())]
    found |= {"longest run": max(runs), "mean run": float(np.mean(runs))}
    found["span"] = max(midi) - min(midi)
    found["pitches"] = len(set(midi)) / notes
    found["up share"] = float((signs > 0).mean())
    found["net"] = float(midi[-1] - midi[0])
    mean = float(np.mean(midi))
    found |= {"start height": midi[0] - mean, "end height": midi[-1] - mean}
    found |= {"deviation": float(np.std(midi)), "peak place": float(np.argmax(midi)) / notes}
    for length in (2, 3):
        cells = [tuple(moves[at : at + length].tolist()) for at in range(count - length + 1)]
        found[f"cells of {length + 1} again"] = 1 - len(set(cells)) / max(1, len(cells))
    found["back to the note before last"] = float(
        np.mean([midi[at] == midi[at - 2] for at in range(2, notes)])
    )
    chord = np.array(
        [note % 12 in place.chord.span.chord_classes for note, place in zip(midi, case.places, strict=True)]
    )
    inside = np.array(
        [note % 12 in place.chord.inside for note, place in zip(midi, case.places, strict=True)]
    )
    strong = np.array([place.strong for place in case.places])
    on = np.array([place.on_beat for place in case.places])
    for name, where in (("strong", strong), ("beat", on & ~strong), ("off", ~on)):
        found[f"chord {name}"] = float(chord[where].mean()) if where.any() else 0.5
        found[f"outside {name}"] = 1 - float(inside[where].mean()) if where.any() else 0.2
    out = ~inside[:-1]
    found["outside by half step"] = float(np.mean(np.abs(moves)[out] == 1)) if out.any() else 0.5
    found["outside twice"] = float(np.mean(~inside[1:][out])) if out.any() else 0.2
    enters = np.array([place.enters for place in case.places])[1:]
    links = np.abs(moves)[enters] if enters.any() else np.array([2.5])
    found |= {"link": float(links.mean()), "link by step": float((links <= 2).mean())}
    found["guide at a link"] = _share_of_guides(case, midi, enters)
    last = case.places[-1]
    found["last in chord"] = float(midi[-1] % 12 in last.chord.span.chord_classes)
    found["last root"] = float(midi[-1] % 12 == last.chord.root)
    return found


def _share_of_guides(case: Case, midi: Sequence[int], enters: NDArray[np.bool_]) -> float:
    first = [int(at) + 1 for at in np.flatnonzero(enters)]
    return float(np.mean([midi[at] % 12 in case.places[at].chord.guides for at in first])) if first else 0.3


class Verdict(NamedTuple):
    """How a judge did; the confusion is [real, draft] by [taken for real, taken for a draft]."""

    name: str
    accuracy: float
    low: float
    high: float
    confusion: NDArray[np.int64]


def judge(
    name: str,
    make: Callable[[], object],
    table: NDArray[np.float64],
    drafts: NDArray[np.bool_],
    solos: NDArray[np.int64],
) -> Verdict:
    """Train and try a judge in folds by solo."""
    from sklearn.model_selection import GroupKFold

    said = np.zeros(len(table), dtype=bool)
    for train, test in GroupKFold(FOLDS, shuffle=True, random_state=1).split(table, drafts, solos):
        model = make()
        model.fit(table[train], drafts[train])  # type: ignore[attr-defined]
        said[test] = model.predict(table[test])  # type: ignore[attr-defined]
    chance = np.random.default_rng(1)
    numbers = np.unique(solos)
    by_solo = {one: np.flatnonzero(solos == one) for one in numbers}
    draws = []
    for _ in range(400):
        rows = np.concatenate([by_solo[one] for one in chance.choice(numbers, len(numbers))])
        draws.append(_balanced(said[rows], drafts[rows]))
    confusion = np.array(
        [[np.sum((drafts == real) & (said == other)) for other in (False, True)] for real in (False, True)]
    )
    low, high = (float(np.quantile(draws, at)) for at in (0.025, 0.975))
    return Verdict(name, _balanced(said, drafts), low, high, confusion)


def _balanced(said: NDArray[np.bool_], drafts: NDArray[np.bool_]) -> float:
    return float(((said[drafts]).mean() + (~said[~drafts]).mean()) / 2)


def game(title: str, real: Sequence[Case], make_draft: Callable[[Case], tuple[int, ...] | None]) -> None:
    """Draft after every real line, judge, and print the verdicts."""
    from sklearn.ensemble import HistGradientBoostingClassifier
    from sklearn.linear_model import LogisticRegression
    from sklearn.pipeline import make_pipeline
    from sklearn.preprocessing import StandardScaler

    rows, drafts, solos = [], [], []
    for case in real:
        midi = make_draft(case)
        if midi is None:
            continue
        for line, is_draft in ((case.midi, False), (midi, True)):
            rows.append(features(case, line))
            drafts.append(is_draft)
            solos.append(case.solo)
    names = sorted(rows[0])
    table = np.array([[row[name] for name in names] for row in rows])
    made, groups = np.array(drafts), np.array(solos)
    print(f"\n{title}: {len(rows) // 2} pairs of {len(set(solos))} solos")
    judges: list[tuple[str, Callable[[], object]]] = [
        ("logistic", lambda: make_pipeline(StandardScaler(), LogisticRegression(C=0.1, max_iter=2000))),
        (
            "boosted trees",
            lambda: HistGradientBoostingClassifier(
                max_iter=150, learning_rate=0.05, max_leaf_nodes=12, random_state=1
            ),
        ),
    ]
    for name, make in judges:
        found = judge(name, make, table, made, groups)
        interval = f"{found.low:.3f} to {found.high:.3f}"
        print(f"  {name}: {found.accuracy:.3f} ({interval}); confusion {found.confusion.tolist()}")
    apart = (table[made].mean(axis=0) - table[~made].mean(axis=0)) / (table.std(axis=0) + 1e-9)
    for at in np.argsort(-np.abs(apart))[:9]:
        print(
            f"    {names[at]}: real {table[~made][:, at].mean():.3f}, drafts {table[made][:, at].mean():.3f}"
        )


def main() -> None:
    """Play both games and print."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("data", type=Path)
    parser.add_argument("--lines", type=int, default=600, help="how many real lines are matched at most")
    parser.add_argument("--tuned", action="store_true", help="match the lines that were fitted, to tune on")
    options = parser.parse_args()
    lines = split_lines(options.data)
    everything = list(cases(lines.tuned if options.tuned else lines.held))
    Random(5).shuffle(everything)
    dice = Random(7)
    learnt = figures_of("learnt", {})
    game(
        "Learnt style without rules, against all",
        everything[: options.lines],
        lambda case: drafted(case, loose_rules(case), learnt, dice),
    )
    pool = list(itertools.chain(cases(lines.tuned), cases(lines.held)))
    obedient = [case for case in pool if obeys(case)]
    print(f"\n{len(obedient)} of {len(pool)} real lines obey the rules")
    game(
        "Rules with learnt weights, against the lines that obey them",
        obedient[: options.lines],
        lambda case: drafted(case, strict_rules(case), learnt, dice),
    )


if __name__ == "__main__":
    main()
