"""A track that is heard while it is still being rendered.

The beginning of the band is rendered first; from it the players are balanced and the loudness is set. Then
everything is rendered, mixed and handed on piece by piece, peaks held down as they come. So a track that is
played at once is not measured as a whole, as a file is: its loudness is an estimate, to which the velocities
of what is still to come are a part.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.limiter import REACH_FRAMES, limited
from shedbook.sound.audio.loudness import SILENT
from shedbook.sound.audio.mixing import Desk, mixed
from shedbook.sound.audio.quick_loudness import quick_lufs
from shedbook.sound.audio.rendering import Take, counted_by, frames_of, looped, take_of
from shedbook.sound.audio.stems import Stems, balance_of, ratio
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import FADE_SECONDS, RATE_HZ
from shedbook.sound.audio.tables.voices import ENGLISH
from shedbook.sound.score.performance import Performance
from shedbook.sound.tables.clicks import STRUCK

_HEARD_SECONDS = 4
"""How much of the band is measured before the first sound is handed on."""
_AFTER_ENTRY_SECONDS = 2
_BLOCK_FRAMES = 9600
_CEILING = ratio(-1.5)
"""What samples are held under; between them a true peak may stand a little higher."""


def live(
    performance: Performance,
    synth: Synth,
    lufs: float,
    *,
    sides: bool = False,
    without: Collection[str] = (),
    count: str = STRUCK,
    language: str = ENGLISH,
) -> Iterator[NDArray[np.float32]]:
    """Yield a performance piece by piece, frames by two channels at `RATE_HZ`, about as loud as asked.

    Args:
        performance: what is played; not a loop.
        synth: who plays it.
        lufs: how loud it shall be.
        sides: the bass left and the piano right.
        without: players that are left out.
        count: one of `tables.clicks.COUNTS`: how it is counted in.
        language: the tag of the language in which a voice counts.

    Raises:
        SoundError: if it cannot be rendered, or nothing speaks.
    """
    counted, voice = counted_by(performance, count, language)
    take = take_of(counted, filters=synth.filters)
    loud = _loud(performance, take, synth, lufs, voice, sides=sides, without=without)
    yield from _held(_ended(loud, take.frames))


def live_loop(
    performance: Performance,
    synth: Synth,
    lufs: float,
    rounds: int,
    *,
    sides: bool = False,
    without: Collection[str] = (),
) -> Iterator[NDArray[np.float32]]:
    """Yield a loop so often, piece by piece: first while it is rendered, then from what was kept of that.

    What rings over its end sounds at its beginning from the second time on. For the arguments, the shape and
    the errors see `live`.
    """
    take = take_of(performance, loop=True, filters=synth.filters)
    loud = _loud(performance, take, synth, lufs, None, sides=sides, without=without)
    yield from _held(_again(loud, frames_of(performance, tail=False), rounds))


def _again(pieces: Iterator[NDArray[np.float32]], frames: int, rounds: int) -> Iterator[NDArray[np.float32]]:
    """Yield so many frames as they come, then once more for each further round with what rang over."""
    kept: list[NDArray[np.float32]] = []
    at = 0
    for piece in pieces:
        kept.append(piece)
        if at < frames:
            yield piece[: frames - at]
        at += len(piece)
    once = looped(np.concatenate(kept), frames)
    for _ in range(rounds - 1):
        yield from np.split(once, range(_BLOCK_FRAMES, frames, _BLOCK_FRAMES))


def _loud(
    performance: Performance,
    take: Take,
    synth: Synth,
    lufs: float,
    voice: NDArray[np.float32] | None,
    *,
    sides: bool,
    without: Collection[str],
) -> Iterator[NDArray[np.float32]]:
    """Yield the mix as it is rendered, about as loud as asked; peaks are not held yet."""
    begun = _beginning(take, synth, voice)
    balance = balance_of(begun, sides=sides)
    heard = quick_lufs(mixed(begun, sides=sides, without=without, at_once=1)[begun.first :].T)
    later = _louder_later(performance, len(next(iter(begun.players.values()))), without)
    gain = 1.0 if heard == SILENT else ratio(lufs - heard - later)
    desk = Desk(balance, begun.first, without, voice)
    for block in synth.blocks(take.midi, take.frames, tuple(take.channels.values()), _BLOCK_FRAMES):
        yield desk.mix(_by_player(block, take.channels)).T * np.float32(gain)


def _beginning(take: Take, synth: Synth, voice: NDArray[np.float32] | None) -> Stems:
    """Return the stems of the count-in and of the first seconds of the band, every player among them."""
    entries = max(take.entries.values(), default=0)
    frames = max(take.first + _HEARD_SECONDS * RATE_HZ, entries + _AFTER_ENTRY_SECONDS * RATE_HZ)
    frames = min(take.frames, frames)
    found = synth.stems(take.midi, frames, tuple(take.channels.values()))
    players = {player: found[channel] for player, channel in take.channels.items()}
    return Stems(players, take.first, take.drums_db, voice)


def _by_player(
    block: Mapping[int, NDArray[np.float32]], channels: Mapping[str, int]
) -> dict[str, NDArray[np.float32]]:
    return {player: block[channel] for player, channel in channels.items()}


def _louder_later(performance: Performance, frames: int, without: Collection[str]) -> float:
    """Return by how many dB the notes are stronger in the whole track than in its beginning.

    A note's power goes with the fourth power of its velocity (SoundFont 2.04, 8.4.1: 40·log10 of it in dB).
    """
    early, every = [], []
    for part in performance.parts:
        for note in part.notes if part.player not in without else ():
            every.append(note.velocity**4)
            if performance.seconds_at(note.start) * RATE_HZ < frames:
                early.append(note.velocity**4)
    return float(10 * np.log10(np.mean(every) / np.mean(early))) if early else 0.0


def _ended(pieces: Iterator[NDArray[np.float32]], frames: int) -> Iterator[NDArray[np.float32]]:
    """Yield pieces whose end fades out."""
    at, fade = 0, min(frames, round(FADE_SECONDS * RATE_HZ))
    curve = np.cos(np.linspace(0.0, np.pi / 2, fade, dtype=np.float32))[:, None] ** 2
    for piece in pieces:
        over = at + len(piece) - (frames - fade)
        if over > 0:
            kept = min(over, len(piece))
            start = over - kept
            piece[len(piece) - kept :] *= curve[start : start + kept]
        at += len(piece)
        yield piece


def _held(pieces: Iterator[NDArray[np.float32]]) -> Iterator[NDArray[np.float32]]:
    """Yield pieces with their peaks held down, a little later than they come: the limiter looks ahead."""
    around = np.zeros((REACH_FRAMES, 2), np.float32)
    waiting = around
    for piece in pieces:
        waiting = np.concatenate([waiting, piece])
        done = limited(waiting, _CEILING)[REACH_FRAMES:-REACH_FRAMES]
        yield done
        waiting = waiting[len(done) :]
    yield limited(np.concatenate([waiting, around]), _CEILING)[REACH_FRAMES:-REACH_FRAMES]
