"""What is said of harmony names scales: each has its row [the project's design]."""

from __future__ import annotations

import importlib

import pytest

from shedbook.analysis.telling import about_harmony
from shedbook.errors import UnknownNameError
from shedbook.theory import scale


def test_a_scale_that_lost_its_row_stops_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    def lost(name: str) -> None:
        raise UnknownNameError(f"There is no scale {name}.")

    with monkeypatch.context() as patch:
        patch.setattr(scale, "scale_row", lost)
        with pytest.raises(UnknownNameError):
            importlib.reload(about_harmony)
    importlib.reload(about_harmony)
