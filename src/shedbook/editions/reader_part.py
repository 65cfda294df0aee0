"""A phrase as the reader of an edition sees it: in each key in its best octave, spelled, with findings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

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
from shedbook.editions.tables.edition_rules import EDITION_RULES, EDITION_WORDS
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_words

_RULES = MappingProxyType({row.name: row for row in EDITION_RULES})


class InKey(NamedTuple):
    """In which key something is found; the concert key is said where the edition `transposes`."""

    key: ReaderKey
    transposes: bool


Value: TypeAlias = int | str | InKey | Edition | Band | Fingerboard


class Told(NamedTuple):
    """What a finding says: the row of its sentence, that of its mend, and what fills their gaps.

    The rows are those of `tables.edition_rules`; a beat is a text.
    """

    row: str
    mend: str
    filled: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class EditionFinding:
    """Something that the proof-reader says of one key of one edition.

    Attributes:
        rule: the name of a row of `tables.edition_rules`.
        severity: "error", "warning" or "advice".
        bar: the bar where it begins, a pick-up being 0.
        beat: the beat where it begins, from 1 in the metre's denominator.
        message: what is wrong, a sentence in English.
        mend: how it is mended, a sentence in English.
        note: the struck note where it begins, an index as in `sounding_notes`.
        edition: the name of the edition.
        key: the key.
        told: the same sentences as rows and values, for any other language.
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
    told: Told


@dataclass(frozen=True, slots=True)
class ReaderPart:
    """A phrase in one key of an edition.

    Attributes:
        phrase: the phrase as the reader sees it, with notes, chords, scales and key in written pitch.
        key: the key, as it sounds and as it is written.
        semitones: how much higher the phrase sounds than the author wrote it.
        octaves: how many octaves of that are a choice of register; 0 for the nearest transposition.
        fold: the place from which on the notes lie in another octave, or None.
        fold_octaves: by how many octaves they lie higher there than before.
        findings: what the proof-reader says, without the rules that the author has silenced.
        tab: the strings and frets of the notes, where the edition has tablature.
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

    The octaves are chosen for all keys together. So the phrase may lie in another octave of the same key when
    other keys are asked for.

    Args:
        phrase: the phrase as its author wrote it, in concert pitch.
        keys: the keys in the order in which they are read.
        edition: gives the transposition, the written ranges and the register policy.
        fold: whether the phrase may be folded in keys in which no octave serves.
        held: pairs (first, last) of struck notes. What the analysis hears as one figure from the first to the
            last is not torn apart by a fold.

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
    """Return how many octaves are in a move; a tritone up or down is none."""
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
        filled: dict[str, Value] = {"bar": way.cut.bar, "beat": beat_words(way.cut.beat)}
        found.append(_finding("folded", turn, phrase, way.cut.note, filled, key, edition))
    if not fits(reach, way, edition):
        notes = written_notes(reach, way, edition.transposition.semitones)
        found.append(_out_of_range(phrase, notes, key, edition, "no fold" if folding else ""))
    return tuple(found)


def _out_of_range(
    phrase: Phrase, notes: Sequence[tuple[int, int]], key: ReaderKey, edition: Edition, mend: str
) -> EditionFinding:
    """Return the finding for notes out of reach; where there are none, for notes outside the full range."""
    rule, band = "out-of-reach", edition.bands.extreme
    outside = _outside(notes, band)
    if not outside:
        rule, band = "out-of-range", edition.bands.full
        outside = _outside(notes, band)
    count = len(set(outside))
    filled: dict[str, Value] = {"n": count, "band": band}
    return _finding(rule, _many(count), phrase, min(outside), filled, key, edition, mend)


def _off_the_fingerboard(
    written: Phrase, tab: Tab, board: Fingerboard, key: ReaderKey, edition: Edition
) -> tuple[EditionFinding, ...]:
    """Return the finding for the notes that are on no string of the fingerboard, if there are any."""
    missing = tab.missing
    if not missing:
        return ()
    filled: dict[str, Value] = {"n": len(missing), "tuning": board, "frets": board.frets}
    return (_finding("off-fingerboard", _many(len(missing)), written, missing[0], filled, key, edition),)


def _many(count: int) -> str:
    return "one" if count == 1 else "many"


def _outside(notes: Sequence[tuple[int, int]], band: Band) -> list[int]:
    return [index for index, midi in notes if not band.low.midi <= midi <= band.high.midi]


def _finding(
    rule: str,
    sentence: str,
    phrase: Phrase,
    note: int,
    filled: dict[str, Value],
    key: ReaderKey,
    edition: Edition,
    mend: str = "",
) -> EditionFinding:
    """Return a finding at a note; `sentence` and `mend` say which of the rule's rows tell it."""
    where, row = sounding_notes(phrase)[note], _RULES[rule]
    values = {"place": InKey(key, edition.transposes), "reader": edition, **filled}
    told = Told(
        f"finding.{rule}.{sentence}",
        f"finding.{rule}.mend{f'.{mend}' if mend else ''}",
        tuple(values.items()),
    )
    texts = {name: _english(value) for name, value in told.filled}
    return EditionFinding(
        rule, row.severity, where.bar, where.beat, EDITION_WORDS[told.row].format_map(texts),
        EDITION_WORDS[told.mend].format_map(texts), note, edition.name, key, told,
    )  # fmt: skip


def _english(value: Value) -> str:
    """Return what fills a gap as the command line says it."""
    if isinstance(value, InKey):
        row = "finding.place.concert" if value.transposes else "finding.place"
        return EDITION_WORDS[row].format(key=value.key.written, concert=value.key.concert.tonic)
    if isinstance(value, Edition):
        return value.reader_words
    return value.tuning if isinstance(value, Fingerboard) else str(value)
