"""Objects of a PDF written anew. The expectations are ISO 32000-1, 7.5; pikepdf reads the file too."""

from __future__ import annotations

import io
import re
import zlib

import pikepdf
import pytest
import typst

from shedbook.book.pages.pdf_objects import PdfObjects, is_stream, read_objects, written


@pytest.fixture(scope="module")
def found() -> PdfObjects:
    plain = typst.compile(b"#for n in range(90) [= Head\nWords #footnote[of a note]]", format="pdf")
    assert isinstance(plain, bytes)
    objects = read_objects(plain)
    assert objects is not None
    return objects


def test_every_row_of_the_table_leads_to_its_object(found: PdfObjects) -> None:
    """7.5.8: a row is a kind, then where the object begins and its generation, or in which stream it lies."""
    pdf = written(found.objects, found.trailer)
    start = int(pdf.rpartition(b"startxref\n")[2].split(b"\n")[0])
    head, _, rest = pdf[start:].partition(b"\nstream\n")
    number, generation = (int(one) for one in head.split(b" ", 2)[:2])
    widths = [int(one) for one in re.search(rb"/W\s*\[([\d ]+)\]", head)[1].split()]  # type: ignore[index]
    (size,) = (int(one) for one in re.findall(rb"/Size (\d+)", head))
    data = zlib.decompress(rest[: rest.index(b"\nendstream")])
    assert len(data) == size * sum(widths)
    rows = []
    for place in range(0, len(data), sum(widths)):
        row, at = [], place
        for width in widths:
            row.append(int.from_bytes(data[at : at + width], "big"))
            at += width
        rows.append(row)
    assert (number, generation) == (size - 1, 0)
    assert rows[number] == [1, start, 0]
    assert rows[0][0] == 0  # the first is free
    for number, (kind, where, more) in enumerate(rows[1:], 1):
        if kind == 1:
            assert pdf[where:].startswith(b"%d %d obj\n" % (number, more))
            assert number not in found.objects or is_stream(found.objects[number])
        else:
            assert kind == 2
            assert rows[where][0] == 1
            assert not is_stream(found.objects[number])


def test_the_file_holds_the_same_objects(found: PdfObjects) -> None:
    with pikepdf.open(io.BytesIO(written(found.objects, found.trailer))) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert len(pdf.pages) > 1
        for number in found.objects:
            assert pdf.get_object(number, 0) is not None
        for number, body in found.objects.items():
            if is_stream(body):
                data = body.partition(b"\nstream\n")[2].rpartition(b"\nendstream")[0]
                assert pdf.get_object(number, 0).read_raw_bytes() == data
