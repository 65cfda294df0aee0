"""A phrase while it is being written: read, accounted for, explained, proof-read and drawn, at every key.

What cannot be read is an error with its key and its offsets, as everywhere; nothing is read from disk.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.account.landings import strength
from shedbook.analysis.proof import Finding, Remedy, finding_in, proof
from shedbook.analysis.telling import explain
from shedbook.book.ground.words import EN, words_of
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.author_findings import author_findings
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import Placing, placing_of
from shedbook.book.scores.study import EDITION_RULE_NAMES, Studied, study
from shedbook.editions.instruments.edition import Edition
from shedbook.engrave.drawing.kept_systems import KeptSystems
from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import NO_STUDY_MARKS
from shedbook.phrase.changes_edits import chord_edit, scales_with
from shedbook.phrase.line_edits import edited, pitch_edits
from shedbook.phrase.line_text import event_spans
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import NoteName, spellings
from shedbook.theory.scale import parse_scale

STILL, COLOUR, THROUGH, OUTSIDE = range(4)
"""How much a note wants to move on over its chord: not at all; a colour; to pass through; outside."""

_TENSIONS = {"outside": OUTSIDE, "to pass through": THROUGH, "colour": COLOUR}
"""Tension by the strength of a landing [the project's design]; the firm ones are still."""

_NARROWEST_MM, _WIDEST_MM = 60.0, 400.0


class Told(NamedTuple):
    """A sentence of the explanation: as computed, and as its author has written it, "" where not at all."""

    computed: str
    own: str


class Mendable(NamedTuple):
    """A finding in the words of the book, and the texts that would mend it, by their keys.

    There are none where it needs thought.
    """

    finding: Finding
    mends: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Looked:
    """All that is shown of a phrase while it is written.

    `tensions` go with the notes, `names` with the changes: for each of the twelve pitch classes the name that
    an author would write there; `inside` are those of chord and scale. `spans` are the offsets of the notes
    in the line.
    """

    phrase: Phrase
    account: Account
    drawing: Drawing
    sentences: tuple[Told, ...]
    findings: tuple[Mendable, ...]
    tensions: tuple[int, ...]
    names: tuple[tuple[str, ...], ...]
    inside: tuple[tuple[str, ...], ...]
    spans: tuple[tuple[int, int], ...]


def read_fields(fields: Mapping[str, Any], settings: Settings) -> Phrase:
    """Return the phrase of its own keys in a book with these settings.

    Raises:
        ReadError: if it cannot be read; its field and offsets say where.
    """
    return PhraseText({**settings.defaults.fields, **fields}).phrase()


def look(
    fields: Mapping[str, Any],
    settings: Settings,
    *,
    width_mm: float = 200.0,
    kept: KeptSystems | None = None,
) -> Looked:
    """Return all that is shown of a phrase.

    Args:
        fields: its own keys.
        settings: those of its book.
        width_mm: how wide the score may be.
        kept: the systems that were drawn before, of which those that have not changed are taken.

    Raises:
        ReadError: if the phrase cannot be read; its field and offsets say where.
        RenderError: if it cannot be drawn.
    """
    studied = study(read_fields(fields, settings))
    phrase, account = studied.phrase, studied.account
    words = words_of(settings.language, dict(settings.pages.words))
    line = str(fields.get("line", ""))
    own = dict(phrase.sentences)
    told = explain(account, with_commentary=False, words=words)
    by_event, inside = event_spans(line), _inside(account)
    return Looked(
        phrase=phrase,
        account=account,
        drawing=(kept or KeptSystems()).draw(phrase, _style(width_mm, settings)),
        sentences=tuple(Told(one, own.get(one, "")) for one in told),
        findings=tuple(
            Mendable(one if words is EN else finding_in(one, words), _mends(one.remedy, fields, phrase))
            for one in _found(studied, settings)
        ),
        tensions=tuple(_TENSIONS.get(strength(note), STILL) for note in account.notes),
        names=_names(account, inside),
        inside=inside,
        spans=tuple(by_event[note.event[0]][note.event[1]] for note in sounding_notes(phrase)),
    )


def _style(width_mm: float, settings: Settings) -> ScoreStyle:
    width = min(max(width_mm, _NARROWEST_MM), _WIDEST_MM)
    return ScoreStyle(width_mm=width, signature=settings.signatures, courtesy=settings.courtesy, tempo=False)


def _found(studied: Studied, settings: Settings) -> Sequence[Finding]:
    quiet, language = settings.silenced, settings.language
    return (
        *proof(studied.account, silenced=quiet, also_known=EDITION_RULE_NAMES),
        *author_findings(studied.account, silenced=quiet, language=language),
    )


def _mends(remedy: Remedy | None, fields: Mapping[str, Any], phrase: Phrase) -> dict[str, str]:
    """Return the texts that a remedy writes."""
    if remedy is None:
        return {}
    found = {}
    if remedy.pitches:
        line = str(fields["line"])
        found["line"] = edited(line, pitch_edits(line, dict(remedy.pitches)))
    if remedy.scale:
        found["scales"] = with_scale(fields, phrase, remedy.change, remedy.scale)
    if remedy.chord:
        text = str(fields["changes"])
        edit = chord_edit(text, phrase.changes, remedy.change, remedy.chord)
        if edit is not None:
            found["changes"] = edited(text, [edit])
    return found


def with_scale(fields: Mapping[str, Any], phrase: Phrase, change: int, name: str) -> str:
    """Return the text of a phrase's scales with a scale named over a change.

    Raises:
        UnknownNameError: if there is no such scale.
    """
    scale = parse_scale(name, root=phrase.changes[change].chord.root)
    return scales_with(str(fields.get("scales", "")), phrase.changes, phrase.scales, change, scale)


def _inside(account: Account) -> tuple[tuple[str, ...], ...]:
    """Return the names of chord and scale over each change, those of the chord first."""
    found = []
    for place in range(len(account.phrase.changes)):
        span = next((one for one in account.spans if one.first_change <= place <= one.last_change), None)
        names: dict[int, NoteName] = {}
        for name in () if span is None else (*span.chord.tones, *(span.scale.notes if span.scale else ())):
            names.setdefault(name.pitch_class, name)
        found.append(tuple(str(name).lower() for name in names.values()))
    return tuple(found)


def _names(account: Account, inside: Sequence[Sequence[str]]) -> tuple[tuple[str, ...], ...]:
    """Return what each pitch class is called over each change: by chord, by scale, else plainly by key."""
    flat = account.phrase.key.signature <= 0
    found = []
    for own in inside:
        known = {NoteName.parse(name).pitch_class: name for name in own}
        found.append(tuple(known.get(one) or str(_plain(one, flat)).lower() for one in range(12)))
    return tuple(found)


def _plain(pitch_class: int, flat: bool) -> NoteName:
    ways = [pitch.name for pitch in spellings(60 + pitch_class) if abs(pitch.alteration) <= 1]
    natural = next((one for one in ways if not one.alteration), None)
    return natural or next(one for one in ways if (one.alteration < 0) == flat)


# Many scores at once


def small_score(fields: Mapping[str, Any], settings: Settings, *, width_mm: float = 110.0) -> Drawing:
    """Return a phrase as a small score for a list.

    Raises:
        ReadError: if it cannot be read.
    """
    style = ScoreStyle(staff_mm=4.5, width_mm=width_mm, tempo=False, courtesy=settings.courtesy)
    return draw(read_fields(fields, settings), NO_STUDY_MARKS, style)


class InKey(NamedTuple):
    """A phrase in one key as the reader of an edition sees it."""

    name: str
    drawing: Drawing


def in_all_keys(
    fields: Mapping[str, Any],
    settings: Settings,
    edition: Edition,
    *,
    tonic: str = "",
    width_mm: float = 120.0,
) -> tuple[InKey, ...]:
    """Return a phrase drawn in every key of the book for an edition, or in one that is named.

    Raises:
        ReadError: if it cannot be read.
        UnknownNameError: for a tonic that is none.
    """
    studied = study(read_fields(fields, settings))
    placing: Placing = placing_of(studied, key_order(settings, (tonic,) if tonic else ()), edition)
    style = ScoreStyle(
        staff_mm=6.0, width_mm=width_mm, clef=edition.clef, signature=settings.signatures,
        courtesy=settings.courtesy, tempo=False,
    )  # fmt: skip
    drawn = draw_all(
        [one.phrase for one in placing.keys], NO_STUDY_MARKS, style, [one.tab for one in placing.keys]
    )
    return tuple(
        InKey(str(one.key.written), drawing) for one, drawing in zip(placing.keys, drawn, strict=True)
    )
