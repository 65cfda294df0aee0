"""Rules on what the author states of the harmony and the chords deny: a scale, and the key."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import (
    ChordName,
    Degree,
    KeyName,
    Note,
    Saying,
    ScaleName,
    Several,
    Strung,
    Typed,
    saying,
)
from shedbook.analysis.proof.finding import Found
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule
from shedbook.theory.chord import Chord, name_over
from shedbook.theory.chord_function import key_weight
from shedbook.theory.chord_scales import lacks, nearest_fits
from shedbook.theory.key import Key
from shedbook.theory.progression import infer_key
from shedbook.theory.scale import Scale
from shedbook.theory.slash_chords import over_bass

_MOST_SCALES = 3
"""How many scales that fit are named."""

_FAR_FROM_KEY = 3
"""The chords deny a key where another has so many times its weight [the project's design]."""

_LEAST_WEIGHT = 8
"""The least that chords must say for another key, in points: a ii–V says as much [the project's design]."""


@phrase_rule(
    RuleRow(
        "scale-contradicts-chord",
        "error",
        "The scale that is named lacks the chord's own third, its altered fifth, its seventh or a tension "
        "that the symbol names.",
        fires=Example("F6", "1/4 f4 ab4 c5 d5", "melodic minor"),
        silent=Example("Fm6", "1/4 f4 ab4 c5 d5", "melodic minor"),
        source="common practice",
    )
)
def scale_contradicts_chord(account: Account) -> Iterator[Found]:
    """Find scales of the author's that deny what the chord names, once for each chord and scale in a row."""
    said: tuple[Chord, Scale] | None = None
    for change, scale in zip(account.phrase.changes, account.phrase.scales, strict=True):
        if scale is None:
            said = None
            continue
        missing = lacks(change.chord, scale)
        if missing and said != (change.chord, scale):
            yield Found(
                change.bar, change.beat, _denies(change.chord, scale, missing), _mend(change.chord, scale)
            )
        said = (change.chord, scale)


def _denies(chord: Chord, scale: Scale, missing: tuple[str, ...]) -> Saying:
    """Say "F melodic minor has no A, the third of F6."."""
    root = over_bass(chord).root
    tones = tuple(
        saying(
            "finding.scale-contradicts-chord.tone",
            note=Note(name_over(root, degree)),
            degree=Degree(degree, chord),
        )
        for degree in missing
        if root is not None
    )
    return saying(
        "finding.scale-contradicts-chord",
        scale=ScaleName(scale, rooted=True),
        tones=Strung(tones, "finding.scale-contradicts-chord.and"),
        chord=ChordName(chord),
    )


def _mend(chord: Chord, scale: Scale) -> Saying | None:
    fitting = tuple(Typed(one.name) for one in nearest_fits(chord, scale, _MOST_SCALES))
    if not fitting:
        return None
    return saying(
        "finding.scale-contradicts-chord.mend.fitting",
        chord=ChordName(chord, symbol=True),
        scales=Several(fitting),
    )


@phrase_rule(
    RuleRow(
        "key-contradicted",
        "warning",
        "The chords speak for another key than the one that is named.",
        fires=Example("Bm7 | E7alt | Amaj7", "1/1 d5 | g#4 | c#5", edit="name F major as the key"),
        silent=Example("Gm7 | C7alt | Fmaj7", "1/1 bb4 | e4 | a4", edit="name F major as the key"),
        source="common practice",
    )
)
def key_contradicted(account: Account) -> Iterator[Found]:
    """Find a key that the author names and for which the chords hardly speak, while they do for another."""
    phrase = account.phrase
    if phrase.key_inferred:
        return
    chords = [change.chord for change in phrase.changes]
    heard = infer_key(chords)
    if _akin(heard, phrase.key):
        return
    stated, other = key_weight(chords, phrase.key), key_weight(chords, heard)
    if other >= _LEAST_WEIGHT and other >= _FAR_FROM_KEY * max(1, stated):
        yield Found(
            None,
            None,
            saying("finding.key-contradicted", stated=KeyName(phrase.key), heard=KeyName(heard)),
            saying("finding.key-contradicted.mend.heard", typed=Typed(str(heard))),
        )


def _akin(one: Key, other: Key) -> bool:
    """Whether two keys share their tonic, or their signatures differ by one accidental at most.

    A phrase from a tune may stay in a neighbouring key.
    """
    between = (one.signature - other.signature) % 12
    return one.tonic.pitch_class == other.tonic.pitch_class or between in (0, 1, 11)
