"""Tablature in a book: who has it, what is said where it is not, and that nothing else changes."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest

from book import drawings
from book.builds import run, write_manuscript, write_phrase
from shedbook.book.ground.paper import PAGE_SIZES
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.book.scores.inputs import KeyPicture, looks_of
from shedbook.book.scores.spoken_text import score_text
from shedbook.book.verbs.build import Built, build
from shedbook.book.verbs.check import check
from shedbook.book.verbs.show import drawn
from shedbook.book.workshop.output_folder import STORE
from shedbook.editions.fingering.tab import Stop, Tab
from shedbook.engrave.notation.score_style import SPACE
from shedbook.errors import ManuscriptError, UnknownNameError
from shedbook.phrase.fields import phrase_from_fields


def made(folder: Path, settings: str = "", **asked: Any) -> Built:
    manuscript = folder / "tides"
    if not manuscript.exists():
        write_manuscript(manuscript, 1, settings)
    return build(Request(manuscript, folder / "out", **{"keys": ("C", "F"), **asked}))


def score_pictures(folder: Path) -> list[str]:
    """Return the alternative texts of the scores in the store."""
    pictures = [path.read_text(encoding="utf-8") for path in (folder / "out" / STORE / "svg").iterdir()]
    return [svg for svg in pictures if "Bar 1, " in svg]


def tablatures(settings: dict[str, Any], *editions: str, asked: tuple[str, ...] = ()) -> list[str]:
    """Return the editions with tablature and how they are tuned."""
    found = chosen_editions(editions, settings_from_fields(settings), asked)
    return [f"{one.name}: {one.tablature.tuning}" for one in found if one.tablature is not None]


STANDARD = "guitar: E2 A2 D3 G3 B3 E4"
BASS = "electric bass: E1 A1 D2 G2"
CHOICES = [
    pytest.param({}, (), [], id="off by default"),
    pytest.param({"tablature": False}, (), [], id="off"),
    pytest.param({"tablature": True}, (), [STANDARD, BASS], id="on, for what has frets"),
    pytest.param({"tablature": "all"}, (), [STANDARD, BASS], id="all"),
    pytest.param({"tablature": "none"}, (), [], id="none"),
    pytest.param({"tablature": ["guitar"]}, (), [STANDARD], id="a name"),
    pytest.param({"tablature": "electric bass, jazz guitar"}, (), [STANDARD, BASS], id="names, an alias"),
    pytest.param({"tablature": True}, ("none",), [], id="none is asked"),
    pytest.param({}, ("ALL",), [STANDARD, BASS], id="all are asked"),
    pytest.param({"tablature": ["guitar"]}, ("electric bass",), [BASS], id="another is asked"),
    pytest.param(
        {"tablature": True, "tunings": {"bass guitar": "B0 E1 A1 D2 G2"}}, (),
        [STANDARD, "electric bass: B0 E1 A1 D2 G2"], id="another tuning",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("settings", "asked", "found"), CHOICES)
def test_who_has_tablature(settings: dict[str, Any], asked: tuple[str, ...], found: list[str]) -> None:
    assert tablatures(settings, "concert, guitar, double bass, electric bass, bass", asked=asked) == found


def test_an_instrument_of_the_authors_has_tablature() -> None:
    own = {"name": "lute", "range": "C3 C6", "tuning": "G2 C3 F3 A3 D4 G4", "frets": 12}
    assert tablatures({"tablature": ["lute"], "instrument": [own]}, "lute") == ["lute: G2 C3 F3 A3 D4 G4"]
    other = {"tablature": True, "instrument": [own], "tunings": {"lute": "F2 C3 F3 A3 D4 G4"}}
    assert tablatures(other, "lute") == ["lute: F2 C3 F3 A3 D4 G4"]


@pytest.mark.parametrize(
    ("line", "message", "at"),
    [
        ("tablature = 3", "must be true, false, or names of editions", (3, 13, "3")),
        ('tablature = ["concert"]', "The Concert edition has no tablature", (3, 13, '["concert"]')),
        ('tablature = ["upright bass"]', "Double bass edition has no tablature", (3, 13, '["upright bass"]')),
        ('tablature = "gitar"', 'no edition "gitar"', (3, 13, '"gitar"')),
        ("tablature = []", "names no edition", (3, 13, "[]")),
        ('[tunings]\nguitar = "E2 A2 X3"', '"X3" is not a note', (4, 10, '"E2 A2 X3"')),
        ('[tunings]\n"electric bass" = "E1"', "it names 1 strings", (4, 19, '"E1"')),
        ('tunings = { guitar = "E2" }', "it names 1 strings", (3, 11, '{ guitar = "E2" }')),
        ('tunings.guitar = "E2"', "it names 1 strings", (3, 18, '"E2"')),
        (
            '[[instrument]]\nname = "oud"\nrange = "C3 C5"\n[[instrument]]\nname = "lute"\nrange = "C3 C5"\n'
            'tuning = "E2 A2"',
            "it names 2 strings", (9, 10, '"E2 A2"'),
        ),
        ('[[instrument]]\nname = "lute"\nrange = "C3 C5"\nfrets = 2', "cannot have these frets", (6, 9, "2")),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_said_with_its_place(
    tmp_path: Path, line: str, message: str, at: tuple[int, int, str]
) -> None:
    write_manuscript(tmp_path / "tides", 1, line)
    with pytest.raises(ManuscriptError, match=message) as raised:
        open_manuscript(tmp_path / "tides")
    place = raised.value.place
    assert place is not None
    column = place.column or 0
    meant = place.excerpt[column - 1 : column - 1 + place.width]
    assert (place.file, place.line, column, meant) == ("manuscript.toml", *at)
    assert raised.value.hint


def test_asked_of_an_edition_without_frets_it_is_said(tmp_path: Path) -> None:
    built = made(tmp_path, editions=("concert, bflat, guitar",), tablature=("all",))
    said = [finding for finding in built.findings if finding.rule == "no-tablature"]
    assert [(one.number, one.file, one.severity) for one in said] == [(0, "manuscript.toml", "advice")]
    assert said[0].message.startswith("The Concert edition and B♭ edition have no tablature")
    again = made(tmp_path, editions=("concert",), tablature=("guitar",))
    assert "for the guitar edition, which is not among those made" in again.findings[0].message
    with pytest.raises(UnknownNameError, match="The Double bass edition has no tablature"):
        made(tmp_path, tablature=("double bass",))
    assert not made(tmp_path, editions=("guitar",), tablature=("all",)).findings


def test_the_proof_reader_says_it_and_can_be_silenced(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1, "tablature = true\n")
    (found,) = [one for one in check(folder).found if one.finding.rule == "no-tablature"]
    assert (found.place.file, found.place.line) == ("manuscript.toml", 3)
    with (folder / "manuscript.toml").open("a", encoding="utf-8") as file:
        file.write('[silence]\nno-tablature = "Only the guitar has it."\n')
    rules = {one.finding.rule for one in check(folder).found}
    assert not rules & {"no-tablature", "unknown-silence"}
    assert not [one for one in made(tmp_path).findings if one.rule == "no-tablature"]


def test_a_note_on_no_string_is_a_finding_of_its_phrase(tmp_path: Path) -> None:
    folder = write_manuscript(
        tmp_path / "tides", 1,
        'editions = ["guitar"]\ntablature = true\nkeys = "C"\n[tunings]\nguitar = "E4 G4 B4"\n',
    )  # fmt: skip
    write_phrase(folder, 0, line="1/4 c4 d e f | 1/1 g | g | g")
    (found,) = [one for one in check(folder).found if one.finding.rule == "off-fingerboard"]
    assert (found.place.bar, found.place.beat, found.finding.severity) == (1, "1", "warning")
    assert "2 notes are not on the fingerboard of the guitar, tuned E4 G4 B4" in found.finding.message


def test_a_book_with_tablature(tmp_path: Path) -> None:
    built = made(tmp_path, "tablature = true\n", editions=("guitar",))
    (pdf,) = built.pdfs
    text = " ".join("\n".join(page.extract_text() for page in pypdf.PdfReader(pdf).pages).split())
    assert "Under each staff stands its tablature" in text
    assert "from string 1, E 4, B 3, G 3, D 3, A 2, E 2, as they sound" in text
    with pikepdf.open(pdf) as opened:
        alternatives = [
            str(one.get("/Alt", "")) for one in opened.objects if isinstance(one, pikepdf.Dictionary)
        ]
    assert [alt for alt in alternatives if "F 4 on string 4, fret 3" in alt]
    pictures = score_pictures(tmp_path)
    assert len(pictures) == 3  # the home key large, two keys
    assert all("on string" in svg for svg in pictures)


def test_without_tablature_no_byte_changes(tmp_path: Path) -> None:
    plain = made(tmp_path / "plain", editions=("guitar, concert",))
    other = made(tmp_path / "other", "tablature = true\n", editions=("guitar, concert",), tablature=("none",))
    for one, two in zip(plain.pdfs, other.pdfs, strict=True):
        assert one.read_bytes() == two.read_bytes()
    drawn_with = made(tmp_path / "other", editions=("guitar, concert",))
    assert drawn_with.pdfs[0].read_bytes() != plain.pdfs[0].read_bytes()
    told = [svg for svg in score_pictures(tmp_path / "other") if "on string" in svg]
    assert len(told) == 3  # drawn anew, none taken from the book without tablature
    assert drawn_with.pdfs[1].read_bytes() == plain.pdfs[1].read_bytes()  # concert has none
    assert made(tmp_path / "other", editions=("guitar, concert",)).jobs_run == 0


def test_other_verbs_draw_what_the_book_has(tmp_path: Path) -> None:
    folder = write_manuscript(tmp_path / "tides", 1, "tablature = true\n")
    plain = write_manuscript(tmp_path / "plain", 1)
    assert drawn(folder, edition="guitar").height_mm > drawn(plain, edition="guitar").height_mm + 10
    assert drawn(folder).svg == drawn(plain).svg
    for edition, times in (("guitar", 1), ("concert", 0)):
        out = tmp_path / edition
        done = run("export", folder, "--format", "svg", "--edition", edition, "--out", out)
        assert done.returncode == 0, done.stderr
        (picture,) = out.glob("*.svg")
        _, _, picture_of_score = picture.read_text(encoding="utf-8").partition("<defs>")  # it has a margin
        same = picture_of_score == drawn(folder, edition="guitar").svg.partition("<defs>")[2]
        assert same == bool(times)


def test_the_alternative_text_says_string_and_fret() -> None:
    phrase = phrase_from_fields(
        {"title": "Low tide", "changes": "Cmaj7 | %", "line": "1/4 c4 - 1/8+1/8 e 1/4 g | + 1/1"}
    )
    tab = Tab(6, (Stop(5, 3, 2), Stop(4, 2, 2), None), ((), (), ()))
    text = score_text(phrase, words_of("en"), tab)
    assert text.endswith(
        "Bar 1, C maj7: quarter C 4 on string 5, fret 3, rest, eighth E 4 on string 4, fret 2, tied eighth, "
        "quarter G 4. Bar 2, C maj7: tied whole note."
    )
    assert "string" not in score_text(phrase, words_of("en"))


LONG = "1/16 g4 a bb c5 d e f g a g f e d c bb4 a | " * 7 + "1/1 g"


@pytest.mark.parametrize("name", ["guitar", "electric bass"])
@pytest.mark.parametrize("size", PAGE_SIZES)
@pytest.mark.parametrize("large", [False, True])
def test_a_long_phrase_has_one_staff_size_in_all_keys(size: str, large: bool, name: str) -> None:
    settings = settings_from_fields({"tablature": True, "page_size": size, "large_print": large})
    text = drawings.text_of(changes="Gm7 |" + " % |" * 7, line=LONG, key="F major")
    (edition,) = chosen_editions((name,), settings)
    _, pictures = drawings.inputs_of(text, edition, settings)
    keys = {key: picture for key, picture in pictures.items() if isinstance(picture, KeyPicture)}
    assert len(keys) == 12
    found = drawings.drawn(keys)
    alone = drawings.drawn({"F major": keys["F major"]})
    assert alone == {"F major": found["F major"]}  # whichever keys are drawn with it
    staves = set()
    for one in found.values():
        _, _, wide, _ = map(float, re.findall(r'viewBox="([^"]+)"', one.svg)[0].split())
        staves.add(round(one.facts.width_mm / wide * 4 * SPACE, 1))
    assert staves == {round(looks_of(settings).key.score.staff_mm, 1)}


def test_empty_staves_can_be_left_out(tmp_path: Path) -> None:
    heads = []
    for place, settings in enumerate(("", "own_staves = false\n")):
        folder = write_manuscript(tmp_path / f"tides{place}", 3, settings)
        built = build(Request(folder, tmp_path / f"out{place}", keys=("C",), phrases=("3",)))
        text = "".join(page.extract_text() for page in pypdf.PdfReader(built.pdfs[0]).pages)
        heads.append("Your own" in text)
    assert heads == [True, False]
