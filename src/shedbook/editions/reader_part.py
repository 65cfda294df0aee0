"""A phrase placed for a reader: in each key at its best register, written and spelled for the edition."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from shedbook.editions.compass import Compass, compass_of
from shedbook.editions.fingering.fingerboard import Fingerboard
from shedbook.editions.fingering.tab import Tab, tab_of
from shedbook.editions.instruments.edition import AUTHOR, Edition
from shedbook.editions.instruments.instrument import Band
from shedbook.editions.keys.phrase_in_key import moved_to_key
from shedbook.editions.keys.reader_keys import ReaderKey
from shedbook.editions.registers.octave_choice import Way, fits, registers, written_notes
from shedbook.editions.registers.octave_fold import Cut, cuts_of, folded
from shedbook.editions.spelling.spelling_plan import SpellingPlan, plan_spelling
from shedbook.editions.tables.edition_rules import EDITION_RULES, FOLDED_MEND, EditionRule
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_words

_RULES = MappingProxyType({row.name: row for row in EDITION_RULES})


@dataclass(frozen=True, slots=True)
class EditionFinding:
    """Something that the proof-reader says of one key of one edition.

    `bar`, `beat` and `note`, an index as in `sounding_notes`, say where it begins.
    """

    rule: str
    severity: str
    bar: int
    beat: Fraction
    message: str
    mend: str
    note: int
    edition: str
    key: ReaderKey


@dataclass(frozen=True, slots=True)
class ReaderPart:
    """A phrase in one key of an edition.

    `phrase` is as the reader sees it: notes, chords, scales and key in written pitch. `semitones` is how
    much higher it sounds than the author wrote it, and `octaves` how many octaves of that are a choice of
    register, the nearest transposition being 0. After a `fold` its notes lie another `fold_octaves` off.
    `tab` are the strings and frets of its notes, where the edition has tablature.
    """

    phrase: Phrase
    key: ReaderKey
    semitones: int
    octaves: int
    fold: Cut | None
    fold_octaves: int
    findings: tuple[EditionFinding, ...]
    tab: Tab | None = None


def reader_parts(
    phrase: Phrase,
    keys: Iterable[ReaderKey],
    edition: Edition,
    *,
    fold: bool = False,
    held: Iterable[tuple[int, int]] = (),
) -> tuple[ReaderPart, ...]:
    """Return a phrase in each of the keys as the reader of an edition sees it.

    The registers are chosen together, so the same phrase may lie elsewhere when other keys are asked for.

    Args:
        phrase: the phrase as its author wrote it, in concert pitch.
        keys: the keys in the order in which they are read.
        edition: whose transposition, ranges and policy.
        fold: whether the phrase may be folded in keys in which no octave serves.
        held: as `cuts_of` takes it: what the analysis says shall not be torn apart.

    Raises:
        ShedbookError: if in some key no octave lies between A0 and C8.
    """
    wanted = tuple(keys)
    cuts = cuts_of(phrase, held) if fold and edition.policy != AUTHOR else None
    ways = registers(phrase, [key.concert for key in wanted], edition, cuts)
    layout = plan_spelling(phrase)
    reach = compass_of(phrase)
    silenced = {rule for rule, _ in phrase.silence}
    found = []
    for key, way in zip(wanted, ways, strict=True):
        findings = (
            _findings(phrase, reach, way, key, edition, cuts is not None) if edition.policy != AUTHOR else ()
        )
        written = _written(phrase, layout, way, key, edition)
        tab = None
        if edition.tablature is not None:
            tab = tab_of(written, edition.tablature, edition.transposition.semitones)
            findings += _off_the_fingerboard(written, tab, edition.tablature, key, edition)
        found.append(
            ReaderPart(
                written,
                key,
                way.semitones,
                _octaves(way.semitones),
                way.cut,
                (way.after - way.semitones) // 12,
                tuple(finding for finding in findings if finding.rule not in silenced),
                tab,
            )
        )
    return tuple(found)


def _octaves(semitones: int) -> int:
    """Return the octaves in a move, a tritone either way being none."""
    octaves = (abs(semitones) + 5) // 12
    return octaves if semitones > 0 else -octaves


def _written(phrase: Phrase, layout: SpellingPlan, way: Way, key: ReaderKey, edition: Edition) -> Phrase:
    semitones = way.semitones + edition.transposition.semitones
    if way.cut is None:
        return moved_to_key(phrase, key.written, semitones, layout)
    turned = folded(phrase, way.cut, (way.after - way.semitones) // 12)
    return moved_to_key(turned, key.written, semitones, plan_spelling(turned))


# Findings.


def _findings(
    phrase: Phrase, reach: Compass, way: Way, key: ReaderKey, edition: Edition, folding: bool
) -> tuple[EditionFinding, ...]:
    found = []
    if way.cut is not None:
        turn = "higher" if way.after > way.semitones else "lower"
        message = (
            f"{_heading(key, edition)} the line goes on an octave {turn} from bar {way.cut.bar}, "
            f"beat {beat_words(way.cut.beat)}, for {edition.reader_words}."
        )
        found.append(_finding(_RULES["folded"], phrase, way.cut.note, message, key, edition))
    if not fits(reach, way, edition):
        notes = written_notes(reach, way, edition.transposition.semitones)
        outside = _out_of_range(phrase, notes, key, edition)
        found.append(replace(outside, mend=FOLDED_MEND) if folding else outside)
    return tuple(found)


def _out_of_range(
    phrase: Phrase, notes: Sequence[tuple[int, int]], key: ReaderKey, edition: Edition
) -> EditionFinding:
    """Return the finding for the notes outside the widest band that is left."""
    rule, words, band = "out-of-reach", "out of reach of", edition.bands.extreme
    outside = _outside(notes, band)
    if not outside:
        rule, words, band = "out-of-range", "outside the full range of", edition.bands.full
        outside = _outside(notes, band)
    count = len(set(outside))
    subject = "one note lies" if count == 1 else f"{count} notes lie"
    message = (
        f"{_heading(key, edition)}: in the best octave {subject} {words} {edition.reader_words}, "
        f"written {band}."
    )
    return _finding(_RULES[rule], phrase, min(outside), message, key, edition)


def _off_the_fingerboard(
    written: Phrase, tab: Tab, board: Fingerboard, key: ReaderKey, edition: Edition
) -> tuple[EditionFinding, ...]:
    """Return the finding for the notes that are on no string."""
    missing = tab.missing
    if not missing:
        return ()
    subject = "one note is" if len(missing) == 1 else f"{len(missing)} notes are"
    message = (
        f"{_heading(key, edition)} {subject} not on the fingerboard of {edition.reader_words}, tuned "
        f"{board.tuning}, with {board.frets} frets: the tablature is empty there."
    )
    return (_finding(_RULES["off-fingerboard"], written, missing[0], message, key, edition),)


def _outside(notes: Sequence[tuple[int, int]], band: Band) -> list[int]:
    return [index for index, midi in notes if not band.low.midi <= midi <= band.high.midi]


def _heading(key: ReaderKey, edition: Edition) -> str:
    concert = f" (concert {key.concert.tonic})" if edition.transposes else ""
    return f"In {key.written}{concert}"


def _finding(
    rule: EditionRule, phrase: Phrase, note: int, message: str, key: ReaderKey, edition: Edition
) -> EditionFinding:
    where = sounding_notes(phrase)[note]
    return EditionFinding(
        rule.name, rule.severity, where.bar, where.beat, message, rule.mend, note, edition.name, key
    )
