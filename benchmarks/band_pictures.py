"""Pictures of how the band sounds: for one track of each feel a spectrogram, and the level of every player.

They are for the docs, where a person looks at them: the spectrogram from 40 Hz to 16 kHz over eight bars, and
under it the level of the four players in steps of an eighth of a second, from -60 to -10 dB.

    python -m benchmarks.band_pictures [FOLDER]
"""

from __future__ import annotations

import itertools
import sys
from pathlib import Path

import numpy as np
from benchmarks.band_figures import DEMO, TEMPOS, USUAL_TEMPO, in_three
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.mixing import mixed
from shedbook.sound.audio.rendering import stems_of
from shedbook.sound.audio.stems import Stems
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.feel import module_name
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE
from shedbook.sound.track import performance_of

WIDTH, BANDS, LEVELS, LEFT = 560, 160, 100, 40
LOWEST_HZ, HIGHEST_HZ, FRAME = 40, 16_000, 4096
SOFTEST_DB, LOUDEST_DB = -60, -10
COLOURS = {LINE: (190, 30, 45), BASS: (20, 60, 140), COMPING: (20, 120, 60), DRUMS: (110, 110, 110)}
GREYS = 17
"""One step of grey: sixteen of them leave the palette room for the colours."""
INK, PAPER = (40, 40, 40), (255, 255, 255)
OUT = Path(__file__).parents[1] / "docs" / "images"


def picture(feel: str) -> Image.Image:
    synth = synth_for()
    phrase = in_three() if feel == "waltz" else read_phrase(open_manuscript(DEMO).phrases[20])
    order = Order(feel=feel, tempo_bpm=TEMPOS.get(feel, USUAL_TEMPO), rounds=2, count_in=1)
    played = performance_of(phrase, order, font=synth.font)
    stems = stems_of(played, synth)
    image = Image.new("RGB", (LEFT + WIDTH, BANDS + LEVELS + 34), PAPER)
    draw = ImageDraw.Draw(image)
    draw.text(
        (LEFT, 2), f"{feel}, {order.tempo_bpm}: count-in, two rounds, ending; {played.seconds:.0f} s", INK
    )
    whole = mixed(stems)
    image.paste(spectrogram(whole.mean(axis=1)), (LEFT, 16))
    for hertz in (100, 1000, 10_000):
        place = np.log(hertz / LOWEST_HZ) / np.log(HIGHEST_HZ / LOWEST_HZ)
        draw.text((2, 16 + round(BANDS * (1 - float(place))) - 5), f"{hertz:>5}", INK)
    levels(draw, stems, 18 + BANDS)
    return image


def spectrogram(mono: NDArray[np.floating]) -> Image.Image:
    """Return the strength of logarithmic bands over time as a grey picture, dark for loud."""
    step = max(1, (len(mono) - FRAME) // WIDTH)
    window = np.hanning(FRAME)
    rows = np.stack(
        [np.abs(np.fft.rfft(mono[at * step : at * step + FRAME] * window)) for at in range(WIDTH)]
    )
    edges = np.geomspace(LOWEST_HZ, HIGHEST_HZ, BANDS + 1) * FRAME / RATE_HZ
    bands = np.stack([
        rows[:, int(low) : max(int(low) + 1, int(high))].max(axis=1)
        for low, high in itertools.pairwise(edges)
    ])  # fmt: skip
    db = 20 * np.log10(bands / bands.max() + 1e-6)
    grey = 255 - np.clip((db + 70) / 70 * 255, 0, 255) // GREYS * GREYS
    return Image.fromarray(grey[::-1].astype(np.uint8), "L")


def levels(draw: ImageDraw.ImageDraw, stems: Stems, top: int) -> None:
    """Draw the level of each player by himself, in the mix."""
    step = RATE_HZ // 8
    for number, (player, colour) in enumerate(COLOURS.items()):
        alone = mixed(stems, without=[one for one in COLOURS if one != player])
        blocks = alone[: len(alone) // step * step].reshape(-1, step * 2)
        db = 10 * np.log10(np.mean(np.square(blocks, dtype=np.float64), axis=1) + 1e-9)
        places = [
            (LEFT + round(at * WIDTH / len(db)), top + round(float((LOUDEST_DB - level) * LEVELS / 50)))
            for at, level in enumerate(np.clip(db, SOFTEST_DB, LOUDEST_DB))
        ]
        draw.line(places, colour)
        draw.text((LEFT + 90 * number, top + LEVELS + 2), player, colour)
    for db_line in (-20, -40):
        draw.text((2, top + (LOUDEST_DB - db_line) * LEVELS // 50 - 5), f"{db_line} dB", INK)


def main() -> None:
    out = Path(sys.argv[1]) if len(sys.argv) > 1 else OUT
    for feel in FEELS:
        image = picture(feel).quantize(64)
        image.save(out / f"sound-{module_name(feel)}.png", optimize=True)


if __name__ == "__main__":
    main()
