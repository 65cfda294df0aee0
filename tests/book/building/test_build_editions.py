"""The build of several editions: which books, what they say, what is made again."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pikepdf
import pypdf
import pytest

from book.builds import run, write_manuscript, write_phrase
from shedbook.book.manuscript.request import Request
from shedbook.book.scores.artefacts import CycleKey, PlacingCard
from shedbook.book.verbs.build import Built, build
from shedbook.book.workshop.output_folder import STORE
from shedbook.book.workshop.store import Store
from shedbook.errors import BuildError, UnknownNameError

WIDE = "1/8 d3 e g c4 - e5 g c6 | 1/1 c6 | d5 | e5"
"""No octave of an alto saxophone holds it."""


def made(folder: Path, *editions: str, settings: str = "", phrases: int = 2, **options: object) -> Built:
    manuscript = folder / "tides"
    if not manuscript.exists():
        write_manuscript(manuscript, phrases, settings)
    return build(Request(manuscript, folder / "out", editions=editions, **options))  # type: ignore[arg-type]


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(pdf).pages)


def clefs(folder: Path) -> set[str]:
    """Return the clefs in the pictures of a store, by their SMuFL codes: E050 is G, E062 F, E05C C."""
    pictures = [path.read_text(encoding="utf-8") for path in (folder / "out" / STORE / "svg").iterdir()]
    return {code for code in ("E050", "E062", "E05C") for svg in pictures if code in svg}


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A concert and a B flat book, built once; tests read them and change nothing."""
    folder = tmp_path_factory.mktemp("two")
    built = made(folder, "concert, bflat")
    assert [path.name for path in built.pdfs] == ["tides-concert.pdf", "tides-bflat.pdf"]
    return folder


G7_FLAT_9 = r"G7\s*\(?\s*♭\s*9"
"""The chord, however its signs and brackets come out of the file."""


def test_each_edition_names_the_keys_for_its_reader(two: Path) -> None:
    concert, bflat = (text_of(two / "out" / f"tides-{name}.pdf") for name in ("concert", "bflat"))
    assert "Concert edition" in concert
    assert re.search(r"B\s*♭ edition", bflat)
    assert "a major second above concert pitch" in bflat
    assert "Minor ii–V–i in C" in concert
    assert "Minor ii–V–i in D, concert C" in bflat
    beside = " ".join(bflat.split())  # in a narrow gutter the name stands under the word
    assert "concert F♯" in beside or "concert G♭" in beside
    assert "concert C" not in concert
    assert re.search(G7_FLAT_9, concert)  # the explanation's chord
    assert re.search(G7_FLAT_9.replace("G", "A"), bflat)
    assert not re.search(G7_FLAT_9, bflat)


def test_bookmarks_have_the_readers_keys_with_the_concert_keys(two: Path) -> None:
    with pikepdf.open(two / "out" / "tides-bflat.pdf") as pdf, pdf.open_outline() as outline:
        keys = [
            str(child.title)
            for item in outline.root
            for child in item.children
            if "concert" in str(child.title)
        ]
    assert len(keys) == 22
    assert keys[0].startswith("G minor")
    assert keys[0].endswith("concert F")


def test_a_further_edition_makes_nothing_of_the_others_again(two: Path, tmp_path: Path) -> None:
    first = made(tmp_path, "bflat")
    before = (tmp_path / "out" / "tides-bflat.pdf").stat().st_mtime_ns
    more = made(tmp_path, "bflat f")
    whole = made(tmp_path / "fresh", "f")
    # Both: the placings, scores and pages of one edition. Only a book from nothing has its cards to make.
    assert more.jobs_run == whole.jobs_run - 2
    assert first.jobs_run == whole.jobs_run
    assert (tmp_path / "out" / "tides-bflat.pdf").stat().st_mtime_ns == before
    assert made(tmp_path, "bflat f").jobs_run == 0
    assert made(tmp_path, "f").jobs_run == 0  # its own record; everything is there
    assert (tmp_path / "out" / "tides-bflat.pdf").read_bytes() == (
        two / "out" / "tides-bflat.pdf"
    ).read_bytes()


@pytest.mark.parametrize(
    ("asked", "names"),
    [
        (("bass",), ["bass"]),
        (("concert double bass Bb",), ["concert", "double-bass", "bflat"]),
        (("tenor sax", "f"), ["tenor-saxophone", "f"]),
        (("concert,concert",), ["concert"]),
    ],
)
def test_editions_by_name(tmp_path: Path, asked: tuple[str, ...], names: list[str]) -> None:
    built = made(tmp_path, *asked, phrases=1, keys=("C",))
    assert [path.name for path in built.pdfs] == [f"tides-{name}-keys-C.pdf" for name in names]


def test_the_manuscripts_own_editions_and_instruments(tmp_path: Path) -> None:
    settings = (
        'editions = ["bass trumpet", "bass"]\n[[instrument]]\nname = "bass trumpet"\n'
        'transposition = "up a major ninth"\nrange = "F#3 to C6"\n'
    )
    built = made(tmp_path, settings=settings, phrases=1, keys=("C",))
    assert [path.name for path in built.pdfs] == ["tides-bass-trumpet-keys-C.pdf", "tides-bass-keys-C.pdf"]
    assert "an octave and a major second above concert pitch" in text_of(built.pdfs[0])


@pytest.mark.parametrize(
    ("name", "clef"), [("bass", "E062"), ("viola", "E05C"), ("concert", "E050"), ("guitar", "E050")]
)
def test_the_clef_is_the_instruments(tmp_path: Path, name: str, clef: str) -> None:
    made(tmp_path, name, phrases=1, keys=("C",))
    assert clefs(tmp_path) == {clef}


@pytest.mark.parametrize(
    ("asked", "message", "hint"),
    [
        ("bflt", 'no edition "bflt"', "bflat"),
        ("concert tenor", 'no edition "tenor"', "tenor saxophone"),
    ],
)
def test_an_unknown_edition_is_named_with_what_is_meant(
    tmp_path: Path, asked: str, message: str, hint: str
) -> None:
    with pytest.raises(UnknownNameError, match=message) as caught:
        made(tmp_path, asked)
    assert hint in caught.value.hint
    assert not (tmp_path / "out").exists()


def test_findings_of_an_edition_are_listed_and_mark_its_own_book_alone(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1)
    write_phrase(folder, 0, line="1/8 d2 e g c4 - e5 g c6 | 1/1 c6 | d5 | eb5")
    built = made(tmp_path, "concert", "alto saxophone", keys=("C", "F"))
    found = [one for one in built.findings if one.edition]
    assert {one.edition for one in found} == {"alto saxophone"}
    assert {one.key for one in found} <= {"A minor", "D minor"}
    assert all("concert" in one.message for one in found)
    assert "out-of-reach" in {one.rule for one in found}
    others = [one for one in built.findings if one.severity == "error" and not one.edition]
    concert, alto = (text_of(path) for path in built.pdfs)
    assert ("proof" in concert.split()) == bool(others)
    assert "proof" in alto.split()
    with pytest.raises(BuildError, match="final book was not made"):
        made(tmp_path, "alto saxophone", keys=("C", "F"), final=True)
    done = run("build", folder, "--out", tmp_path / "out", "--editions", "alto sax", "--keys", "C")
    assert "alto saxophone edition: error (out-of-reach): In A minor (concert C)" in done.stderr
    checked = run("check", folder)
    assert "out-of-reach" not in checked.stdout  # the manuscript's own editions are the concert edition
    (folder / "manuscript.toml").write_text('editions = "alto sax"\n[silence]\n"out-of-range" = "brave"\n')
    checked = run("check", folder, "--json")
    rules = {one["rule"] for one in json.loads(checked.stdout)}
    assert "out-of-reach" in rules
    assert not rules & {"out-of-range", "silence-names-no-rule"}


def test_a_fold_is_taken_where_the_author_allows_it(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1)
    write_phrase(folder, 0, line=WIDE, extra="fold = true\n")
    built = made(tmp_path, "alto sax", keys=("C",))
    assert [one.rule for one in built.findings if one.edition] == ["folded"]
    concert = made(tmp_path, "concert", keys=("C",))
    scores = len(list((tmp_path / "out" / STORE / "svg").iterdir()))
    write_phrase(folder, 0, line=WIDE)  # without the fold the concert scores stay what they are
    made(tmp_path, "concert", keys=("C",))
    assert len(list((tmp_path / "out" / STORE / "svg").iterdir())) == scores
    assert concert.pdfs


def test_keys_are_the_readers_where_the_author_says_so(tmp_path: Path) -> None:
    made(tmp_path, "bflat", settings='keys = "D G"\nkeys_are = "written"\n', phrases=1)
    store = Store(tmp_path / "out" / STORE)
    cards = [
        store.read_value(PlacingCard, "card", path.stem)
        for path in (tmp_path / "out" / STORE / "card").iterdir()
    ]
    (placing,) = [card for card in cards if card is not None]
    assert placing.keys == (CycleKey("C minor", "D minor"), CycleKey("F minor", "G minor"))


@pytest.mark.parametrize("settings", ['courtesy = "none"\n', "key_signatures = true\n"])
def test_courtesies_and_signatures_are_drawn_anew_when_they_change(tmp_path: Path, settings: str) -> None:
    first = made(tmp_path, "concert", phrases=1, keys=("E", "Ab"))
    before = {path.name for path in (tmp_path / "out" / STORE / "svg").iterdir()}
    (tmp_path / "tides" / "manuscript.toml").write_text(f'title = "Tidal studies"\n{settings}')
    made(tmp_path, "concert", keys=("E", "Ab"))
    after = {path.name for path in (tmp_path / "out" / STORE / "svg").iterdir()} - before
    assert first.pdfs
    assert len(after) >= 3


def test_a_warm_build_loads_nothing_that_knows_notes(two: Path) -> None:
    code = (
        "import sys\nfrom pathlib import Path\nfrom shedbook.book.verbs.build import build\n"
        "from shedbook.book.manuscript.request import Request\n"
        f"done = build(Request(Path({str(two / 'tides')!r}), Path({str(two / 'out')!r}), "
        "editions=('concert, bflat',)))\n"
        "assert done.jobs_run == 0\n"
        "print([name for name in sys.modules if name.startswith(('shedbook.editions', 'shedbook.theory'))])"
    )
    run("build", two / "tides", "--out", two / "out", "--editions", "concert, bflat")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
