"""What the explanation says of the strong beats: what stands there, and where it is no chord tone."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.account.landings import EXCUSES, STRENGTHS, Landing
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import CHORD, OUTSIDE
from shedbook.analysis.naming.language import ENGLISH
from shedbook.analysis.naming.spoken_names import degree_words
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import SUMMARY, Build, Remark


def strong_beats(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield the remark on the strong beats: that they are silent or not struck, or what stands on them.

    Strong beats over no chord are left out.
    """
    strong = [
        landing
        for landing in account.landings
        if landing.on_strong_beat and account.spans[landing.span].chord.root is not None
    ]
    if not strong and any(note.strong for note in account.notes):
        silent = say.builds("strong.silent", "count", "place")
        yield Remark(topics.STRONG_BEATS, 94, 0, 0, silent, part=SUMMARY)
        return
    if not strong:
        first = account.notes[0]
        off = say.builds(
            "strong.off", "line", "count",
            first=say.name(first), of=say.of_chord(first), when=say.on_beat(first),
        )  # fmt: skip
        yield Remark(topics.STRONG_BEATS, 94, 0, 0, off, part=SUMMARY)
        return
    notes = [account.notes[landing.note] for landing in strong]
    others = [landing for landing in strong if not _at_home(account, landing)]
    builds = _all_home(say, notes) if not others else _some_away(account, say, strong, others)
    yield Remark(topics.STRONG_BEATS, 94, notes[0].index, notes[-1].index, builds, part=SUMMARY)


ENGLISH.must_have(
    [f"away.{excuse}" for excuse in EXCUSES], "an outside note on a strong beat can be excused as this"
)

_MOST_LISTED = 4
"""More notes on strong beats than these are counted and not named one by one."""


def _all_home(say: ReaderNames, notes: list[NoteAccount]) -> tuple[Build, ...]:
    if len(notes) == 1:
        only = notes[0]
        return say.builds("strong.single", "count", "place", name=say.name(only), of=say.of_chord(only))
    if len({note.midi % 12 for note in notes}) == 1:
        return say.builds("strong.same", "count", "note", "line", name=say.name(notes[0]))
    which = _which_thirds(say, [note for note in notes if note.degree in ("3", "b3")])
    if len(notes) <= _MOST_LISTED:
        return say.builds(
            "strong.few", "place", "count", "note", "chord", "line", "order",
            names=say.names(notes), which=which, which_all=which or say.words("thirds.none"),
        )  # fmt: skip
    return say.builds(
        "strong.many", "count", "place", "chord", "line", "order",
        n=say.number(len(notes)), first=say.name(notes[0]), last=say.name(notes[-1]), which=which,
    )  # fmt: skip


def _which_thirds(say: ReaderNames, thirds: list[NoteAccount]) -> str:
    """Return "; C in bar 2 and F in bar 3 are the thirds", "" without a third."""
    if not thirds:
        return ""
    if len(thirds) > 3:
        return say.words("thirds.count", n=say.number(len(thirds)))
    if say.account.phrase.full_bars == 1 or len({note.midi % 12 for note in thirds}) == 1:
        names = list(dict.fromkeys(say.name(note) for note in thirds))
    else:
        placed = (say.words("thirds.in bar", name=say.name(note), bar=say.bar(note)) for note in thirds)
        names = list(dict.fromkeys(placed))
    return say.words("thirds.one" if len(names) == 1 else "thirds.many", names=say.joined(names))


class _Away(NamedTuple):
    """What stands on a strong beat that has no chord tone, and where: its name, what it is, the place."""

    name: str
    what: str
    place: str
    whole: str


def _some_away(
    account: Account, say: ReaderNames, strong: list[Landing], others: list[Landing]
) -> tuple[Build, ...]:
    """Tell which strong beats hold something else than chord tones: `others`, of all that are `strong`."""
    parts = [_away(account, say, landing) for landing in others[:2]]
    home = [account.notes[landing.note] for landing in strong if landing not in others]
    if not home:
        more = "" if len(others) <= 2 else " more"
        return say.builds(
            "strong.none", f"count{more}", f"place{more}",
            away=say.joined([part.whole for part in parts]), last=say.name(account.notes[others[-1].note]),
        )  # fmt: skip
    if len(others) == 1:
        return _one_away(say, parts[0], home, colour=others[0].strength != STRENGTHS[0])
    first, second = parts
    if len(others) == 2 and first.what == second.what:
        told = say.words("away.again", away=first.whole, place=second.place)
    elif len(others) == 2:
        told = say.words("list.two parts", first=first.whole, last=second.whole)
    else:
        told = say.words("away.first", away=first.whole)
    some = say.number(len(others))
    times = say.words("strong.twice") if len(others) == 2 else say.words("strong.times", n=some)
    return say.builds(
        "strong.some away", "count", "place", "flow",
        some=some, n=say.number(len(strong)), times=times, away=told,
    )  # fmt: skip


def _one_away(say: ReaderNames, away: _Away, home: list[NoteAccount], *, colour: bool) -> tuple[Build, ...]:
    """Tell what stands on the one strong beat without a chord tone; `home` are the notes on the others."""
    best = max(
        home, key=lambda note: (note.degree in ("3", "b3"), note.midi % 12 in note.span.core, -note.index)
    )
    name, of = say.name(best), say.of_chord(best)
    some = "one" if len(home) == 1 else "many"
    flow = "flow best" if len(home) > 1 and away.name != name else f"flow {some}"
    return say.builds(
        "strong.one away", "count", "note", "place", f"chord {some}", "line", flow,
        away=say.words("away.colour", away=away.whole) if colour else away.whole,
        what=away.what, place=away.place, rest=say.words(f"strong.rest.{some}", best=name, of=of),
        best=name, of=of,
    )  # fmt: skip


def _away(account: Account, say: ReaderNames, landing: Landing) -> _Away:
    """Return "B, the 13" and "beat 3 of bar 2", with what an accented outside note does."""
    note, span = account.notes[landing.note], account.spans[landing.span]
    sounding, name = note.midi % 12, say.name(account.notes[landing.note])
    if span.membership(sounding) != OUTSIDE:
        degree = degree_words(span.degrees[sounding], span.chord, say.words)
        what = say.words("away.inside", name=name, degree=degree)
    else:
        what = say.words("away.outside", name=name, home=say.home(span))
    if landing.excuse in EXCUSES:
        what = say.words(f"away.{landing.excuse}", what=what)
    place = say.beat_of_bar(*landing.place)
    return _Away(name, what, place, say.words("away", what=what, place=place))


def _at_home(account: Account, landing: Landing) -> bool:
    """Whether a chord tone stands there."""
    return account.spans[landing.span].membership(account.notes[landing.note].midi % 12) == CHORD
