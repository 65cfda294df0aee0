"""The mix: every player by himself, set at his place and his loudness, and the room around them.

A *stem* is one player's sound, frames by two channels, dry, as loud as the synthesiser makes it. Loudness is
ITU-R BS.1770's of each stem, so that the balance holds in every feel and with every SoundFont; the tables
stand in `tables.stage` (common practice).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.loudness import SILENT, loudness_lufs
from shedbook.sound.audio.tables import stage as table
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS

Samples = NDArray[np.float32]
_SEED = 1
_OCTAVE = 2


@dataclass(frozen=True)
class Stems:
    """The players of a track, each by himself.

    `first` is the frame at which the band begins, behind the count-in; `drums_db` how loud the drums are
    over the bass, None for the stage's own.
    """

    players: Mapping[str, Samples]
    first: int
    drums_db: float | None = None

    @cached_property
    def loud(self) -> dict[str, float]:
        """How loud each player is, in LUFS."""
        return {player: _loudness(samples, self.first) for player, samples in self.players.items()}


def mixed(stems: Stems, *, sides: bool = False, without: Collection[str] = ()) -> Samples:
    """Return the players together, frames by two channels.

    Args:
        stems: the players; the loudness of each is held against the bass, whoever is left out.
        sides: the bass left and the piano right, each on its own side only and as loud as the other.
        without: players that are left out.
    """
    gains = gains_of(stems, sides=sides)
    frames = max((len(samples) for samples in stems.players.values()), default=0)
    found = np.zeros((2, frames), np.float32)
    sent = np.zeros(frames, np.float32)
    for player, samples in stems.players.items():
        if player in without:
            continue
        own = samples.T * np.float32(gains[player])
        if player == BASS:
            own = driven(own)
        if player == DRUMS:
            own[:, : stems.first] *= np.float32(_count_gain(stems, gains))
        middle = own[0] + own[1]
        if sides and player in (BASS, COMPING):
            found[0 if player == BASS else 1] += _on_a_side(middle, stems, gains)
            continue
        found += own * _pan(0.0 if sides else table.PLACES[player])[:, None]
        middle *= np.float32(_ratio(table.ROOM_DB[player]))
        sent += middle
    if sent.any():
        found += _room(sent)
    return np.ascontiguousarray(found.T)


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
        player: _ratio(anchor + wanted[player] - level) if level != SILENT else 1.0
        for player, level in loud.items()
    }


def _loudness(samples: Samples, first: int) -> float:
    """Return the loudness of a player over the middle of the band's bars."""
    own = samples[first:] if len(samples) - first > RATE_HZ // 2 else samples
    most = table.HEARD_SECONDS * RATE_HZ
    start = max(0, (len(own) - most) // 2)
    return loudness_lufs(own[start : start + most])


def driven(samples: Samples) -> Samples:
    """Return a bass, two channels by frames, with overtones that a phone can play.

    The fundamental stays as it is. The hyperbolic tangent adds odd overtones, its square the octave; what
    that adds is cut off below and above what a phone plays.
    """
    from scipy.signal import butter, sosfilt  # noqa: PLC0415 - MIDI does without it

    mono = (samples[0] + samples[1]) * np.float32(0.5)
    level = float(np.sqrt(np.dot(mono, mono) / len(mono)))
    if level == 0.0:
        return samples
    pushed = mono * np.float32(table.DRIVE / (level * 4))
    bent = np.tanh(pushed)
    bent += np.float32(0.5) * bent * bent
    filters = butter(_OCTAVE, (table.PHONE_HZ, 2400), "bandpass", fs=RATE_HZ, output="sos")
    added = np.asarray(sosfilt(filters, bent), np.float32)
    strength = float(np.sqrt(np.dot(added, added) / len(added)))
    added *= np.float32(level * _ratio(table.DRIVE_DB) / max(strength, 1e-12))
    return np.asarray(samples + added, np.float32)


def _on_a_side(middle: Samples, stems: Stems, gains: Mapping[str, float]) -> Samples:
    """Return a player in one channel, as loud there as the bass is as a whole."""
    one = middle * np.float32(0.5**0.5)
    known = stems.loud.get(BASS, SILENT)
    wanted = known if known == SILENT else known + _db(gains[BASS])
    heard = _loudness(np.stack([one, np.zeros_like(one)], axis=1), stems.first)
    even = 1.0 if SILENT in (wanted, heard) else _ratio(wanted - heard)
    return np.asarray(one * np.float32(even), np.float32)


def _db(ratio: float) -> float:
    return float(20 * np.log10(max(ratio, 1e-12)))


def _count_gain(stems: Stems, gains: Mapping[str, float]) -> float:
    """Return by what the count-in is multiplied so that it is as loud as the band."""
    drums = stems.players[DRUMS]
    known = [level + _db(gains[player]) for player, level in stems.loud.items() if level != SILENT]
    if stems.first < RATE_HZ // 2 or len(drums) - stems.first < RATE_HZ or not known:
        return 1.0
    heard = loudness_lufs(drums[: stems.first])
    if heard == SILENT:
        return 1.0
    band = 10 * np.log10(sum(10 ** (level / 10) for level in known))
    raised = min(table.MOST_COUNT_IN_DB, band + table.COUNT_IN_DB - heard - _db(gains[DRUMS]))
    return _ratio(float(raised))


def _pan(place: float) -> NDArray[np.float32]:
    """Return the gains of the left and the right channel at a place; together they keep the power."""
    angle = (place + 1) * np.pi / 4
    return np.array([np.cos(angle), np.sin(angle)], np.float32) * np.float32(2**0.5)


def _room(sent: Samples) -> Samples:
    """Return what the room gives back, two channels by as many frames."""
    from scipy.signal import oaconvolve  # noqa: PLC0415 - as above

    heard = oaconvolve(sent[None, :], _answers(), axes=1)[:, : len(sent)]
    return np.asarray(heard, np.float32)


@lru_cache(maxsize=1)
def _answers() -> Samples:
    """Return how the room answers a click: noise that dies away, another for each ear."""
    from scipy.signal import butter, sosfilt  # noqa: PLC0415 - as above

    frames = round(table.ROOM_LENGTH_SECONDS * RATE_HZ)
    noise = np.random.default_rng(_SEED).standard_normal((frames, 2))
    falls = 10.0 ** (-3 * np.arange(frames) / (table.ROOM_SECONDS * RATE_HZ))
    filters = butter(1, table.ROOM_HZ, "bandpass", fs=RATE_HZ, output="sos")
    shaped = sosfilt(filters, noise * falls[:, None], axis=0)
    shaped[: round(table.ROOM_DELAY_SECONDS * RATE_HZ)] = 0
    return np.ascontiguousarray((shaped / np.sqrt((shaped**2).sum(axis=0))).T, np.float32)


def _ratio(db: float) -> float:
    return float(10.0 ** (db / 20.0))
