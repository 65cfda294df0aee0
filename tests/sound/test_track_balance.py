"""The players against one another: how loud each is alone, with the best synthesiser and every font there is.

Aims (common practice): bass and ride cymbal are the pulse; the drums lie 4 to 8 dB under the bass, brushes a
little more; the kick in swing is felt rather than heard.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.loudness import loudness_lufs
from shedbook.sound.audio.rendering import frames_of
from shedbook.sound.audio.sound_fonts import SoundFont, find_font
from shedbook.sound.audio.synthesiser import Synth, open_synth
from shedbook.sound.players.tables.drums import TOUCHES
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import Performance
from shedbook.sound.score.written_score import BASS, DRUMS
from shedbook.sound.tables.drum_keys import KICK, RIDE, SNARE
from shedbook.sound.track import performance_of, usual_drum
from sound.demo_scores import demo
from sound.studio import package_font

FONTS = tuple({font.name: font for font in (find_font(), package_font())}.values())
FEELS = (("swing", 132, 0), ("waltz", 150, 30), ("bossa", 132, 0), ("straight", 120, 0))


@pytest.fixture(scope="module", params=FONTS, ids=lambda font: font.name)
def synth(request: pytest.FixtureRequest) -> Synth:
    font: SoundFont = request.param
    return open_synth(font)


def trio(synth: Synth, feel: str, tempo: int, number: int = 0) -> Performance:
    order = Order(parts="trio", rounds=3, feel=feel, tempo_bpm=tempo, count_in=0)
    return performance_of(demo()[number], order, font=synth.font)


def lufs(synth: Synth, performance: Performance, player: str, *keys: int) -> float:
    """Return how loud one player is alone, of the drums with some keys only."""
    part = next(part for part in performance.parts if part.player == player)
    notes = tuple(note for note in part.notes if not keys or note.midi in keys)
    alone = replace(performance, parts=(replace(part, notes=notes),))
    return loudness_lufs(synth.render(smf(alone), frames_of(performance, tail=True)))


@pytest.mark.parametrize(("feel", "tempo", "number"), FEELS)
def test_the_drums_lie_a_little_under_the_bass(synth: Synth, feel: str, tempo: int, number: int) -> None:
    played = trio(synth, feel, tempo, number)
    assert -8.5 <= lufs(synth, played, DRUMS) - lufs(synth, played, BASS) <= -3.5


def test_the_ride_carries_and_the_kick_is_a_ghost(synth: Synth) -> None:
    played = trio(synth, "swing", 132)
    ride, snare, kick = (lufs(synth, played, DRUMS, key) for key in (RIDE, SNARE, KICK))
    bass = lufs(synth, played, BASS)
    assert -8 <= ride - bass <= -3
    assert ride - snare >= 3
    assert kick - bass <= -15


def test_brushes_are_softer_and_still_there(synth: Synth) -> None:
    played = trio(synth, "ballad", 66)
    assert -12 <= lufs(synth, played, DRUMS) - lufs(synth, played, BASS) <= -7


def test_the_touch_is_of_the_font_and_leaves_the_count_alone() -> None:
    font = package_font()
    touch = TOUCHES[font.name]
    plain, touched = (
        performance_of(demo()[0], Order(parts="trio", seed=2), font=one)
        for one in (None, font)
    )  # fmt: skip
    for one, other in zip(plain.parts, touched.parts, strict=True):
        for before, after in zip(one.notes, other.notes, strict=True):
            key = usual_drum(before.midi)  # an alternate of a drum has the touch of the usual one
            percent = touch.get((one.program, key), 100) if one.player == DRUMS else 100
            assert after == replace(before, velocity=min(127, before.velocity * percent // 100))
    clicked = Order(parts="line", click=True)
    assert performance_of(demo()[0], clicked, font=font) == performance_of(demo()[0], clicked)
