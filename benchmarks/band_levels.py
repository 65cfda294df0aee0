"""How loud each player sounds alone, feel by feel, and what a phone leaves of the bass.

Every player's part is rendered by itself, as the whole track would be; loudness is ITU-R BS.1770's, in LUFS,
gated. A phone is taken as a high-pass of fourth order at 250 Hz (common practice of mixing for small
speakers).

    python -m benchmarks.band_levels
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

import numpy as np
from benchmarks.band_figures import DEMO, TEMPOS, USUAL_TEMPO, in_three
from numpy.typing import NDArray
from scipy.signal import butter, sosfilt

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.loudness import loudness_lufs
from shedbook.sound.audio.rendering import rendered
from shedbook.sound.audio.synthesiser import Synth, synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.score.performance import Performance
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE
from shedbook.sound.track import performance_of

PHRASE, ROUNDS = 20, 2
PHONE_HZ = 250


class Levels(NamedTuple):
    """Levels of one track, in dB: each player against the bass, and the bass against the piano on a phone.

    `counted` is the count-in's loudness against the band's, `width` the side signal against the middle of the
    whole track, `uneven` how much louder the left half is than the right.
    """

    line: float
    comping: float
    drums: float
    phone: float
    counted: float
    width: float
    uneven: float


def levels_of(feel: str, synth: Synth) -> Levels:
    phrase = in_three() if feel == "waltz" else read_phrase(open_manuscript(DEMO).phrases[PHRASE])
    order = Order(feel=feel, tempo_bpm=TEMPOS.get(feel, USUAL_TEMPO), rounds=ROUNDS)
    played = performance_of(phrase, order, font=synth.font)
    start = next(sign.start for sign in played.signs if sign.text == "round")
    first = round(float(start) * played.tempo_us / 1_000_000 * RATE_HZ)
    players = (LINE, COMPING, BASS, DRUMS)
    alone = {
        player: rendered(played, synth, without=[one for one in players if one != player])
        for player in players
    }
    loud = {player: loudness_lufs(samples[first:]) for player, samples in alone.items()}
    whole = rendered(played, synth)
    count = loudness_lufs(whole[: first - RATE_HZ // 20])
    middle, side = whole.sum(axis=1), whole[:, 0] - whole[:, 1]
    return Levels(
        loud[LINE] - loud[BASS],
        loud[COMPING] - loud[BASS],
        loud[DRUMS] - loud[BASS],
        loudness_lufs(on_a_phone(alone[BASS][first:])) - loudness_lufs(on_a_phone(alone[COMPING][first:])),
        count - loudness_lufs(whole[first:]),
        10 * np.log10(float((side**2).mean()) / float((middle**2).mean())),
        10 * np.log10(float((whole[:, 0] ** 2).mean()) / float((whole[:, 1] ** 2).mean())),
    )


def only(performance: Performance, player: str) -> Performance:
    return replace(performance, parts=tuple(part for part in performance.parts if part.player == player))


def on_a_phone(samples: NDArray[np.floating]) -> NDArray[np.floating]:
    filters = butter(4, PHONE_HZ, "highpass", fs=RATE_HZ, output="sos")
    heard: NDArray[np.floating] = sosfilt(filters, samples, axis=0)
    return heard


def report() -> None:
    synth = synth_for()
    print(f"\n{synth.name}, {synth.font.name}; dB against the bass alone\n")
    print(
        "| feel | line | piano | drums | phone: bass over piano | count-in over band | width | left/right |"
    )
    print("|---|---|---|---|---|---|---|---|")
    rows = [(feel, levels_of(feel, synth)) for feel in FEELS]
    for feel, row in rows:
        print(f"| {feel} | {' | '.join(f'{level:+.1f}' for level in row)} |")
    spans = [max(column) - min(column) for column in zip(*(row for _, row in rows), strict=True)]
    print(f"| highest less lowest | {' | '.join(f'{span:.1f}' for span in spans)} |")


if __name__ == "__main__":
    report()
