"""The mix: every player set at his place and his loudness, and the room around them.

It is mixed block by block, in single precision, so that a track that is still being rendered can be heard;
the blocks join as if there were one.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.room import TAIL_FRAMES, phone_response, room_response
from shedbook.sound.audio.stems import Balance, Samples, Stems, balance_of, bent, ratio
from shedbook.sound.audio.tables import stage as table
from shedbook.sound.score.written_score import BASS, DRUMS

_SIZE = 1 << 16
BLOCK_FRAMES = _SIZE - TAIL_FRAMES
"""How many frames are mixed at a time: a transform of 65536 holds them and what the room answers."""


def mixed(stems: Stems, *, sides: bool = False, without: Collection[str] = ()) -> Samples:
    """Return the players together, frames by two channels.

    Args:
        stems: the players; the loudness of each is held against the bass, whoever is left out.
        sides: the bass left and the piano right, each on its own side only and as loud as the other.
        without: players that are left out.
    """
    desk = Desk(balance_of(stems, sides=sides), stems.first, without, stems.voice)
    frames = max((len(samples) for samples in stems.players.values()), default=0)
    found = np.empty((frames, 2), np.float32)
    for first in range(0, frames, BLOCK_FRAMES):
        block = {player: samples[first : first + BLOCK_FRAMES].T for player, samples in stems.players.items()}
        found[first : first + BLOCK_FRAMES] = desk.mix(block).T
    return found


class Desk:
    """Mixes a track block by block, from its first frame on."""

    def __init__(
        self,
        balance: Balance,
        first: int,
        without: Collection[str] = (),
        voice: Samples | None = None,
    ) -> None:
        """Set the desk.

        Args:
            balance: how the players stand to one another.
            first: the frame at which the band begins.
            without: players that are left out; the voice that counts goes with the drums.
            voice: the voice that counts, one channel from the track's first frame on, if there is one.
        """
        self._balance, self._first, self._without = balance, first, without
        self._voice = None if DRUMS in without else voice
        self._at = 0
        self._carried = np.zeros((2, TAIL_FRAMES), np.float32)

    def mix(self, players: Mapping[str, Samples]) -> Samples:
        """Return the next block, two channels by frames; each player's samples are laid out the same way."""
        frames = max(samples.shape[1] for samples in players.values())
        size = _SIZE if frames > BLOCK_FRAMES // 2 else 1 << (frames + TAIL_FRAMES - 1).bit_length()
        dry = np.zeros((2, frames), np.float32)
        feeds = np.zeros((2, size), np.float32)
        for player, samples in players.items():
            if player not in self._without:
                self._add(player, samples, dry, feeds[:, :frames])
        if self._voice is not None:
            said = self._voice[self._at : self._at + frames]
            dry[:, : len(said)] += said * np.float32(self._balance.voice)
        self._at += frames
        return self._answered(dry, feeds)

    def _add(self, player: str, samples: Samples, dry: Samples, feeds: Samples) -> None:
        """Add a player to what is heard directly, to what the room hears, and to what the drive adds."""
        balance = self._balance
        own = samples * np.float32(balance.gains[player])
        if player == DRUMS and self._at < self._first:
            own[:, : self._first - self._at] *= np.float32(balance.count)
        frames = own.shape[1]
        middle = own[0] + own[1]
        left, right = (np.float32(weight) for weight in balance.weights[player])
        if player == BASS and balance.added:
            feeds[1, :frames] = bent(middle * np.float32(0.5), balance.pushed)
        if player in balance.folded:
            dry[0, :frames] += middle * left
            dry[1, :frames] += middle * right
            return
        own[0] *= left
        own[1] *= right
        dry[:, :frames] += own
        middle *= np.float32(ratio(table.ROOM_DB[player]))
        feeds[0, :frames] += middle

    def _answered(self, dry: Samples, feeds: Samples) -> Samples:
        """Return what is heard of a block with the room's answers to it and to the blocks before."""
        frames, size = dry.shape[1], feeds.shape[1]
        if feeds.any():
            heard = np.asarray(np.fft.irfft(self._spectra(feeds), size), np.float32)
        else:
            heard = np.zeros((2, size), np.float32)
        heard[:, :TAIL_FRAMES] += self._carried
        self._carried = heard[:, frames : frames + TAIL_FRAMES].copy()
        dry += heard[:, :frames]
        return dry

    def _spectra(self, feeds: Samples) -> NDArray[np.complex64]:
        size, balance = feeds.shape[1], self._balance
        sent, driven = np.fft.rfft(feeds)
        found = room_response(size) * sent
        if balance.added and BASS not in self._without:
            times = 2.0 if BASS in balance.folded else 1.0
            weights = np.array(balance.weights[BASS], np.float32) * np.float32(times * balance.added)
            found += (phone_response(size) * driven) * weights[:, None]
        return np.asarray(found, np.complex64)
