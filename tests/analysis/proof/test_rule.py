"""A rule is a row with its function: neither can be written without the other [the project's design]."""

from __future__ import annotations

import pkgutil
from importlib.util import find_spec, module_from_spec
from types import ModuleType, SimpleNamespace

import pytest

from shedbook.analysis.proof import RULES
from shedbook.analysis.proof.rule import rules_in
from shedbook.errors import MissingRowError, ShedbookError


def test_a_module_of_rules_that_nobody_names_stops_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    spec = find_spec("shedbook.analysis.proof.rules")
    assert spec is not None
    assert spec.loader is not None
    monkeypatch.setattr(pkgutil, "iter_modules", lambda path: [SimpleNamespace(name="rests")])
    with pytest.raises(ShedbookError, match=r"rests\.py are read by nobody"):
        spec.loader.exec_module(module_from_spec(spec))


HEAD = """
from collections.abc import Iterator
from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import saying
from shedbook.analysis.proof.finding import Found
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
FIRES = Example("C", "1/1 c4")
"""
ROW = 'RuleRow("no-rest", "{severity}", "It rests.", FIRES, FIRES, "common practice")'
FUNCTION = """
def {name}(account: Account) -> Iterator[Found]:
    yield Found(None, None, saying("finding.no-rest"))
"""


def module(text: str) -> ModuleType:
    """Return a module of rules with this text."""
    made = ModuleType("shedbook.analysis.proof.rules.rests")
    exec(compile(HEAD + text, "rests.py", "exec"), made.__dict__)
    return made


def written(*, severity: str = "advice", name: str = "no_rest") -> str:
    return f"@phrase_rule({ROW.format(severity=severity)})" + FUNCTION.format(name=name)


def test_a_row_with_its_function_is_a_rule() -> None:
    (rule,) = rules_in(module(written() + FUNCTION.format(name="_helper")))
    assert rule.name == "no-rest"


def test_a_row_without_a_function_is_refused() -> None:
    with pytest.raises(ShedbookError, match='"no-rest" has a row but no function') as caught:
        rules_in(module(f"NO_REST = {ROW.format(severity='advice')}"))
    assert "def no_rest under it" in caught.value.hint
    assert "src/shedbook/analysis/proof/rules/rests.py" in caught.value.hint


def test_a_function_without_a_row_is_refused() -> None:
    with pytest.raises(MissingRowError, match='no row "no-rest"') as caught:
        rules_in(module(FUNCTION.format(name="no_rest")))
    assert caught.value.file == "src/shedbook/analysis/proof/rules/rests.py"


def test_a_function_with_another_name_than_its_rule_is_refused() -> None:
    with pytest.raises(ShedbookError, match='stands at the function "some_rest"') as caught:
        rules_in(module(written(name="some_rest")))
    assert "Call the function no_rest" in caught.value.hint


def test_a_severity_that_does_not_exist_is_refused() -> None:
    with pytest.raises(ShedbookError, match='the severity "grave"') as caught:
        rules_in(module(written(severity="grave")))
    assert "error, warning, advice" in caught.value.hint


def test_every_rule_has_a_source() -> None:
    assert all(rule.row.source for rule in RULES.values())
