"""Repeats and jumps written out: in which order the bars of a score sound.

Repeats with their endings come first. D.C. and D.S. are taken once, when the repeat that they may stand in
is done; after them repeats are passed over, with all endings but the last, unless the file says that they are
played then too; "to coda" and Fine hold only after such a jump (common practice). Jumps act at the end of
their bar, segno and coda are its beginning.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field

from shedbook.errors import ReadError
from shedbook.exchange.ground.report import Reporter

MOST_BARS = 20_000
"""How many bars a line may have when its repeats are written out."""

CAPO, SEGNO = "D.C.", "D.S."
FINE, CODA = "fine", "coda"


@dataclass(slots=True)
class RepeatSigns:
    """The signs of one bar that say what is played after it.

    `times` is 0 where no backward repeat ends the bar. `ending` holds the numbers of the ending that it
    belongs to, None outside endings; `ends` says that the ending stops with it; `after_jump` that its repeat
    is played after a jump too. `segno`, `coda` and `to_coda` are names, "" where there is none; `coda_sign`
    is a coda sign that nothing explains. `jump` is `CAPO` or `SEGNO`, `to` the name of the segno that is
    meant, `until` what ends the jump: `FINE`, `CODA`, or "" for whichever comes.
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
    """Endings that stand together: how often their repeat is played in all, and the last bar of each turn."""

    turns: int
    last_of: dict[int, int]
    after_jump: bool


@dataclass(slots=True)
class _Player:
    """Somebody who plays the bars: the bar at hand, where its repeat begins, and which time it is.

    `until` is what the last jump waits for, None where none was taken or its coda is reached. `endings` goes
    with the bars; `places` finds the bars of a kind of sign by its name, and all of them by "".
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
        self.at = self.start = index
        self.turn = 1

    def target(self, kind: str, name: str) -> int | None:
        """Return the bar that a jump means: by its name, else the last segno before, or the next coda."""
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
        signs: those of every bar.
        name: what errors call the file.
        reporter: told of jumps that lead nowhere.

    Raises:
        ReadError: if that makes more bars than a line may have.
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
    """Tell the coda signs at which one leaves from those that begin a coda: the last one does."""
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
    """Return the bars of each kind of sign, by name and all together."""
    found: dict[tuple[str, str], list[int]] = {}
    for at, bar in enumerate(signs):
        for kind, name in (("segno", bar.segno), ("coda", bar.coda)):
            if name:
                found.setdefault((kind, ""), []).append(at)
                found.setdefault((kind, name), []).append(at)
    return found


def _endings(signs: Sequence[RepeatSigns]) -> list[_Endings | None]:
    """Return for each bar the endings among which it stands, None outside them."""
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
        highest = max(here.last_of, default=1)
        # A first ending alone is passed over on the second turn.
        here.turns = highest + 1 if len(kinds) == 1 else highest
        found.append(here)
    return found


def _served(player: _Player, endings: _Endings) -> bool:
    """Say whether the bar of an ending is played this time; after a jump it is the last ending.

    An ending that the turn does not reach is played all the same where no later one is for it.
    """
    ending = player.signs[player.at].ending or frozenset()
    turn = player.turn if player.until is None or endings.after_jump else endings.turns
    return turn in ending or (endings.last_of.get(turn, -1) <= player.at and turn < min(ending, default=1))


def _followed(signs: Sequence[RepeatSigns], index: int) -> bool:
    return index + 1 < len(signs) and signs[index + 1].ending is not None


def _go_on(player: _Player, reporter: Reporter | None) -> None:
    """Go to the bar that follows: the next one, or where a jump leads."""
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
    if reporter is not None:
        reporter.note(f"{what} and is not followed")
