"""The one module that runs Typst: page data in, PDF bytes out; a picture in, PNG bytes out."""

from __future__ import annotations

import contextlib
import io
import shutil
import tempfile
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from shedbook.book.ground.json_values import to_json
from shedbook.book.pages.compact_pdf import compacted
from shedbook.book.pages.cover import CoverData
from shedbook.book.pages.data import PageData
from shedbook.errors import RenderError

_MM = 72 / 25.4
TEMPLATES = Path(__file__).parent / "templates"

SIGNS = Path(__file__).parent / "fonts/shedbook-signs.ttf"
"""The accidentals among words (`tools/make_accidentals_font.py`)."""

FONTS = (
    ("font_source_serif_pro", "SourceSerifPro", ("Regular", "It", "Semibold", "Light")),
    ("font_source_sans_pro", "SourceSansPro", ("Regular", "It", "Semibold", "Light")),
)
"""Package, file name stem and the cuts that the pages use."""


def pdf(template: str, data: PageData | CoverData, root: Path) -> bytes:
    """Lay out pages: `template` names a file of ours, and picture paths in `data` start at `root`.

    Raises:
        RenderError: if Typst cannot lay out the pages.
    """
    import typst  # noqa: PLC0415 - a build with nothing to lay out must not load it

    with fonts() as folder:
        try:
            made = typst.Compiler(
                _source(template),
                root=str(root),
                font_paths=typst.Fonts(include_system_fonts=False, font_paths=[str(folder)]),
                sys_inputs={"data": to_json(data).decode()},
            ).compile(format="pdf", timestamp=0, pdf_standards=_standards(data))
        except typst.TypstError as error:
            raise RenderError(f"The pages could not be laid out: {error.message}") from error
    bleed_mm = data.about.press.bleed_mm
    return compacted(_one(made), bleed_mm * _MM)


def sheet(template: str, data: object) -> bytes:
    """Lay out a sheet that has no pictures: `template` names a file of ours, `data` is what it prints.

    Raises:
        RenderError: if Typst cannot lay it out.
    """
    import typst  # noqa: PLC0415 - as above

    with fonts() as folder:
        try:
            made = typst.Compiler(
                _source(template),
                font_paths=typst.Fonts(include_system_fonts=False, font_paths=[str(folder)]),
                sys_inputs={"data": to_json(data).decode()},
            ).compile(format="pdf", timestamp=0, pdf_standards=["ua-1"])
        except typst.TypstError as error:
            raise RenderError(f"The sheet could not be laid out: {error.message}") from error
    return _one(made)


def _standards(data: PageData | CoverData) -> Any:
    """Return the standards that a PDF keeps: PDF/UA-1, and PDF/A-2a where the book says its date.

    PDF/A asks for a date of making, and ours would differ with every build; with the inks of a press it is
    not to be had. A cover is a picture for the press and keeps none.
    """
    if isinstance(data, CoverData):
        return []
    return ["ua-1", "a-2a"] if data.about.date and data.about.press.ink == "rgb" else ["ua-1"]


def pages_in(content: bytes) -> int:
    """Return how many pages a PDF has."""
    from pypdf import PdfReader  # noqa: PLC0415 - only a book for the press needs it

    return len(PdfReader(io.BytesIO(content)).pages)


def png(svg: str, width_mm: float, height_mm: float, ppi: int = 300) -> bytes:
    """Return a picture of a score on white ground, at its natural size.

    Raises:
        RenderError: if Typst cannot draw the score.
    """
    import typst  # noqa: PLC0415 - as above

    source = (
        f"#set page(width: {width_mm:.3f}mm, height: {height_mm:.3f}mm, margin: 0mm, fill: white)\n"
        f"#image(bytes(sys.inputs.svg), width: {width_mm:.3f}mm, height: {height_mm:.3f}mm, "
        'format: "svg")\n'
    )
    try:
        made = typst.compile(
            source.encode(),
            ignore_system_fonts=True,
            format="png",
            ppi=float(ppi),
            sys_inputs={"svg": svg},
        )
    except typst.TypstError as error:
        raise RenderError(f"The picture could not be drawn: {error.message}") from error
    return _one(made)


def _one(made: bytes | list[bytes] | None) -> bytes:
    if not isinstance(made, bytes):
        raise RenderError("Typst gave no single file.")
    return made


def _source(template: str) -> bytes:
    """Return a template with the parts it names put in: Typst is given one text, not a folder."""
    lines = []
    for line in (TEMPLATES / template).read_text(encoding="utf-8").splitlines():
        if line.startswith("// part: "):
            line = (TEMPLATES / line.removeprefix("// part: ").strip()).read_text(encoding="utf-8")
        lines.append(line)
    return "\n".join(lines).encode()


@contextlib.contextmanager
def fonts() -> Iterator[Path]:
    """Give a folder with the cuts in use and no others.

    The packages hold each cut twice, and which of two files Typst takes would depend on the order in
    which the disk lists them.
    """
    with tempfile.TemporaryDirectory(prefix="shedbook-fonts-") as name:
        for package, stem, cuts in FONTS:
            spec = find_spec(package)
            if spec is None or spec.origin is None:
                raise RenderError(f"The fonts of {package} are not installed.")
            for cut in cuts:
                file = Path(spec.origin).parent / "files" / f"{stem}-{cut}.otf"
                shutil.copyfile(file, Path(name) / file.name)
        shutil.copyfile(SIGNS, Path(name) / SIGNS.name)
        yield Path(name)
