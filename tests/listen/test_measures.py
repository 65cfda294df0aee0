from __future__ import annotations

import pytest

from listen.test_take_reading import heard, only
from listen.tones import HIGH_TIDE, LOW_TIDE, tones_of
from shedbook.listen.keeping import kept, verdict_of
from shedbook.listen.lines import line_of
from shedbook.listen.measures import Click, Measures, measures_of
from shedbook.listen.sound_pieces import hear
from shedbook.listen.tables.published import LAG, SWING


def measured(**how: float) -> Measures:
    reading = only(heard(tones_of(LOW_TIDE, **how)))  # type: ignore[arg-type]
    return measures_of(reading, line_of(LOW_TIDE))


@pytest.mark.parametrize("cents", [-30, -10, 0, 20, 40])
def test_the_a4_of_a_take_is_measured(cents: int) -> None:
    """440 Hz · 2^(cents/1200): the definition of the cent."""
    tones = [(start, end, midi + cents / 100) for start, end, midi in tones_of(LOW_TIDE)]
    found = measures_of(only(heard(tones)), line_of(LOW_TIDE)).intonation
    assert found is not None
    assert found.cents == pytest.approx(cents, abs=3)
    assert found.a4_hz == pytest.approx(440 * 2 ** (cents / 1200), abs=0.8)
    assert found.spread < 3


def test_intonation_is_told_against_the_a4_that_is_asked_for() -> None:
    reading = only(heard(tones_of(LOW_TIDE)))
    found = measures_of(reading, line_of(LOW_TIDE), a4_hz=442).intonation
    assert found is not None
    assert found.cents == pytest.approx(-7.85, abs=3)  # 1200 · log2(440/442)


@pytest.mark.parametrize("tempo", [72, 120, 200])
def test_the_tempo_is_measured(tempo: int) -> None:
    found = measured(tempo=tempo).tempo
    assert found is not None
    assert found.qpm == pytest.approx(tempo, rel=0.01)
    assert abs(found.drift) < 0.02


def test_a_take_that_grows_faster_drifts() -> None:
    tones = [(0.6 + (s - 0.6) * (1.06 - 0.02 * (s - 0.6) / 3), 0.0, m) for s, _, m in tones_of(LOW_TIDE)]
    ends = [tone[0] for tone in tones[1:]] + [tones[-1][0] + 0.6]
    played = [(tone[0], end - 0.03, tone[2]) for tone, end in zip(tones, ends, strict=True)]
    found = measures_of(only(heard(played)), line_of(LOW_TIDE)).tempo
    assert found is not None
    assert found.drift > 0.03


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0, 3.0])
def test_the_swing_of_each_bar_is_measured(ratio: float) -> None:
    bars = {bar.bar: bar for bar in measured(ratio=ratio, tempo=110).bars}
    for number in (1, 2):
        found = bars[number].swing
        assert found is not None
        assert found == pytest.approx(ratio, rel=0.12)


def test_the_lag_behind_a_click_is_measured() -> None:
    late = 0.04
    tones = [(s + late, e + late, m) for s, e, m in tones_of(HIGH_TIDE, start=1.0)]
    measures = measures_of(only(heard(tones)), line_of(HIGH_TIDE), click=Click(1.0, 120.0))
    assert measures.against_click
    for bar in measures.bars:
        assert bar.lag_ms == pytest.approx(40, abs=8)


def test_published_figures_say_where_they_are_from() -> None:
    """Those of the check values: Corcoran & Frieler 2021, Nelias et al. 2022, Friberg & Sundström 1997."""
    assert all(row.source for row in (*SWING, *LAG))
    assert any("1.3 : 1" in row.says and "Corcoran" in row.source for row in SWING)
    assert any("50 ms" in row.says and row.low_qpm == 100 for row in LAG)


def test_the_take_with_fewer_slips_is_kept_and_one_full_of_them_never() -> None:
    line = line_of(LOW_TIDE)
    good, bad, worse = (tones_of(LOW_TIDE) for _ in range(3))
    bad[4] = (bad[4][0], bad[4][1], bad[4][2] + 2)
    for index in range(0, 16, 3):
        worse[index] = (worse[index][0], worse[index][1], worse[index][2] + 1)
    verdicts = []
    for tones in (bad, good, worse):
        from listen.tones import RATE, sound_of  # noqa: PLC0415 - beside what uses it

        recording = hear([sound_of(tones)], RATE, 2)
        reading = only(heard(tones))
        verdicts.append(verdict_of(reading, line, measures_of(reading, line), recording))
    assert kept(verdicts) == 1
    assert [verdict.usable for verdict in verdicts] == [True, True, False]
    assert any("wrong note" in one.words for one in verdicts[0].against)
    assert kept(verdicts[2:]) is None
