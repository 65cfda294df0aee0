"""What the players and the encoders need of every row, and what is said where it is missing.

Source of every check: our own design.
"""

from __future__ import annotations

import pytest

from shedbook.errors import TableError, UnknownNameError
from shedbook.phrase.model import MARKS
from shedbook.sound.arranging.band_instruments import band_instrument, joined_band
from shedbook.sound.arranging.leading_chords import check_families
from shedbook.sound.arranging.tables.arrangements import ENDING_KINDS, SET_UPS
from shedbook.sound.arranging.tables.band_instruments import BAND_INSTRUMENTS
from shedbook.sound.audio.file_tags import check_writers
from shedbook.sound.audio.tables.formats import FORMATS
from shedbook.sound.players.line import check_marks
from shedbook.sound.players.tables.usable_notes import BASE_SCALES, VOICING_COLOURS
from shedbook.sound.players.usable_notes import check_usable_notes
from shedbook.sound.score.performance import check_players
from shedbook.sound.score.tables.mix import VOLUMES
from shedbook.sound.score.tables.timing import PLAYERS

BANJO = BAND_INSTRUMENTS[0]._replace(name="banjo", program=105)
TIMING = {row.player: row for row in PLAYERS}


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"name": ""}, "an instrument of the band without a name"),
        ({"name": "piano"}, '"piano" stands twice'),
        ({"source": ""}, '"banjo", an instrument of the band, has no source'),
        ({"program": 128}, '"banjo" has no program'),
        ({"lowest": 0, "highest": 0}, '"banjo" has no range'),
    ],
)
def test_half_an_instrument_of_the_band(changed: dict[str, object], message: str) -> None:
    with pytest.raises(TableError) as caught:
        joined_band((*BAND_INSTRUMENTS, BANJO._replace(**changed)))  # type: ignore[arg-type]
    assert message in caught.value.message
    assert "src/shedbook/sound/arranging/tables/band_instruments.py" in caught.value.hint


def test_the_usual_players_are_instruments() -> None:
    with pytest.raises(TableError, match='"banjo" plays where nobody is named'):
        joined_band(BAND_INSTRUMENTS, ("banjo",))
    assert joined_band((*BAND_INSTRUMENTS, BANJO), ("banjo",))["banjo"].program == 105


def test_an_unknown_instrument_is_an_error_with_the_nearest() -> None:
    with pytest.raises(UnknownNameError) as caught:
        band_instrument("clarnet")
    assert '"clarinet"' in caught.value.hint


@pytest.mark.parametrize("family", [*SET_UPS])
def test_a_family_to_which_no_chord_leads(family: str) -> None:
    less = {name: rows for name, rows in SET_UPS.items() if name != family}
    with pytest.raises(TableError, match=f'of the family "{family}".*into SET_UPS in src/shedbook/sound'):
        check_families(less, ENDING_KINDS)


def test_a_mode_without_a_last_chord() -> None:
    with pytest.raises(TableError, match=r"A track in minor has no last chord.*into ENDING_KINDS"):
        check_families(SET_UPS, {"major": "6"})


@pytest.mark.parametrize("family", [*BASE_SCALES])
def test_a_family_that_the_band_cannot_read(family: str) -> None:
    less = {name: scale for name, scale in BASE_SCALES.items() if name != family}
    with pytest.raises(TableError, match=f'no plain scale for chords of the family "{family}".*BASE_SCALES'):
        check_usable_notes(less, VOICING_COLOURS, ())
    fewer = {name: degrees for name, degrees in VOICING_COLOURS.items() if name != family}
    with pytest.raises(TableError, match=f'no colours for chords of the family "{family}".*VOICING_COLOURS'):
        check_usable_notes(BASE_SCALES, fewer, ())


def test_a_colour_without_a_cost() -> None:
    more = {**VOICING_COLOURS, "major": (*VOICING_COLOURS["major"], "b7")}
    with pytest.raises(TableError, match=r"what the b7 costs.*into DEGREES in .*voicings\.py"):
        check_usable_notes(BASE_SCALES, more, ())


def test_a_scale_that_is_not_known() -> None:
    with pytest.raises(UnknownNameError, match='"quartal" is not a scale'):
        check_usable_notes(BASE_SCALES, VOICING_COLOURS, ("quartal",))


@pytest.mark.parametrize("player", [*TIMING])
def test_a_player_without_time_or_volume(player: str) -> None:
    with pytest.raises(TableError, match=rf'when the player "{player}" plays.*timing\.py'):
        check_players({name: row for name, row in TIMING.items() if name != player}, VOLUMES)
    with pytest.raises(TableError, match=rf'how loud the player "{player}" is.*mix\.py'):
        check_players(TIMING, {name: loud for name, loud in VOLUMES.items() if name != player})


def test_a_mark_that_nobody_plays() -> None:
    with pytest.raises(TableError, match=r'does not play the mark "turn".*players/line\.py'):
        check_marks((*MARKS, "turn"))


def test_a_format_without_tags() -> None:
    with pytest.raises(TableError, match=r'tags into the format "\.aiff".*file_tags\.py'):
        check_writers((*FORMATS, FORMATS[1]._replace(ending=".aiff")))
