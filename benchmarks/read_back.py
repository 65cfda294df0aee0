"""`python -m benchmarks.read_back`: every score of the demo read back, wrong glyphs planted, what it costs.

The demo is engraved for four editions, with tablature, and in large print with key signatures; every picture
is read from its SVG and held against its phrase. Then wrong glyphs are planted, seeded, and those found are
counted. With `--books` the books are built too, and their PDFs are read. Seconds are of this process alone.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from read_back.planted import PLANTS
from read_back.printed import COURTESY, HARD, Printed, hard_phrase, printed
from shedbook.book.ground.words import EN
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.scores.artefacts import Picture
from shedbook.book.scores.engraving import Reading, draw_pictures, place_card
from shedbook.book.scores.inputs import HomePicture, KeyPicture, pictures_of, placing_input
from shedbook.book.scores.study import marks_of
from shedbook.book.verbs.build import build
from shedbook.editions.instruments.edition import Edition
from shedbook.read_back.staves import UnreadableError

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"
_EACH, _SEED = 200, 1


def main() -> int:
    manuscript = open_manuscript(DEMO)
    plain = manuscript.settings
    large = replace(plain, signatures=True, pages=replace(plain.pages, large_print=True))
    runs = [(edition, plain) for edition in chosen_editions(("concert,bflat,eflat,bass",), plain)]
    runs += [(edition, plain) for edition in chosen_editions(("guitar",), plain, ("guitar",))]
    runs += [(edition, large) for edition in chosen_editions(("concert",), large)]
    wrong = 0
    kept: list[Printed] = []
    for edition, settings in runs:
        scores, engraving = _engraved(edition, settings)
        started = time.process_time()
        bad = sum(bool(score.wrong()) for score in scores)
        reading = time.process_time() - started
        wrong += bad
        kept = kept or scores
        name = edition.slug + (" large, with signatures" if settings is large else "")
        print(
            f"{name:32} {len(scores)} scores, {bad} wrong; engraved in {engraving:.2f} s, read in "
            f"{reading:.2f} s, {reading / engraving:.2f} of it"
        )
    _plant([*kept[::5], *(printed(hard_phrase(row[0]), degrees=True) for row in HARD)])
    if "--books" in sys.argv:
        _books()
    return int(wrong > 0)


def _engraved(edition: Edition, settings: Settings) -> tuple[list[Printed], float]:
    """Return the scores of the demo in an edition, and the seconds that only engraving took."""
    found: list[Printed] = []
    spent = 0.0
    for source in open_manuscript(DEMO).phrases:
        reading = Reading()
        card = place_card(placing_input(source.text, edition, settings), reading)
        every = pictures_of(source.text, edition, card, settings).values()
        pictures = [one for one in every if isinstance(one, HomePicture | KeyPicture)]
        parts = [reading.place(one.music, [one.key])[0].phrase for one in pictures]
        started = time.process_time()
        drawn = dict((id(one), picture) for one, picture in draw_pictures(pictures, reading))
        spent += time.process_time() - started
        for one, part in zip(pictures, parts, strict=True):
            picture = drawn[id(one)]
            assert isinstance(picture, Picture)
            studied = reading.study(one.music.text, one.music.chord_style)
            home = isinstance(one, HomePicture)
            under = marks_of(studied, settings.pages.marks, EN, home=home).under
            feel = part.feel.capitalize() if home else ""
            found.append(Printed(picture.svg, part, settings.signatures, COURTESY, under, feel))
    return found, spent


def _plant(scores: list[Printed]) -> None:
    dice = Random(_SEED)
    for kind, plant in PLANTS.items():
        planted = found = 0
        while planted < _EACH:
            score = dice.choice(scores)
            spoilt = plant(score.svg, dice)
            if spoilt is None:
                continue
            planted += 1
            try:
                found += bool(score.wrong(spoilt))
            except UnreadableError:
                found += 1
        print(f"planted {kind:14} {planted}, found {found}")


def _books() -> None:
    with TemporaryDirectory() as folder:
        for editions, tablature in (("concert,bflat,eflat,bass", ()), ("guitar", ("guitar",))):
            request = Request(
                DEMO, Path(folder) / editions, editions=(editions,), tablature=tablature, tracks=("none",)
            )
            build(request)
            started = time.perf_counter()
            built = build(replace(request, read_back=True))
            print(
                f"{editions}: {built.read_back} scores of the PDFs read back in "
                f"{time.perf_counter() - started:.1f} s, processes and all"
            )


if __name__ == "__main__":
    sys.exit(main())
