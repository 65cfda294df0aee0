"""Small faults that a module can have, and a seeded draw of them.

The faults are those of cosmic-ray (`pip install cosmic-ray`), and two of our own: min for max, all for any.
The place of a fault is drawn first, each place alike, then the fault. What stands in an annotation is left
out, because it is never run, and what stands in a decorator (how many values a cache keeps, slots), because
it changes no value.
"""

from __future__ import annotations

import ast
import difflib
import random
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple, Protocol

from cosmic_ray import plugins
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code

ROOT = Path(__file__).resolve().parents[1]
SOURCES = ROOT / "src" / "shedbook"

_NOT_ASKED = ("VariableInserter", "VariableReplacer", "ExceptionReplacer", "RemoveDecorator")
"""Faults that need to be told names, or that only change how errors are called or values are kept."""


class Operator(Protocol):
    """What cosmic-ray asks of a kind of fault; a node is one of parso's."""

    def mutation_positions(self, node: Any) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
        """Yield where in a node the fault can be planted."""

    def mutate(self, node: Any, index: int) -> Any:
        """Return the node with the fault at one of these places."""


class Swap:
    """Write one name of a built-in function in place of another."""

    def __init__(self, *pair: str) -> None:
        self.pair = pair

    def mutation_positions(self, node: Any) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
        """Yield the place of a call of either function."""
        if node.type == "name" and node.value in self.pair:
            after = node.get_next_leaf()
            if after is not None and after.value == "(":
                yield node.start_pos, node.end_pos

    def mutate(self, node: Any, index: int) -> Any:
        """Return the call of the other function."""
        one, other = self.pair
        node.value = other if node.value == one else one
        return node


OWN = {"own/MinMax": ("min", "max"), "own/AnyAll": ("any", "all")}


class Fault(NamedTuple):
    """One fault: the file, its line and column, the operator, and which of its places in the file."""

    path: Path
    line: int
    column: int
    operator: str
    occurrence: int

    def text(self) -> str:
        """Return the text of the module with the fault."""
        made = mutate_code(self.path.read_text(encoding="utf-8"), operator_of(self.operator), self.occurrence)
        return str(made or "")

    def where(self) -> str:
        """Return the place as people name it."""
        return f"{self.path.relative_to(SOURCES)}:{self.line}"

    def difference(self) -> str:
        """Return what the fault changes, as rows with - and +."""
        old = self.path.read_text(encoding="utf-8").splitlines()
        rows = difflib.unified_diff(old, self.text().splitlines(), lineterm="", n=0)
        return "\n".join("  " + row for row in rows if row[:1] in "+-" and row[:3] not in ("+++", "---"))


def operator_of(name: str) -> Operator:
    """Return an operator of cosmic-ray, or one of ours."""
    if name in OWN:
        return Swap(*OWN[name])
    found: Operator = plugins.get_operator(name)()
    return found


def faults_in(path: Path) -> Iterator[Fault]:
    """Yield every fault that a module can have, except in annotations."""
    text = path.read_text(encoding="utf-8")
    unread = _annotations(text)
    nodes = list(ast_nodes(get_ast(text)))
    for name in (*sorted(plugins.operator_names()), *OWN):
        if name.rpartition("/")[2] in _NOT_ASKED:
            continue
        operator, occurrence = operator_of(name), 0
        for node in nodes:
            for (line, column), _ in operator.mutation_positions(node):
                if not any(first <= (line, column) < last for first, last in unread):
                    yield Fault(path, line, column, name, occurrence)
                occurrence += 1


def _annotations(text: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Return where annotations and decorators begin and end."""
    found = []
    for node in ast.walk(ast.parse(text)):
        decorators: list[ast.expr] = getattr(node, "decorator_list", [])
        for part in (getattr(node, "annotation", None), getattr(node, "returns", None), *decorators):
            if isinstance(part, ast.expr):
                end = (part.end_lineno or 0, part.end_col_offset or 0)
                found.append(((part.lineno, part.col_offset), end))
    return found


def drawn(folders: Sequence[str], count: int, seed: int) -> list[Fault]:
    """Return faults by chance: a place first, then one of the faults that it can have."""
    places: dict[tuple[Path, int, int], list[Fault]] = {}
    for folder in folders:
        for path in sorted((SOURCES / folder).rglob("*.py")):
            for fault in faults_in(path):
                places.setdefault((path, fault.line, fault.column), []).append(fault)
    chance = random.Random(seed)
    chosen = chance.sample(sorted(places), min(count, len(places)))
    return [chance.choice(places[place]) for place in chosen]
