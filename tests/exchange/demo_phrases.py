"""The phrases of the demo book, for tests that need real lines."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

DEMO = Path(__file__).parents[2] / "examples" / "tidewater" / "phrases"


def demo() -> Iterator[Phrase]:
    for path in sorted(DEMO.glob("*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        for fields in table.get("phrase", [table]):
            yield phrase_from_fields(fields)


PHRASES = tuple(demo())
