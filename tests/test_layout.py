"""The house rules that a linter does not know: light imports, module sizes, sources in tables."""

import ast
import importlib
import re
import subprocess
import sys
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

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


TABLES = [path for path in MODULES if "tables" in path.parts and path.name != "__init__.py"]
_DECIDES = (ast.If, ast.For, ast.While, ast.Try, ast.With, ast.Match, ast.Lambda, ast.AsyncFunctionDef)
_SOURCE = re.compile(r"source|common practice|from memory|measured|\b(?:18|19|20)\d\d\b", re.IGNORECASE)


def logic_in(text: str) -> list[str]:
    """Return what in a module of tables is more than data.

    A table may put a row together in a private function of one `return`, so that a row is one short line, and
    it may repeat a row for each row of another table. It decides nothing and offers no function to others.
    """
    found = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, _DECIDES):
            found.append(f"{node.lineno}: {type(node).__name__}")
        if isinstance(node, ast.FunctionDef):
            body = [one for one in node.body if not (isinstance(one, ast.Expr) and ast.get_docstring(node))]
            if not node.name.startswith("_") or len(body) != 1 or not isinstance(body[0], ast.Return):
                found.append(f"{node.lineno}: {node.name}")
    return found


def rows_of(value: object) -> Iterator[tuple[object, ...]]:
    """Yield the rows of a table that have a column for their source: of a tuple or a mapping."""
    rows = value.values() if isinstance(value, Mapping) else value if isinstance(value, tuple) else ()
    for row in rows:
        if isinstance(row, tuple) and "source" in getattr(row, "_fields", ()):
            yield row


def without_source(text: str, values: Iterable[object]) -> list[str]:
    """Return what of a module of tables names no source: rows, or the module where rows have no column."""
    rows = [row for value in values for row in rows_of(value)]
    said = " ".join(
        node.value.value
        for node in ast.parse(text).body
        if isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
    )
    if not rows and not _SOURCE.search(said):
        return ["the module"]
    return [str(row[0]) for row in rows if not str(row[row._fields.index("source")]).strip()]  # type: ignore[attr-defined]


@pytest.mark.parametrize("path", TABLES, ids=lambda path: str(path.relative_to(ROOT / "src" / "shedbook")))
def test_tables_hold_no_logic_and_name_a_source(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert logic_in(text) == []
    name = ".".join(path.relative_to(ROOT / "src").with_suffix("").parts)
    assert without_source(text, vars(importlib.import_module(name)).values()) == []


class _Row(NamedTuple):
    name: str
    source: str


def test_logic_in_a_table_is_found() -> None:
    """Planted: each of these was once, or could be, in a table."""
    for text in (
        "def in_scores(name):\n    return name",
        "def _row(name):\n    name = name.strip()\n    return name",
        "A = 1\nif A:\n    B = 2",
        "A = {}\nfor name in 'ab':\n    A[name] = name",
        "A = lambda name: name",
    ):
        assert len(logic_in(text)) == 1
    assert logic_in('def _row(name):\n    """Doc."""\n    return (name,)\nA = (_row("a"),)') == []


def test_a_row_without_a_source_is_found() -> None:
    assert without_source("A = 1", [(_Row("a", "common practice"), _Row("b", " "))]) == ["b"]
    assert without_source("A = 1", [{"c": _Row("c", "")}]) == ["c"]
    assert without_source('"""Some numbers."""\nA = 1', [(1, 2)]) == ["the module"]
    assert without_source('"""Some numbers. Source: ISO 16."""\nA = 1', [(1, 2)]) == []


def test_tables_import_no_other_room() -> None:
    """A table may import `typing`, `types`, `fractions`, `collections` and other tables; nothing else."""
    allowed = {"__future__", "typing", "types", "fractions", "collections", "dataclasses"}
    wrong = []
    for path in TABLES:
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


ACROSS_ROOMS = {
    "test_layout.py": "the house rules",
    "test_docs.py": "the pages",
    "test_licences.py": "THIRD-PARTY.md against the metadata of what is installed",
    "test_extending.py": "docs/extending.md, followed step by step",
    "analysis/test_against_music21.py": "a second opinion on the whole account",
    "analysis/test_heard_golden.py": "the whole account and all that is told of it, in one readable text",
    "analysis/telling/test_rows_of_words.py": "the table of words against all that asks for one",
    "book/building/test_build.py": "a whole build, through its verb",
    "book/building/test_build_editions.py": "the same for several editions",
    "book/building/test_what_depends.py": "what is made anew when an input changes",
    "book/manuscript/settings/test_docs.py": "docs/manuscript.md against the settings",
    "book/pages/test_pdf.py": "finished PDF files",
    "book/practice/test_page.py": "the student's page in a browser",
    "book/practice/test_page_for_everyone.py": "the same for keyboards, listeners, small screens, offline",
    "book/pages/test_words.py": "the fixed words as they come onto the pages",
    "book/practice/test_progress.py": "what is kept of practice, in a browser",
    "book/practice/test_recorded.py": "recorded tracks on the student's page, in a browser",
    "book/practice/test_schedule.py": "what to practise now, in a browser",
    "book/practice/test_teacher_sheet.py": "a teacher's sheet, in a browser",
    "book/tracks/test_build_tracks.py": "a whole build with tracks",
    "cli/verbs/test_many_books.py": "build and share, asked of several books",
    "cli/verbs/test_catalogue_verbs.py": "the four verbs that ask a folder of books",
    "cli/verbs/test_proposing.py": "draft, vary, drill, etude and fits, which propose alike",
    "editions/test_edition_docs.py": "docs/editions.md against the tables",
    "editions/test_table_halves.py": "half a row of any table of the floor is refused",
    "exchange/test_fuzz_readers.py": "all readers of the floor, fed with broken files",
    "exchange/musicxml/test_corpus_sample.py": "a corpus, read and written",
    "exchange/musicxml/test_nothing_lost.py": "the writer and the reader together",
    "phrase/test_round_trip.py": "the readers and the printers together",
    "read_back/test_planted_faults.py": "wrong glyphs in whole scores, through all the readers",
    "sound/feels/test_styles.py": "each style of the table, as a player hears it",
    "theory/test_changes_golden.py": "all that is heard in changes, in one readable text",
    "sound/test_band_golden.py": "all feels, in one readable table",
    "sound/test_table_halves.py": "half a row of any table of the floor is refused",
    "sound/test_track_balance.py": "finished tracks, measured",
    "workbench/test_book_screen.py": "the screen of the book, in a browser",
    "workbench/test_everyone_screen.py": "every screen, as those use it who cannot see or point",
    "workbench/test_make_screen.py": "the screen on which books are made, in a browser",
    "workbench/test_phrase_screen.py": "the screen of one phrase, in a browser",
    "workbench/test_played_search.py": "notes played into the search of the book, in a browser",
    "workbench/test_recording_screen.py": "a recording on the screen of its phrase, in a browser",
    "workbench/test_saving_screen.py": "what is typed on its way to disk, in a browser",
    "workbench/test_vendor.py": "the editor that tools/editor bundles",
    "theory/test_chord_oracles.py": "a second opinion on chords, from two libraries",
    "test_recorded_lesson.py": "session, recording, takes, film: what one verb writes, the next one reads",
    "test_demo_book.py": "the demo book against every table of which it shows the rows",
}
"""Test files that mirror no module, because they test several at once; and what they test."""


def test_tests_mirror_the_rooms() -> None:
    """tests/<room>/test_<module>_<more>.py tests src/shedbook/<room>/<module>.py; others say why not."""
    tests = ROOT / "tests"
    astray = []
    for path in sorted(tests.rglob("test_*.py")):
        relative = path.relative_to(tests)
        words = path.stem.removeprefix("test_").split("_")
        room = ROOT / "src" / "shedbook" / relative.parent
        names = ["_".join(words[:count]) for count in range(1, len(words) + 1)]
        mirrored = any((room / name).is_dir() or (room / f"{name}.py").is_file() for name in names)
        if not mirrored and str(relative) not in ACROSS_ROOMS:
            astray.append(str(relative))
    assert astray == []
    assert [name for name in ACROSS_ROOMS if not (tests / name).is_file()] == []
