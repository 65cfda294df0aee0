"""Measures how real lines divide their beats, and writes the table that drafts draw their rhythms from.

Run it from the root of the repository with the path of the data (see `benchmarks/real_lines.py`):

    python -m tools.draft_rhythms PATH/real-lines.json.gz

Every beat of a solo in 4/4 is a *cell*: a letter for each part of the beat, "o" where a note is struck, "-"
where it goes on, "." where nothing sounds. Eighths that are swung or late are folded onto eighths, because they
are written so. Counted is how often a cell follows a cell, on beats 1 and 3 and on beats 2 and 4, by feel and
tempo; and where phrases begin. Two thirds of the solos are counted. Only these counts are written, no line.
"""

from __future__ import annotations

import argparse
import gzip
import json
from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from benchmarks.real_lines import held_solos

OUT = Path("src/shedbook/draft/tables/rhythm_counts.py")
ONSETS = {
    (): "-", (0,): "o", (3,): "o", (2,): "o", (6,): "-o", (7,): "-o", (8,): "-o", (9,): "-o", (10,): "-o",
    (0, 6): "oo", (0, 7): "oo", (0, 8): "oo", (0, 9): "oo", (3, 9): "oo", (2, 8): "oo", (3, 8): "oo", (0, 10): "oo",
    (0, 4, 8): "ooo", (4, 8): "-oo", (0, 4): "oo-", (0, 3, 6, 9): "oooo", (3, 6, 9): "-ooo", (0, 6, 9): "o-oo",
    (6, 9): "--oo", (0, 3, 6): "ooo-",
}  # fmt: skip
"""What the places of the notes in a beat, in twelfths of it, are written as; other beats are not counted."""
LONG_GAP = 18
"""A wait in twelfths of a beat after which a note may have ended before the next one begins."""


def band(solo: Mapping[str, Any]) -> str:
    if "LATIN" in solo["feel"] or "FUNK" in solo["feel"]:
        return "even"
    return "slow" if solo["tempo"] < 112 else "swing" if solo["tempo"] < 208 else "fast"


def cells_of(notes: Sequence[Sequence[int]]) -> dict[int, str]:
    """Return the cell of every beat from the first note on; "?" where it is none of ours."""
    places = [note[0] * 48 + note[1] for note in notes]
    struck: dict[int, list[int]] = defaultdict(list)
    for place in places:
        struck[place // 12].append(place % 12)
    silent: set[int] = set()
    for (place, note), after in zip(
        zip(places, notes, strict=True), [*places[1:], places[-1] + 96], strict=True
    ):
        wait = after - place
        if wait >= LONG_GAP:
            ends = place + max(6, -(-wait * max(20, note[6]) // 600) * 6)
            silent.update(range(ends, after))
    found = {}
    for beat in range(places[0] // 12, places[-1] // 12 + 3):
        cell = ONSETS.get(tuple(struck.get(beat, ())), "?")
        size = 12 // len(cell)
        letters = list(cell)
        for slot, letter in enumerate(cell):
            if letter == "-" and beat * 12 + slot * size + size // 2 in silent:
                letters[slot] = "."
        cell = "".join(letters)
        found[beat] = {"oo-": "ooo", "--": "-", "..": ".", "o-": "o"}.get(cell, cell)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("data", type=Path)
    options = parser.parse_args()
    with gzip.open(options.data, "rt") as file:
        solos = json.load(file)["solos"]
    held = held_solos(options.data)
    follows: dict[str, Counter[tuple[str, str]]] = defaultdict(Counter)
    starts: Counter[int] = Counter()
    beats = 0
    for solo in solos:
        if solo["signature"] != "4/4" or solo["n"] in held:
            continue
        before = None
        phrase_of: dict[int, Sequence[int]] = {}
        for note in solo["notes"]:
            phrase_of.setdefault(note[4], note)
        for note in phrase_of.values():
            starts[note[1] // 6] += 1
        # A held cell before a sounding one is an eighth that goes on: "-o" after silence is ".o".
        for beat, cell in sorted(cells_of(solo["notes"]).items()):
            if cell == "?":
                before = None
                continue
            beats += 1
            if before is not None:
                follows[f"{band(solo)} {(beat % 4) % 2}"][before, cell] += 1
            before = cell
    known: Counter[str] = Counter()
    for table in follows.values():
        for (_, cell), many in table.items():
            known[cell] += many
    kept = {cell for cell, many in known.items() if many >= 60 and (cell in KEPT)}
    print(beats, "beats", known.most_common(40))
    lines = []
    for name in sorted(follows):
        rows: dict[str, dict[str, int]] = defaultdict(dict)
        for (before, cell), many in follows[name].items():
            if before in kept and cell in kept and many >= 3:
                rows[before][cell] = many
        lines.append(f'    "{name}": """\n')
        for before in sorted(rows):
            said = " ".join(
                f"{cell}:{many}" for cell, many in sorted(rows[before].items(), key=lambda one: -one[1])
            )
            lines.append(f"{before} > {said}\n")
        lines.append('""",\n')
    text = HEAD.format(beats=beats) + "".join(lines) + "}\n"
    total = sum(starts.values())
    text += (
        "\nSTARTS: Final[tuple[int, ...]] = ("
        + ", ".join(str(round(1000 * starts[at] / total)) for at in range(8))
        + ")\n"
    )
    text += '"""Where in a bar of eight eighths real phrases begin, in thousandths."""\n'
    OUT.write_text(text)


KEPT = (
    "o",
    "-",
    ".",
    "oo",
    "-o",
    ".o",
    "o.",
    "-.",
    "ooo",
    "-oo",
    ".oo",
    "oooo",
    "o-oo",
    "-ooo",
    ".ooo",
    "ooo-",
    "--oo",
    "..oo",
    "oo.",
)
HEAD = '''"""How often one beat follows another in real lines, by feel and tempo.

Written by `python -m tools.draft_rhythms`; do not edit. A table is named by feel and by 0 for beats 1 and
3 or 1 for beats 2 and 4; a row is a beat and, after ">", what follows it on such a beat and how often. In a
cell "o" is a note struck, "-" one that goes on, "." silence, a letter for each part of the beat. "slow" is
swing under 112 quarters a minute, "fast" from 208 on, "even" is Latin and funk.
Source: {beats} beats of two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside
the Jazzomat, 2017; Open Database Licence); counts only.
"""

from __future__ import annotations

from typing import Final

# fmt: off
FOLLOWS: Final[dict[str, str]] = {{
'''

if __name__ == "__main__":
    main()
