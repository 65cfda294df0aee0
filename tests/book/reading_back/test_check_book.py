"""A whole book is built and read back from its PDF; then its PDF is spoilt."""

from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from pypdf import PdfReader, PdfWriter
from pypdf.generic import DecodedStreamObject, NameObject

from book.builds import write_manuscript
from shedbook.book.building import make as making
from shedbook.book.manuscript.request import Request
from shedbook.book.reading_back.check_book import expected_of, held_against, read_book
from shedbook.book.reading_back.expected_scores import BY_KEY, HOME, KEY, PROOF, SCALE
from shedbook.book.reading_back.orders import BackOrder
from shedbook.book.verbs.build import build
from shedbook.errors import BuildError
from shedbook.read_back.pdf_ink import Words, parts_of_pdf

_KEYS = ("C", "Eb", "F#")
_FAULTS = 40


class _Asked(Exception):
    """Ends a build where its books would be read back."""


def _order(request: Request, monkeypatch: pytest.MonkeyPatch) -> BackOrder:
    """Build a book and return the order to read it back."""
    found: list[BackOrder] = []

    def asked(one: object, books: object) -> int:
        plan, orders = one, books
        assert isinstance(plan, making._Making)
        assert isinstance(orders, tuple)
        ((book, edition),) = orders
        found.append(BackOrder(book.store, book.target, book.data, edition, plan.orders))
        return 1

    monkeypatch.setattr(making, "_read_back", asked)
    build(replace(request, read_back=True, jobs=1))
    return found[0]


def test_a_book_is_read_back_and_a_wrong_name_of_a_key_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = write_manuscript(tmp_path / "book", 2, settings="study_marks = true")
    order = _order(Request(root, out=tmp_path / "out", keys=_KEYS), monkeypatch)
    read = read_book(order)
    expected = expected_of(order)
    assert read.errors == ()
    assert read.scores == len(expected)
    kinds = [one.kind for one in expected]
    assert (kinds.count(HOME), kinds.count(KEY)) == (2, 4)  # the home key is not printed again
    assert kinds.count(SCALE) > 2

    parts = list(parts_of_pdf(Path(order.target)))
    modes = {one.mode for one in expected}
    places = [
        place
        for place, part in enumerate(parts)
        if _text(part) in tuple("ABCDEFG")
        and modes & {_text(after) for after in parts[place + 1 : place + 3]}
    ]
    dice = Random(4)
    missed = 0
    for _ in range(_FAULTS):
        place = dice.choice(places)
        spoilt = list(parts)
        shown = parts[place]
        assert isinstance(shown, Words)
        other = dice.choice(sorted({"C", "E", "F", "G", "A", "B"} - {shown.text}))
        spoilt[place] = replace(shown, text=other)
        missed += not held_against(expected, spoilt, order).errors
    assert places
    assert missed == 0


@pytest.mark.parametrize(("settings", "marked"), [("", 1), ('arrange = "keys"', 4)])
def test_feel_and_tempo_stand_once_a_phrase_or_over_every_score_by_keys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, settings: str, marked: int
) -> None:
    """A page that gives another tempo than the phrase has is found wherever a tempo stands."""
    root = write_manuscript(tmp_path / "book", 1, settings=settings)
    order = _order(Request(root, out=tmp_path / "out", keys=_KEYS), monkeypatch)
    expected = expected_of(order)
    assert sum(bool(one.feel) for one in expected) == marked
    parts = list(parts_of_pdf(Path(order.target)))
    wanted = [
        replace(one, phrase=replace(one.phrase, tempo_bpm=one.phrase.tempo_bpm + 1)) for one in expected
    ]
    assert read_book(order).errors == ()
    said = [str(error) for error in held_against(wanted, parts, order).errors]
    assert len(said) == marked
    assert all("quarter = " in one and "but the page says" in one for one in said)
    unmarked = [replace(one, feel="") for one in expected]
    assert len(held_against(unmarked, parts, order).errors) == marked


def test_a_sign_that_is_changed_in_the_pdf_is_named_with_its_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A flat is taken out of the file itself: the call of its form."""
    root = write_manuscript(tmp_path / "book", 1)
    order = _order(Request(root, out=tmp_path / "out", keys=("Eb",)), monkeypatch)
    assert read_book(order).errors == ()
    flat = b"20 110 m 52 126 74 137 113 137 c"
    writer = PdfWriter(clone_from=PdfReader(order.target))
    page, call = next(
        (one, b"/" + name[1:].encode() + b" Do")
        for one in reversed(writer.pages)
        for name, form in one["/Resources"].get("/XObject", {}).items()  # type: ignore[attr-defined]
        if flat in form.get_object().get_data()
    )
    stream = DecodedStreamObject()
    stream.set_data(_without_one(_content(page), call))
    page[NameObject("/Contents")] = writer._add_object(stream)
    writer.write(order.target)
    errors = read_book(order).errors
    assert errors
    assert "Low tide" in errors[0].message
    assert "bar " in errors[0].message
    assert "beat " in errors[0].message
    assert "the page says" in errors[0].message


def _text(part: object) -> str:
    return part.text if isinstance(part, Words) else ""


def _content(page: object) -> bytes:
    contents = page.get_contents()  # type: ignore[attr-defined]
    return bytes(contents.get_data()) if contents is not None else b""


def _without_one(content: bytes, outline: bytes) -> bytes:
    """Return a page without the last of the glyphs with this outline."""
    at = content.rindex(outline)
    start, end = content.rindex(b"\nq ", 0, at), content.index(b"\nQ", at)
    return content[:start] + content[end + 2 :]


def test_the_build_says_how_many_scores_it_read_and_stops_at_a_wrong_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = write_manuscript(tmp_path / "book", 1)
    request = Request(root, out=tmp_path / "out", keys=("C",), read_back=True, jobs=1)
    built = build(request)
    assert built.read_back >= 2
    again = build(request)
    assert (again.jobs_run, again.read_back) == (0, built.read_back)

    class Wrong:
        """A crew whose workers find a wrong score."""

        def run(self, function: object, orders: object) -> list[tuple[object, object]]:
            from shedbook.book.reading_back.orders import ReadBack  # noqa: PLC0415
            from shedbook.errors import RenderError  # noqa: PLC0415

            return [(None, ReadBack(1, (RenderError('"Low tide" in C minor: bar 1, beat 2: …'),)))]

    read_back = making._read_back

    def spoilt(plan: making._Making, books: object) -> int:
        plan.crew = Wrong()  # type: ignore[assignment]
        return read_back(plan, books)  # type: ignore[arg-type]

    monkeypatch.setattr(making, "_read_back", spoilt)
    with pytest.raises(BuildError, match="not what the phrases say") as caught:
        build(replace(request, out=tmp_path / "other"))
    assert "bar 1, beat 2" in str(caught.value.errors[0])


@pytest.mark.parametrize(
    ("settings", "request_more", "kind"),
    [
        ('arrange = "keys"', {}, BY_KEY),
        ("", {"proof_sheet": True}, PROOF),
        ('large_print = true\nkey_signatures = true\ncourtesy = "always"', {}, KEY),
        ('language = "de"\nchord_style = "signs"\npage_size = "tablet"', {"editions": ("bflat",)}, KEY),
        ("", {"editions": ("guitar",), "tablature": ("guitar",)}, KEY),
        ("", {"editions": ("bass",)}, KEY),
    ],
)
def test_books_of_every_kind_are_read_back(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    settings: str,
    request_more: dict[str, object],
    kind: str,
) -> None:
    root = write_manuscript(tmp_path / "book", 2, settings=settings)
    request = replace(Request(root, out=tmp_path / "out", keys=_KEYS[:2]), **request_more)  # type: ignore[arg-type]
    order = _order(request, monkeypatch)
    assert read_book(order).errors == ()
    assert kind in {one.kind for one in expected_of(order)}
