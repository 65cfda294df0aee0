"""All devices at once are those of each function [the project's design]."""

from __future__ import annotations

from dataclasses import fields

from analysis.telling.made_lines import made_phrases
from shedbook.analysis.account import account
from shedbook.analysis.devices import frames, guide_lines, motifs
from shedbook.analysis.devices.everything import devices


def test_each_is_what_its_function_gives() -> None:
    for phrase in made_phrases(20):
        found = account(phrase)
        if not found.notes:
            continue
        seen = devices(found)
        for field in fields(seen):
            home = next(
                room for room in (guide_lines, motifs, frames)
                if hasattr(room, field.name) or field.name == "cells"
            )  # fmt: skip
            name = "cells_in_sequence" if field.name == "cells" else field.name
            home = motifs if field.name == "cells" else home
            assert getattr(seen, field.name) == getattr(home, name)(found)
