"""Every setting, changed by itself: exactly what depends on it is made anew, as a clean build makes it.

A small book is built, one thing in it is changed, and it is built again over the same store. The books and
tracks must be those of a clean build, byte for byte. Of every artefact the names and contents before and
after are compared: what has another content must have another name, so nothing is forgotten; and what has
another name must have another content, or stand among the case's `spare` parts, with the reason why it is
made again.

Source of the expectation: the design of the store (an artefact is named by everything on which it depends).
"""

from __future__ import annotations

import functools
import io
import shutil
import tempfile
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest
import soundfile
from PIL import Image

from one_process import Here
from shedbook.book.building.make import make
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request, practice_folder_name
from shedbook.book.manuscript.settings.tracks import TRACK_FIELDS
from shedbook.book.manuscript.settings.whole_book import BOOK_FIELDS
from shedbook.book.pages.layout import LaidOut
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.practice.make import data_versions
from shedbook.book.scores.artefacts import PlacingCard
from shedbook.book.scores.worker import PhraseOrder, card_name, picture_names, pictures_in, placing_name
from shedbook.book.tracks.make import TrackList
from shedbook.book.workshop.crew import Crew
from shedbook.book.workshop.naming import digest
from shedbook.book.workshop.output_folder import STORE
from shedbook.book.workshop.store import Store
from shedbook.book.workshop.versions import score_fingerprint
from shedbook.phrase.tables.fields import FIELDS
from sound.studio import package_font

BOOK = {
    "title": '"Tidal studies"',
    "author": '"A. Writer"',
    "tempo": "240",
    "keys": '"C F# Eb"',
    "editions": '"concert, bflat"',
}
SMALL: Mapping[str, str | None] = {"keys": '"C F#"', "editions": '"bflat"'}
"""What is enough for most: in one edition a key of a phrase, and another."""
NARROW: Mapping[str, str | None] = {
    "editions": '"concert, tin horn"',
    "instrument": '[{ name = "tin horn", range = "A4 to A5" }]',
}
"""An instrument on which the first phrase does not fit in its keys."""
FRETTED: Mapping[str, str | None] = {"editions": '"concert, guitar"', "tablature": "true"}
PRESSED: Mapping[str, str | None] = {"print": "true"}
OF_THE_MUSIC = (
    "book enharmonic", "book keys", "book keys_are", "book instrument", "book editions", "book courtesy",
    "book key_signatures", "book tablature", "book tunings", "book systems", "book metre", "book fold",
    "book silence",
    "phrase key", "phrase changes", "phrase scales", "phrase line", "phrase silence", "phrase fold",
    "request keys", "request editions", "request tablature",
)  # fmt: skip
"""Cases that may be one thing to an edition, or to a key, and another to the next."""
PRACTISED: Mapping[str, str | None] = {"practice_page": "true", "keys": '"C"', "editions": '"bflat"'}
SOUNDING = (
    "book tracks_address", "book videos_address", "tracks", "phrase", "book title", "book author",
    "book tempo", "book feel", "book feels", "book metre", "book keys",
)  # fmt: skip
"""Cases whose book has tracks too."""
TRACKS = {"kinds": '["demonstration"]', "formats": '["wav"]', "rounds": "1", "phrases": "[1]"}
PHRASE = {
    "title": '"Low tide"',
    "changes": '"Dm7b5 | G7b9"',
    "line": '"1/8 ab4 c5 eb f# g eb c ab4 | f5 d b4 g - b d5 f"',
    "commentary": '"B flat is what I would not play."',
}
SECOND = {"changes": '"Cmaj7"', "line": '"1/4 g4 1/8 b c5 g3 c4 1/4 e"'}


class Case(NamedTuple):
    """One change, and what it may make anew although it comes out the same.

    `book`, `tracks` and `phrase` are keys of manuscript.toml, of its [tracks] and of the first phrase, with
    their values in TOML; None takes a key away. `request` are fields of the request, `file` is a file's name
    and text.
    `given` are keys of manuscript.toml that are there before the change too.
    """

    book: Mapping[str, str | None] = {}
    tracks: Mapping[str, str | None] = {}
    phrase: Mapping[str, str | None] = {}
    request: Mapping[str, Any] = {}
    file: tuple[str, Callable[[], bytes]] = ("", bytes)
    spare: frozenset[str] = frozenset()
    given: Mapping[str, str | None] = {}
    sounds: bool = False


def take() -> bytes:
    """Return a recording of the author's: a second of a tuning note."""
    found = io.BytesIO()
    tone = 0.2 * np.sin(2 * np.pi * 440 * np.arange(44_100) / 44_100)
    soundfile.write(found, np.column_stack([tone, tone]), 44_100, format="WAV")
    return found.getvalue()


def small_font() -> bytes:
    """Return another SoundFont than the system's."""
    return package_font().path.read_bytes()


def small_picture() -> bytes:
    """Return a publisher's mark."""
    found = io.BytesIO()
    Image.new("1", (40, 40)).save(found, "PNG")
    return found.getvalue()


def large_picture() -> bytes:
    """Return a picture that covers an A4 page with its bleed at 300 dots an inch."""
    found = io.BytesIO()
    Image.new("1", (2600, 3600), 1).save(found, "PNG")
    return found.getvalue()


SCALES = frozenset({"changes", "scale"})
"""Scales and empty staves are drawn of the music that the scores share, so that a phrase is read once.
What stands in the line, and does not show in them, makes them again in a few milliseconds."""

SHARED = SCALES | {"placing"}
"""The card of an edition is made of the same text, and for it the title, tempo and feel say nothing."""

PICTURES = SCALES | {"home", "key"}
"""Keys and registers of an edition are chosen together: another order may leave each as it was."""

CASES: dict[str, Case] = {
    "book title": Case(book={"title": '"Other studies"'}),
    "book subtitle": Case(book={"subtitle": '"For low water"'}),
    "book author": Case(book={"author": '"B. Writer"'}),
    "book rights": Case(book={"rights": '"All rights with the author."'}),
    "book language": Case(book={"language": '"pt"'}, spare=frozenset({"card"})),
    "book enharmonic": Case(
        book={"enharmonic": '"Gb"'}, given={"keys": '"fourths"'}, spare=PICTURES | {"card", "placing"}
    ),
    "book keys": Case(book={"keys": '"C F# A"'}, spare=PICTURES),
    "book keys_are": Case(book={"keys_are": '"written"'}, spare=SHARED | {"card", "home"}),
    "book instrument": Case(
        book={"instrument": '[{ name = "tin horn", range = "C3 to C4" }]'}, spare=SCALES, given=NARROW
    ),
    "book editions": Case(book={"editions": '"concert, eflat"'}),
    "book courtesy": Case(book={"courtesy": '"none"'}, spare=frozenset({"home", "key"})),
    "book key_signatures": Case(book={"key_signatures": "true"}, spare=frozenset({"home"})),
    "book tablature": Case(book={"tablature": "false"}, given=FRETTED, spare=SHARED),
    "book tunings": Case(
        book={"tunings": '{ guitar = "D2 A2 D3 G3 B3 E4" }'}, given=FRETTED, spare=PICTURES | {"placing"}
    ),
    "book systems": Case(book={"systems": "1"}, given={"key_columns": '"one"'}, spare=frozenset({"key"})),
    "book phrase_starts": Case(book={"phrase_starts": '"opening"'}),
    "book key_columns": Case(book={"key_columns": '"one"'}),
    "book home_key_again": Case(book={"home_key_again": "true"}),
    "book publisher": Case(book={"publisher": '"Quay Press"'}),
    "book series": Case(book={"series": '"Low water, 2"'}),
    "book edition_statement": Case(book={"edition_statement": '"Second edition"'}),
    "book version": Case(book={"version": '"1.1"'}),
    "book printing": Case(book={"printing": '"First printing"'}),
    "book isbn": Case(book={"isbn": '"978-3-16-148410-0"'}),
    "book dedication": Case(book={"dedication": '"For A."'}),
    "book preface": Case(book={"preface": '"Read this."'}),
    "book acknowledgements": Case(book={"acknowledgements": '"Thanks."'}),
    "book about_the_author": Case(book={"about_the_author": '"Invented."'}),
    "book back_cover_text": Case(
        book={"back_cover_text": '"Buy this."'}, given=PRESSED, spare=frozenset({"pages"})
    ),
    "book logo": Case(book={"logo": '"media/logo.png"'}, file=("media/logo.png", small_picture)),
    "book cover": Case(
        book={"cover": '"media/cover.png"'},
        given=PRESSED,
        spare=frozenset({"pages"}),
        file=("media/cover.png", large_picture),
    ),
    "book back_cover": Case(
        book={"back_cover": '"media/back.png"'},
        given=PRESSED,
        spare=frozenset({"pages"}),
        file=("media/back.png", large_picture),
    ),
    "book tracks_address": Case(book={"tracks_address": '"https://example.org/{n}"'}),
    "book videos_address": Case(book={"videos_address": '"https://example.org/{nn}.mp4"'}),
    "book print": Case(book={"print": "true"}),
    "book print_ink": Case(book={"print_ink": '"cmyk"'}, given=PRESSED),
    "book crop_marks": Case(book={"crop_marks": "true"}, given=PRESSED),
    "book paper_stock": Case(book={"paper_stock": "0.5"}, given=PRESSED, spare=frozenset({"pages"})),
    "book chapters_start_right": Case(book={"chapters_start_right": "true"}),
    "book page_size": Case(book={"page_size": '"letter"'}),
    "book large_print": Case(book={"large_print": "true"}),
    "book study_marks": Case(book={"study_marks": '"all"'}),
    "book own_staves": Case(book={"own_staves": "false"}),
    "book chord_style": Case(book={"chord_style": '"signs"'}, spare=frozenset({"scale"})),
    "book parts": Case(book={"parts": '"scale"'}),
    "book arrange": Case(book={"arrange": '"keys"'}),
    "book date": Case(book={"date": '"2026-05-01"'}),
    "book words": Case(book={"words": '{ contents = "What is inside" }'}),
    "book metre": Case(book={"metre": '"2/2"'}, spare=SHARED),
    "book tempo": Case(book={"tempo": "90"}, spare=SHARED),
    "book feel": Case(book={"feel": '"bossa"'}, spare=SHARED),
    "book fold": Case(book={"fold": "true"}, spare=PICTURES | {"card", "placing"}, given=NARROW),
    "book feels": Case(book={"feels": '["bossa"]'}),
    "book tempos": Case(book={"tempos": "[80, 100]"}),
    "book links": Case(book={"links": '{ Home = "https://example.org" }'}),
    "book drills": Case(book={"drills": '["dorian in thirds"]'}),
    "book phrases": Case(book={"phrases": '["02.toml", "01.toml"]'}, spare=SHARED),
    "book practice_page": Case(book={"practice_page": "true"}),
    "book id": Case(book={"id": '"tides.2026"'}, given=PRACTISED),
    "book silence": Case(
        book={"silence": '{ "out-of-reach" = "known" }'}, spare=frozenset({"card", "placing"}), given=NARROW
    ),
    "tracks kinds": Case(tracks={"kinds": '["play-along"]'}),
    "tracks phrases": Case(tracks={"phrases": "[2]"}),
    "tracks formats": Case(tracks={"formats": '["mid"]'}),
    "tracks keys": Case(tracks={"keys": '"Eb"'}),
    "tracks tempos": Case(tracks={"tempos": "[150]"}),
    "tracks rounds": Case(tracks={"rounds": "2"}),
    "tracks count_in": Case(tracks={"count_in": "0"}),
    "tracks loudness": Case(tracks={"loudness": "-20"}),
    "tracks sides": Case(tracks={"sides": "true"}),
    "tracks line_instrument": Case(tracks={"line_instrument": '"trumpet"'}),
    "tracks comping_instrument": Case(tracks={"comping_instrument": '"vibraphone"'}),
    "tracks bass_instrument": Case(tracks={"bass_instrument": '"electric bass"'}),
    "tracks bass": Case(tracks={"bass": '"two"'}),
    "tracks drums": Case(tracks={"drums": '"brushes"'}),
    "tracks click": Case(tracks={"kinds": '["demonstration", "click"]', "click": '"1"'}),
    "tracks count": Case(  # bars too: where no voice is installed the count is struck as before
        tracks={"count": '"both"', "count_in": "1"}
    ),
    "tracks ramp": Case(tracks={"kinds": '["ramp"]', "ramp": '"60% to 100% by 20%"'}),
    "tracks minutes": Case(tracks={"minutes": "0.5"}),
    "tracks seed": Case(tracks={"seed": "7"}),
    "tracks recordings": Case(
        tracks={"recordings": '[{ phrase = 1, file = "media/take.wav" }]'}, file=("media/take.wav", take)
    ),
    "tracks sound_font": Case(tracks={"sound_font": '"own.sf2"'}, file=("own.sf2", small_font)),
    "phrase title": Case(phrase={"title": '"High tide"'}, spare=SHARED),
    "phrase id": Case(phrase={"id": '"low-tide"'}, spare=frozenset({"card"})),
    "phrase key": Case(phrase={"key": '"Eb major"'}, spare=SCALES),
    "phrase metre": Case(phrase={"metre": '"2/2"'}, spare=SCALES),
    "phrase pickup": Case(
        phrase={"pickup": '"1/4"', "line": '"1/4 g4 | 1/8 ab4 c5 eb f# g eb c ab4 | f5 d b4 g - b d5 f"'},
        spare=SCALES | {"placing"},  # what is told of bar 1 may be the same
    ),
    "phrase tempo": Case(phrase={"tempo": "90"}, spare=SHARED),
    "phrase feel": Case(phrase={"feel": '"ballad"'}, spare=SHARED),
    "phrase changes": Case(phrase={"changes": '"Dm7 | G7"'}),
    "phrase scales": Case(phrase={"scales": '"locrian | altered"'}, spare=frozenset({"changes"})),
    "phrase line": Case(phrase={"line": '"1/8 ab4 c5 eb f g eb c ab4 | f5 d b4 g - b d5 f"'}, spare=SCALES),
    "phrase commentary": Case(phrase={"commentary": '"Play it softly."'}),
    "phrase sentences": Case(
        phrase={"sentences": '{ "It is not told." = "It is not printed." }'}, spare=frozenset({"placing"})
    ),
    "phrase links": Case(phrase={"links": '{ Track = "https://example.org/1" }'}),
    "phrase silence": Case(
        phrase={"silence": '{ "out-of-reach" = "known" }'}, spare=frozenset({"card", "placing"}), given=NARROW
    ),
    "phrase fold": Case(phrase={"fold": "true"}, spare=PICTURES | {"card", "placing", "pages"}, given=NARROW),
    "page with another line": Case(
        phrase={"line": '"1/8 ab4 c5 eb f g eb c ab4 | f5 d b4 g - b d5 f"'}, spare=SCALES, given=PRACTISED
    ),
    "page with a rest of the book": Case(book={"title": '"Other studies"'}, given=PRACTISED),
    "tracks line_instrument on the page": Case(tracks={"line_instrument": '"trumpet"'}, given=PRACTISED),
    "request keys": Case(request={"keys": ("C",)}),
    "request editions": Case(request={"editions": ("bflat",)}),
    "request phrases": Case(request={"phrases": ("2",)}),
    "request licensee": Case(request={"licensee": "A. Reader"}),
    "request sample": Case(request={"sample": 1}),
    "request proof_sheet": Case(request={"proof_sheet": True}),
    "request practice_page": Case(request={"practice_page": True}),
    "request tracks": Case(request={"tracks": ("play-along",)}),
    "request tablature": Case(request={"tablature": ("none",)}, given=FRETTED, spare=SHARED),
    "a chapter": Case(file=("chapters/01-foreword.txt", lambda: b"name: Foreword\n\nRead this first.\n")),
}

Content = tuple[str, bytes]
"""The name of an artefact, and what it holds."""


def case_of(name: str) -> Case:
    """Return a case with all that its book has."""
    case, sounds = CASES[name], name.startswith(SOUNDING) or name == "request tracks"
    given = case.given if name.startswith(OF_THE_MUSIC) else {**SMALL, **case.given}
    return case._replace(sounds=sounds, given=given)


def toml(keys: Mapping[str, str | None]) -> str:
    return "".join(f"{name} = {value}\n" for name, value in keys.items() if value is not None)


def write(root: Path, case: Case, *, changed: bool) -> None:
    """Write the manuscript, with the change of a case or without."""
    book = {**BOOK, **case.given, **(case.book if changed else {})}
    tracks = {**TRACKS, **(case.tracks if changed else {})} if case.sounds else {}
    (root / "phrases").mkdir(parents=True, exist_ok=True)
    (root / "manuscript.toml").write_text(f"{toml(book)}\n[tracks]\n{toml(tracks)}", encoding="utf-8")
    first = {**PHRASE, **(case.phrase if changed else {})}
    (root / "phrases/01.toml").write_text(toml(first), encoding="utf-8")
    (root / "phrases/02.toml").write_text(toml(SECOND), encoding="utf-8")
    name, content = case.file
    if name and changed:
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(content())


def build(root: Path, out: Path, request: Request) -> None:
    crew = Crew(1, lambda workers: Here())
    make(request, root, out, lambda step: None, crew)


def request_of(root: Path, case: Case, *, changed: bool) -> Request:
    return Request(root, **(case.request if changed else {}))


def artefacts(root: Path, out: Path, request: Request) -> dict[str, Content]:
    """Return every artefact of a build by what it is: the name that it has now, and its content."""
    manuscript, store = open_manuscript(root), Store(out / STORE)
    settings = manuscript.settings
    editions = chosen_editions(request.editions, settings, request.tablature)
    found: dict[str, Content] = {}

    def take(what: str, kind: str, name: str) -> None:
        content = store.read(kind, name)
        if content is not None:
            found[what] = (name, content)

    for source in manuscript.phrases:
        order = PhraseOrder(str(store.folder), source, settings, request.keys, editions, score_fingerprint())
        take(f"card {source.file}", "card", card_name(order))
        for edition in editions:
            take(f"placing {source.file} {edition.name}", "card", placing_name(order, edition))
            card = store.read_value(PlacingCard, "card", placing_name(order, edition))
            if card is None:
                continue
            for name, own in picture_names(pictures_in(order, edition, card), order.versions).items():
                sort = "key" if name.endswith(("major", "minor")) else name.partition(" ")[0]
                take(f"{sort} {source.file} {edition.name} {name}", "svg", own)
    for path in out.glob("*.pdf"):
        note = store.read_value(LaidOut, "card", digest("pages", path.name))
        assert note is not None
        found[f"pages {path.name}"] = (note.job, path.read_bytes())
    tracks = store.read_value(TrackList, "card", digest("tracks")) or TrackList()
    for stem, entry in tracks.tracks.items():
        whole = b"".join((out / name).read_bytes() for name in sorted(entry.files))
        found[f"track {stem}"] = (entry.made_from, whole)
    return found | practised(root, out, request)


def practised(root: Path, out: Path, request: Request) -> dict[str, Content]:
    """Return what the student's page is made of, and all of it in one."""
    manuscript, store = open_manuscript(root), Store(out / STORE)
    settings, folder = manuscript.settings, out / practice_folder_name(root, request)
    if not (settings.practice_page or request.practice_page) or request.proof_sheet:
        return {}
    editions = chosen_editions(request.editions, settings, request.tablature)
    found: dict[str, Content] = {}
    for source in manuscript.phrases:
        order = PracticeOrder("", source, settings, request.keys, editions, data_versions())
        for what, name in zip(("played", *(one.name for one in editions)), order.names(), strict=True):
            found[f"practice {source.file} {what}"] = (name, store.read("card", name) or b"")
    page = b"".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())
    return found | {"page": (digest(page), page)}


made: list[Path] = []
"""Folders of books without a change, which go when the tests are done."""


@functools.cache
def _before(given: tuple[tuple[str, str | None], ...], sounds: bool) -> Path:
    """Build the book without a change, once a worker, and return the folder with it."""
    folder = Path(tempfile.mkdtemp(prefix="shedbook-before-"))
    made.append(folder)
    case = Case(given=dict(given), sounds=sounds)
    write(folder / "book", case, changed=False)
    build(folder / "book", folder / "out", request_of(folder / "book", case, changed=False))
    return folder


@pytest.fixture(scope="module", autouse=True)
def _swept() -> Iterator[None]:
    yield
    for folder in made:
        shutil.rmtree(folder, ignore_errors=True)
    made.clear()
    _before.cache_clear()


def compared(tmp_path: Path, case: Case) -> tuple[dict[str, Content], dict[str, Content], dict[str, Content]]:
    """Return the artefacts before a change, after it over the same store, and of a clean build."""
    shutil.copytree(_before(tuple(case.given.items()), case.sounds), tmp_path / "a")
    root, out = tmp_path / "a/book", tmp_path / "a/out"
    before = artefacts(root, out, request_of(root, case, changed=False))
    write(root, case, changed=True)
    request = request_of(root, case, changed=True)
    build(root, out, request)
    build(root, tmp_path / "clean", request)
    return before, artefacts(root, out, request), artefacts(root, tmp_path / "clean", request)


@pytest.mark.parametrize("name", CASES)
def test_exactly_what_depends_on_it_is_made_anew(name: str, tmp_path: Path) -> None:
    case = case_of(name)
    before, after, clean = compared(tmp_path, case)
    asked = clean.keys()  # files of an earlier request may lie beside
    assert {one: after[one] for one in asked} == clean
    both = before.keys() & asked
    renamed = {one for one in both if before[one][0] != clean[one][0]}
    changed = {one for one in both if before[one][1] != clean[one][1]}
    assert changed <= renamed
    spare = {one.partition(" ")[0] for one in renamed - changed}
    assert spare <= case.spare, sorted(renamed - changed)
    assert spare == case.spare
    assert changed or asked != before.keys()


HOW_AND_WHERE = {"manuscript", "out", "jobs", "final", "scheduler", "read_back", "bundle"}
"""Fields of a request that say how and where it is built, or what is checked or packed after, not what."""


def test_every_field_of_a_request_has_its_case() -> None:
    cases = {name.removeprefix("request ") for name in CASES if name.startswith("request ")}
    assert cases == {one.name for one in fields(Request)} - HOW_AND_WHERE


def test_every_key_has_its_case() -> None:
    rows = [("book", row.name) for row in BOOK_FIELDS if row.name != "tracks"]
    rows += [("tracks", row.name) for row in TRACK_FIELDS]
    rows += [("phrase", row.name) for row in FIELDS]
    assert {f"{table} {key}" for table, key in rows} <= CASES.keys()
