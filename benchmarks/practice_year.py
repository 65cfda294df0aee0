"""A year of practice by the plan of the practice page, beside random order and page order.

    python -m benchmarks.practice_year [--phrases 36] [--seeds 3] [--picture FILE.svg]

A student who is a formula practises an invented book in twelve keys every day for a year, so many minutes a
day, by three orders: the plan of `schedule.js`, run in Chromium as it ships; any page at random; and page
after page, each key until it is clean at tempo, from the last page back to the first. All three have the
same playing time (the plan's warm-ups and rests are taken off the others too), the same visits and the same
rule for the next tempo, so that the order alone is compared.

The student forgets by a known curve that is not the plan's: the chance to recall an item halves in every
half-life (exponential; for one student a steeper power law than the plan's). A visit that recalls makes the
half-life longer, the more so the likelier it was to fail; a failed one makes it shorter; more visits on one
day add little. The hand learns by its visits, less each time. All figures of the students are invented, and
none was fitted to anything. What is counted is what share of the whole book would come back on the day
after the year, and what share at tempo.
"""

from __future__ import annotations

import argparse
import random
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from statistics import mean
from typing import Any

from playwright.sync_api import Page, sync_playwright

STATIC = Path(__file__).parents[1] / "src" / "shedbook" / "book" / "practice" / "static"
SCRIPTS = ("memory_model.js", "plan_parts.js", "schedule.js")
FLAGS = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking")
KEYS = tuple(["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"])
BARS, TEMPOS = (2, 4, 4, 3, 4, 8), (120, 132, 100, 160, 140, 120)
MINUTES = (5, 10, 20, 30, 45, 60)
DAYS = 365
FIRST_DAY = 20_000
AT_TEMPO = 0.97


@dataclass(frozen=True)
class Student:
    """How one forgets and learns: first half-life in days, its growth, what a failure leaves, the hand."""

    name: str
    first_half_life: float = 2.0
    growth: float = 4.0
    left_by_failure: float = 0.4
    hand: float = 0.14
    power_law: bool = False

    def recall(self, days: int, half_life: float) -> float:
        """Return the chance to recall: a half after a half-life, a quarter after two (five by power law)."""
        if self.power_law:
            return float((1.0 + 3.0 * days / half_life) ** -0.5)
        return float(2.0 ** (-days / half_life))


STUDENTS = (
    Student("usual"),
    Student("quick to forget", first_half_life=1.0, growth=2.5, left_by_failure=0.25),
    Student("slow hands, power law", hand=0.07, power_law=True),
)


@dataclass
class Item:
    """The truth about one phrase in one key: its memory, and the share of the tempo that the hand has."""

    phrase: int
    key: str
    goal: int
    bars: int
    half_life: float = 0.0
    day: int = 0
    hand: float = 0.55
    next_tempo: float = 0.0
    clean: float = 0.0


@dataclass
class Played:
    """A student at work: the items of the book, and the dice."""

    student: Student
    phrases: int
    dice: random.Random
    items: dict[tuple[int, str], Item] = field(init=False)

    def __post_init__(self) -> None:
        self.items = {
            (phrase, key): Item(phrase, key, TEMPOS[phrase % 6], BARS[phrase % 6])
            for phrase in range(self.phrases)
            for key in KEYS
        }

    def recall(self, item: Item, day: int) -> float:
        """Return the chance that an item comes back on a day."""
        return self.student.recall(day - item.day, item.half_life) if item.half_life else 0.0

    def visit(self, item: Item, tempo: float, day: int) -> str:
        """Play an item once, and say how it went."""
        student, share = self.student, tempo / item.goal
        met = item.half_life > 0
        chance = self.recall(item, day) if met else 1.0
        if day == item.day and met:
            recalled = True
            item.half_life *= 1.05
        else:
            recalled = self.dice.random() < chance
            if not met:
                item.half_life = student.first_half_life
            elif recalled:
                item.half_life *= 1.0 + student.growth * (1.0 - chance) ** 0.5
            else:
                item.half_life = max(student.first_half_life / 2, item.half_life * student.left_by_failure)
            item.day = day
        could = item.hand * self.dice.gauss(1.0, 0.03)
        item.hand += (1.15 - item.hand) * student.hand
        if not recalled or share > could * 1.08:
            return "apart"
        return "slips" if share > could else "sang" if share < could * 0.8 else "clean"

    def share_back(self, day: int) -> float:
        """Return what share of the book would come back on a day."""
        return mean(self.recall(item, day) for item in self.items.values())

    def share_at_tempo(self, day: int) -> float:
        """Return what share of the book would come back on a day, and at its tempo."""
        return mean(self.recall(item, day) if item.hand >= AT_TEMPO else 0.0 for item in self.items.values())


def book(phrases: int) -> dict[str, Any]:
    """The invented book, as the page has it."""
    return {
        "id": "invented", "title": "Invented", "language": "en", "words": {},
        "phrases": [
            {"id": str(number), "title": str(number), "bars": BARS[number % 6], "tempo": TEMPOS[number % 6],
             "keys": [{"key": key} for key in KEYS]}
            for number in range(phrases)
        ],
    }  # fmt: skip


_BEGIN = "(book) => { practice.book = book; window.known = new Map(); }"
_DAY = """([visits, day, minutes]) => {
  const { idOf, learnt, plan } = practice.schedule;
  for (const { phrase, key, ...visit } of visits) {
    const id = idOf(phrase, key);
    window.known.set(id, learnt(window.known.get(id) ?? null, visit));
  }
  return plan({ book: practice.book, known: window.known, day, minutes }).parts
    .map(({ kind, phrase, key, tempo, seconds }) => ({ kind, phrase, key, tempo, seconds }));
}"""
_STEPS = "() => Object.fromEntries(practice.schedule.ANSWERS.map((one) => [one.said, one.step]))"
_RULES = "() => practice.schedule.RULES"


def by_plan(page: Page, played: Played, minutes: int, steps: dict[str, float]) -> Iterator[float]:
    """Practise a year by the plan; yield the seconds of playing of each day."""
    page.evaluate(_BEGIN, book(played.phrases))
    answers: list[dict[str, Any]] = []
    for day in range(FIRST_DAY, FIRST_DAY + DAYS):
        parts = page.evaluate(_DAY, [answers, day, minutes])
        assert sum(part["seconds"] for part in parts) <= minutes * 60
        visits = [part for part in parts if part["kind"] not in ("warm", "rest")]
        answers = []
        tempos: dict[tuple[int, str], float] = {}
        for part in visits:
            item = played.items[int(part["phrase"]), part["key"]]
            tempo = tempos.get((item.phrase, item.key), part["tempo"])
            said = played.visit(item, tempo, day)
            # Later that day the page asks for the tempo that the answer leads to, never above the goal.
            tempos[item.phrase, item.key] = min(item.goal, tempo * steps[said])
            given = {"tempo": tempo, "asked": tempo, "said": said, "day": day}
            answers.append({"phrase": part["phrase"], "key": item.key, **given})
        yield sum(part["seconds"] for part in visits)


def by_order(
    order: Iterator[Item],
    played: Played,
    seconds: Sequence[float],
    rules: dict[str, Any],
    steps: dict[str, float],
) -> None:
    """Practise a year in an order of one's own, so many seconds a day."""
    for day, left in enumerate(seconds, FIRST_DAY):
        for item in order:
            tempo = min(item.next_tempo or item.goal * rules["firstTempo"], item.goal)
            tempo = max(tempo, item.goal * rules["leastTempo"])
            taken = rules["aroundVisit_s"] + (item.bars * 4 * rules["rounds"]["old"] + 4) * 60 / tempo
            left -= min(rules["mostVisit_s"], max(rules["leastVisit_s"], taken))
            if left < 0:
                break
            said = played.visit(item, tempo, day)
            item.next_tempo = tempo * steps[said]
            if said in ("clean", "sang"):
                item.clean = tempo / item.goal


def at_random(played: Played) -> Iterator[Item]:
    items = list(played.items.values())
    while True:
        yield played.dice.choice(items)


def page_after_page(played: Played) -> Iterator[Item]:
    while True:
        for item in played.items.values():
            item.clean = 0.0
            yield item
            while item.clean < AT_TEMPO:
                yield item


ORDERS: dict[str, Callable[[Played], Iterator[Item]]] = {"random": at_random, "page order": page_after_page}


def year(
    page: Page, student: Student, phrases: int, minutes: int, seed: int
) -> dict[str, tuple[float, float]]:
    """Return for each order what share of the book comes back after a year, and what share at tempo."""
    end = FIRST_DAY + DAYS
    played = Played(student, phrases, random.Random(seed))
    rules, steps = page.evaluate(_RULES), page.evaluate(_STEPS)
    seconds = list(by_plan(page, played, minutes, steps))
    found = {"plan": (played.share_back(end), played.share_at_tempo(end))}
    for name, order in ORDERS.items():
        other = Played(student, phrases, random.Random(seed))
        by_order(order(other), other, seconds, rules, steps)
        found[name] = (other.share_back(end), other.share_at_tempo(end))
    return found


Years = dict[int, dict[str, tuple[float, float]]]
"""By minutes a day, for each order the shares of `year`."""

STROKES = {"plan": "none", "random": "2 4", "page order": "8 5"}
LEFT, WIDE, HIGH, APART = 48, 210, 220, 36


def panel(name: str, years: Years, at: int) -> list[str]:
    """Return one student's lines: the share that comes back by minutes a day, told apart by their dashes."""
    left = LEFT + at * (WIDE + APART)

    def across(minutes: int) -> float:
        return left + WIDE * minutes / max(MINUTES)

    def down(share: float) -> float:
        return 40 + HIGH * (1 - share)

    out = [f'<text x="{left}" y="24" font-weight="600">{name}</text>']
    for fifth in range(6):
        out.append(f'<path d="M{left},{down(fifth / 5):.1f}h{WIDE}" stroke="#ddd"/>')
        if at == 0:
            out.append(f'<text x="42" y="{down(fifth / 5) + 4:.1f}" text-anchor="end">{fifth * 20} %</text>')
    for minutes in MINUTES:
        out.append(f'<text x="{across(minutes):.1f}" y="278" text-anchor="middle">{minutes}</text>')
    for order, dashes in STROKES.items():
        points = " ".join(f"{across(one):.1f},{down(row[order][0]):.1f}" for one, row in years.items())
        stroke = f'stroke="#222" stroke-width="2" stroke-dasharray="{dashes}"'
        out.append(f'<polyline points="{points}" fill="none" {stroke}/>')
    return out


def picture(found: dict[str, Years]) -> str:
    """Return the panels of all students, with a key below."""
    width = LEFT + len(found) * (WIDE + APART)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} 340" font-family="sans-serif" '
        'font-size="12"><rect width="100%" height="100%" fill="#fff"/>'
    ]
    for at, (name, years) in enumerate(found.items()):
        out += panel(name, years, at)
    out.append(f'<text x="{width / 2:.0f}" y="300" text-anchor="middle">minutes a day, for a year</text>')
    for at, (order, dashes) in enumerate(STROKES.items()):
        x = LEFT + 150 * at
        out.append(f'<path d="M{x},322h40" stroke="#222" stroke-width="2" stroke-dasharray="{dashes}"/>')
        out.append(f'<text x="{x + 48}" y="326">{order}</text>')
    return "\n".join((*out, "</svg>\n"))


def years_of(page: Page, student: Student, minutes: Sequence[int], phrases: int, seeds: int) -> Years:
    """Practise the years of a student, and print each row."""
    print(student.name)
    found: Years = {}
    for each in minutes:
        years = [year(page, student, phrases, each, seed) for seed in range(seeds)]
        found[each] = {
            name: (mean(one[name][0] for one in years), mean(one[name][1] for one in years))
            for name in years[0]
        }
        said = "  ".join(f"{name} {both[0]:.0%} ({both[1]:.0%})" for name, both in found[each].items())
        print(f"  {each:>2} min  {said}", flush=True)
    return found


def main() -> int:
    asked = argparse.ArgumentParser()
    asked.add_argument("--phrases", type=int, default=36)
    asked.add_argument("--seeds", type=int, default=2)
    asked.add_argument("--minutes", type=int, nargs="*", default=list(MINUTES))
    asked.add_argument("--picture", type=Path)
    given = asked.parse_args()
    chromium = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        page = browser.new_page()
        for name in SCRIPTS:
            page.add_script_tag(path=STATIC / name)
        print(f"{given.phrases} phrases in {len(KEYS)} keys, {DAYS} days, {given.seeds} years each")
        print("share of the book that comes back (and at tempo), %")
        found = {one.name: years_of(page, one, given.minutes, given.phrases, given.seeds) for one in STUDENTS}
        browser.close()
    if given.picture:
        given.picture.write_text(picture(found), encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
