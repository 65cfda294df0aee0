"""A rule of the proof-reader: a row that says what it is, and the function beside it that finds it.

A rule is written in one place, in a module of `rules`: its row is the argument of a decorator, and under it
stands the function that yields what it finds. `rules_in` gathers the rules of a module and refuses a row
without a function and a function without a row, so that neither can be forgotten. The function gives what it
finds as values; the sentences stand in the table `naming.tables.findings`, under the name of the rule.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from inspect import isfunction
from types import ModuleType
from typing import Generic, NamedTuple, ParamSpec

from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import COMMAND_LINE, Saying, saying
from shedbook.analysis.proof.finding import Finding, Found, Told, finding_in
from shedbook.analysis.proof.slips import Suspicion
from shedbook.errors import MissingRowError, ShedbookError

P = ParamSpec("P")

SEVERITIES = ("error", "warning", "advice")
"""How much a finding matters, the gravest first."""


class Example(NamedTuple):
    """A phrase as its author would write it: changes, line and scales.

    `edit` names a change that is made to the phrase after it is read, where the fault cannot be written as
    text; the tests hold the edits. The examples of a rule for a whole book hold a second phrase.
    """

    changes: str
    line: str
    scales: str = ""
    edit: str = ""
    changes_2: str = ""
    line_2: str = ""


class RuleRow(NamedTuple):
    """What there is to know of a rule.

    `severity` is one of SEVERITIES, for a slip the gravest that it can have: there it follows the odds;
    `says` is what the rule says. `fires` is an example that it finds, and `silent` one that it does not; the
    tests run both, and all of them are invented. `source` says where the rule comes from.
    """

    name: str
    severity: str
    says: str
    fires: Example
    silent: Example
    source: str

    @property
    def usual_mend(self) -> Saying:
        """How its findings are usually mended."""
        return saying(f"finding.{self.name}.mend")

    @property
    def mend(self) -> str:
        """The same in English."""
        return self.usual_mend.said(COMMAND_LINE)


@dataclass(frozen=True, slots=True)
class Rule(Generic[P]):
    """A row with its function; calling the rule gives its findings."""

    row: RuleRow
    find: Callable[P, Iterator[Found]]

    @property
    def name(self) -> str:
        """The name by which the rule is reported and silenced."""
        return self.row.name

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> Iterator[Finding]:
        """Yield the findings of the rule in what is read."""
        row = self.row
        for found in self.find(*args, **kwargs):
            told = Told(found.message, found.mend or row.usual_mend)
            finding = Finding(
                row.name, found.severity or row.severity, found.bar, found.beat, note=found.note,
                phrase=found.phrase, other=found.other, remedy=found.remedy, told=told,
            )  # fmt: skip
            yield finding_in(finding, COMMAND_LINE)


class PhraseRule(Rule[[Account]]):
    """A rule that reads the account of one phrase."""

    __slots__ = ()


class SlipRule(Rule[[Account, Sequence[Suspicion]]]):
    """A rule that puts into words what is suspected of being a slip in one phrase."""

    __slots__ = ()


class BookRule(Rule[[Sequence[Account]]]):
    """A rule that reads the accounts of all phrases of a book, in their order."""

    __slots__ = ()


class SilenceRule(Rule[[Collection[str], Collection[str]]]):
    """A rule that reads the names of rules that are silenced, and the names of all rules that are known."""

    __slots__ = ()


def phrase_rule(row: RuleRow) -> Callable[[Callable[[Account], Iterator[Found]]], PhraseRule]:
    """Make the function under it the rule of a row, for the account of one phrase."""
    return lambda find: PhraseRule(row, find)


def slip_rule(
    row: RuleRow,
) -> Callable[[Callable[[Account, Sequence[Suspicion]], Iterator[Found]]], SlipRule]:
    """Make the function under it the rule of a row, for the account and the suspicions of one phrase."""
    return lambda find: SlipRule(row, find)


def book_rule(row: RuleRow) -> Callable[[Callable[[Sequence[Account]], Iterator[Found]]], BookRule]:
    """Make the function under it the rule of a row, for the accounts of a book's phrases."""
    return lambda find: BookRule(row, find)


def silence_rule(
    row: RuleRow,
) -> Callable[[Callable[[Collection[str], Collection[str]], Iterator[Found]]], SilenceRule]:
    """Make the function under it the rule of a row, for the names of silenced and of known rules."""
    return lambda find: SilenceRule(row, find)


AnyRule = PhraseRule | SlipRule | BookRule | SilenceRule


def rules_in(module: ModuleType) -> tuple[AnyRule, ...]:
    """Return the rules of a module, in the order in which they are written.

    Raises:
        MissingRowError: if a public function of the module has no row.
        ShedbookError: if a row has no function, a function is not called as its rule is, or a severity
            does not exist.
    """
    file = f"src/{module.__name__.replace('.', '/')}.py"
    found: list[AnyRule] = []
    for name, value in vars(module).items():
        if isinstance(value, AnyRule):
            _check(value, name, file)
            found.append(value)
        elif isinstance(value, RuleRow):
            raise ShedbookError(
                f'The rule "{value.name}" has a row but no function.',
                hint=f"Put the row into a decorator in {file}, with def {_function_name(value)} under it.",
            )
        elif isfunction(value) and value.__module__ == module.__name__ and not name.startswith("_"):
            why = f'the function "{name}" has no row; begin its name with _ if it only helps others'
            raise MissingRowError("rules of the proof-reader", name.replace("_", "-"), file, why)
    return tuple(found)


def _check(rule: AnyRule, name: str, file: str) -> None:
    """Refuse a rule whose function has another name, or whose severity does not exist."""
    if _function_name(rule.row) != name:
        raise ShedbookError(
            f'The rule "{rule.name}" stands at the function "{name}".',
            hint=f"Call the function {_function_name(rule.row)} in {file}.",
        )
    if rule.row.severity not in SEVERITIES:
        raise ShedbookError(
            f'The rule "{rule.name}" has the severity "{rule.row.severity}", which does not exist.',
            hint=f"Write one of {', '.join(SEVERITIES)} in {file}.",
        )


def _function_name(row: RuleRow) -> str:
    return row.name.replace("-", "_")
