"""Repeats and jumps written out: the order in which the bars of a score sound.

The rules are common practice. Repeats are played with their endings. A D.C. or D.S. is followed once, when
the repeat in which it may stand is done. After it repeats are not played, and only the last ending is, unless
the file says otherwise. "To coda" and Fine hold only after such a jump. A jump acts at the end of its bar; a
segno and a coda stand at the beginning of theirs.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field

from shedbook.errors import ReadError
from shedbook.exchange.ground.report import Reporter

MOST_BARS = 20_000
"""A line may have so many bars at most when its repeats are written out."""

CAPO, SEGNO = "D.C.", "D.S."
FINE, CODA = "fine", "coda"


@dataclass(slots=True)
class RepeatSigns:
    """The signs of one bar that decide which bar is played after it.

    Attributes:
        forward: whether a repeat begins with the bar.
        times: how often the repeat is played that ends with the bar; 0 for no repeat.
        ending: the turns on which the ending is played to which the bar belongs; None outside endings.
        ends: whether that ending stops with the bar.
        after_jump: whether the repeat is played after a jump too.
        segno: the name of the segno at the beginning of the bar, "" for none.
        coda: the name of the coda at the beginning of the bar, "" for none.
        coda_sign: whether the bar has a coda sign of which nothing says what it means.
        to_coda: the name of the coda to which one goes after the bar, "" for none.
        fine: whether the piece ends with the bar after a jump.
        jump: `CAPO` or `SEGNO` for a jump after the bar, "" for none.
        to: the name of the segno to which the jump leads, "" for the nearest before it.
        until: what ends the jump: `FINE`, `CODA`, or "" for whichever comes first.
    """

    forward: bool = False
    times: int = 0
    ending: frozenset[int] | None = None
    ends: bool = False
    after_jump: bool = False
    segno: str = ""
    coda: str = ""
    coda_sign: bool = False
    to_coda: str = ""
    fine: bool = False
    jump: str = ""
    to: str = ""
    until: str = ""


@dataclass(slots=True)
class _Endings:
    """The endings of one repeat.

    Attributes:
        turns: how often the repeat is played.
        last_of: the index of the last bar of the ending for each turn.
        after_jump: whether the repeat is played after a jump too.
        fine_turn: the turn of the ending in which the piece ends after a jump; 0 where that is elsewhere.
    """

    turns: int
    last_of: dict[int, int]
    after_jump: bool
    fine_turn: int = 0


@dataclass(slots=True)
class _Player:
    """A player who goes through the bars.

    Attributes:
        signs: the signs of each bar.
        endings: for each bar the endings to which it belongs; None outside endings.
        places: the indices of the bars with a kind of sign ("segno" or "coda") and a name; "" for any name.
        start: the index of the bar at which the repeat begins.
        turn: on which turn of the repeat the player is, from 1.
        at: the index of the bar at which the player is.
        until: what ends the last jump; None where no jump was followed, or where its coda has been reached.
        taken: the indices of the bars whose jumps have been followed.
    """

    signs: Sequence[RepeatSigns]
    endings: list[_Endings | None]
    places: dict[tuple[str, str], list[int]]
    start: int = 0
    turn: int = 1
    at: int = 0
    until: str | None = None
    taken: set[int] = field(default_factory=set)

    def go(self, index: int) -> None:
        """Go to a bar, with which a new first turn begins."""
        self.at = self.start = index
        self.turn = 1

    def target(self, kind: str, name: str) -> int | None:
        """Return the bar to which a jump leads: that with the name, else the last segno or the next coda."""
        found = self.places.get((kind, name)) or self.places.get((kind, ""), [])
        if not found:
            return None
        after = bisect_right(found, self.at)
        if kind == "segno":
            return found[max(0, after - 1)]
        return found[after if after < len(found) else 0]


def unrolled(signs: Sequence[RepeatSigns], name: str, reporter: Reporter | None = None) -> list[int]:
    """Return the indices of the bars in the order in which they sound.

    Args:
        signs: the signs of each bar. Coda signs without an explanation are explained in place.
        name: what errors call the file.
        reporter: told of jumps that lead nowhere; None for nobody.

    Raises:
        ReadError: if the line has more than `MOST_BARS` bars then.
    """
    _explain_codas(signs)
    order: list[int] = []
    player = _Player(signs, _endings(signs), _places(signs))
    while player.at < len(signs):
        bar, endings = signs[player.at], player.endings[player.at]
        if bar.forward and player.at != player.start:
            player.start, player.turn = player.at, 1
        if endings is not None and not _served(player, endings):
            player.at += 1
            continue
        order.append(player.at)
        if len(order) > MOST_BARS:
            raise ReadError(
                f"{name} has more than {MOST_BARS} bars when its repeats are written out.",
                hint="Cut the score into pieces, or take out repeats.",
            )
        turns = bar.times if endings is None else endings.turns
        if bar.times and player.turn < turns and (player.until is None or bar.after_jump):
            player.at, player.turn = player.start, player.turn + 1
            continue
        if bar.times or (bar.ends and not _followed(signs, player.at)):
            player.start, player.turn = player.at + 1, 1
        if player.until is not None and bar.fine and player.until != CODA:
            break
        _go_on(player, reporter)
    return order


def _explain_codas(signs: Sequence[RepeatSigns]) -> None:
    """Decide what each bare coda sign means: the last one begins the coda, the others mean "to coda"."""
    for bar in signs:
        bar.coda_sign = bar.coda_sign and not (bar.to_coda or bar.coda)
    plain = [bar for bar in signs if bar.coda_sign]
    leaving = any(bar.to_coda for bar in signs)
    named = any(bar.coda for bar in signs)
    for bar in plain:
        bar.coda_sign = False
        if named or (bar is not plain[-1] and not leaving):
            bar.to_coda = CODA
        else:
            bar.coda = CODA


def _places(signs: Sequence[RepeatSigns]) -> dict[tuple[str, str], list[int]]:
    """Return the indices of the bars with a segno or a coda, by kind and name, and by kind alone."""
    found: dict[tuple[str, str], list[int]] = {}
    for at, bar in enumerate(signs):
        for kind, name in (("segno", bar.segno), ("coda", bar.coda)):
            if name:
                found.setdefault((kind, ""), []).append(at)
                found.setdefault((kind, name), []).append(at)
    return found


def _endings(signs: Sequence[RepeatSigns]) -> list[_Endings | None]:
    """Return for each bar the endings to which it belongs; None outside endings."""
    found: list[_Endings | None] = []
    kinds: set[frozenset[int]] = set()
    for at, bar in enumerate(signs):
        if bar.ending is None:
            found.append(None)
            continue
        here = found[-1] if found else None
        if here is None:
            here, kinds = _Endings(0, {}, False), set()
        kinds.add(bar.ending)
        here.last_of.update(dict.fromkeys(bar.ending, at))
        here.after_jump = here.after_jump or bar.after_jump
        if bar.fine and bar.ending:
            here.fine_turn = min(bar.ending)
        highest = max(here.last_of, default=1)
        # A single ending is not played on the turn after those that it names.
        here.turns = highest + 1 if len(kinds) == 1 else highest
        found.append(here)
    return found


def _served(player: _Player, endings: _Endings) -> bool:
    """Tell whether the ending at which the player is belongs to this turn.

    After a jump only the last ending does; where the jump leads to a Fine inside another, it is that one. An
    ending for a later turn is played all the same where no ending is left for this turn.
    """
    ending = player.signs[player.at].ending or frozenset()
    turn = player.turn
    if player.until is not None and not endings.after_jump:
        ends_here = endings.fine_turn and player.until != CODA
        turn = endings.fine_turn if ends_here else endings.turns
    return turn in ending or (endings.last_of.get(turn, -1) <= player.at and turn < min(ending, default=1))


def _followed(signs: Sequence[RepeatSigns], index: int) -> bool:
    """Tell whether the bar after the one with an index belongs to an ending."""
    return index + 1 < len(signs) and signs[index + 1].ending is not None


def _go_on(player: _Player, reporter: Reporter | None) -> None:
    """Let the player go to the next bar, or to the bar to which a jump leads."""
    index, bar = player.at, player.signs[player.at]
    if player.until is not None and bar.to_coda and player.until != FINE:
        coda = player.target("coda", bar.to_coda)
        if coda is not None:
            player.until = None
            player.go(coda)
            return
        _lost(reporter, '"to coda" leads to no coda')
    if bar.jump and index not in player.taken:
        player.taken.add(index)
        target = 0 if bar.jump == CAPO else player.target("segno", bar.to)
        if target is not None:
            player.until = bar.until
            player.go(target)
            return
        _lost(reporter, "D.S. leads to no segno")
    player.at += 1


def _lost(reporter: Reporter | None, what: str) -> None:
    """Report a jump that leads nowhere."""
    if reporter is not None:
        reporter.note(f"{what} and is not followed")
