"""How often the optimal spelling agrees with a human editor's, on the scores of music21's corpus.

Every part is stripped of its spelling and spelled anew from its sounds and bar lines, one line by itself,
without sight of the other parts. Three kinds of help are compared:

- nothing: the key is the one in which the part costs its reader least;
- the key signature: the major or the minor key, whichever costs the reader less;
- the key signature and the chords, where the score has chord symbols or an analyst has named the chords.

Beside it stands the plainest rule that knows the key signature: of each sound, the name nearest to the
signature's notes on the line of fifths. Where the editor prints a double accidental, E#, B#, Cb or Fb that
our style avoids, it counts against us. Run it with
`python benchmarks/spelling_agreement.py [share of the scores, 1 for all, default 0.1]`.
"""

from __future__ import annotations

import sys
import warnings
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import music21

from shedbook.editions.spelling.note_names import ODD_WHITE, PLAIN
from shedbook.editions.spelling.note_spelling import least_cost, respell
from shedbook.editions.spelling.spelling_plan import plan_spelling
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase, Value
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName, Pitch


@dataclass(frozen=True)
class Kind:
    """A kind of score: a heading, folders of the corpus, how much dearer than others it is to read."""

    title: str
    folders: tuple[str, ...]
    thin: int = 1


PLAIN_SCORES = (
    Kind("Bach chorales, all parts", ("bach",)),
    Kind("Ryan's Mammoth Collection, 1883", ("ryansMammoth",)),
    Kind("folk songs (Essen, Aird, O'Neill)", ("essenFolksong", "airdsAirs", "oneills1850"), 2),
    Kind("Monteverdi, Palestrina, all parts", ("monteverdi", "palestrina"), 2),
    Kind("Haydn, Mozart, Beethoven, string quartets",
         ("opus18no1", "opus1no1", "opus59no1", "opus59no2", "opus59no3", "opus74no1", "k156", "k458", "k80",
          "k155"), 2),
    Kind("19th century (Schubert, the Schumanns, Chopin, Joplin, Beach, Weber, Verdi)",
         ("schubert", "schumann_clara", "schumann_robert", "opus41no1", "opus19", "chopin", "joplin", "beach",
          "weber", "verdi"), 1),
)  # fmt: skip
SYMBOLS = {
    "major triad": "", "minor triad": "m", "diminished triad": "dim", "augmented triad": "+",
    "dominant seventh chord": "7", "major seventh chord": "maj7", "minor seventh chord": "m7",
    "half-diminished seventh chord": "m7b5", "diminished seventh chord": "dim7",
    "minor-augmented tetrachord": "m(maj7)",
}  # fmt: skip
"""music21's common names of chords, and our symbols."""

Chords = dict[int, list[tuple[Fraction, Chord]]]
"""For each measure, the chords with their distance in quarters from its bar line."""


# Reading scores.


def paths(kind: Kind, share: float) -> list[Path]:
    found = [
        path
        for path in music21.corpus.getCorePaths()
        if path.parent.name in kind.folders and path.suffix != ".rntxt"
    ]
    step = max(1, round(kind.thin / share))
    return sorted(found)[:: min(step, max(1, len(found) // 3))]


def scores_in(path: Path) -> Iterator[music21.stream.Score]:
    read = music21.corpus.parse(path)
    yield from read.scores if isinstance(read, music21.stream.Opus) else [read]


def phrases_of(score: music21.stream.Score, chords: Chords | None = None) -> Iterator[Phrase]:
    """Yield the parts of a score; with chords, each stretch of equally long measures by itself."""
    for part in score.parts or [score]:
        first = part.recurse().getElementsByClass(music21.key.KeySignature).first()
        key = Key(NoteName(first.sharps if first else 0))
        measures = [
            measure for measure in part.getElementsByClass(music21.stream.Measure) if any(events_of(measure))
        ]
        if measures and chords is None:
            bars = tuple(Bar(at, tuple(events_of(measure))) for at, measure in enumerate(measures, 1))
            yield Phrase(str(part.id), key, Metre(), bars, (), ())
        elif measures:
            yield from stretches(measures, key, chords or {})


def events_of(measure: music21.stream.Measure) -> Iterator[Event]:
    """Yield the notes and rests of a measure: of a chord the highest note, of several voices the first."""
    first = measure.voices.first() or measure
    for note in first.notesAndRests:
        if note.duration.isGrace or isinstance(note, music21.harmony.ChordSymbol):
            continue
        length = Fraction(note.quarterLength)
        # A value of any length: so many times the time of so many quarters.
        value = (Value(4, 0, length.denominator, length.numerator),)
        if note.isRest:
            yield Event(None, value)
            continue
        top = note.pitches[-1]
        tied = note.tie is not None and note.tie.type in ("stop", "continue")
        name = NoteName.of(top.step, round(top.alter))
        yield Event(Pitch.of(name, top.octave), value, tie_in=tied)


def stretches(measures: Sequence[music21.stream.Measure], key: Key, chords: Chords) -> Iterator[Phrase]:
    """Yield phrases with changes; a measure shorter than the others opens or closes one."""
    open_bars: list[tuple[Bar, list[tuple[Fraction, Chord]]]] = []
    full = Counter(Fraction(measure.duration.quarterLength) for measure in measures).most_common(1)[0][0]
    for measure in measures:
        bar = Bar(0, tuple(events_of(measure)))
        short = bar.quarters < full
        if bar.quarters > full:
            continue  # a slip in the score, or two voices that are not in step
        open_bars.append((bar, chords.get(measure.number, [])))
        if short and len(open_bars) > 1:
            yield stretch(open_bars, full, key)
            open_bars = []
    if open_bars:
        yield stretch(open_bars, full, key)


def stretch(found: Sequence[tuple[Bar, list[tuple[Fraction, Chord]]]], full: Fraction, key: Key) -> Phrase:
    metre = Metre(int(full * 4), 16)
    first = 0 if found[0][0].quarters < full else 1
    bars = tuple(Bar(at, bar.events) for at, (bar, _) in enumerate(found, first))
    changes = [
        ChangeAt(at, offset * 4 + 1, chord)
        for at, (_, placed) in enumerate(found, first)
        for offset, chord in placed
        if at > 0 and offset < full
    ]
    if not changes or (changes[0].bar, changes[0].beat) != (1, Fraction(1)):
        changes.insert(0, ChangeAt(1, Fraction(1), parse_chord("N.C.")))
    return Phrase("stretch", key, metre, bars, tuple(changes), (None,) * len(changes))


# Chords.


def chord_of(name: str, root: music21.pitch.Pitch) -> Chord | None:
    kind = SYMBOLS.get(name)
    if kind is None:
        return None
    try:
        return parse_chord(root.name.replace("-", "b") + kind)
    except ShedbookError:
        return None


def chords_in(stream: music21.stream.Stream, *kinds: type) -> Chords:
    """Return the chords of a score, a chord symbol or a Roman numeral each; others are passed over."""
    found: Chords = {}
    for chord in stream.recurse().getElementsByClass(kinds):
        measure = chord.getContextByClass(music21.stream.Measure)
        if measure is None or not chord.pitches:
            continue
        named = chord_of(chord.commonName, chord.root())
        if named is not None:
            offset = Fraction(chord.getOffsetInHierarchy(measure)).limit_denominator(64)
            found.setdefault(measure.number, []).append((offset, named))
    return {number: sorted(dict(placed).items()) for number, placed in found.items()}


def analysed(share: float) -> Iterator[tuple[str, music21.stream.Score, Chords]]:
    """Yield scores with the chords that an analyst named, and lead sheets with their own."""
    numeral = music21.roman.RomanNumeral
    listed = music21.corpus.chorales.ChoraleListRKBWV().byRiemenschneider
    for number in range(1, 21):
        analysis = music21.corpus.parse(f"bach/choraleAnalyses/riemenschneider{number:03d}.rntxt")
        score = music21.corpus.parse(f"bach/bwv{listed[number]['bwv']}")
        yield "Bach chorales 1 to 20, all parts", score, chords_in(analysis, numeral)
    madrigals = sorted(
        path
        for path in music21.corpus.getCorePaths()
        if path.parent.name == "monteverdi" and path.suffix == ".rntxt"
    )
    for path in madrigals[:: max(1, round(0.3 / share))]:
        score = music21.corpus.parse(f"monteverdi/{path.stem}.mxl")
        yield "Monteverdi, madrigals, all parts", score, chords_in(music21.corpus.parse(path), numeral)
    for path in music21.corpus.getCorePaths():
        if path.parent.name in ("leadSheet", "nottingham-dataset"):
            for score in scores_in(path):
                symbols = chords_in(score, music21.harmony.ChordSymbol)
                yield "lead sheets and reels with chord symbols", score, symbols


# Measuring.


def names(phrase: Phrase) -> list[NoteName]:
    return [event.pitch.name for bar in phrase.bars for event in bar.events if event.pitch]


def near_key(pitch_class: int, key: Key) -> int:
    window = range(key.tonic.fifths - 4, key.tonic.fifths + 8)
    return next(place for place in window if place * 7 % 12 == pitch_class)


def cheapest_key(phrase: Phrase, signatures: Iterable[int]) -> Key:
    """Return the key, of those with some signatures, in which a part costs its reader least."""
    layout = plan_spelling(phrase)
    keys = [
        Key(NoteName(signature + sharper), mode)
        for signature in sorted(signatures, key=abs)
        for mode, sharper in (("major", 0), ("minor", 3))
    ]
    return min(keys, key=lambda key: least_cost(replace(phrase, key=key), layout, 0))


def signed(phrase: Phrase) -> Phrase:
    """Return the part in the major or minor key of its signature, whichever costs less, spelled."""
    bare = replace(phrase, changes=(), scales=())
    return respell(replace(bare, key=cheapest_key(bare, [phrase.key.signature])))


def unaided(phrase: Phrase) -> Phrase:
    """Return the part in the key that costs least of all, spelled."""
    return respell(replace(phrase, key=cheapest_key(phrase, range(-6, 7))))


class Tally:
    """Counts for one kind of score."""

    def __init__(self) -> None:
        self.count: Counter[str] = Counter()
        self.differ: Counter[str] = Counter()

    def take(self, how: str, human: Phrase, found: Phrase) -> None:
        """Count the names of one part, spelled with one kind of help."""
        own = range(human.key.tonic.fifths - 1, human.key.tonic.fifths + 6)
        for theirs, ours in zip(names(human), names(found), strict=True):
            if how == "signature":
                self.count["notes"] += 1
                self.count["near"] += near_key(theirs.pitch_class, human.key) == theirs.fifths
                self.count["foreign"] += theirs.fifths not in own
                self.count["foreign right"] += theirs.fifths not in own and ours == theirs
                missed = ours != theirs and (theirs.fifths not in PLAIN or theirs.fifths in ODD_WHITE)
                self.count["avoided"] += missed
            self.count[how] += ours == theirs
            if ours != theirs and how != "nothing":
                self.differ[f"{theirs} as {ours} in {human.key.tonic}"] += 1

    def row(self, title: str, hows: Sequence[str]) -> str:
        """Return the counts in words."""
        notes = max(1, self.count["notes"])
        shares = "; ".join(f"{how} {100 * self.count[how] / notes:.2f} %" for how in (*hows, "near"))
        foreign = max(1, self.count["foreign"])
        often = "; ".join(f"{what}: {times}" for what, times in self.differ.most_common(8))
        return (
            f"{title}: {self.count['notes']} notes: {shares}; foreign to the signature "
            f"{100 * self.count['foreign right'] / foreign:.1f} % of {self.count['foreign']}; "
            f"{self.count['avoided']} differences by signature are names that our style avoids\n    {often}"
        )


def without_chords(share: float) -> None:
    total = Tally()
    for kind in PLAIN_SCORES:
        tally = Tally()
        for path in paths(kind, share):
            for score in list(scores_in(path))[:: kind.thin if path.suffix == ".abc" else 1][:40]:
                for human in phrases_of(score):
                    given, free = signed(human), unaided(human)
                    for one in (tally, total):
                        one.take("signature", human, given)
                        one.take("nothing", human, free)
        print(tally.row(kind.title, ("signature", "nothing")), flush=True)
    print(total.row("All without chords", ("signature", "nothing")))


def with_chords(share: float) -> None:
    tallies: dict[str, Tally] = {}
    for title, score, chords in analysed(share):
        tally = tallies.setdefault(title, Tally())
        for human in phrases_of(score, chords):
            given = signed(human)
            tally.take("signature", human, given)
            tally.take("chords", human, respell(replace(human, key=given.key)))
    for title, tally in tallies.items():
        print(tally.row(title, ("signature", "chords")), flush=True)


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    wanted = float(sys.argv[1]) if len(sys.argv) > 1 else 0.1
    with_chords(wanted)
    without_chords(wanted)
