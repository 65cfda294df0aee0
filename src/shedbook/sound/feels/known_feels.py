"""Every feel that the band can play, by its name, held against the names that a phrase may write.

A module in `rows` is found by itself. Importing this module fails where the vocabulary of the phrase
(`phrase/tables/feels.py`) has a feel that nobody can play, or a module of `rows` one that nobody can write.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from shedbook.errors import TableError, UnknownNameError, nearest
from shedbook.phrase.tables.feels import FEELS as VOCABULARY
from shedbook.sound.feels import rows
from shedbook.sound.feels.feel import ROWS_FOLDER, Feel, module_name, row_file

_VOCABULARY_FILE = "src/shedbook/phrase/tables/feels.py"


def _read_rows() -> Mapping[str, object]:
    """Return what each module of `rows` calls FEEL, None where it has nothing of that name."""
    names = sorted(found.name for found in iter_modules(rows.__path__))
    return {name: getattr(import_module(f"{rows.__name__}.{name}"), "FEEL", None) for name in names}


def joined(modules: Mapping[str, object], vocabulary: Iterable[str]) -> Mapping[str, Feel]:
    """Return the feels by their names, in the order of the vocabulary.

    Args:
        modules: the name of each module in `rows` to its FEEL.
        vocabulary: the names that a phrase may write.

    Raises:
        TableError: if a module has no feel or another one's, or a feel stands on one side only.
    """
    found: dict[str, Feel] = {}
    for module, feel in modules.items():
        if not isinstance(feel, Feel):
            raise TableError(
                f"{ROWS_FOLDER}/{module}.py defines no feel.",
                hint="Write FEEL = Feel(name=…, swing=…, bass=…, comping=…, drums=…, ending=…) in it.",
            )
        if module_name(feel.name) != module:
            raise TableError(
                f'{ROWS_FOLDER}/{module}.py holds the feel "{feel.name}".',
                hint=f"Call the file {module_name(feel.name)}.py, or the feel after the file.",
            )
        found[feel.name] = feel
    names = tuple(vocabulary)
    for name in names:
        if name not in found:
            raise TableError(
                f'The feel "{name}" stands in {_VOCABULARY_FILE}, but nobody can play it.',
                hint=f"Write {row_file(name)} with its FEEL, or take the row away.",
            )
    for name in found:
        if name not in names:
            raise TableError(
                f'{row_file(name)} plays the feel "{name}", but no phrase can name it.',
                hint=f'Write FeelRow("{name}", …) in {_VOCABULARY_FILE}.',
            )
    return MappingProxyType({name: found[name] for name in names})


FEELS: Mapping[str, Feel] = joined(_read_rows(), (row.name for row in VOCABULARY))
"""The name of every feel to the feel."""


def feel_named(name: str) -> Feel:
    """Return a feel by its name in the vocabulary.

    Raises:
        UnknownNameError: if there is no such feel; the hint lists the nearest.
    """
    if name not in FEELS:
        raise UnknownNameError(
            f'"{name}" is not a feel in the table.',
            hint=nearest(name, FEELS) or f"Known are {', '.join(FEELS)}.",
        )
    return FEELS[name]
