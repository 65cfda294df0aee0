"""The players of a track, each by himself, and the balance that is struck between them.

A *stem* is one player's sound, frames by two channels, dry, as loud as the synthesiser makes it. The balance
goes by the loudness of each stem (ITU-R BS.1770), so that it holds in every feel and with every SoundFont;
the tables stand in `tables.stage` (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.loudness import SILENT
from shedbook.sound.audio.quick_loudness import quick_lufs
from shedbook.sound.audio.room import phone_response
from shedbook.sound.audio.tables import stage as table
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Balance:
    """How a mix is set: everything is what samples are multiplied by.

    `gains` are the players' own, `weights` what of each goes left and right. `count` is what the drums are
    multiplied by besides before the band begins. The bass is `pushed` into the drive, and what that adds is
    multiplied by `added`. Players of `folded` are one channel. `voice` is for the voice that counts.
    """

    gains: Mapping[str, float]
    weights: Mapping[str, tuple[float, float]]
    count: float = 1.0
    pushed: float = 0.0
    added: float = 0.0
    folded: frozenset[str] = frozenset()
    voice: float = 0.0


@dataclass(frozen=True)
class Stems:
    """The players of a track, each by himself.

    `first` is the frame at which the band begins, behind the count-in; `drums_db` how loud the drums are
    over the bass, None for the stage's own. `voice` is the voice that counts in, one channel, if there is
    one.
    """

    players: Mapping[str, Samples]
    first: int
    drums_db: float | None = None
    voice: Samples | None = None
    kept: dict[object, float] = field(default_factory=dict, compare=False, repr=False)

    @cached_property
    def pieces(self) -> dict[str, Samples]:
        """What is measured of each player, two channels by frames: the middle of the band's bars."""
        return {player: _piece(samples, self.first) for player, samples in self.players.items()}

    @cached_property
    def loud(self) -> dict[str, float]:
        """How loud each player is, in LUFS."""
        return {player: quick_lufs(piece) for player, piece in self.pieces.items()}


def _piece(samples: Samples, first: int) -> Samples:
    own = samples[first:] if len(samples) - first > RATE_HZ // 2 else samples
    most = table.HEARD_SECONDS * RATE_HZ
    start = max(0, (len(own) - most) // 2)
    return own[start : start + most].T


def balance_of(stems: Stems, *, sides: bool = False) -> Balance:
    """Return how the players are set against one another, whoever is left out later.

    Args:
        stems: the players.
        sides: the bass left and the piano right, each on its own side only and as loud as the other.
    """
    gains = gains_of(stems, sides=sides)
    pushed, added, louder = _drive(stems, gains)
    if louder != 1.0:
        gains[BASS] /= louder
        pushed, added = pushed * louder, added / louder
    weights = {player: _pan(0.0 if sides else table.PLACES.get(player, 0.0)) for player in gains}
    folded = frozenset((BASS, COMPING)) & gains.keys() if sides else frozenset[str]()
    found = Balance(gains, weights, 1.0, pushed, added, folded)
    for player in folded:
        even = _on_a_side(found, stems, player)
        weights[player] = (even, 0.0) if player == BASS else (0.0, even)
    count, voice = _counted(stems, gains)
    return Balance(gains, weights, count, pushed, added, folded, voice)


def gains_of(stems: Stems, *, sides: bool = False) -> dict[str, float]:
    """Return by what each player is multiplied, so that each is as loud as the stage has him."""
    loud = stems.loud
    wanted = dict(table.SIDES_DB if sides else table.LOUDNESS_DB)
    if stems.drums_db is not None:
        wanted[DRUMS] = stems.drums_db
    known = {player: level for player, level in loud.items() if level != SILENT}
    if not known:
        return dict.fromkeys(loud, 1.0)
    rest = BASS if BASS in known else min(known)
    anchor = known[rest] - wanted[rest]
    return {
        player: ratio(anchor + wanted[player] - level) if level != SILENT else 1.0
        for player, level in loud.items()
    }


def bent(mono: Samples, pushed: float) -> Samples:
    """Return a bass as the drive bends it: the tangent adds odd overtones, its square the octave."""
    found = np.tanh(mono * np.float32(pushed))
    found += np.float32(0.5) * found * found
    return np.asarray(found, np.float32)


def _drive(stems: Stems, gains: Mapping[str, float]) -> tuple[float, float, float]:
    """Return by what the bass is multiplied before the drive, what the drive adds, and how much louder it is.

    What is added lies on overtones that are there already, which it makes stronger or weaker: an upright bass
    is 0.7 LU softer with it, an electric one 0.9 LU louder.
    """
    piece = stems.pieces.get(BASS)
    if piece is None or not piece.any():
        return 0.0, 0.0, 1.0
    mono = (piece[0] + piece[1]) * np.float32(0.5 * gains[BASS])
    level = _rms(mono)
    pushed = table.DRIVE / (level * 4)
    spectrum = np.fft.rfft(bent(mono, pushed)) * phone_response(len(mono))
    overtones = np.asarray(np.fft.irfft(spectrum, len(mono)), np.float32)
    added = level * ratio(table.DRIVE_DB) / max(_rms(overtones), 1e-12)
    before, after = (
        quick_lufs(np.stack([heard, heard])) for heard in (mono, mono + overtones * np.float32(added))
    )
    return pushed, added, 1.0 if SILENT in (before, after) else ratio(after - before)


def _rms(samples: NDArray[np.floating]) -> float:
    return float(np.sqrt(np.dot(samples, samples) / len(samples)))


def _on_a_side(balance: Balance, stems: Stems, player: str) -> float:
    """Return the weight with which a player in one channel is as loud as the bass is as a whole."""
    known = stems.loud.get(BASS, SILENT)
    wanted = known if known == SILENT else known + db(balance.gains[BASS])
    piece = stems.pieces[player]
    one = (piece[0] + piece[1]) * np.float32(balance.gains[player])
    if player == BASS and balance.added:
        added = np.fft.rfft(bent(one * np.float32(0.5), balance.pushed)) * phone_response(len(one))
        one = one + np.asarray(2 * balance.added * np.fft.irfft(added, len(one)), np.float32)
    heard = quick_lufs(np.stack([one, np.zeros_like(one)]))
    return 0.5**0.5 if SILENT in (wanted, heard) else ratio(wanted - heard)


def _counted(stems: Stems, gains: Mapping[str, float]) -> tuple[float, float]:
    """Return by what strokes and voice of the count-in are multiplied so that each is as loud as the band."""
    known = [level + db(gains[player]) for player, level in stems.loud.items() if level != SILENT]
    drums = stems.players.get(DRUMS)
    if stems.first < RATE_HZ // 2 or not known:
        return 1.0, 0.0
    band = 10 * np.log10(sum(10 ** (level / 10) for level in known))
    count, voice = 1.0, 0.0
    if drums is not None and len(drums) - stems.first >= RATE_HZ:
        heard = quick_lufs(drums[: stems.first].T)
        if heard != SILENT:
            raised = min(table.MOST_COUNT_IN_DB, band + table.COUNT_IN_DB - heard - db(gains[DRUMS]))
            count = ratio(float(raised))
    if stems.voice is not None:
        heard = quick_lufs(np.stack([stems.voice, stems.voice]))
        voice = 0.0 if heard == SILENT else ratio(float(band + table.VOICE_DB - heard))
    return count, voice


def _pan(place: float) -> tuple[float, float]:
    """Return the gains of the left and the right channel at a place; together they keep the power."""
    angle = (place + 1) * np.pi / 4
    return float(np.cos(angle) * 2**0.5), float(np.sin(angle) * 2**0.5)


def ratio(decibels: float) -> float:
    """Return what samples are multiplied by for a change in dB."""
    return float(10.0 ** (decibels / 20.0))


def db(times: float) -> float:
    """Return the change in dB of what samples are multiplied by."""
    return float(20 * np.log10(max(times, 1e-12)))
