"""What the explanation says of the strong beats: what stands there, and where it is no chord tone."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.heard import CHORD, OUTSIDE
from shedbook.analysis.landings import STRENGTHS, Landing
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.reasons import BLUE, LEANING, PASSING, PEDAL, SUSPENSION
from shedbook.analysis.remark import SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital
from shedbook.analysis.words import degree_words, joined, number_words


def strong_beats(account: Account, say: Speaker) -> Iterator[Remark]:
    """What stands on the strong beats."""
    strong = [
        landing
        for landing in account.landings
        if landing.on_strong_beat and account.spans[landing.span].chord.root is not None
    ]
    if not strong and any(note.strong for note in account.notes):
        silent = (
            Build("count", "No chord sounds under the strong beats."),
            Build("place", "Under the strong beats no chord sounds."),
        )
        yield Remark("strong beats", 94, 0, 0, silent, part=SUMMARY)
        return
    if not strong:
        first = account.notes[0]
        where = f"{say.name(first)}, {say.of_chord(first)}, comes {say.on_beat(first)}"
        off: tuple[Build, ...] = (
            Build("line", f"The line stays off the strong beats: {where}."),
            Build("count", f"No strong beat is struck: {where}."),
        )
        yield Remark("strong beats", 94, 0, 0, off, part=SUMMARY)
        return
    notes = [account.notes[landing.note] for landing in strong]
    others = [landing for landing in strong if not _at_home(account, landing)]
    builds = _all_home(say, notes) if not others else _some_away(account, say, strong, others)
    yield Remark("strong beats", 94, notes[0].index, notes[-1].index, builds, part=SUMMARY)


_MOST_LISTED = 4


def _all_home(say: Speaker, notes: list[NoteAccount]) -> tuple[Build, ...]:
    if len(notes) == 1:
        only = notes[0]
        return (
            Build("count", f"One strong beat is struck, and it holds {say.full(only)}."),
            Build("place", f"On the strong beat stands {say.full(only)}."),
        )
    if len({note.midi % 12 for note in notes}) == 1:
        same = say.name(notes[0])
        return (
            Build("count", f"Every strong beat holds {same}."),
            Build("note", f"{same} takes the strong beats."),
            Build("line", f"The line comes back to {same} on every strong beat."),
        )
    thirds = [note for note in notes if note.degree in ("3", "b3")]
    if len(notes) <= _MOST_LISTED:
        names, which = say.names(notes), _which_thirds(say, thirds)
        return (
            Build("place", f"On the strong beats stand {names}{which or ', chord tones all'}."),
            Build("count", f"Every strong beat holds a chord tone: {names}{which}."),
            Build("note", f"{names} take the strong beats{which or ', chord tones all'}."),
            Build("chord", f"Chord tones fall on the strong beats: {names}{which}."),
            Build("line", f"The line puts {names} on the strong beats{which or ', chord tones all'}."),
            Build("order", f"Leave out all but the strong beats, and {names} are left{which}."),
        )  # fmt: skip
    first, last, every = say.name(notes[0]), say.name(notes[-1]), number_words(len(notes))
    which = _which_thirds(say, thirds)
    return (
        Build("count", f"All {every} strong beats hold chord tones, from {first} to {last}{which}."),
        Build("place", f"On the strong beats stand chord tones throughout, {first} to {last}{which}."),
        Build("chord", f"Chord tones take every strong beat, {first} the first and {last} the last{which}."),
        Build("line", f"The line keeps a chord tone for each of the {every} strong beats, {first} to "
                      f"{last}{which}."),
        Build("order", f"Tap the strong beats, and only chord tones fall on them, {first} to {last}{which}."),
    )  # fmt: skip


def _which_thirds(say: Speaker, thirds: list[NoteAccount]) -> str:
    """Return "; C in bar 2 and F in bar 3 are the thirds", "" without a third."""
    if not thirds:
        return ""
    if len(thirds) > 3:
        return f", with {number_words(len(thirds))} thirds"
    if say.account.phrase.full_bars == 1 or len({note.midi % 12 for note in thirds}) == 1:
        names = list(dict.fromkeys(say.name(note) for note in thirds))
    else:
        names = list(dict.fromkeys(f"{say.name(note)} in bar {say.bar(note)}" for note in thirds))
    return f"; {joined(names)} {'is the third' if len(names) == 1 else 'are the thirds'}"


def _some_away(
    account: Account, say: Speaker, strong: list[Landing], others: list[Landing]
) -> tuple[Build, ...]:
    """Say which strong beats hold something else than chord tones."""
    parts = [_away(account, say, landing) for landing in others[:2]]
    alike = len(others) == 2 and parts[0].rpartition(", on ")[0] == parts[1].rpartition(", on ")[0]
    home = [account.notes[landing.note] for landing in strong if landing not in others]
    if not home:
        more = "" if len(others) <= 2 else f", and so on to {say.name(account.notes[others[-1].note])}"
        return (
            Build("count", f"No strong beat holds a chord tone: there is {joined(parts)}{more}."),
            Build("place", f"On the strong beats stands no chord tone, only {joined(parts)}{more}."),
        )
    best = max(
        home, key=lambda note: (note.degree in ("3", "b3"), note.midi % 12 in note.span.core, -note.index)
    )
    firm = f"{say.name(best)}, {say.of_chord(best)}"
    if len(others) == 1:
        colour, where = others[0].strength != STRENGTHS[0], parts[0].rpartition(", on ")
        kind = "a colour, " if colour else ""
        rest = f"chord tones hold the others, {firm}, above all" if len(home) > 1 else f"the other has {firm}"
        return (
            Build("count", f"One strong beat goes to {kind}{parts[0]}; {rest}."),
            Build("note", f"{where[0]}, stands on {where[2]}; {rest}."),
            Build("place", f"On the strong beats there is {kind}{parts[0]}; {rest}."),
            Build("chord", f"{capital(where[2])} has {where[0]}; the other strong "
                           f"{'beats keep' if len(home) > 1 else 'beat keeps'} to the chord."),
            Build("line", f"The line gives one strong beat to {kind}{parts[0]}."),
            Build("flow", _all_but_one(parts[0], where[0], say.name(best), firm, len(home))),
        )  # fmt: skip
    if alike:
        told = f"{parts[0]}, and again on {parts[1].rpartition(', on ')[2]}"
    else:
        told = ", and ".join(parts) if len(others) == 2 else f"{parts[0]}, is the first of them"
    some, every = number_words(len(others)), number_words(len(strong))
    twice = "twice" if len(others) == 2 else f"{some} times"
    return (
        Build("count", f"{capital(some)} of the {every} strong beats hold no chord tone: {told}."),
        Build("place", f"On the strong beats the line leaves the chord {twice}: {told}."),
        Build("flow", f"{capital(twice)} a strong beat holds no chord tone: {told}."),
    )


def _away(account: Account, say: Speaker, landing: Landing) -> str:
    """Return "B, the 13, on beat 3 of bar 2", with what an accented outside note does."""
    note, span = account.notes[landing.note], account.spans[landing.span]
    sounding = note.midi % 12
    inside = span.membership(sounding) != OUTSIDE
    what = degree_words(span.degrees[sounding], span.chord) if inside else f"outside {say.home(span)}"
    excuse = _EXCUSED.get(landing.excuse, "")
    return f"{say.name(note)}, {what}{excuse}, on {say.beat_of_bar(*landing.place)}"


def _at_home(account: Account, landing: Landing) -> bool:
    """Whether a chord tone stands there."""
    return account.spans[landing.span].membership(account.notes[landing.note].midi % 12) == CHORD


def _all_but_one(away: str, what: str, best: str, firm: str, home: int) -> str:
    """Say that all strong beats but one hold chord tones, `best` the firmest of them."""
    if home == 1:
        return f"Of the two strong beats one has {firm}, the other {what}."
    above = "" if what.startswith(f"{best},") else f", {best} above all"
    return f"But for {away}, the strong beats hold chord tones{above}."


_EXCUSED = {
    SUSPENSION: " and hanging over", LEANING: " and leaning", PASSING: " and passing", BLUE: " and blue",
    PEDAL: " and a pedal",
    "start of an enclosure": " and opening an enclosure",
}  # fmt: skip
