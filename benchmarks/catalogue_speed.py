"""How fast a large catalogue is made and asked: `python -m benchmarks.catalogue_speed [PHRASES]`.

The books are invented: phrases of the demo in all keys, each with a few notes replaced by dice with a fixed
seed, 65 to a book. Seconds are the processor's, as other programs may run; the first search loads all lines.
"""

from __future__ import annotations

import random
import re
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

import shedbook
from shedbook.catalogue.asked import Asked, read_chords, read_melody, read_rhythm, read_words
from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.keeping import bring_up_to_date
from shedbook.catalogue.search import Searcher
from shedbook.phrase.fields import fields_from_phrase

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"
PHRASES, A_BOOK, REPLACED = 20_000, 65, 3
KEYS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
RUN = read_melody("d5 f ab c6 bb5 ab g f d eb")


def sources() -> list[Mapping[str, object]]:
    """Return the demo's phrases in all keys, as the keys of their tables."""
    phrases = [shedbook.read_phrase(source) for source in shedbook.open_manuscript(DEMO).phrases]
    return [fields_from_phrase(shedbook.transpose(phrase, key)) for phrase in phrases for key in KEYS]


def write(root: Path, many: int) -> None:
    """Write so many phrases into books."""
    dice = random.Random(1)
    kept = sources()
    for number in range(many):
        folder = root / f"{number // A_BOOK:04d}"
        if number % A_BOOK == 0:
            (folder / "phrases").mkdir(parents=True)
            (folder / "manuscript.toml").write_text(f'title = "Book {number // A_BOOK}"\n', encoding="utf-8")
        text = toml(changed(dice.choice(kept), dice), f"Study {number}")
        (folder / "phrases" / f"{number % A_BOOK + 1:02d}.toml").write_text(text, encoding="utf-8")


def changed(fields: Mapping[str, object], dice: random.Random) -> Mapping[str, object]:
    """Return a phrase with a few of its notes replaced; places without an octave number keep their octave."""
    words = str(fields["line"]).split(" ")
    for place in dice.sample(range(len(words)), min(REPLACED, len(words))):
        if re.fullmatch(r"[a-g][#b]?", words[place]):
            words[place] = dice.choice("abcdefg") + dice.choice(("", "b", "#"))
    return {**fields, "line": " ".join(words)}


def toml(fields: Mapping[str, object], title: str) -> str:
    lines = [f'title = "{title}"']
    for key, value in fields.items():
        if (
            key in ("key", "metre", "pickup", "tempo", "feel", "changes", "scales", "line", "commentary")
            and value
        ):
            lines.append(f"{key} = {value}" if isinstance(value, int) else f'{key} = """{value}"""')
    return "\n".join(lines) + "\n"


def told(name: str, work: Callable[[], object], per: int = 0) -> None:
    """Print what a piece of work takes, and with `per` how many phrases a second that is."""
    begun, clock = time.process_time(), time.perf_counter()
    work()
    spent, passed = time.process_time() - begun, time.perf_counter() - clock
    rate = f"   {per / spent:,.0f} phrases a second" if per else ""
    print(f"{name:44} {1000 * spent:9.1f} ms   (clock {1000 * passed:.1f}){rate}", flush=True)


def main(many: int = PHRASES) -> None:
    with tempfile.TemporaryDirectory() as place:
        root, file = Path(place) / "books", Path(place) / "index.sqlite"
        write(root, many)
        print(f"{many:,} phrases")
        with IndexFile(Path(place) / "quick.sqlite") as quick:
            told("made, without the account", lambda: bring_up_to_date(quick, root, accounted=False), many)
        with IndexFile(file) as index:
            told("made, with the account", lambda: bring_up_to_date(index, root), many)
            told("nothing changed", lambda: bring_up_to_date(index, root))
            one = next(root.glob("*/phrases/05.toml"))
            one.write_text(one.read_text(encoding="utf-8") + "\n", encoding="utf-8")
            told("one file changed, its path told", lambda: bring_up_to_date(index, root, only=one))
            one.write_text(one.read_text(encoding="utf-8") + "\n", encoding="utf-8")
            told("one file changed, found by looking", lambda: bring_up_to_date(index, root))
            ask(Searcher(index))


def ask(searcher: Searcher) -> None:
    cases = {
        "the first search": Asked(melody=RUN),
        "a melody of ten notes": Asked(melody=RUN),
        "a melody of three": Asked(melody=RUN[:3]),
        "in its key": Asked(melody=RUN[:5], in_its_key=True),
        "the first with wrong notes": Asked(melody=RUN, wrong=1),
        "two of eight wrong": Asked(melody=RUN[:8], wrong=2),
        "four of ten wrong": Asked(melody=RUN, wrong=4),
        "a contour": Asked(contour="uuuddduu"),
        "a rhythm": Asked(rhythm=read_rhythm("1/8t 1/8t 1/8t 1/4")),
        "changes in any key": Asked(chords=read_chords("Am7b5 | D7 | Gm")),
        "changes that nobody wrote": Asked(chords=read_chords("Am7b5 | D7 | F#m")),
        "words": Asked(words=read_words("flat nine")),
        "scale, progression and level": Asked(
            terms=(("scale", "altered"), ("progression", "minor ii–V–i")), levels=(2,)
        ),
    }
    for name, asked in cases.items():
        told(name, partial(searcher.search, asked))


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
