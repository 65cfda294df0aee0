"""Every row of words that explanation and proof-reader can ask for is there, and none is there for nothing.

The names are read from the code itself: a name that is put together stands for every row that fits it.
Source: the project's design.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import shedbook.analysis
from shedbook.analysis.naming.tables.findings import FINDINGS
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.analysis.proof import RULES

ROOT = Path(shedbook.analysis.__file__).parent
FOLDERS = ("naming", "telling", "proof", "proof/rules", "proof/slips")
MODULES = sorted(module for folder in FOLDERS for module in (ROOT / folder).glob("*.py"))
ROWS = {**WORDING, **FINDINGS}


def pattern(node: ast.expr) -> str | None:
    """Return a pattern for the text that an expression gives; None where nothing is known of it."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return re.escape(node.value)
    if isinstance(node, ast.JoinedStr):
        return "".join(pattern(part) or ".*" for part in node.values)
    return None


Assigned = dict[str, list[ast.expr]]


def texts(node: ast.expr, assigned: Assigned) -> Iterator[str]:
    """Yield the patterns of the texts that an expression may give; a name gives what is assigned to it."""
    if isinstance(node, ast.IfExp):
        yield from texts(node.body, assigned)
        yield from texts(node.orelse, assigned)
    elif isinstance(node, ast.Name):
        for value in assigned.get(node.id, []):
            yield from texts(value, {})
    elif (found := pattern(node)) is not None:
        yield found


def asked_for(module: Path) -> Iterator[str]:
    """Yield a pattern for every row that a module asks for, function by function."""
    for part in ast.parse(module.read_text(encoding="utf-8")).body:
        assigned: Assigned = {}
        for node in ast.walk(part):
            if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
                assigned.setdefault(node.targets[0].id, []).append(node.value)
        for node in ast.walk(part):
            if isinstance(node, ast.Subscript) and ast.unparse(node.value).endswith(".table"):
                yield from texts(node.slice, assigned)
            elif isinstance(node, ast.Call) and node.args:
                yield from asked_by(ast.unparse(node.func), node.args, assigned)


def asked_by(called: str, given: list[ast.expr], assigned: Assigned) -> Iterator[str]:
    """Yield a pattern for every row that a call asks for, by what is called and what it is given."""
    if called in KINDS:
        yield from (f"tell\\.{KINDS[called]}{one}( told)?" for one in texts(given[0], assigned))
    elif called.endswith("must_have"):
        rows = (part for part in ast.walk(given[0]) if isinstance(part, ast.JoinedStr))
        yield from (one for row in rows for one in texts(row, assigned))
    elif called.endswith(".named"):
        yield from (f"{kind}\\..*" for kind in texts(given[0], assigned))
    elif called in ("strung", "Strung"):
        yield from texts(given[1], assigned)
    elif called.endswith("of_number"):
        yield from (f"{one}(\\.few)?" for row in given[1:] for one in texts(row, assigned))
    elif called.endswith(("words", "words.form", "saying", "_of_other")) or called == "self":
        yield from texts(given[0], assigned)


def known(module: Path) -> set[str]:
    """Return the patterns of a module that say more than that some row is asked for."""
    return {wanted for wanted in asked_for(module) if not wanted.startswith(".*")}


@pytest.mark.parametrize("module", MODULES, ids=lambda path: str(path.name))
def test_every_row_that_is_asked_for_exists(module: Path) -> None:
    rows = tuple(ROWS)
    for wanted in known(module):
        assert any(re.fullmatch(wanted, row) for row in rows) or wanted in PAGE_ROWS, wanted


def test_every_row_is_asked_for() -> None:
    wanted = {one for module in MODULES for one in known(module)}
    unread = [row for row in ROWS if not any(re.fullmatch(one, row) for one in wanted)]
    assert [row for row in unread if not row.startswith((*OWN_DEGREES, *NAMES))] == []


def test_the_rules_that_are_put_together_have_their_rows() -> None:
    """What `known` leaves open is the name of the rule, which is a row's second part."""
    for row in FINDINGS:
        rule = row.split(".")[1]
        assert rule in RULES or rule in PARTS, row
    assert [rule for rule in RULES if not any(_is_message(row, rule) for row in FINDINGS)] == []


def _is_message(row: str, rule: str) -> bool:
    return f"{row}.".startswith(f"finding.{rule}.") and ".mend" not in row


PARTS = ("name", "typed", "quoted", "or", "beats", "odds")
"""What findings are made of, whatever the rule."""

KINDS = {"Remark": "", "_order": r"practice\."}
"""What makes a remark, and what it sets before the kind that it is given."""

NAMES = ("note.", "short note.", "numbers.small", "plural.")
"""Rows of names, which `language` asks for by a form that it is given."""

OWN_DEGREES = ("own degree.", "degree.", "bare own degree.", "bare degree.")
"""Rows that are asked for by a name that is put together in two steps; a degree may have none of its own."""

PAGE_ROWS = (
    "numbers",
    "tens",
    re.escape("tens and ones"),
)
"""Rows of the pages, which stand in the book's own table of words."""
