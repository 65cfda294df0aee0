"""Half an instrument, edition, fingerboard, order of keys or cost is refused. Source: our own design."""

from __future__ import annotations

import pytest

from shedbook.editions.cost_table import costs_by_name, costs_by_policy
from shedbook.editions.fingering.fingerboard import joined_fingerboards
from shedbook.editions.instruments.edition import joined_editions
from shedbook.editions.instruments.instrument import instruments, joined_instruments
from shedbook.editions.keys.key_cycle import orders_of
from shedbook.editions.tables.editions import EDITIONS
from shedbook.editions.tables.fingerboards import FINGERBOARDS
from shedbook.editions.tables.instruments import INSTRUMENTS
from shedbook.editions.tables.key_orders import KEY_ORDERS
from shedbook.editions.tables.register_costs import REGISTER_COSTS
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.errors import TableError

NEW = INSTRUMENTS[0]._replace(name="oboe", aliases=())
INSTRUMENT_HALVES = [
    ({"name": ""}, "an instrument without a name"),
    ({"source": ""}, '"oboe", an instrument, has no source'),
    ({"aliases": ("jazz guitar",)}, '"jazz guitar" stands twice'),
    ({"clefs": ()}, '"oboe" has no clef'),
    ({"clefs": ("C9", "C8")}, 'a clef "C9" that is not known'),
    ({"comfortable": ""}, 'The comfortable range of "oboe" is missing.'),
    ({"full": ""}, 'The full range of "oboe" is missing.'),
    ({"extreme": "C4"}, 'The extreme range of "oboe" cannot be read: "C4"'),
    ({"full": "H4 C6"}, 'The full range of "oboe" cannot be read'),
    ({"full": "F4 C5"}, 'The ranges of "oboe" do not lie inside one another.'),
]


@pytest.mark.parametrize(("changed", "message"), INSTRUMENT_HALVES, ids=lambda one: str(one)[:30])
def test_half_an_instrument(changed: dict[str, object], message: str) -> None:
    with pytest.raises(TableError) as caught:
        joined_instruments((*INSTRUMENTS, NEW._replace(**changed)), {})  # type: ignore[arg-type]
    assert message in caught.value.message
    assert "src/shedbook/editions/tables/instruments.py" in caught.value.hint


def test_a_whole_instrument() -> None:
    found = joined_instruments((*INSTRUMENTS, NEW), {})
    assert found[-1].name == "oboe"
    assert [one.name for one in found[:-1]] == [one.name for one in instruments()]


GROUP = EDITIONS[1]._replace(name="d", aliases=("in d",))
EDITION_HALVES = [
    ({"name": ""}, "an edition without a name"),
    ({"source": ""}, '"d", an edition, has no source'),
    ({"aliases": ("bb",)}, '"bb" stands twice'),
    ({"aliases": ("trumpet",)}, '"trumpet" is an edition and an instrument'),
    ({"title": ""}, 'The edition "d" has no title'),
    ({"clef": ""}, '"d" has no clef'),
    ({"clef": "C9"}, 'a clef "C9" that is not known'),
    ({"full": ""}, 'The full range of "d" is missing'),
    ({"policy": "nobody"}, 'a policy "nobody" that is not known'),
]


@pytest.mark.parametrize(("changed", "message"), EDITION_HALVES, ids=lambda one: str(one)[:30])
def test_half_an_edition(changed: dict[str, object], message: str) -> None:
    with pytest.raises(TableError) as caught:
        joined_editions((*EDITIONS, GROUP._replace(**changed)))  # type: ignore[arg-type]
    assert message in caught.value.message
    assert "src/shedbook/editions/tables/editions.py" in caught.value.hint


@pytest.mark.parametrize(("strings", "frets"), [("E2 A2 D3", 5), ("E2 " * 12, 36)])
def test_the_smallest_and_the_largest_fingerboard(strings: str, frets: int) -> None:
    row = BOARD._replace(strings=strings, frets=frets)
    assert joined_fingerboards((row,), INSTRUMENTS)["cello"].frets == frets


def test_a_whole_edition() -> None:
    assert joined_editions((*EDITIONS, GROUP))[-1].name == "d"


BOARD = FINGERBOARDS[0]._replace(instrument="cello")
BOARD_HALVES = [
    ({"instrument": "ukulele"}, "of the ukulele belongs to no instrument", "tables/instruments.py"),
    ({"instrument": "guitar"}, "of the guitar stands twice", "tables/fingerboards.py"),
    ({"source": ""}, "of the cello has no source", "tables/fingerboards.py"),
    ({"frets": 4}, "of the cello has 4 frets", "tables/fingerboards.py"),
    ({"frets": 37}, "of the cello has 37 frets", "tables/fingerboards.py"),
    ({"strings": "E2 H2 D3"}, 'cannot be tuned: "H2" is not a note', "tables/fingerboards.py"),
    ({"strings": "E2 A2"}, "it names 2 strings, not 3 to 12", "tables/fingerboards.py"),
    ({"strings": "E2 " * 13}, "it names 13 strings", "tables/fingerboards.py"),
]


@pytest.mark.parametrize(("changed", "message", "hint"), BOARD_HALVES, ids=lambda one: str(one)[:30])
def test_half_a_fingerboard(changed: dict[str, object], message: str, hint: str) -> None:
    with pytest.raises(TableError) as caught:
        joined_fingerboards((*FINGERBOARDS, BOARD._replace(**changed)), INSTRUMENTS)  # type: ignore[arg-type]
    assert message in caught.value.message
    assert hint in caught.value.hint


@pytest.mark.parametrize("semitones", [(0, 5, 10), (1, 0, *range(2, 12)), (0, 0, *range(2, 12)), ()])
def test_half_an_order_of_keys(semitones: tuple[int, ...]) -> None:
    with pytest.raises(TableError, match=r'The order "new" does not begin at home.*key_orders\.py'):
        orders_of((*KEY_ORDERS, KEY_ORDERS[0]._replace(name="new", aliases=(), semitones=semitones)))


def test_an_order_of_keys_twice() -> None:
    with pytest.raises(TableError, match='"fifths" stands twice'):
        orders_of((*KEY_ORDERS, KEY_ORDERS[0]._replace(name="new", aliases=("fifths",))))


def test_half_a_cost() -> None:
    with pytest.raises(TableError, match=r"stands twice.*spelling_costs\.py"):
        costs_by_name((*NOTE_COSTS, NOTE_COSTS[0]))
    with pytest.raises(TableError, match=r"is below zero.*here\.py"):
        costs_by_name((NOTE_COSTS[0]._replace(cost=-1),), "here.py")


def test_a_cost_may_be_nothing() -> None:
    name = NOTE_COSTS[0].name
    assert costs_by_name((NOTE_COSTS[0]._replace(cost=0),))[name] == 0


def test_a_register_policy_without_a_cost() -> None:
    with pytest.raises(TableError, match=r'"author" has no cost "upward".*RegisterRow\("upward", "author"'):
        costs_by_policy(REGISTER_COSTS[:-1])
