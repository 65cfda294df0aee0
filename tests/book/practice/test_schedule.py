"""What to practise now: the memory model against another library, and the plan of a day in a browser."""

import hashlib
import random
import re
import sys
from datetime import UTC, datetime, timedelta
from importlib.util import module_from_spec, spec_from_file_location
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from fsrs import Card, Rating, Scheduler
from playwright.sync_api import Page, expect

from book.practice.plan_page import ROOT, STATIC, TEMPOS, Pages
from shedbook.book.ground.words import words_of

BUILT = STATIC / "memory_model.js"


@pytest.fixture
def page(pages: Pages) -> Page:
    return pages.open()


# The library.


def test_the_bundle_was_made_from_these_sources() -> None:
    """Made anew by `npm ci && npm run build` in tools/memory_model."""
    folder = ROOT / "tools" / "memory_model"
    found = hashlib.sha256()
    for name in ("memory_model.js", "package-lock.json"):
        found.update((folder / name).read_bytes())
    said = re.search(r"Made by tools/memory_model from ([0-9a-f]{32})", BUILT.read_text(encoding="utf-8"))
    assert said is not None
    assert said[1] == found.hexdigest()[:32]
    assert "resolved" not in (folder / "package-lock.json").read_text(encoding="utf-8")
    assert "MIT" in (ROOT / "licences" / "ts-fsrs-MIT.txt").read_text(encoding="utf-8")


MEMORY = """(history) => history.reduce((memory, [days, outcome]) =>
  practice.memoryModel.after(memory, days, outcome), null)"""


def test_the_worked_example_of_the_model(page: Page) -> None:
    """Outcomes 1, 3, 3, 3, 3, 3 after 0, 0, 1, 3, 8, 21 days: stability 53.62691, difficulty 6.3574867.

    Source: the example of the model's open libraries, version 6 (from memory).
    """
    memory = page.evaluate(MEMORY, [[0, 1], [0, 3], [1, 3], [3, 3], [8, 3], [21, 3]])
    assert memory["stability"] == pytest.approx(53.62691, abs=1e-4)
    assert memory["difficulty"] == pytest.approx(6.3574867, abs=1e-4)


def test_any_history_is_what_the_other_library_makes_of_it(page: Page) -> None:
    """Oracle: the Python package `fsrs`, written apart from the page's, by the same published formulas."""
    dice = random.Random(7)
    scheduler = Scheduler(learning_steps=(), relearning_steps=(), enable_fuzzing=False)
    for _ in range(60):
        history = [[0, dice.choice([1, 2, 3, 4])]]
        history += [
            [dice.choice([0, 1, 2, 5, 9, 30, 90]), dice.choice([1, 2, 3, 3, 4])]
            for _ in range(dice.randrange(12))
        ]
        card, at = Card(), datetime(2026, 1, 1, tzinfo=UTC)
        for days, outcome in history:
            at += timedelta(days=days)
            card, _ = scheduler.review_card(card, Rating(outcome), at)
        memory = page.evaluate(MEMORY, history)
        assert memory["stability"] == pytest.approx(card.stability, rel=1e-4), history
        assert memory["difficulty"] == pytest.approx(card.difficulty, rel=1e-4), history


def test_the_laws_of_the_paper(page: Page) -> None:
    """R(t, S) = 0.9 at t = S; more stability grows less, less recall grows more (Ye, Su & Cao 2022)."""
    for stability in (0.5, 3, 40, 900):
        assert page.evaluate(f"practice.memoryModel.recall({stability}, {stability})") == pytest.approx(
            0.9, abs=1e-6
        )
        assert page.evaluate(f"practice.memoryModel.days({stability}, 0.9)") == max(1, round(stability))
    grown = (
        "([s, days]) => practice.memoryModel.after({ stability: s, difficulty: 5 }, days, 3).stability / s"
    )
    growth = [page.evaluate(grown, [stability, stability]) for stability in (2, 10, 50, 200)]
    assert growth == sorted(growth, reverse=True)
    assert growth[0] > growth[-1] > 1
    late = [page.evaluate(grown, [10, days]) for days in (1, 5, 10, 30, 100)]
    assert late == sorted(late)


# Tempo as the grade.

LEARNT = "([before, visit]) => practice.schedule.learnt(before, visit)"


def learnt(page: Page, before: Any, **visit: Any) -> Any:
    return page.evaluate(LEARNT, [before, {"day": 10, "tempo": 100, "asked": 100, "said": "clean"} | visit])


def test_clean_but_slower_than_asked_counts_as_slips(page: Page) -> None:
    assert learnt(page, None, tempo=80)["memory"] == learnt(page, None, said="slips")["memory"]
    assert learnt(page, None, tempo=98)["memory"] == learnt(page, None)["memory"]
    assert learnt(page, None, tempo=80, said="sang")["memory"] == learnt(page, None)["memory"]


def test_the_tempo_grows_and_falls_with_the_answers(page: Page) -> None:
    first = learnt(page, None)
    assert (first["reached"], first["next"]) == (100, pytest.approx(108))
    assert learnt(page, first, tempo=108, asked=108, said="sang", day=12)["next"] == pytest.approx(108 * 1.15)
    higher = learnt(page, first, tempo=108, asked=108, said="apart", day=12)
    assert (higher["reached"], higher["next"]) == (100, pytest.approx(108 * 0.85))
    assert learnt(page, first, said="slips", day=12)["reached"] == pytest.approx(95)
    assert learnt(page, first, tempo=60, asked=None, day=12)["reached"] == 100
    silent = learnt(page, first, said=None, day=12)
    assert (silent["memory"], silent["next"], silent["visits"]) == (first["memory"], first["next"], 2)


def test_the_tempo_asked_for_stays_between_two_fifths_and_the_phrases_own(page: Page) -> None:
    asked = """([next, day]) => {
      const known = practice.schedule.learnt(null, { day: 10, tempo: 100, asked: 100, said: "clean" });
      return practice.schedule.tempoFor({ ...known, next }, 120, day);
    }"""
    assert page.evaluate(asked, [300, 10]) == 120
    assert page.evaluate(asked, [5, 10]) == 48
    assert page.evaluate("practice.schedule.tempoFor(null, 120, 10)") == 72
    fresh, faded = page.evaluate(asked, [110, 11]), page.evaluate(asked, [110, 200])
    assert fresh == 110
    assert 48 < faded < 110


def test_below_its_tempo_an_item_comes_back_soon(page: Page) -> None:
    due = """([reached, stability]) => practice.schedule.dueOn(
      { day: 100, reached, memory: { stability, difficulty: 5 } }, 120) - 100"""
    assert [page.evaluate(due, [reached, 300]) for reached in (72, 90, 110, 120)] == [2, 4, 8, 300]
    assert page.evaluate(due, [72, 1]) == 1


# The plan of a day.

WORK = """([phrases, days, minutes, share]) => {
  const { schedule } = practice;
  let seed = 12345;
  const dice = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
  const book = { phrases: practice.book.phrases.slice(0, phrases) };
  const known = new Map();
  const plans = [];
  for (let day = 100; day < 100 + days; day += 1) {
    if (dice() > share) continue;
    const plan = schedule.plan({ book, known, day, minutes });
    plans.push({ ...plan, before: [...known.keys()] });
    for (const { kind, phrase, key, tempo } of plan.parts) {
      if (!phrase || kind === "warm") continue;
      const id = schedule.idOf(phrase, key);
      const went = Math.min(3, Math.floor(dice() * dice() * 4) + (dice() < 0.7 ? 2 : 0));
      const { said } = schedule.ANSWERS[went];
      known.set(id, schedule.learnt(known.get(id) ?? null, { day, tempo, asked: tempo, said }));
    }
  }
  return plans;
}"""


def played(plan: dict[str, Any]) -> list[dict[str, Any]]:
    return [one for one in plan["parts"] if one["kind"] not in ("warm", "rest")]


@pytest.mark.parametrize("minutes", [1, 2, 3, 5, 7, 10, 15, 20, 30, 45, 60, 90, 120])
def test_a_plan_is_never_longer_than_the_minutes(page: Page, minutes: int) -> None:
    for plan in page.evaluate(WORK, [6, 25, minutes, 0.8]):
        parts = plan["parts"]
        assert sum(one["seconds"] for one in parts) == plan["seconds"] <= minutes * 60
        assert parts[0]["kind"] == "warm"
        assert parts[-1]["kind"] != "rest"
        for one, following in pairwise(parts):
            assert one["at"] + one["seconds"] == following["at"]


def test_most_of_the_minutes_are_used(page: Page) -> None:
    for minutes in (10, 20, 45):
        plans = page.evaluate(WORK, [6, 25, minutes, 1])
        assert min(plan["seconds"] for plan in plans) >= 0.85 * minutes * 60


def test_nobody_plays_long_without_a_rest(page: Page) -> None:
    """Short stretches, and a long rest in an hour (common practice of teachers); ours: thirteen minutes."""
    for plan in page.evaluate(WORK, [6, 30, 60, 1]):
        stretch = 0
        for one in plan["parts"][1:]:
            stretch = 0 if one["kind"] == "rest" else stretch + one["seconds"]
            assert stretch <= 600 + 180
        assert max(one["seconds"] for one in plan["parts"] if one["kind"] == "rest") == 300


def test_neither_phrase_nor_key_comes_in_blocks(page: Page) -> None:
    """Mixed, not blocked: Shea & Morgan 1979 (from memory); Carter & Grahn 2016, clarinettists (abstract)."""
    plans = page.evaluate(WORK, [6, 60, 20, 1])[5:]
    same_item = same_key = pairs = 0
    for plan in plans:
        for one, following in pairwise(played(plan)):
            pairs += 1
            same_item += (one["phrase"], one["key"]) == (following["phrase"], following["key"])
            same_key += one["key"] == following["key"]
    assert pairs > 500
    assert same_item == 0
    assert same_key / pairs < 0.03


def test_new_items_come_a_few_at_a_time_from_several_phrases_and_several_times(page: Page) -> None:
    plans = page.evaluate(WORK, [6, 6, 20, 1])
    first = played(plans[0])
    new = [one for one in first if one["kind"] == "new"]
    assert 2 <= len(new) <= 4
    assert len({one["phrase"] for one in new}) >= 3
    for one in new:
        places = [
            place
            for place, other in enumerate(first)
            if (other["phrase"], other["key"]) == (one["phrase"], one["key"])
        ]
        assert len(places) >= 3
        assert all(after - before > 1 for before, after in pairwise(places))
    keys = [one["key"] for plan in plans for one in played(plan) if one["kind"] == "new"]
    assert len(set(keys)) >= 4


def test_old_new_and_warm_up_stand_in_one_plan(page: Page) -> None:
    plan = page.evaluate(WORK, [6, 12, 30, 1])[-1]
    kinds = {one["kind"] for one in plan["parts"]}
    assert kinds == {"warm", "new", "back", "old", "rest"}
    warm = plan["parts"][0]
    assert warm["phrase"] is not None
    assert warm["tempo"] <= 0.6 * TEMPOS[int(warm["phrase"][1:]) % 6] + 1


def test_after_a_month_away_old_things_have_the_day(page: Page) -> None:
    """What waits has the day and nothing new is heaped on it; no plan is longer for the days off."""
    plan = page.evaluate(
        """(work) => {
          const plans = (0, eval)(work)([6, 15, 20, 1]);
          const known = new Map();
          for (const plan of plans) for (const { kind, phrase, key, tempo } of plan.parts) {
            if (!phrase || kind === "warm") continue;
            const id = practice.schedule.idOf(phrase, key);
            const visit = { day: plan.day, tempo, asked: tempo, said: "clean" };
            known.set(id, practice.schedule.learnt(known.get(id) ?? null, visit));
          }
          const found = practice.schedule.plan({ book: practice.book, known, day: 200, minutes: 20 });
          return { ...found, unknown: 72 - known.size };
        }""",
        WORK,
    )
    assert plan["unknown"] > 10
    assert plan["seconds"] <= 1200
    assert {one["kind"] for one in played(plan)} == {"old"}


def test_a_sheet_gives_the_new_work(page: Page) -> None:
    asked = """(rows) => practice.schedule.plan({
      book: practice.book, known: new Map(), day: 100, minutes: 20,
      sheet: new Set(rows.map(([phrase, key]) => practice.schedule.idOf(phrase, key))) })"""
    sheet = [("p4", "Ab"), ("p5", "D"), ("p3", "D")]
    assert {(one["phrase"], one["key"]) for one in played(page.evaluate(asked, sheet))} == set(sheet)
    alone = played(page.evaluate(asked, sheet[:1]))
    assert (alone[0]["phrase"], alone[0]["key"]) == sheet[0]
    assert all(
        (one["phrase"], one["key"]) != (following["phrase"], following["key"])
        for one, following in pairwise(alone)
    )


def test_keys_are_one_whatever_they_are_called(page: Page) -> None:
    ids = page.evaluate("['Gb', 'F#', 'F# minor', 'Gb minor'].map((key) => practice.schedule.idOf('p', key))")
    assert len(set(ids)) == 1
    assert (
        page.evaluate("['H', 'Cbbb', '', 'c', 'C#m'].map((key) => practice.planParts.tonic(key))")
        == [None] * 5
    )


def test_a_visit_after_midnight_belongs_to_the_evening(page: Page) -> None:
    days = page.evaluate(
        "[[5, 23], [6, 1], [6, 5]].map((one) => practice.planParts.dayOf(+new Date(2026, 4, ...one)))"
    )
    assert days[0] == days[1] == days[2] - 1


# While it runs.

RUN = """([minutes, slow]) => {
  const { schedule } = practice;
  let now = 1e12;
  const found = schedule.plan({ book: practice.book, known: new Map(), day: 100, minutes });
  schedule.start(found, now);
  let count = 0;
  while (schedule.current()) {
    now += schedule.current().seconds * 1000 * slow;
    count += 1;
    schedule.move(now);
  }
  const spent = schedule.elapsed(now);
  schedule.stop();
  return { spent, count, parts: found.parts.length };
}"""


def test_a_slow_player_has_less_to_do_and_not_more_time(page: Page) -> None:
    usual, slow = page.evaluate(RUN, [30, 1]), page.evaluate(RUN, [30, 1.5])
    assert usual["count"] == usual["parts"]
    assert usual["spent"] <= 30 * 60
    assert slow["count"] < usual["count"]
    assert slow["spent"] <= 30 * 60 * 1.06
    """The part in hand is not cut off: at most half of the longest visit, 90 seconds, runs over."""


def test_the_clock_stands_while_it_is_asked_to(page: Page) -> None:
    spent = page.evaluate(
        """() => {
          const { schedule } = practice;
          const { book } = practice;
          schedule.start(schedule.plan({ book, known: new Map(), day: 100, minutes: 10 }), 1000);
          schedule.pause(61000); schedule.goOn(1000000);
          const found = schedule.elapsed(1030000);
          schedule.stop();
          return found;
        }"""
    )
    assert spent == 90


def test_the_way_through_a_set(pages: Pages) -> None:
    page = pages.open()
    page.clock.install()
    page.locator("#plan-minutes").select_option("5")
    expect(page.locator("#plan-minutes")).to_be_focused()
    page.locator("button.begin").click()
    expect(page.locator("[aria-current=step]")).to_contain_text("Long notes")
    page.keyboard.press("PageDown")
    expect(page.locator("#screen-play")).to_be_visible()
    asked = page.evaluate("JSON.parse(document.getElementById('asked').textContent)")
    assert (asked["phrase"], asked["key"], asked["tempo"]) == ("p0", "C", 72)
    page.locator("#round").click()
    page.locator("[data-said=clean]").click()
    expect(page.locator("#asked")).to_contain_text('"tempo":78')
    page.locator("[data-said=apart]").click()
    expect(page.locator("#asked")).to_contain_text('"tempo":66')
    page.clock.fast_forward(6 * 60_000)
    page.locator("[data-said=slips]").click()
    expect(page.locator("#screen-plan")).to_be_visible()
    expect(page.locator(".over-now")).to_contain_text("That was today’s time")
    assert page.evaluate("practice.schedule.running") is None
    said = page.evaluate("practice.progress.visits().sort((a, b) => a.at - b.at).map((one) => one.said)")
    assert sorted(said) == ["apart", "clean", "slips"]


def test_a_set_goes_on_after_the_page_was_closed(pages: Pages) -> None:
    device = pages.device()
    page = pages.open(on=device)
    page.locator("button.begin").click()
    page.keyboard.press("PageDown")
    expect(page.locator("#screen-play")).to_be_visible()
    page.wait_for_timeout(300)
    page.close()
    again = pages.open(on=device)
    assert again.evaluate("practice.schedule.running.place") == 1
    expect(again.locator(".plan button.main")).to_have_text("Let the clock run")
    again.locator(".plan button.main").click()
    expect(again.locator("[aria-current=step]")).to_contain_text("new")


def test_next_is_null_at_a_rest_and_the_screen_of_the_set_has_it(page: Page) -> None:
    page.locator("#plan-minutes").select_option("20")
    page.locator("button.begin").click()
    found = page.evaluate(
        """() => {
          let count = 1;
          while (practice.schedule.next()) count += 1;
          return [count, practice.schedule.current().kind];
        }"""
    )
    assert found[0] > 5
    assert found[1] == "rest"
    page.evaluate("practice.show('plan')")
    expect(page.locator(".in-hand")).to_contain_text("Put the instrument down")
    expect(page.locator(".in-hand .left")).to_contain_text("1:")


def test_when_the_minutes_are_over_it_is_said_and_nothing_new_begins(pages: Pages) -> None:
    page = pages.open()
    page.clock.install()
    page.locator("#plan-minutes").select_option("5")
    page.locator("button.begin").click()
    page.keyboard.press("PageDown")
    page.clock.run_for(299_000)
    expect(page.locator(".went .over-now")).to_have_count(0)
    page.clock.run_for(3_000)
    expect(page.locator(".went .over-now")).to_contain_text("5 min")
    page.locator("[data-said=clean]").click()
    expect(page.locator("#screen-plan .over-now")).to_contain_text("What is left waits for you")
    assert page.evaluate("practice.schedule.running") is None


def test_who_goes_on_by_the_pedal_alone_is_heard_too(page: Page) -> None:
    """Without a word it counts as played with slips: the item is known, and comes back soon."""
    page.locator("button.begin").click()
    page.keyboard.press("PageDown")
    page.locator("#round").click()
    following = page.evaluate("practice.schedule.next()")
    assert following["phrase"] != "p0"
    visits = page.evaluate("practice.progress.visits()")
    assert [(one["phrase"], one["said"]) for one in visits] == [("p0", "on")]
    known = page.evaluate("practice.progress.known().get(practice.schedule.idOf('p0', 'C'))")
    assert known["memory"] == learnt(page, None, said="slips")["memory"]
    assert page.evaluate("practice.schedule.next()") is not None
    assert len(page.evaluate("practice.progress.visits()")) == 1


def test_a_plan_that_ends_by_the_pedal_is_over(page: Page) -> None:
    page.locator("#plan-minutes").select_option("5")
    page.locator("button.begin").click()
    page.evaluate("while (practice.schedule.next());")
    assert page.evaluate("practice.schedule.current()") is None
    page.evaluate("practice.show('plan')")
    expect(page.locator("#screen-plan .over-now")).to_contain_text("That was today’s time")
    assert page.evaluate("practice.schedule.running") is None


def test_the_clock_stands_while_the_page_is_not_to_be_seen(page: Page) -> None:
    hide = """(hidden) => {
      Object.defineProperty(document, "hidden", { value: hidden, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
      return practice.schedule.running.since === null;
    }"""
    page.locator("button.begin").click()
    assert page.evaluate(hide, True) is True
    assert page.evaluate(hide, False) is False
    page.get_by_role("button", name="Stop the clock").click()
    assert page.evaluate(hide, True) is True
    assert page.evaluate(hide, False) is True


def test_cautions_stand_where_the_plan_is_made(page: Page) -> None:
    for word in ("hurts", "fingers", "jaw", "doctor", "94 decibels"):
        expect(page.locator(".cautions")).to_contain_text(word)


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "pt"])
def test_the_answers_are_our_own_words(language: str) -> None:
    """No grade of a library, which has "again", "hard", "good", "easy"; no streak, score or debt anywhere."""
    rows = {
        name: text
        for name, text in words_of(language).table.items()
        if name.startswith(("practice.plan.", "practice.progress."))
    }
    answers = [rows[f"practice.plan.went.{one}"].lower() for one in ("apart", "slips", "clean", "sang")]
    assert len(set(answers)) == 4
    for text in answers:
        assert not re.search(
            r"\b(again|hard|good|easy|nochmal|schwer|gut|einfach|bien|difficile|facile|difícil|fácil|bom)\b",
            text,
        )
    for text in rows.values():
        assert not re.search(
            r"streak|score|overdue|missed|points?\b|serie\b|série\b|puntos|pontos|punkte\b|verpasst",
            text.lower(),
        )


# A year.


def test_a_year_by_the_plan_keeps_more_than_random_or_page_order(page: Page) -> None:
    """A small case of benchmarks/practice_year.py, whose figures stand in docs/practice-plan.md."""
    spec = spec_from_file_location("practice_year", ROOT / "benchmarks" / "practice_year.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.modules["practice_year"] = module
    spec.loader.exec_module(module)
    for student in module.STUDENTS:
        found = module.year(page, student, 10, 10, 1)
        assert found["plan"][0] > found["random"][0] + 0.1, student
        assert found["plan"][0] > found["page order"][0] + 0.1, student


def test_the_page_names_no_other_place() -> None:
    for path in Path(STATIC).glob("*.js"):
        if path.name != BUILT.name:
            text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")  # a name
            assert "://" not in text, path
