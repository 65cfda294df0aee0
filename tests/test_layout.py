"""The house rules that a linter does not know: light imports, module sizes, sources in tables."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MODULES = sorted((ROOT / "src" / "shedbook").rglob("*.py"))
CORE = ("lattice", "theory", "phrase", "analysis", "editions")


@pytest.mark.parametrize("floor", CORE)
def test_the_core_loads_the_standard_library_only(floor: str) -> None:
    code = (
        "import sys; before = set(sys.modules)\n"
        "import importlib, pkgutil\n"
        f"package = importlib.import_module('shedbook.{floor}')\n"
        "for found in pkgutil.walk_packages(package.__path__, package.__name__ + '.'):\n"
        "    importlib.import_module(found.name)\n"
        "print(*sorted({name.partition('.')[0] for name in set(sys.modules) - before}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert loaded - set(sys.stdlib_module_names) == {"shedbook"}


def test_every_package_says_what_lives_there() -> None:
    silent = [
        path.relative_to(ROOT)
        for path in MODULES
        if not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert silent == []


def test_no_module_grows_past_its_room() -> None:
    """400 lines at most; tables are exempt."""
    too_long = {
        str(path.relative_to(ROOT)): lines
        for path in MODULES
        if "tables" not in path.parts and (lines := len(path.read_text(encoding="utf-8").splitlines())) > 400
    }
    assert too_long == {}


def test_tables_hold_no_logic_and_import_no_other_room() -> None:
    """A table may import `typing`, `types`, `fractions`, `collections` and other tables; nothing else."""
    allowed = {"__future__", "typing", "types", "fractions", "collections", "dataclasses"}
    wrong = []
    for path in MODULES:
        if "tables" not in path.parts:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            elif isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            else:
                continue
            wrong += [
                f"{path.name}: {name}"
                for name in names
                if name.partition(".")[0] not in allowed and ".tables" not in name
            ]
    assert wrong == []


def test_every_file_that_a_message_names_is_there() -> None:
    """A hint such as "Write it in src/shedbook/theory/tables/scales.py" must lead somewhere."""
    named = {
        (str(path.relative_to(ROOT)), name)
        for path in MODULES
        for name in re.findall(r"src/shedbook/[\w/]+(?:\.py)?(?![\w/{])", path.read_text(encoding="utf-8"))
    }
    assert named
    assert [one for one in sorted(named) if not (ROOT / one[1]).exists()] == []
