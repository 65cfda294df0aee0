"""What of the author's spelling reaches the page, in every key and edition of a manuscript.

For each edition it prints how many notes and chords of the home key are called otherwise than they were
typed; in the other keys, how many notes do not keep the author's interval from the tonic, how many have
another letter than the written-out scale under them, and how many flat ninths are written as something else;
and how many commentaries contradict their own score. Run it with
`python -m benchmarks.author_spelling [manuscript] [--list]`; without a manuscript it reads the demo book.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.author_findings import CONTRADICTED, author_findings
from shedbook.book.scores.inputs import KeyOrder, key_order
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import Studied, study
from shedbook.book.scores.written_scales import written_scales
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.reader_part import ReaderPart
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import NoteName

DEMO = Path(__file__).parent.parent / "examples" / "tidewater"


class Tally:
    """Counts of one edition, and what each count is made of."""

    def __init__(self) -> None:
        self.counts: Counter[str] = Counter()
        self.places: dict[str, list[str]] = {}

    def take(self, what: str, place: str) -> None:
        """Count one place."""
        self.counts[what] += 1
        self.places.setdefault(what, []).append(place)


def names(phrase: Phrase) -> list[NoteName]:
    """Return the names of the struck notes."""
    return [note.pitch.name for note in sounding_notes(phrase)]


def home(tally: Tally, number: int, phrase: Phrase, read: ReaderPart) -> None:
    """Compare the home key with what was typed, where the edition does not transpose."""
    for note, seen in zip(sounding_notes(phrase), names(read.phrase), strict=True):
        if note.pitch.name != seen:
            tally.take("home notes respelled", f"{number}, bar {note.bar}: {note.pitch.name} as {seen}")
    for change, seen_change in zip(phrase.changes, read.phrase.changes, strict=True):
        if change.chord != seen_change.chord:
            tally.take("home chords respelled", f"{number}: {change.chord.text} as {seen_change.chord.text}")


def one_key(tally: Tally, number: int, studied: Studied, read: ReaderPart, clef: str) -> None:
    """Compare one key with the author's intervals, with its scales, and with its flat ninths."""
    where = f"{number} in {read.key.written}"
    move = read.key.written.tonic.fifths - studied.phrase.key.tonic.fifths
    scales = {
        (scale.name, scale.pitches[0].name.pitch_class): {
            pitch.name.pitch_class: pitch.name for pitch in scale.pitches
        }
        for scale in written_scales(studied, read.phrase, clef)
    }
    tally.counts["scores"] += 1
    before = tally.counts["notes against their scale"]
    seen = names(read.phrase)
    for note, name, typed in zip(studied.account.notes, seen, names(studied.phrase), strict=True):
        tally.counts["notes"] += 1
        chord = read.phrase.changes[note.span.first_change].chord
        if name.fifths != typed.fifths + move:
            tally.take("intervals not kept", f"{where}, bar {note.bar}: {typed} as {name} over {chord.text}")
        if chord.root is None:
            continue
        if note.degree == "b9" and name.fifths != chord.root.fifths - 5:
            tally.take("flat ninths by another letter", f"{where}, bar {note.bar}: {name} over {chord.text}")
        scale = note.span.scale
        if scale is None or note.span.chord.root is None:
            continue
        root = chord.root + note.span.chord.root.interval_to(scale.root)
        letter = scales[scale.name, root.pitch_class].get(name.pitch_class, name)
        if letter != name:
            place = f"{where}, bar {note.bar}: {name}, {letter} in {root} {scale.name} over {chord.text}"
            tally.take("notes against their scale", place)
    tally.counts["scores against their scale"] += tally.counts["notes against their scale"] > before


def measure(manuscript: Path, order: KeyOrder, edition: Edition) -> Tally:
    """Return the counts of one edition."""
    tally = Tally()
    for source in open_manuscript(manuscript).phrases:
        studied = study(read_phrase(source))
        placing = placing_of(studied, order, edition)
        if not edition.transposes:
            home(tally, source.number, studied.phrase, placing.home)
            for finding in author_findings(studied.account):
                if finding.rule == CONTRADICTED:
                    tally.take("commentaries against their score", f"{source.number}: {finding.message}")
        for read in placing.keys:
            one_key(tally, source.number, studied, read, edition.clef)
    return tally


def main(arguments: list[str]) -> int:
    """Print the counts of the concert, B flat and E flat editions."""
    paths = [Path(text) for text in arguments if not text.startswith("--")]
    manuscript = paths[0] if paths else DEMO
    settings = open_manuscript(manuscript).settings
    for edition in chosen_editions(("concert", "bflat", "eflat"), settings):
        tally = measure(manuscript, key_order(settings), edition)
        print(f"{edition.name}: {tally.counts['notes']} notes in {tally.counts['scores']} scores")
        for what in (
            "home notes respelled", "home chords respelled", "intervals not kept",
            "notes against their scale", "scores against their scale", "flat ninths by another letter",
            "commentaries against their score",
        ):  # fmt: skip
            print(f"  {what}: {tally.counts[what]}")
            if "--list" in arguments:
                for place, count in Counter(tally.places.get(what, ())).items():
                    print(f"    {count} {place}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
