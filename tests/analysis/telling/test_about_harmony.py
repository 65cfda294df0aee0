"""What is said of harmony names scales: each has its row [the project's design]."""

from __future__ import annotations

from importlib.util import find_spec, module_from_spec

import pytest

from shedbook.errors import UnknownNameError
from shedbook.theory import scale


def test_a_scale_that_lost_its_row_stops_the_program(monkeypatch: pytest.MonkeyPatch) -> None:
    def lost(name: str) -> None:
        raise UnknownNameError(f"There is no scale {name}.")

    spec = find_spec("shedbook.analysis.telling.about_harmony")
    assert spec is not None
    assert spec.loader is not None
    monkeypatch.setattr(scale, "scale_row", lost)
    with pytest.raises(UnknownNameError):
        spec.loader.exec_module(module_from_spec(spec))
