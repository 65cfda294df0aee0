"""What a catalogue keeps of one phrase, besides its tune."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from shedbook.book.manuscript.source import PhraseSource
from shedbook.book.scores.study import study, terms_of
from shedbook.catalogue.tune import Tune, tune_of
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord

PROGRESSION, SCALE, DEVICE = "progression", "scale", "device"
"""The kinds of terms."""

KINDS = (PROGRESSION, SCALE, DEVICE)

_FAMILY_LETTERS = {
    "major": "M", "minor": "m", "dominant": "D", "half-diminished": "h", "diminished": "o", "suspended": "S",
}  # fmt: skip
"""A letter for each chord family; 0 to 9, a and b are the half steps between roots. The project's own."""


class Entry(NamedTuple):
    """One phrase as the catalogue keeps it.

    Attributes:
        content: the hash of all that the rest is made from.
        file: its file, from the manuscript's folder.
        place: how many phrases stand before it in the file.
        number: its number in the book.
        id: its own id, or "".
        title: its title.
        key: its home key, as "C minor".
        metre: its metre.
        tempo: its tempo in beats a minute.
        feel: its feel.
        bars: its bars, without a pick-up.
        changes: its changes as text.
        chords: its chords by families and by the steps between their roots, see `chord_letters`.
        words: title and commentary, in which words are looked for.
        level: 1 to 5, 0 where the phrase was not accounted for.
        terms: (kind, name) of all progressions, scales and devices.
        tune: its line.
    """

    content: str
    file: str
    place: int
    number: int
    id: str
    title: str
    key: str
    metre: str
    tempo: int
    feel: str
    bars: int
    changes: str
    chords: str
    words: str
    level: int
    terms: tuple[tuple[str, str], ...]
    tune: Tune


def entry_of(source: PhraseSource, phrase: Phrase, content: str, *, accounted: bool) -> Entry:
    """Return what is kept of a phrase.

    Args:
        source: where it stands.
        phrase: the phrase, read.
        content: the hash of its text.
        accounted: whether level and terms are found out; this takes most of the time.
    """
    level, terms = _terms(phrase) if accounted else (0, ())
    return Entry(
        content,
        source.file,
        source.index,
        source.number,
        phrase.id,
        source.title,
        str(phrase.key),
        str(phrase.metre),
        phrase.tempo_bpm,
        phrase.feel,
        phrase.full_bars,
        print_changes(phrase.changes, phrase.full_bars, phrase.metre),
        chord_letters([change.chord for change in phrase.changes]),
        f"{source.title}\n{phrase.commentary}",
        level,
        terms,
        tune_of(phrase),
    )


def _terms(phrase: Phrase) -> tuple[int, tuple[tuple[str, str], ...]]:
    found = terms_of(study(phrase))
    rows = ((PROGRESSION, found.progressions), (SCALE, found.scale_names), (DEVICE, found.devices))
    return found.level, tuple((kind, name) for kind, names in rows for name in names)


def chord_letters(chords: Sequence[Chord]) -> str:
    """Return chords as text in which changes can be looked for in any key.

    Each chord is the half steps from the root before, in one digit to the base of twelve, and the letter of
    its family; a chord that only repeats the one before is left out. The first has no digit, "N.C." is "n".
    """
    found: list[str] = []
    before: tuple[int, str] | None = None
    for chord in chords:
        if chord.root is None:
            found.append("n")
            before = None
            continue
        root, family = chord.root.pitch_class, _FAMILY_LETTERS[chord.family]
        if before == (root, family):
            continue
        step = "" if before is None else "0123456789ab"[(root - before[0]) % 12]
        found.append(step + family)
        before = root, family
    return "".join(found)
