"""The proof-reader: what in a phrase, or between the phrases of a book, wants a second look.

`proof` reads one account, `proof_book` several. Each rule stands in the table of rules and can be silenced
by name, in the phrase or by the caller for the whole book. Nothing here stops anything.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from shedbook.analysis.account import Account, felt_beat
from shedbook.analysis.account.landings import excuse
from shedbook.analysis.account.melodic_links import BAR_LINE, CHANGE, Link
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import OUTSIDE
from shedbook.analysis.naming.language import joined
from shedbook.analysis.naming.spoken_names import (
    chord_words,
    degree_words,
    interval_words,
    name_words,
    pitch_words,
)
from shedbook.analysis.proof.between_phrases import proof_book
from shedbook.analysis.proof.finding import RULE, Finding, finding_at, finding_of
from shedbook.analysis.roles.reasons import BLUE, PEDAL, SUSPENSION, UNACCOUNTED
from shedbook.errors import nearest
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch, spellings

__all__ = ["RULE", "Finding", "proof", "proof_book", "unknown_silences"]

MOST_BARS = 16
"""More than these and a phrase is several [the project's design]."""

LOWEST_MIDI, HIGHEST_MIDI, WIDEST = 36, 96, 31
"""C2 and C7, beyond which a line lies in an extreme register; two octaves and a fifth, in semitones."""


def proof(
    account: Account, *, silenced: Collection[str] = (), also_known: Collection[str] = ()
) -> tuple[Finding, ...]:
    """Return the findings of a phrase in order of place, without the rules that it or the caller silences.

    `also_known` names rules of others that a phrase may silence, such as those of editions.
    """
    quiet = {*silenced, *(rule for rule, _ in account.phrase.silence)}
    found = [
        finding
        for check in (_bars, _ties, _length, _notes, _scales, _leaps, _range, _spelling)
        for finding in check(account)
        if finding.rule not in quiet
    ]
    found += unknown_silences([rule for rule, _ in account.phrase.silence], quiet, also_known)
    return tuple(sorted(found, key=lambda one: (one.bar or 0, one.beat or Fraction(0), one.rule)))


# What is written.


def _bars(account: Account) -> Iterator[Finding]:
    phrase = account.phrase
    for bar in phrase.bars:
        over = bar.quarters - phrase.metre.bar_quarters
        if over == 0 or (bar.number == 0 and over < 0):
            continue
        beats = abs(over) / phrase.metre.beat_quarters
        size = f"{beats} beat{'s' if beats > 1 else ''} too {'long' if over > 0 else 'short'}"
        yield finding_of("bar-does-not-fill", bar.number, None, f"Bar {bar.number} is {size}.")


def _ties(account: Account) -> Iterator[Finding]:
    before: Pitch | None = None
    for bar in account.phrase.bars:
        for event in bar.events:
            if (
                event.tie_in
                and event.pitch is not None
                and (before is None or before.midi != event.pitch.midi)
            ):
                start = "a rest" if before is None else pitch_words(before)
                message = f"A tie goes from {start} to {pitch_words(event.pitch)}."
                yield finding_of("tie-to-another-pitch", bar.number, Fraction(1), message)
            before = event.pitch


def _length(account: Account) -> Iterator[Finding]:
    bars = account.phrase.full_bars
    if bars > MOST_BARS:
        yield finding_of("long-phrase", None, None, f"The phrase has {bars} bars.")


# What the notes do.


def _notes(account: Account) -> Iterator[Finding]:
    for note in account.notes:
        contradiction = _contradiction(account, note)
        if contradiction is not None:
            yield contradiction
        elif not note.inside:
            yield from _outside(account, note)
        elif note.passes_through:
            yield from _held(account, note)
        yield from _kept_on(account, note)


_AGAINST = {
    # Degree heard: what the chord has instead, and the chords meant.
    "3": "b3", "7": "b7", "b7": "7", "5": "alt",
}  # fmt: skip


def _contradiction(account: Account, note: NoteAccount) -> Finding | None:
    """A note against the chord's own third, fifth or seventh: held or accented, and not excused."""
    chord = note.span.chord
    if note.inside or chord.root is None or not _speaks_against(note.degree, chord):
        return None
    beat = felt_beat(account.phrase.metre)
    sustained = note.quarters > beat or (note.quarters >= beat and note.role == UNACCOUNTED)
    accented = note.strong and note.role == UNACCOUNTED
    if note.role in (SUSPENSION, BLUE, PEDAL) or not (sustained or accented):
        return None
    name = pitch_words(note.pitch)
    heard = "a minor third" if note.degree == "#9" else degree_words(note.degree, chord)
    message = (
        f"{name} is {heard} over {chord_words(chord)}, "
        f"and it {'is held' if sustained else 'stands on a strong beat'}."
    )
    return finding_at("chord-contradicted", note, message, f"Change {name}, or the symbol {chord.text}.")


def _speaks_against(degree: str, chord: Chord) -> bool:
    if degree == "5":
        return chord.altered or chord.fifth in ("b5", "#5")
    if degree == "#9":  # a colour over a dominant, the wrong third over a major chord
        return chord.family == "major" and chord.third == "3"
    return chord.degrees.count(_AGAINST.get(degree, "")) > 0


def _kept_on(account: Account, note: NoteAccount) -> Iterator[Finding]:
    """A note held for a beat or more into a chord that it is outside of, and not resolved by step."""
    if note.role in (SUSPENSION, PEDAL) or _resolved(account, note):
        return
    metre, sounding = account.phrase.metre, note.midi % 12
    for span in account.spans[note.span.index + 1 :]:
        held = min(note.end, span.end) - span.start
        if held < felt_beat(metre):
            return
        if span.chord.root is None or span.membership(sounding) != OUTSIDE:
            continue
        bar, rest = divmod(span.start, metre.bar_quarters)
        degree = span.degrees[sounding]
        rule = "chord-contradicted" if _speaks_against(degree, span.chord) else "outside-unresolved"
        name, heard = pitch_words(note.pitch), degree_words(degree, span.chord)
        message = f"{name} is held into {chord_words(span.chord)}, where it is {heard}, outside the scale."
        yield finding_of(rule, int(bar) + 1, rest / metre.beat_quarters + 1, message, note=note.index)


def _resolved(account: Account, note: NoteAccount) -> bool:
    """Whether the next note follows at once and by step."""
    after = account.notes[note.index + 1] if note.index + 1 < len(account.notes) else None
    return after is not None and note.joined and 1 <= abs(after.midi - note.midi) <= 2


def _outside(account: Account, note: NoteAccount) -> Iterator[Finding]:
    lost = note.role == UNACCOUNTED
    name, chord = pitch_words(note.pitch), chord_words(note.span.chord)
    slip = _slip(account, note) if lost else None
    if slip is not None:
        message = (
            f"{name} over {chord} is not accounted for; {pitch_words(slip)}, a half step away, would be."
        )
        yield finding_at("likely-slip", note, message, f"Check the accidental: {pitch_words(slip)}?")
    if note.strong and lost:
        message = f"{name} is outside {_home(note)}, stands on a strong beat and is not resolved."
        yield finding_at("strong-beat-outside", note, message)
    elif note.strong and excuse(account.notes, note) == UNACCOUNTED:
        message = f"{name}, {_a(note.role)}, stands on a strong beat outside {_home(note)}."
        yield finding_at("strong-beat-unexcused", note, message)
    elif lost and slip is None:
        message = f"{name} is outside {_home(note)} and no note near it takes it up."
        yield finding_at("outside-unresolved", note, message)


def _a(role: str) -> str:
    return f"{'an' if role[0] in 'aeiou' else 'a'} {role}"


def _home(note: NoteAccount) -> str:
    """Name what a note is outside of: the chord with its scale."""
    chord = chord_words(note.span.chord)
    return f"the {note.span.scale_name} scale of {chord}" if note.span.scale is not None else chord


def _slip(account: Account, note: NoteAccount) -> Pitch | None:
    """Return the pitch a half step away that would be at home, for a lone note among accounted ones."""
    around = [
        account.notes[index] for index in (note.index - 1, note.index + 1) if 0 <= index < len(account.notes)
    ]
    if not around or any(other.role == UNACCOUNTED for other in around):
        return None
    taken = {other.midi for other in around}
    offers = []
    for midi in (note.midi - 1, note.midi + 1):
        kind = note.span.membership(midi % 12)
        if kind == "outside" or midi in taken:
            continue
        pitch = next((one for one in spellings(midi) if one.letter == note.pitch.letter), spellings(midi)[0])
        nearness = sum(abs(other.midi - midi) for other in around)
        offers.append((pitch.letter != note.pitch.letter, kind != "chord", nearness, midi, pitch))
    return min(offers)[-1] if offers else None


def _held(account: Account, note: NoteAccount) -> Iterator[Finding]:
    """A note to pass through that is held, or landed on and not resolved by step."""
    resolved = _resolved(account, note)
    held = note.quarters > felt_beat(account.phrase.metre)
    if note.role == SUSPENSION and resolved:
        return
    if not held and not (note.landing and not resolved):
        return
    degree = degree_words(note.degree, note.span.chord)
    how = "is held" if held else "is landed on and not resolved by step"
    below = name_words(_below(note))
    message = (
        f"{pitch_words(note.pitch)}, {degree} over {chord_words(note.span.chord)}, {how}: "
        f"it lies a half step above {below}."
    )
    yield finding_at("pass-through-held", note, message, f"Pass through it, or resolve it to {below}.")


def _below(note: NoteAccount) -> NoteName:
    """The chord tone a half step under a note."""
    wanted = (note.midi - 1) % 12
    return next(
        (tone for tone in note.span.chord.tones if tone.pitch_class == wanted),
        spellings(note.midi - 1)[0].name,
    )


def _scales(account: Account) -> Iterator[Finding]:
    said = None
    for change, fit in zip(account.phrase.changes, account.fits, strict=True):
        if fit.better is None or fit.scale is None or fit.outside == said:
            continue
        said = fit.outside
        names = list(dict.fromkeys(pitch_words(account.notes[index].pitch) for index in fit.outside))
        message = (
            f"{joined(names)} {'is' if len(names) == 1 else 'are'} outside {fit.scale.name} over "
            f"{chord_words(change.chord)}; {fit.better.name} would hold more of the line."
        )
        mend = f"Name {fit.better.name} over {change.chord.text}, or change the notes."
        yield finding_of("scale-does-not-fit", change.bar, change.beat, message, mend)


_AWKWARD_UNLESS_RECOVERED = frozenset((6, 8, 9))


def _leaps(account: Account) -> Iterator[Finding]:
    recovered = {leap.first: leap.recovered for leap in account.contour.leaps}
    seen = set()
    for link in account.links:
        if link.semitones is None or link.before is None or link.before in seen or link.held is not None:
            continue
        if not (link.kind == BAR_LINE or (link.kind == CHANGE and link.beat == 1)):
            continue
        seen.add(link.before)
        size = abs(link.semitones)
        awkward = size in (10, 11) or size > 12
        awkward = awkward or (size in _AWKWARD_UNLESS_RECOVERED and not recovered.get(link.before, True))
        if awkward and account.notes[link.before].joined:
            yield _leap(account, link)


def _leap(account: Account, link: Link) -> Finding:
    before, after = account.notes[link.before or 0], account.notes[link.after or 0]
    size = interval_words(link.semitones or 0)
    way = "up" if after.midi > before.midi else "down"
    message = f"The line leaps {way} {size} over the bar line, {pitch_words(before.pitch)} to "
    return finding_at("leap-over-bar-line", after, message + f"{pitch_words(after.pitch)}.")


def _range(account: Account) -> Iterator[Finding]:
    shape = account.contour
    if shape.highest is None or shape.lowest is None:
        return
    low, high = account.notes[shape.lowest], account.notes[shape.highest]
    for note, extreme in ((low, low.midi < LOWEST_MIDI), (high, high.midi > HIGHEST_MIDI)):
        if extreme:
            yield finding_at("range", note, f"{note.pitch} lies in an extreme register.")
    if shape.range > WIDEST:
        yield finding_at(
            "range", high, f"The line spans {shape.range} half steps, from {low.pitch} to {high.pitch}."
        )


# How it is written.


def _spelling(account: Account) -> Iterator[Finding]:
    written: dict[tuple[int, int], Pitch] = {}
    for note in account.notes:
        pitch = note.pitch
        known = written.setdefault((note.bar, pitch.midi), pitch)
        plain = spellings(pitch.midi)[0]
        if abs(pitch.alteration) > 1 or (_odd(pitch) and not _asked_for(note)):
            message = f"{pitch_words_exact(pitch)} is easily misread."
            yield finding_at("misread-accidental", note, message, f"Write {pitch_words(plain)}.")
        elif known.step != pitch.step:
            message = f"{pitch_words(pitch)} stands as {pitch_words(known)} in the same bar."
            yield finding_at("misread-accidental", note, message, "Write both alike.")


def pitch_words_exact(pitch: Pitch) -> str:
    """Return a pitch's name as it is written, double accidentals kept."""
    sign = {-2: " double flat", -1: " flat", 0: "", 1: " sharp", 2: " double sharp"}
    return pitch.letter + sign.get(pitch.alteration, " out of reach")


def _odd(pitch: Pitch) -> bool:
    return (pitch.letter in "EB" and pitch.alteration == 1) or (
        pitch.letter in "CF" and pitch.alteration == -1
    )


def _asked_for(note: NoteAccount) -> bool:
    """Whether chord or scale spell the note as it is written."""
    scale = note.span.scale
    names = set(note.span.chord.tones) | (set() if scale is None else set(scale.notes))
    return note.pitch.name in names


def unknown_silences(
    rules: Collection[str], silenced: Collection[str], also_known: Collection[str] = ()
) -> tuple[Finding, ...]:
    """Return a finding for each rule that a phrase or a book silences and nobody knows."""
    own, known = "silence-names-no-rule", (*RULE, *also_known)
    if own in silenced:
        return ()
    return tuple(
        finding_of(own, None, None, f'No rule is called "{rule}".', nearest(rule, known) or RULE[own].mend)
        for rule in rules
        if rule not in known
    )
