"""How long drafts and études take: `python -m benchmarks.draft_speed`.

Fifty diverse drafts of four bars in two and a half octaves that use all eight notes of the scale over the
dominant; the exact count of the space; one rhythm's lines for 4 to 32 bars, built and drawn, which should
take time in proportion, and sets of drafts as long; an étude of 32 bars from 65 phrases, which are drafts
themselves. Processor seconds, modules loaded before; of the fifty drafts the least of six runs.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial
from random import Random
from typing import TypeVar

from shedbook.draft.drafting import draft
from shedbook.draft.etudes.composing import EtudeWishes, compose
from shedbook.draft.etudes.fitting import fits, sources_of
from shedbook.draft.figures import Figures, weighing
from shedbook.draft.ground import Ground, ground_of
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.order import Order
from shedbook.draft.places import places_of
from shedbook.draft.rhythms import Rhythms, RhythmWishes
from shedbook.draft.stock import changes_meant
from shedbook.phrase.model import Phrase

MINOR = "Dm7b5 | G7b9 | Cm6 | %"
WHOLE = Order(count=50, low=55, high=85, covered=("G7b9",))
T = TypeVar("T")


def told(name: str, work: Callable[[], T], times: int = 1) -> T:
    """Do some work so many times; print the least time that it took."""
    took = []
    for _ in range(times):
        start = time.process_time()
        found = work()
        took.append(time.process_time() - start)
    print(f"{name}: {min(took):.3f} s", flush=True)
    return found


def phrases(many: int) -> tuple[Phrase, ...]:
    """Return phrases over the progressions that forms are made of."""
    changes = (
        "Dm7 G7 | Cmaj7",
        "Dm7 | G7",
        "C7 | F7",
        "Cmaj7 A7 | Dm7 G7",
        "Em7 A7 | Dm7 G7",
        "Gm7 C7 | Fmaj7",
    )
    found: list[Phrase] = []
    for seed, one in enumerate(changes):
        found += [made.phrase for made in draft(ground_of(one), Order(count=11, seed=seed)).drafts]
    return tuple(found[:many])


def lines_of(ground: Ground, figures: Figures) -> int:
    """Build the lattice over one rhythm ten times and draw 320 lines from each; return its notes."""
    beats = ground.end // 12
    (rhythm, *_) = Rhythms(RhythmWishes(beats, 4, "swing", 132)).drawn(5, Random(2))
    places = places_of(rhythm, ground)
    for seed in range(10):
        Lines(places, LineRules(55, 81), weighing(figures, places, 55, 81, 68.0)).drawn(320, Random(seed))
    return len(places)


def main() -> None:
    ground = ground_of(MINOR)
    draft(ground, Order(count=2))
    found = told("50 diverse drafts that cover a scale", lambda: draft(ground, WHOLE), times=6)
    print(f"  {len(found.drafts)} drafts of {found.offered} offered, {found.drawn} drawn")
    count = told("the exact count over one rhythm", lambda: found.drafts[0].space.count)
    print(f"  {count:.3g} lines over one of {found.rhythms:.3g} rhythms")
    figures = figures_of("both", {})
    for bars in (4, 8, 16, 32):
        long = ground_of(" | ".join([MINOR] * (bars // 4)))
        told(f"10 times 320 lines of {bars} bars", partial(lines_of, long, figures))
    for bars in (4, 8, 16, 32):
        long = ground_of(" | ".join([MINOR] * (bars // 4)))
        space = told(f"12 drafts of {bars} bars", partial(draft, long, Order(count=12)))
        print(f"  {len(space.drafts)} drafts")
    book = phrases(65)
    form = ground_of(changes_meant("I-VI-ii-V with bridge"))
    places = told(f"where {len(book)} phrases fit in 32 bars", lambda: fits(sources_of(book, form), form))
    made = told(f"an étude of 32 bars from {len(book)} phrases", lambda: compose(form, book, EtudeWishes()))
    print(f"  {len(places)} places; {made.taken_bars} of {form.bars} bars come from phrases")


if __name__ == "__main__":
    main()
