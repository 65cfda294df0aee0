"""How fast the optimisers are: `python -m benchmarks.search_speed`, with a word of a name for some of them.

Prints for each search the processor time of one piece of its work in microseconds, the least of several
rounds over the demo phrases, with what it remembers from call to call forgotten before every round where
that would leave nothing to measure.
"""

from __future__ import annotations

import random
import sys
import time
import tomllib
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

from shedbook.analysis.account import account
from shedbook.editions.fingering import tab as fingering
from shedbook.editions.fingering.fingerboard import fingerboards
from shedbook.editions.fingering.tab import tab_of
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_keys
from shedbook.editions.registers.octave_choice import registers
from shedbook.editions.spelling.chord_names import chords_cost
from shedbook.exchange.ground import written_values as values
from shedbook.exchange.ground.written_values import note_values
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote, place_onsets
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.theory.metre import Metre
from shedbook.theory.progression import recognise

ROOT = Path(__file__).parents[1]
ROUNDS = 9


def demo() -> Iterator[Phrase]:
    for path in sorted((ROOT / "examples" / "tidewater" / "phrases").glob("*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        for fields in table.get("phrase", [table]):
            yield phrase_from_fields(fields)


def uneven(phrase: Phrase) -> tuple[RecordedNote, ...]:
    """Return a phrase in long and short eighths, its notes up to 20 ms early or late at 160 a minute."""
    dice = random.Random(phrase.title)
    found: list[RecordedNote] = []
    for note in sounding_notes(phrase):
        beat, inside = divmod(note.start + phrase.metre.bar_quarters, 1)
        off = inside * Fraction(5, 4) if inside <= Fraction(1, 2) else inside
        start = int((beat + off) * GRAINS) + dice.randint(-268, 268)
        start = max(start, found[-1].start + 1 if found else 0)
        found.append(
            RecordedNote(start, start + int(note.quarters * GRAINS * Fraction(9, 10)), note.pitch.midi)
        )
    return tuple(found)


def works(phrases: tuple[Phrase, ...]) -> Iterator[tuple[str, int, Callable[[], object]]]:
    """Yield each search with the pieces of work in a round and the round itself."""
    changes = [
        ([one.chord for one in phrase.changes], [one.bar for one in phrase.changes]) for phrase in phrases
    ]
    yield "progressions of a phrase", len(phrases), lambda: [recognise(*one) for one in changes]
    yield "account of a phrase", len(phrases), lambda: [account(phrase) for phrase in phrases]
    yield (
        "spelling in twelve keys",
        len(phrases),
        lambda: [in_keys(one, key_cycle(one.key)) for one in phrases],
    )
    roots = [(tuple(chords), phrase.key) for phrase, (chords, _) in zip(phrases, changes, strict=True)]
    yield "names of a phrase's chords", len(roots), lambda: [chords_cost(*one) for one in roots]
    saxophone = edition_named("alto sax")
    yield (
        "registers of twelve keys",
        len(phrases),
        lambda: [registers(one, key_cycle(one.key), saxophone) for one in phrases],
    )
    few = [one for phrase in phrases[:12] for one in in_keys(phrase, key_cycle(phrase.key))]
    yield "tablature of a phrase, first", len(few), lambda: tablature(few, anew=True)
    yield "tablature of a phrase, later", len(few), lambda: tablature(few, anew=False)
    played = [(uneven(phrase), phrase.metre) for phrase in phrases[:12]]
    yield (
        "rhythm of a played phrase",
        len(played),
        lambda: [place_onsets(line, metre, Fraction(160)) for line, metre in played],
    )
    yield "values of a length", 28 * 27 // 2, lengths
    order = Order(rounds=2)
    yield "parts of a trio, two rounds", 12, lambda: [arrange(phrase, order) for phrase in phrases[:12]]


def tablature(phrases: list[Phrase], *, anew: bool) -> None:
    """Find every fingering; `anew` forgets all that was found out about the fingerboard."""
    for name in vars(fingering):
        forget = getattr(getattr(fingering, name), "cache_clear", None)
        if forget is not None and (anew or name == "fingered"):
            forget()
    board = fingerboards()["guitar"]
    for phrase in phrases:
        tab_of(phrase, board, 12)


def lengths() -> None:
    """Find the values of every length from one triplet eighth of a bar to another, and its thirty-seconds."""
    for name in ("note_values", "_piece"):
        getattr(values, name).cache_clear()
    metre = Metre()
    places = sorted({Fraction(at, 3) for at in range(13)} | {Fraction(at, 4) for at in range(0, 17)})[:28]
    for at, start in enumerate(places):
        for end in places[at + 1 :]:
            note_values(start, end, metre)


def main() -> None:
    wanted = " ".join(sys.argv[1:])
    for name, pieces, work in works(tuple(demo())):
        if wanted not in name:
            continue
        found = []
        for _ in range(ROUNDS):
            start = time.process_time()
            work()
            found.append(time.process_time() - start)
        print(f"{name}: {min(found) * 1e6 / pieces:.1f}")


if __name__ == "__main__":
    main()
