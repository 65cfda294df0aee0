"""The licences of a plain installation: THIRD-PARTY.md against what the installed parts say of themselves."""

from __future__ import annotations

import re
from importlib.metadata import Distribution, distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

PAGE = Path(__file__).parents[1] / "THIRD-PARTY.md"
PERMISSIVE_OR_LESSER = (
    "MIT", "MIT-0", "MIT-CMU", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Apache-2.0", "PSF-2.0", "Zlib",
    "CC0-1.0", "OFL-1.1", "LGPL-2.1", "LGPL-3.0-only",
)  # fmt: skip
"""Licences by SPDX that a plain installation may bring (SPDX licence list, from memory)."""
SPDX = {
    "SIL Open Font License 1.1 (OFL-1.1)": "OFL-1.1", "MIT License": "MIT", "BSD License": "BSD-3-Clause",
}  # fmt: skip
"""What the trove classifiers of parts without a licence expression mean (the list of the package index)."""


def brought() -> dict[str, Distribution]:
    """Return what a plain installation brings, by name: what shedbook requires, and what that requires."""
    found: dict[str, Distribution] = {}
    waiting = ["shedbook"]
    while waiting:
        name = waiting.pop().lower().replace("_", "-")
        if name in found:
            continue
        found[name] = distribution(name)
        wanted = map(Requirement, found[name].requires or ())
        waiting += [one.name for one in wanted if one.marker is None or one.marker.evaluate({"extra": ""})]
    del found["shedbook"]
    return found


def licences(part: Distribution) -> set[str]:
    """Return the licences that a part names in its own metadata, by SPDX."""
    said = part.metadata.get_all("License-Expression") or ()
    if said:
        return set(re.split(r" (?:AND|OR) ", said[0]))
    rows = part.metadata.get_all("Classifier") or ()
    return {SPDX[row.rpartition(" :: ")[2]] for row in rows if row.startswith("License")}


def told() -> dict[str, str]:
    """Return the licences of the table of what is used when shedbook runs, by every name in its row."""
    table = PAGE.read_text(encoding="utf-8").partition("## Used when shedbook runs")[2].partition("\n## ")[0]
    rows = [
        [cell.strip() for cell in line.strip("|").split("|")]
        for line in table.splitlines()
        if line[:1] == "|"
    ]
    found: dict[str, str] = {}
    for part, _, licence in rows[2:]:
        for name in re.findall(r"[A-Za-z][\w-]*(?: Serif Pro| Sans Pro)?", part):
            found[name.lower()] = f"{found.get(name.lower(), '')} {licence}".replace(
                "SIL OFL 1.1", "OFL-1.1"
            ).replace(" or ", ", ")
    return found


@pytest.mark.parametrize("name", sorted(brought()))
def test_every_part_stands_in_the_table_with_its_licence(name: str) -> None:
    part, table = brought()[name], told()
    assert name in table, f"{name} is in no row of the first table of THIRD-PARTY.md"
    assert licences(part) - set(re.findall(r"[\w.-]+\w", table[name])) == set()
    assert licences(part) <= set(PERMISSIVE_OR_LESSER)


def test_nothing_for_tests_alone_is_brought() -> None:
    assert not brought().keys() & {"mutagen", "pretty-midi", "librosa", "pikepdf", "music21"}
