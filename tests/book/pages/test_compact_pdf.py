"""The PDF written smaller: the same pages to the pixel, the same tags, and a form for what comes again."""

from __future__ import annotations

import io

import pdfua
import pikepdf
import pypdfium2
import pytest
import typst

from shedbook.book.pages.compact_pdf import compacted

SCORE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="20mm" viewBox="0 0 600 200"><defs>'
    '<path id="a" d="M0-39C0 29 73 133 200 133C266 133 314 96 314 38'
    'C314-46 208-133 96-133C32-133 0-103 0-39z"/>'
    "</defs>{}</svg>"
)
USES = "".join(
    f'<use href="#a" transform="translate({x} {40 + x % 90}) scale(.1 -.1)"/>' for x in range(20, 580, 14)
)


def made() -> bytes:
    source = (
        '#set document(title: "T")\n#set text(lang: "en")\n#set page(width: 100mm, height: 80mm)\n= Head\n'
        '#image(bytes(sys.inputs.svg), format: "svg", width: 60mm, alt: "A score (with brackets) Q")\n'
        "Words.\n#pagebreak()\n"
        '#image(bytes(sys.inputs.svg), format: "svg", width: 40mm, alt: "Again")\n'
    )
    found = typst.compile(
        source.encode(), format="pdf", pdf_standards=["ua-1"], sys_inputs={"svg": SCORE.format(USES)}
    )
    assert isinstance(found, bytes)
    return found


@pytest.fixture(scope="module")
def pair() -> tuple[bytes, bytes]:
    plain = made()
    return plain, compacted(plain)


def test_the_pages_are_the_same_to_the_pixel(pair: tuple[bytes, bytes]) -> None:
    plain, small = (pypdfium2.PdfDocument(one) for one in pair)
    assert len(plain) == len(small) == 2
    for one, other in zip(plain, small, strict=True):
        assert one.render(scale=3).to_pil().tobytes() == other.render(scale=3).to_pil().tobytes()
        assert one.get_textpage().get_text_range() == other.get_textpage().get_text_range()


def test_a_glyph_that_comes_again_is_one_form(pair: tuple[bytes, bytes]) -> None:
    plain, small = pair
    assert len(small) < 0.85 * len(plain)
    with pikepdf.open(io.BytesIO(small)) as pdf:
        forms = {form.objgen for page in pdf.pages for form in page.Resources.XObject.values()}
        assert len(forms) == 1
        first = pdf.pages[0].Contents.read_bytes()
        assert first.count(b" Do\nQ") == 40
        assert pdf.check_pdf_syntax() == []
        assert pdf.trailer.Size == len(pdf.objects) + 1  # numbered without a gap


def test_tags_and_alternative_texts_stay(pair: tuple[bytes, bytes], tmp_path: object) -> None:
    with pikepdf.open(io.BytesIO(pair[1])) as pdf:
        kinds = [str(one.S) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/S" in one]
        assert "/Figure" in kinds
        assert pdf.Root.MarkInfo.Marked
    assert pdfua.validate(_file(pair[1], tmp_path)).findings == ()


def _file(content: bytes, folder: object) -> str:
    path = f"{folder}/one.pdf"
    with open(path, "wb") as file:  # noqa: PTH123
        file.write(content)
    return path


@pytest.mark.parametrize(
    ("around", "box"),
    [(8, [5, 5, 111, 91]), (2, [0, 0, 105, 85])],  # it begins where the sheet begins
)
def test_a_bleed_box_stands_about_the_trim_box(around: int, box: list[float]) -> None:
    source = f"#set page(width: 100mm, height: 80mm, bleed: {around}mm)\nA"
    plain = typst.compile(source.encode(), format="pdf")
    assert isinstance(plain, bytes)
    with pikepdf.open(io.BytesIO(compacted(plain, 3 * 72 / 25.4))) as pdf:
        page = pdf.pages[0]
        media, trim, bleed = (
            [float(edge) for edge in page[name]] for name in ("/MediaBox", "/TrimBox", "/BleedBox")
        )
    mm = 72 / 25.4
    assert media[2] == pytest.approx((100 + 2 * around) * mm, abs=0.1)
    assert trim[2] - trim[0] == pytest.approx(100 * mm, abs=0.1)
    assert [edge / mm for edge in bleed] == pytest.approx(box, abs=0.1)


@pytest.mark.parametrize("content", [b"", b"%PDF-1.4\nnothing of ours", b"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n"])
def test_what_is_not_known_is_left_alone(content: bytes) -> None:
    assert compacted(content) == content
