"""What is said of takes: sentences for people, values for programs, pictures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shedbook.analysis.naming.spoken_names import name_words
from shedbook.book.lessons.session_list import session_row
from shedbook.book.verbs.takes import HeardSlate, ListenedTo, Take, TakesFound
from shedbook.listen.keeping import over_noise_db
from shedbook.listen.measures import BarFeel
from shedbook.listen.note_search import EXTRA, WRONG
from shedbook.listen.sound_pieces import Heard
from shedbook.listen.tables.keeping import OUT_OF_TUNE_CENTS
from shedbook.listen.tables.published import LAG, SWING, PublishedRow
from shedbook.listen.take_picture import take_picture
from shedbook.listen.take_reading import MISSING, Slip, UnknownPiece
from shedbook.phrase.model import sounding_notes
from shedbook.theory.key import Key
from shedbook.theory.metre import beat_words
from shedbook.theory.pitch import NoteName, spellings

_MOST_OUT_OF_TUNE = 4
UNSURE = 0.6
_CLIPPED_SHOWN = 3
CONSENT = (
    "Recordings stay on this machine: nothing of them is sent anywhere. Where students or other people are "
    "recorded, ask them before (for minors their parents), say what the recording is for, and delete it when "
    "it has served."
)


def take_lines(take: Take) -> tuple[str, ...]:
    """Return all that is said of a take, a line each, the first what it is."""
    reading = take.reading
    head = (
        f"take {take.number}: {clock(reading.start_s)} to {clock(reading.end_s)} of {take.recording.name}, "
        f"phrase {take.source.number}, “{take.source.title}”, in {take.key}"
    )
    if take.slate is not None:
        head += f", after slate {take.slate}"
    found = [head, *take.amiss, *_tempo_amiss(take), *(slip_words(take, slip) for slip in reading.slips)]
    if not reading.slips:
        found.append("Every note is as written.")
    found += [*intonation_lines(take), *tempo_lines(take), *_feel_lines(take)]
    against = "; ".join(one.words for one in take.verdict.against)
    if take.kept:
        found.append(f"Keep this one{f', though: {against}' if against else ': nothing speaks against it'}.")
    elif not take.verdict.usable:
        found.append("Not to keep: too many notes are not as written.")
    elif against:
        found.append(f"Against it: {against}.")
    return tuple(found)


def slip_words(take: Take, slip: Slip) -> str:
    """Return a slip as a sentence with its bar and beat."""
    names = take.spoken_names
    doubt = " (hard to hear; listen to it)" if slip.doubt > UNSURE else ""
    if slip.kind == EXTRA:
        sounded = sounded_name(take, slip)
        if slip.which < 0:
            return f"An extra note, {sounded}, before the first{doubt}."
        return f"{_where(take, slip.which)}: an extra note, {sounded}, after {names[slip.which]}{doubt}."
    if slip.kind == MISSING:
        return f"{_where(take, slip.which)}: {names[slip.which]} is missing."
    return f"{_where(take, slip.which)}: {sounded_name(take, slip)} in place of {names[slip.which]}{doubt}."


def sounded_name(take: Take, slip: Slip) -> str:
    """Return the name of what sounded, spelled to go with the key; "" for nothing."""
    return "" if slip.sounded is None else name_words(name_in(take.key, slip.sounded))


def name_in(key: Key, midi: int) -> NoteName:
    """Return the name of a sounding note, spelled to go with a key."""
    names = (pitch.name for pitch in spellings(midi) if abs(pitch.alteration) <= 1)
    return min(names, key=lambda name: abs(name.fifths - key.signature - 2))


def unsure_notes(take: Take) -> tuple[int, ...]:
    """Return the written notes that were heard as written, though little speaks for it."""
    return tuple(index for index, note in take.reading.right if note.doubt > UNSURE)


def unsure_words(take: Take, index: int) -> str:
    """Return that a note was hard to hear, as a sentence with its bar and beat."""
    return f"{_where(take, index)}: {take.spoken_names[index]} is hard to hear; listen to it."


def _where(take: Take, index: int) -> str:
    note = take.line.notes[index]
    return f"Bar {note.bar}, beat {beat_words(note.beat)}"


def _tempo_amiss(take: Take) -> list[str]:
    if take.filed_bpm == take.meant_bpm:
        return []
    whose = "the phrase's" if take.planned is None else "the session's"
    return [
        f"The tempo is about {take.played_bpm:.0f}, {whose} {take.meant_bpm}: it is filed under the "
        "tempo that was played."
    ]


def intonation_lines(take: Take) -> list[str]:
    """Return what is said of a take's tuning; nothing where too few notes tell."""
    found = take.measures.intonation
    if found is None:
        return []
    side = "sharp" if found.cents > 0 else "flat"
    lines = [
        f"Tuning: A4 at {found.a4_hz:.1f} Hz, {_cents(abs(found.cents))} {side}; single notes "
        f"{_cents(found.spread)} from that (median)."
    ]
    far = sorted(
        (
            (abs(cents - found.cents), index, cents - found.cents)
            for index, cents in enumerate(found.notes)
            if cents is not None
        ),
        reverse=True,
    )
    far = [one for one in far if one[0] > OUT_OF_TUNE_CENTS]
    if far:
        named = ", ".join(
            f"{take.spoken_names[index]} in bar {take.line.notes[index].bar} on "
            f"{beat_words(take.line.notes[index].beat)} "
            f"({cents:+.0f})"
            for _, index, cents in far[:_MOST_OUT_OF_TUNE]
        )
        more = f" and {len(far) - _MOST_OUT_OF_TUNE} more" if len(far) > _MOST_OUT_OF_TUNE else ""
        lines.append(f"Farthest from its own tuning, in cents: {named}{more}.")
    return lines


def _cents(value: float) -> str:
    whole = round(value)
    return "1 cent" if whole == 1 else f"{whole} cents"


def tempo_lines(take: Take) -> list[str]:
    """Return what is said of a take's tempo; nothing where too few notes tell."""
    tempo = take.measures.tempo
    if tempo is None:
        return []
    beat = float(take.line.beat_quarters)
    drift = f"{abs(tempo.drift):.0%} {'faster' if tempo.drift > 0 else 'slower'} at its end"
    return [
        f"Tempo: {tempo.qpm / beat:.1f} (the phrase's is {take.line.tempo_bpm}), "
        f"{drift if abs(tempo.drift) >= 0.01 else 'steady'}."
    ]


def _feel_lines(take: Take) -> list[str]:
    tempo = take.measures.tempo
    qpm = tempo.qpm if tempo is not None else 0.0
    bars = take.measures.bars
    lines = []
    swings = [bar for bar in bars if bar.swing is not None]
    if swings:
        each = ", ".join(f"bar {bar.bar} {bar.swing:.1f} : 1" for bar in swings)
        lines.append(f"Long eighth to short: {each}. Published: {_published(SWING, qpm)}.")
    lags = [bar for bar in bars if bar.lag_ms is not None]
    if lags:
        each = ", ".join(f"bar {bar.bar} {_lag(bar)}" for bar in lags)
        if take.measures.against_click:
            lines.append(f"Behind the click: {each}. Published: {_published(LAG, qpm)}.")
        else:
            lines.append(
                f"Beats against the take's own beat: {each}. (How far behind a band: say --click SECONDS. "
                f"Published: {_published(LAG, qpm)}.)"
            )
    return lines


def _lag(bar: BarFeel) -> str:
    return f"{bar.lag_ms:+.0f} ms"


def _published(rows: Sequence[PublishedRow], qpm: float) -> str:
    return "; ".join(row.says for row in rows if row.low_qpm <= qpm <= row.high_qpm)


def recording_lines(one: ListenedTo) -> tuple[str, ...]:
    """Return what is said of a whole recording."""
    heard = one.heard
    lines = [f"{one.path.name}: {clock(heard.seconds)}, {takes_counted(one.takes)}; {sound_words(heard)}"]
    lines += [_slate(slate) for slate in one.slates]
    lines += [other_words(piece) for piece in one.others if piece.slate is None]
    return tuple(lines)


def sound_words(heard: Heard) -> str:
    """Return what is said of the sound of a recording, a sentence without its beginning."""
    words = f"the notes lie {over_noise_db(heard):.0f} dB over the quietest of it"
    if heard.channels > 1:
        words += f"; its {heard.channels} channels are heard as one"
    if not heard.clipped_s:
        return f"{words}; it is nowhere cut off at full scale."
    shown = ", ".join(clock(at) for at in heard.clipped_s[:_CLIPPED_SHOWN])
    more = (
        f" and {len(heard.clipped_s) - _CLIPPED_SHOWN} more" if len(heard.clipped_s) > _CLIPPED_SHOWN else ""
    )
    return f"{words}; it is cut off at full scale at {shown}{more}: turn the input down."


def other_words(piece: UnknownPiece) -> str:
    """Return what is said of a piece of a recording that is no take."""
    span = f"{clock(piece.start_s)} to {clock(piece.end_s)}"
    if not piece.notes:
        return f"{span} is noise: no note is heard in it."
    counted = "1 note" if piece.notes == 1 else f"{piece.notes} notes"
    return (
        f"{span} is no phrase of this book ({counted}): a slate that is only spoken, talk, or something else."
    )


def _slate(one: HeardSlate) -> str:
    """Return what is said of a slate: what it names, and whether anything follows."""
    words = f"slate {one.slate.number} at {clock(one.slate.start_s)}"
    if one.planned is not None:
        plan = one.planned
        words += f": phrase {plan.phrase}, “{plan.title}”, in {plan.key} at {plan.tempo_bpm}"
    return f"{words}; {takes_counted(one.takes)} after it."


def takes_counted(count: int) -> str:
    """Return how many takes there are, in words."""
    return "no take" if not count else "1 take" if count == 1 else f"{count} takes"


def clock(seconds: float) -> str:
    """Return a place in a recording as minutes and seconds."""
    minutes, rest = divmod(round(seconds, 1), 60)
    return f"{int(minutes)}:{rest:04.1f}"


def picture_of(take: Take) -> str:
    """Return a take as an SVG document."""
    title = f"Take {take.number}: {take.source.number} {take.source.title}, {take.key}"
    return take_picture(
        take.reading,
        take.line,
        take.measures,
        title=title,
        names=take.note_names,
        remarks=take_lines(take)[1:],
    )


def takes_json(found: TakesFound) -> dict[str, Any]:
    """Return all that was heard as JSON values."""
    return {
        "takes": [take_json(take) for take in found.takes],
        "recordings": [
            {
                "recording": str(one.path),
                "seconds": round(one.heard.seconds, 3),
                "takes": one.takes,
                "clipped_s": [round(at, 3) for at in one.heard.clipped_s],
                "over_noise_db": round(over_noise_db(one.heard), 1),
                "other_pieces": [
                    {"start_s": round(piece.start_s, 3), "end_s": round(piece.end_s, 3), "notes": piece.notes}
                    for piece in one.others
                    if piece.slate is None
                ],
                "slates": [
                    {
                        "number": slate.slate.number,
                        "start_s": round(slate.slate.start_s, 3),
                        "end_s": round(slate.slate.end_s, 3),
                        "takes": slate.takes,
                        "planned": None if slate.planned is None else session_row(slate.planned),
                    }
                    for slate in one.slates
                ],
            }
            for one in found.recordings
        ],
        "refused": [{"recording": str(path), "error": error.message} for path, error in found.refused],
    }


def take_json(take: Take) -> dict[str, Any]:
    """Return a take as JSON values."""
    tempo, tuning = take.measures.tempo, take.measures.intonation
    written = sounding_notes(take.phrase)
    return {
        "recording": str(take.recording),
        "take": take.number,
        "phrase": take.source.number,
        "title": take.source.title,
        "key": str(take.key),
        "start_s": round(take.reading.start_s, 4),
        "end_s": round(take.reading.end_s, 4),
        "keep": take.kept,
        "slate": take.slate,
        "filed_bpm": take.filed_bpm,
        "amiss": list(take.amiss),
        "against": [one.words for one in take.verdict.against],
        "slips": [
            {
                "kind": slip.kind,
                "bar": take.line.notes[max(0, slip.which)].bar,
                "beat": beat_words(take.line.notes[max(0, slip.which)].beat),
                "written": None if slip.kind == EXTRA else str(written[slip.which].pitch.name),
                "sounded": None if slip.sounded is None else str(name_in(take.key, slip.sounded)),
                "at_s": None if slip.at_s is None else round(slip.at_s, 4),
                "unsure": slip.kind in (WRONG, EXTRA) and slip.doubt > UNSURE,
            }
            for slip in take.reading.slips
        ],
        "a4_hz": None if tuning is None else round(tuning.a4_hz, 2),
        "tempo_bpm": None if tempo is None else round(tempo.qpm / float(take.line.beat_quarters), 2),
        "drift": None if tempo is None else round(tempo.drift, 4),
        "bars": [
            {"bar": bar.bar, "swing": _rounded(bar.swing, 2), "lag_ms": _rounded(bar.lag_ms, 1)}
            for bar in take.measures.bars
        ],
        "notes": [
            {
                "bar": note.bar,
                "beat": beat_words(note.beat),
                "at_s": None if played is None else round(played.start_s, 4),
                "cents": None if tuning is None else _rounded(tuning.notes[index], 1),
            }
            for index, (note, played) in enumerate(zip(take.line.notes, take.reading.played, strict=True))
        ],
    }


def _rounded(value: float | None, digits: int) -> float | None:
    return None if value is None else round(value, digits)
