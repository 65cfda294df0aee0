from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from shedbook.book.ground.chord_style import STYLES, style_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.settings.layout import LayoutSettings
from shedbook.book.manuscript.settings.pages import MarkChoice, PageSettings
from shedbook.book.manuscript.settings.shop import PrintSettings, ShopSettings
from shedbook.book.manuscript.settings.tracks import SoundSettings, TrackSettings
from shedbook.book.manuscript.settings.whole_book import (
    BOOK_FIELD_NAMES,
    PhraseDefaults,
    Settings,
    settings_from_fields,
)
from shedbook.editions.fingering.fingerboard import Fingerboard, read_strings
from shedbook.editions.instruments.own_instruments import instruments_from_fields
from shedbook.errors import ManuscriptError

EVERY_KEY: dict[str, Any] = {
    "title": "Tides",
    "subtitle": "Ten phrases",
    "author": "A. N. Other",
    "rights": "© the author",
    "id": "tides-2026",
    "language": "pt-BR",
    "keys": ["C", "F", "Bb"],
    "enharmonic": "F# db",
    "keys_are": "written",
    "editions": ["Concert", "Tenor sax", "bass trumpet", "concert"],
    "instrument": [{"name": "Bass Trumpet", "range": "F#3 to C6"}],
    "fold": True,
    "courtesy": "Always",
    "key_signatures": True,
    "tablature": "none",
    "tunings": {"Electric guitar": "D2 A2 D3 G3 B3 E4"},
    "page_size": "Letter",
    "large_print": True,
    "study_marks": ["degrees"],
    "own_staves": False,
    "chord_style": "letters",
    "parts": "scale",
    "arrange": "keys",
    "systems": 6,
    "phrase_starts": "Page",
    "key_columns": "one",
    "home_key_again": True,
    "publisher": "Quay Press",
    "series": "Low water, 2",
    "edition_statement": "Second edition",
    "version": "1.1",
    "printing": "First printing",
    "isbn": "978-3-16-148410-0",
    "dedication": "For A.",
    "preface": "Read\n\nthis.",
    "acknowledgements": "Thanks.",
    "about_the_author": "Invented.",
    "back_cover_text": "Buy this.",
    "logo": "media/logo.png",
    "cover": "media/front.JPG",
    "back_cover": "media/back.jpeg",
    "tracks_address": "https://example.org/{n}",
    "videos_address": "https://example.org/{nn}.mp4",
    "practice_page": True,
    "print": True,
    "print_ink": "CMYK",
    "crop_marks": True,
    "paper_stock": "120 g offset",
    "chapters_start_right": True,
    "date": "2026-05-01",
    "words": {"contents": "What is in it"},
    "metre": "3/4",
    "tempo": 90,
    "feel": "jazz waltz",
    "tempos": [60, 80],
    "feels": ["swing", "bossa nova"],
    "links": {"Lessons": "https://example.org/x"},
    "phrases": ["01-first.toml"],
    "drills": ["dorian in thirds"],
    "silence": {"range": "It is meant so."},
    "tracks": {"kinds": ["play-along"], "rounds": 2},
}


def test_every_key() -> None:
    assert set(EVERY_KEY) == set(BOOK_FIELD_NAMES)
    assert settings_from_fields(EVERY_KEY) == Settings(
        title="Tides",
        subtitle="Ten phrases",
        author="A. N. Other",
        own_id="tides-2026",
        rights="© the author",
        language="pt-BR",
        keys=("C", "F", "Bb"),
        enharmonic=("F#", "Db"),
        keys_written=True,
        editions=("concert", "tenor saxophone", "bass trumpet"),
        instruments=instruments_from_fields(EVERY_KEY["instrument"]),
        courtesy="always",
        signatures=True,
        tunings=(("guitar", Fingerboard(read_strings("D2 A2 D3 G3 B3 E4"), 24)),),
        page_size="letter",
        pages=PageSettings(
            large_print=True,
            marks=MarkChoice(scales=False, degrees=True, sparse=False),
            parts="scale",
            arrange="keys",
            chord_style=style_of(STYLES["letters"]),
            own_staves=False,
            words=(("contents", "What is in it"),),
            date=(2026, 5, 1),
            layout=LayoutSettings(6, "page", "one", True),
        ),
        shop=ShopSettings(
            publisher="Quay Press",
            series="Low water, 2",
            edition_statement="Second edition",
            version="1.1",
            printing="First printing",
            isbn=(("", "978-3-16-148410-0"),),
            dedication="For A.",
            preface="Read\n\nthis.",
            acknowledgements="Thanks.",
            about_author="Invented.",
            blurb="Buy this.",
            logo="media/logo.png",
            cover="media/front.JPG",
            back_cover="media/back.jpeg",
            tracks_address="https://example.org/{n}",
            videos_address="https://example.org/{nn}.mp4",
        ),
        press=PrintSettings(True, "cmyk", True, 0.156, True),
        practice_page=True,
        defaults=PhraseDefaults(metre="3/4", tempo=90, feel="waltz", fold=True),
        tempos=(60, 80),
        feels=("swing", "bossa"),
        drills=("dorian in thirds",),
        links=(("Lessons", "https://example.org/x"),),
        phrases=("01-first.toml",),
        silence=(("range", "It is meant so."),),
        tracks=TrackSettings(kinds=("play-along",), sound=SoundSettings(rounds=2)),
    )


def test_no_key_need_stand() -> None:
    assert settings_from_fields({}) == Settings()


def test_phrases_take_over_what_the_book_says_and_nothing_else() -> None:
    assert settings_from_fields({"tempo": 90, "fold": False}).defaults.fields == {"tempo": 90, "fold": False}
    assert settings_from_fields({}).defaults.fields == {}


@pytest.mark.parametrize("order", ["fourths", "fifths", "chromatic", "C F Bb", "C, F#, Bb"])
def test_orders_of_keys(order: str) -> None:
    assert settings_from_fields({"keys": order}).keys == order


@pytest.mark.parametrize(
    ("value", "names"),
    [
        ("bflat, concert double bass f", ("bflat", "concert", "double bass", "f")),
        (["alto sax", "Bb"], ("alto saxophone", "bflat")),
    ],
)
def test_editions_by_any_of_their_names(value: object, names: tuple[str, ...]) -> None:
    assert settings_from_fields({"editions": value}).editions == names


# key, value, part of the message, part of the hint
ERRORS = [
    pytest.param("titel", "x", '"titel" is not a key of manuscript.toml', '"title"', id="unknown key"),
    pytest.param("title", 3, "must be text", "title =", id="title"),
    pytest.param("language", "english!", "not a language tag", '"en"', id="language"),
    pytest.param("keys", "forths", '"forths" is not an order', '"fourths"', id="order of keys"),
    pytest.param("keys", "C F Q", '"Q" is not a tonic', "", id="tonic"),
    pytest.param("keys", "", "names no key", "fourths", id="no keys"),
    pytest.param("keys", [], "names no key", "fourths", id="empty list of keys"),
    pytest.param("keys", 3, "must be a list", "fourths", id="keys as a number"),
    pytest.param("keys", ["C", 3], 'An item of "keys" must be text', "", id="a key as a number"),
    pytest.param("enharmonic", "H", '"H" is not the name of a key', "F# Db", id="preferred name"),
    pytest.param("editions", [], "names no edition", "concert", id="no editions"),
    pytest.param("editions", ["../x"], 'no edition "../x"', "concert", id="edition that is a path"),
    pytest.param("editions", "concert, tenr sax", 'no edition "tenr sax"', '"tenor sax"', id="no instrument"),
    pytest.param("editions", ["tenor"], 'no edition "tenor"', '"tenor voice"', id="two instruments"),
    pytest.param("keys_are", "mine", '"mine" is not a kind of keys', "concert, written", id="whose keys"),
    pytest.param("courtesy", "sometimes", "not a rule for courtesy", "after-bar", id="courtesy"),
    pytest.param("key_signatures", "no", "must be true or false", "", id="key signatures"),
    pytest.param("fold", 1, "must be true or false", "", id="fold"),
    pytest.param("instrument", {"name": "x"}, "must be tables", "[[instrument]]", id="instrument"),
    pytest.param("page_size", "a5", '"a5" is not a page size', "letter", id="page size"),
    pytest.param("study_marks", ["degres"], '"degres" is not a study mark', '"degrees"', id="study mark"),
    pytest.param("study_marks", 1, "must be a list", "", id="study marks as a number"),
    pytest.param("metre", "4/5", "is not a metre", "", id="metre"),
    pytest.param("tempo", 5, "not between 20 and 400", "", id="tempo"),
    pytest.param("feel", "swung out", "is not a feel", "", id="feel"),
    pytest.param("tempos", 80, "must be a list", "[80, 120, 160]", id="tempos as a number"),
    pytest.param("tempos", [80, "x"], 'An item of "tempos" must be a whole number', "[80, 120]", id="tempos"),
    pytest.param("feels", ["swong"], '"swong" is not a feel', '"swing"', id="feels"),
    pytest.param("styles", ["swing"], '"styles" is now called "feels"', "Write feels", id="the old key"),
    pytest.param("links", "https://example.org", "must be a table", "", id="links as text"),
    pytest.param("links", {"x": "javascript:alert(1)"}, "not a web address", "https://", id="other address"),
    pytest.param("phrases", "01-first.toml", "must be a list", "", id="phrases as text"),
    pytest.param("phrases", [3], 'An item of "phrases" must be text', "", id="phrases"),
    pytest.param("phrases", [""], "is empty", "", id="empty name"),
    pytest.param("phrases", ["a", "a"], '"a" is listed twice', "once", id="listed twice"),
    pytest.param("silence", {"range": ""}, "needs a text", "why", id="silence without reason"),
]


@pytest.mark.parametrize(("key", "value", "message", "hint"), ERRORS)
def test_error(key: str, value: object, message: str, hint: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        settings_from_fields({key: value})
    assert caught.value.field == key
    assert message in caught.value.message
    assert hint in caught.value.hint


# what manuscript.toml lists, part of the message
LISTED = [
    pytest.param("../outside.toml", "leads out of the manuscript folder", id="above"),
    pytest.param("phrases/../../outside.toml", "leads out of the manuscript folder", id="above, hidden"),
    pytest.param("..\\\\outside.toml", "leads out of the manuscript folder", id="above, with backslashes"),
    pytest.param("/etc/hosts", "leads out of the manuscript folder", id="absolute"),
    pytest.param("C:/outside.toml", "leads out of the manuscript folder", id="another drive"),
    pytest.param("link.toml", "leads out of the manuscript folder", id="link"),
    pytest.param("nowhere.toml", "there is no such file", id="missing"),
    pytest.param("phrases/01.toml", "is listed twice", id="twice by two names"),
]


@pytest.mark.parametrize(("name", "message"), LISTED)
def test_listed_file_that_cannot_be_used(tmp_path: Path, name: str, message: str) -> None:
    root = tmp_path / "book"
    (root / "phrases").mkdir(parents=True)
    for path in (root / "phrases/01.toml", tmp_path / "outside.toml"):
        path.write_text('title = "a"\nchanges = "C"\nline = "1/1 c5"\n')
    (root / "link.toml").symlink_to(tmp_path / "outside.toml")
    (root / "manuscript.toml").write_text(f'# mine\nphrases = ["01.toml", "{name}"]\n')
    with pytest.raises(ManuscriptError, match=message) as caught:
        open_manuscript(root)
    place = caught.value.place
    assert place is not None
    assert place.column is not None
    assert (place.file, place.line) == ("manuscript.toml", 2)
    if "\\" not in name:  # written with escapes, it is found no nearer than its list
        assert place.excerpt[place.column - 1 :].startswith(name)


def test_place_of_an_unknown_key(tmp_path: Path) -> None:
    (tmp_path / "manuscript.toml").write_text('# mine\nsubtitel = "x"\n')
    with pytest.raises(ManuscriptError) as caught:
        open_manuscript(tmp_path)
    assert str(caught.value.place) == "manuscript.toml:2:1"
    assert caught.value.place is not None
    assert caught.value.place.width == len("subtitel")


@pytest.mark.parametrize(
    ("table", "message"),
    [
        ({"isbn": "978-3-16-148410-1"}, "would be 0, not 1"),
        ({"isbn": {"concert": "12"}}, "thirteen digits"),
        ({"cover": "front.tif"}, "no picture that can be printed"),
        ({"tracks_address": "example.org/{n}"}, "not a web address"),
        ({"tracks_address": "https://example.org"}, "the same for every phrase"),
        ({"videos_address": "example.org/{nn}"}, "not a web address"),
        ({"videos_address": "https://example.org/watch"}, "the same for every phrase"),
        ({"paper_stock": 5}, "is no paper"),
        ({"paper_stock": "vellum"}, "vellum"),
        ({"systems": 40}, "40"),
        ({"phrase_starts": "anywhere"}, "anywhere"),
    ],
)
def test_what_cannot_be_printed_is_said(table: dict[str, Any], message: str) -> None:
    with pytest.raises(ManuscriptError, match=message):
        settings_from_fields(table)
