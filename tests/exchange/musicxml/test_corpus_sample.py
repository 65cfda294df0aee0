"""A sample of real scores, read by us and by music21 (its corpus and its reader are the outside truth).

The whole corpus is compared by benchmarks/exchange_agreement.py; docs/exchange.md explains every difference.
"""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[3]

SAMPLE = {
    # file: what music21 and we may read differently in it
    "leadSheet/fosterBrownHair": 0,
    "leadSheet/berlinAlexandersRagtime": 0,
    "demos/ComprehensiveChordSymbolsTestFile": 12,  # implied 11ths, and kinds that name no chord symbol
    "schubert/Lindenbaum": 7,  # triplets that the file rounds: we read them as they are written
    "bach/bwv66.6": 0,
    "trecento/Fava_Dicant_nunc_iudei": 0,
}


@pytest.fixture(scope="module")
def agreement() -> ModuleType:
    path = ROOT / "benchmarks" / "exchange_agreement.py"
    spec = importlib.util.spec_from_file_location("exchange_agreement", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    import sys  # noqa: PLC0415

    sys.modules[spec.name] = module  # dataclasses look their module up there
    spec.loader.exec_module(module)
    return module


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(("name", "unlike"), SAMPLE.items(), ids=SAMPLE)
def test_real_scores_read_alike(agreement: ModuleType, name: str, unlike: int) -> None:
    tally = agreement.Tally()
    (path,) = [path for path in agreement.files_of([name]) if path.stem == Path(name).name]
    agreement.compare(path, tally)
    assert tally.unread == []
    assert tally.parts > 0
    assert len(tally.unlike) == unlike, "\n".join(tally.unlike)
