"""What the explanation says of the strong beats: what stands there, and where it is no chord tone."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.landings import Landing
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.reasons import BLUE, LEANING, PASSING, PEDAL, SUSPENSION
from shedbook.analysis.remark import SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital
from shedbook.analysis.words import joined, number_words


def strong_beats(account: Account, say: Speaker) -> Iterator[Remark]:
    """What stands on the strong beats."""
    strong = [landing for landing in account.landings if landing.on_strong_beat]
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
    others = [landing for landing in strong if not account.notes[landing.note].in_chord]
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
    thirds = [note for note in notes if note.degree in ("3", "b3")]
    if len(notes) <= _MOST_LISTED:
        names, which = say.names(notes), _which_thirds(say, thirds)
        return (
            Build("place", f"On the strong beats stand {names}{which or ', chord tones all'}."),
            Build("count", f"Every strong beat holds a chord tone: {names}{which}."),
            Build("note", f"{names} take the strong beats{which or ', chord tones all'}."),
        )
    first, last, every = say.name(notes[0]), say.name(notes[-1]), number_words(len(notes))
    which = _which_thirds(say, thirds)
    return (
        Build("count", f"All {every} strong beats hold chord tones, from {first} to {last}{which}."),
        Build("place", f"On the strong beats stand chord tones throughout, {first} to {last}{which}."),
        Build("chord", f"Chord tones take every strong beat, {first} the first and {last} the last{which}."),
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
        colour = account.notes[others[0].note].inside
        kind = "a colour, " if colour else ""
        rest = f"chord tones hold the others, {firm}, above all" if len(home) > 1 else f"the other has {firm}"
        return (
            Build("count", f"One strong beat goes to {kind}{parts[0]}; {rest}."),
            Build(
                "note", f"{parts[0]}, is {'a colour' if colour else 'what stands'} on a strong beat; {rest}."
            ),
            Build("place", f"On the strong beats there is {kind}{parts[0]}; {rest}."),
        )
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
    note = account.notes[landing.note]
    what = say.degree(note) if note.inside else f"outside {say.chord(note.span)}"
    excuse = _EXCUSED.get(landing.excuse, "")
    return f"{say.name(note)}, {what}{excuse}, on {say.place(note)}"


_EXCUSED = {
    SUSPENSION: " and hanging over", LEANING: " and leaning", PASSING: " and passing", BLUE: " and blue",
    PEDAL: " and a pedal",
    "start of an enclosure": " and opening an enclosure",
}  # fmt: skip
