"""Three-way merging [the project's design]."""

import pytest

from shedbook.book.editing.merging import merged
from shedbook.book.ground.toml_edits import Value

CASES = [
    pytest.param("line", "a | b | c", "x | b | c", "a | b | z", (True, "x | b | z"), id="other bars"),
    pytest.param("line", "a | b", "x | b", "y | b", (False, None), id="the same bar"),
    pytest.param("line", "a | b", "x | b", "x  | b", (True, "x | b"), id="the same bar alike but for spaces"),
    pytest.param("line", "a | b", "a | b", "q", (True, "q"), id="mine is unchanged"),
    pytest.param("line", "a | b", "q", "a | b", (True, "q"), id="theirs is unchanged"),
    pytest.param("line", "a | b", "a | b | c", "x | b", (False, None), id="a bar came"),
    pytest.param("tempo", 100, 120, 140, (False, None), id="numbers"),
    pytest.param("tempo", None, 120, 120, (True, 120), id="both alike"),
    pytest.param("title", "a", None, "a", (True, None), id="taken away"),
    pytest.param("commentary", "a | b", "x | b", "a | y", (False, None), id="prose has no bars"),
]


@pytest.mark.parametrize(("name", "base", "mine", "theirs", "expected"), CASES)
def test_two_changes(
    name: str,
    base: Value | None,
    mine: Value | None,
    theirs: Value | None,
    expected: tuple[bool, Value | None],
) -> None:
    assert merged(name, base, mine, theirs) == expected
    fits, value = merged(name, base, theirs, mine)
    assert fits == expected[0]
    if name != "line":
        assert value == expected[1]
