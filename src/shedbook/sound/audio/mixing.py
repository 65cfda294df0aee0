"""The mix: every player set at his place and his loudness, and the room around them.

It is mixed block by block, in single precision, so that a track that is still being rendered can be heard;
the blocks join as if there were one.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from types import ModuleType

import numpy as np

from shedbook.sound.audio.room import TAIL_FRAMES, phone_response, room_response
from shedbook.sound.audio.stems import Balance, Samples, Stems, balance_of, bent, ratio
from shedbook.sound.audio.tables import stage as table
from shedbook.sound.score.written_score import BASS, DRUMS

_SIZE = 1 << 16
BLOCK_FRAMES = _SIZE - TAIL_FRAMES
"""How many frames a transform of 65536 holds with what the room answers to them."""
_AT_ONCE = 2
"""How many blocks of a whole track are mixed at a time: SciPy transforms four rows in the time of two."""


def mixed(
    stems: Stems, *, sides: bool = False, without: Collection[str] = (), at_once: int = _AT_ONCE
) -> Samples:
    """Return the players together, frames by two channels.

    Args:
        stems: the players; the loudness of each is held against the bass, whoever is left out.
        sides: the bass left and the piano right, each on its own side only and as loud as the other.
        without: players that are left out.
        at_once: how many blocks are mixed at a time; by single ones a few seconds are mixed before SciPy,
            which takes whole tracks faster, would have been loaded.
    """
    desk = Desk(balance_of(stems, sides=sides), stems.first, without, stems.voice)
    frames = max((len(samples) for samples in stems.players.values()), default=0)
    found = np.empty((frames, 2), np.float32)
    for first in range(0, frames, at_once * BLOCK_FRAMES):
        last = first + at_once * BLOCK_FRAMES
        block = {player: samples[first:last].T for player, samples in stems.players.items()}
        found[first:last] = desk.mix(block).T
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
        blocks = max(1, -(-frames // BLOCK_FRAMES))
        dry = np.zeros((2, frames), np.float32)
        feeds = np.zeros((2, blocks * BLOCK_FRAMES if blocks > 1 else frames), np.float32)
        for player, samples in players.items():
            if player not in self._without:
                self._add(player, samples, dry, feeds[:, :frames])
        if self._voice is not None:
            said = self._voice[self._at : self._at + frames]
            dry[:, : len(said)] += said * np.float32(self._balance.voice)
        self._at += frames
        dry += self._answered(feeds.reshape(2, blocks, -1), frames)
        return dry

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

    def _answered(self, feeds: Samples, frames: int) -> Samples:
        """Return what the room answers to blocks of one length and to those before, two channels by frames.

        Feeds are two, by blocks, by frames; the last block may have silence behind so many frames. What the
        room still answers behind those is kept.
        """
        _, blocks, length = feeds.shape
        size = _SIZE if length > BLOCK_FRAMES // 2 else 1 << (length + TAIL_FRAMES - 1).bit_length()
        found = np.zeros((2, blocks * length + TAIL_FRAMES), np.float32)
        found[:, :TAIL_FRAMES] = self._carried
        if feeds.any():
            heard = self._heard(feeds, size)
            for block in range(blocks):
                found[:, block * length : (block + 1) * length + TAIL_FRAMES] += heard[
                    :, block, : length + TAIL_FRAMES
                ]
        self._carried = found[:, frames : frames + TAIL_FRAMES].copy()
        return found[:, :frames]

    def _heard(self, feeds: Samples, size: int) -> Samples:
        """Return the answer to each block by transforms of a length, two channels by blocks by frames."""
        transforms = np.fft if feeds.shape[1] == 1 else _transforms()
        balance = self._balance
        sent, driven = transforms.rfft(feeds, size)
        found = room_response(size)[:, None, :] * sent
        if balance.added and BASS not in self._without:
            times = 2.0 if BASS in balance.folded else 1.0
            weights = np.array(balance.weights[BASS], np.float32) * np.float32(times * balance.added)
            found += (phone_response(size) * driven) * weights[:, None, None]
        return np.asarray(transforms.irfft(found, size), np.float32)


def _transforms() -> ModuleType:
    import scipy.fft  # noqa: PLC0415 - what is heard at once does without

    return scipy.fft
