"""What manuscript.toml says of the book as a thing that is printed and sold. Each setting is one row.

`ShopSettings` are its words and pictures, `PrintSettings` how it goes to the press.
"""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.ground.isbn import isbn_digits
from shedbook.book.ground.tables.paper_stocks import STOCKS
from shedbook.book.manuscript.settings.rows import row
from shedbook.phrase.toml_values import flag, one_of, refuse, text_table, text_value

BLACK, CMYK = "black", "cmyk"
INKS = (BLACK, CMYK)
"""What a book is printed with: black alone, or the four inks of the press."""

_STOCKS = {one.name: one.leaf_mm for one in STOCKS}
_THINNEST_MM, _THICKEST_MM = 0.03, 1.0


def _line(key: str, value: object) -> str:
    return text_value(key, value, '"…"')


def _prose(key: str, value: object) -> str:
    return text_value(key, value, '"…"', lines=True)


def _isbn(key: str, value: object) -> tuple[tuple[str, str], ...]:
    """Return ISBNs as they are printed, by the name of an edition; "" for all."""
    if isinstance(value, dict):
        pairs = text_table(key, value, '{ concert = "978-…" }')
    else:
        text = text_value(key, value, '"978-3-16-148410-0"')
        pairs = (("", text),) if text else ()
    for _, text in pairs:
        try:
            isbn_digits(text)
        except ValueError as error:
            refuse(
                key, str(error), "Copy it from the list of your agency; each edition has a number of its own."
            )
    return pairs


def _file(key: str, value: object) -> str:
    name = text_value(key, value, '"media/cover.png"')
    if name and not name.lower().endswith((".png", ".jpg", ".jpeg")):
        refuse(key, f'"{name}" is no picture that can be printed.', "Give a PNG or a JPEG file.")
    return name


def _ink(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, f'"{BLACK}"'), INKS, "a way of printing")


def _stock(key: str, value: object) -> float:
    if isinstance(value, int | float) and not isinstance(value, bool):
        if not _THINNEST_MM <= value <= _THICKEST_MM:
            refuse(
                key,
                f"A leaf of {value:g} mm is no paper.",
                "Give the thickness of one leaf in millimetres: 0.117",
            )
        return float(value)
    return _STOCKS[one_of(key, text_value(key, value, '"90 g offset"'), tuple(_STOCKS), "a paper stock")]


def _address(key: str, value: object) -> str:
    text = text_value(key, value, '"https://example.org/tracks/{n}"')
    if text and not text.startswith(("https://", "http://")):
        refuse(key, f'"{text}" is not a web address.', 'Write key = "https://example.org/tracks/{n}"')
    if text and "{n}" not in text:
        refuse(key, f'"{text}" is the same for every phrase.', "Put {n} where the phrase's number goes.")
    return text


def _videos(key: str, value: object) -> str:
    text = text_value(key, value, '"https://example.org/watch/{nn}.mp4"')
    if text and not text.startswith(("https://", "http://")):
        refuse(key, f'"{text}" is not a web address.', 'Write key = "https://example.org/watch/{nn}.mp4"')
    if text and "{n}" not in text and "{nn}" not in text:
        refuse(
            key, f'"{text}" is the same for every phrase.',
            "Put {n} where the phrase's number goes, or {nn} for 07 in the place of 7.",
        )  # fmt: skip
    return text


@dataclass(frozen=True, slots=True)
class ShopSettings:
    """The words and pictures of a book that is sold: a part of the table of the keys of manuscript.toml.

    `isbn` are pairs of an edition's name, "" for all, and the number as it is printed. Pictures are named
    from the manuscript's folder.
    """

    publisher: str = row("", _line, "text", "", "who publishes the book")
    series: str = row("", _line, "text", "", "the series that it belongs to")
    edition_statement: str = row("", _line, "text", "", 'which edition it is: "Second edition, revised"')
    version: str = row(
        "", _line, "text", "1", 'the version of the book, as its bundle and imprint say: "1.1"'
    )
    printing: str = row("", _line, "text", "", 'which printing it is: "First printing, May 2026"')
    isbn: tuple[tuple[str, str], ...] = row(
        (), _isbn, "text, or table of texts", "", "the ISBN, or one for each edition by its name"
    )
    dedication: str = row("", _prose, "text", "", "a dedication, on a page of its own")
    preface: str = row("", _prose, "text", "", "a preface, before your other chapters")
    acknowledgements: str = row("", _prose, "text", "", "your thanks, after your chapters in front")
    about_author: str = row(
        "", _prose, "text", "", "a text about yourself, after the music", key="about_the_author"
    )
    blurb: str = row("", _prose, "text", "", "what the back cover says", key="back_cover_text")
    logo: str = row("", _file, "text", "", "a picture file, the publisher's mark on title page and cover")
    cover: str = row("", _file, "text", "one of our own design", "a picture file, the front of the cover")
    back_cover: str = row("", _file, "text", "", "a picture file, the back of the cover")
    tracks_address: str = row(
        "", _address, "text", "",
        "where a phrase's tracks are on the web, printed with a QR code; {n} stands for its number",
    )  # fmt: skip
    videos_address: str = row(
        "", _videos, "text", "",
        "where a phrase's video will be on the web, printed with a QR code; {n} stands for its number, {nn} "
        "for the same with as many figures as the largest",
    )  # fmt: skip

    def isbn_of(self, edition: str) -> str:
        """Return the ISBN of an edition by its name, "" where it has none."""
        found = dict(self.isbn)
        return found.get(edition, found.get("", ""))


@dataclass(frozen=True, slots=True)
class PrintSettings:
    """How a book goes to the press: a part of the table of the keys of manuscript.toml."""

    wanted: bool = row(
        False, flag, "true or false", "false",
        "whether each book is made for the press too, with bleed, and with a cover in one piece", key="print",
    )  # fmt: skip
    ink: str = row(
        BLACK,
        _ink,
        "text",
        "black",
        'what it is printed with: "black", or "cmyk" for four inks',
        key="print_ink",
    )
    crop_marks: bool = row(
        False, flag, "true or false", "false", "whether the pages for the press have crop marks"
    )
    leaf_mm: float = row(
        _STOCKS["90 g offset"], _stock, "text or number", "90 g offset",
        "the paper, or the thickness of a leaf in millimetres, for the width of the spine", key="paper_stock",
    )  # fmt: skip
    chapters_right: bool = row(
        False, flag, "true or false", "false", "whether each chapter starts on a right page",
        key="chapters_start_right",
    )  # fmt: skip
