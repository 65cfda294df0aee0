"""A verb is a row and a module; either alone is refused. Source of every check: our own design."""

import importlib
import sys
from types import ModuleType

import pytest

import shedbook.cli
from shedbook.cli import command_reference as page
from shedbook.cli import known_verbs as cli
from shedbook.cli.known_verbs import VERBS, Verb
from shedbook.cli.main import main
from shedbook.errors import TableError


def test_a_verb_without_a_module(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(cli, "VERBS", (*VERBS, Verb("tune", "tune the band")))
    assert main(["tune"]) == 1
    said = capsys.readouterr().err
    assert 'The verb "tune" stands in VERBS, but has no module.' in said
    assert "Write src/shedbook/cli/verbs/tune.py with add_arguments(parser) and run(options) -> int." in said


@pytest.mark.parametrize("function", ["add_arguments", "run"])
def test_a_verb_without_a_function(
    function: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    module = ModuleType("shedbook.cli.verbs.tune")
    other = {"add_arguments": "run", "run": "add_arguments"}[function]
    setattr(module, other, lambda options: 0)
    monkeypatch.setitem(sys.modules, "shedbook.cli.verbs.tune", module)
    monkeypatch.setattr(cli, "VERBS", (*VERBS, Verb("tune", "tune the band")))
    assert main(["tune"]) == 1
    said = capsys.readouterr().err
    assert f'The verb "tune" has no function "{function}".' in said
    assert "src/shedbook/cli/verbs/tune.py" in said


def test_a_missing_module_inside_a_verb_is_not_taken_for_the_verb(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(name: str) -> ModuleType:
        raise ModuleNotFoundError("No module named 'verovio'", name="verovio")

    monkeypatch.setattr(importlib, "import_module", fails)
    with pytest.raises(ModuleNotFoundError, match="verovio"):
        main(["show"])


def test_a_module_without_a_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(page, "VERBS", tuple(row for row in VERBS if row.name != "import"))
    with pytest.raises(TableError) as caught:
        page.check_verbs()
    assert caught.value.message == "src/shedbook/cli/verbs/import_.py is a verb that nobody can call."
    assert caught.value.hint == 'Write Verb("import", "…") into VERBS in src/shedbook/cli/known_verbs.py.'


def test_every_verb_is_whole() -> None:
    page.check_verbs()
    assert shedbook.cli.__doc__
