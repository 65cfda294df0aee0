"""Phrases written out for other programs: one file a phrase, in a key and an edition.

Findings of the proof-reader never stop an export; only what cannot be read does, before anything is written.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from importlib.metadata import version
from pathlib import Path
from types import MappingProxyType

from shedbook.analysis.account import account
from shedbook.book.ground.words import words_of
from shedbook.book.ground.writing import refused
from shedbook.book.manuscript.choice import chosen_editions, chosen_phrase, chosen_tonics
from shedbook.book.manuscript.file_names import file_words
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.manuscript.unread_places import read_every_place
from shedbook.book.scores.inputs import key_order, looks_of
from shedbook.book.scores.placing import placing_of
from shedbook.book.scores.study import marks_of, study
from shedbook.book.verbs.exported_files import put_files
from shedbook.book.workshop.output_folder import claim
from shedbook.editions.fingering.tab import Tab
from shedbook.editions.instruments.edition import Edition
from shedbook.editions.transpose import transpose
from shedbook.errors import UnknownNameError, nearest
from shedbook.exchange.ground.mxl_container import packed
from shedbook.exchange.musicxml.study_marks import StudyMarks
from shedbook.exchange.musicxml.writer import Setting, musicxml, musicxml_book
from shedbook.phrase.fields import read_links
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import NoteName

CONCERT = "concert"
PPI = 220
"""Pixels an inch in a PNG picture."""
_MARGIN_MM = 1.5
"""White round an SVG or PNG picture."""

_CLEF_OCTAVES: Mapping[str, int] = MappingProxyType({"G2-8": -1, "F4-8": -1})


@dataclass(frozen=True, slots=True)
class ExportOrder:
    """What is to be written.

    `keys` are tonics, none for each phrase's own key; `edition` names a readership; `phrase` is a number
    or a title, "" for all. `study_marks` shows scales and degrees in MusicXML; `one_file` makes one MusicXML
    file of all phrases, a section a phrase.
    """

    manuscript: Path
    format: str
    out: Path
    keys: tuple[str, ...] = ()
    edition: str = CONCERT
    phrase: str = ""
    study_marks: bool = False
    one_file: bool = False


@dataclass(frozen=True, slots=True)
class Setup:
    """One phrase as a reader of an edition sees it: `sounding` in concert pitch, `written` as printed.

    `tonic` is the concert key's, by the name that was asked for; the notes of `sounding` lie under those of
    `written` and may be called otherwise. `tab` are its strings and frets, where the edition has tablature.
    """

    tonic: NoteName
    sounding: Phrase
    written: Phrase
    edition: Edition
    manuscript: Manuscript
    tab: Tab | None = None
    links: tuple[tuple[str, str], ...] = ()
    study_marks: bool = False


Render = Callable[[Setup], bytes]


def export(order: ExportOrder) -> tuple[Path, ...]:
    """Write every phrase that is asked for and return the files, in the order of the book.

    Raises:
        ReadError: if a phrase cannot be read; nothing is written then.
        UnknownNameError: for a format, key, edition or phrase that does not exist.
        OutputError: if the folder is not ours or cannot be written.
    """
    render = _format(order.format)
    chosen_tonics(order.keys)
    manuscript = open_manuscript(order.manuscript)
    (edition, *_) = chosen_editions((order.edition or CONCERT,), manuscript.settings)
    sources = (chosen_phrase(manuscript.phrases, order.phrase),) if order.phrase else manuscript.phrases
    digits = max(2, len(str(max(source.number for source in sources))))
    if order.one_file and order.format not in ("musicxml", "mxl"):
        raise UnknownNameError(
            f"Only MusicXML holds a whole book in one file, not {order.format}.",
            hint="Write --format musicxml or mxl.",
        )
    files: dict[str, bytes] = {}
    together: list[Setup] = []
    for source in sources:
        phrase = read_every_place(source)
        stem = f"{source.number:0{digits}}-{file_words(source.title)}"
        for setup in _setups(phrase, order.keys, edition, manuscript):
            name = f"{stem}-{file_words(str(setup.tonic))}" if len(order.keys) > 1 else stem
            links = read_links(source.fields.get("links", {}))
            setup = replace(setup, links=links, study_marks=order.study_marks)
            if order.one_file:
                together.append(setup)
                continue
            files[f"{name}.{ENDINGS.get(order.format, order.format)}"] = render(setup)
    if together:
        name = f"{file_words(manuscript.settings.title)}.{order.format}"
        text = _book_text(together).encode()
        files[name] = packed(text) if order.format == "mxl" else text
    return _written(order.out, files)


def _format(name: str) -> Render:
    render = FORMATS.get(name)
    if render is None:
        raise UnknownNameError(
            f'"{name[:40]}" is not a format.',
            hint=nearest(name, FORMATS) or f"Formats are {', '.join(FORMATS)}.",
        )
    return render


def _setups(phrase: Phrase, keys: tuple[str, ...], edition: Edition, manuscript: Manuscript) -> list[Setup]:
    """Return a phrase in each key; in its own key and concert pitch exactly as the author wrote it.

    A key is called, and lies, as in the book of the edition.
    """
    if edition.name == CONCERT and not keys:
        return [Setup(phrase.key.tonic, phrase, phrase, edition, manuscript)]
    placing = placing_of(study(phrase), key_order(manuscript.settings, keys), edition)
    found = []
    for one in placing.keys if keys else (placing.home,):
        if edition.name == CONCERT and one.key.concert == phrase.key:
            found.append(Setup(phrase.key.tonic, phrase, phrase, edition, manuscript))
            continue
        written = replace(one.phrase, key_inferred=False)
        sounding = transpose(written, -edition.transposition)
        found.append(Setup(one.key.concert.tonic, sounding, written, edition, manuscript, one.tab))
    return found


def _written(out: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write the files, each whole or not at all."""
    claim(out)
    with refused(out):
        put_files(out, files)
    return tuple(out / name for name in files)


# One function a format


def _setting(setup: Setup) -> Setting:
    """Return how a part is set for the reader of an edition."""
    edition, settings = setup.edition, setup.manuscript.settings
    sign, line = edition.clef[0], int(edition.clef[1])
    return Setting(
        part=edition.instrument.name if edition.instrument else settings.title,
        transposed=edition.transposition,
        clef=(sign, line, _CLEF_OCTAVES.get(edition.clef, 0)),
        signature=looks_of(settings).key.score.signature,
    )


def _study_marks(setup: Setup) -> StudyMarks | None:
    """Return the words for study of a phrase, as its reader calls them."""
    if not setup.study_marks:
        return None
    seen = account(setup.written)
    scales = [found.scale for found in seen.harmony.scales]
    return StudyMarks(
        tuple("" if scale is None else str(scale) for scale in scales),
        tuple(note.degree for note in seen.notes),
    )


def _musicxml_text(setup: Setup) -> str:
    settings = setup.manuscript.settings
    return musicxml(
        setup.sounding,
        _setting(setup),
        book=settings.title,
        author=settings.author,
        rights=settings.rights,
        software=f"shedbook {version('shedbook')}",
        author_calls_it=setup.tonic,
        links=setup.links,
        marks=_study_marks(setup),
    )


def _book_text(setups: Sequence[Setup]) -> str:
    """Return several phrases as one MusicXML file."""
    settings = setups[0].manuscript.settings
    return musicxml_book(
        [(setup.sounding, _study_marks(setup)) for setup in setups],
        _setting(setups[0]),
        book=settings.title,
        author=settings.author,
        rights=settings.rights,
        software=f"shedbook {version('shedbook')}",
    )


def _musicxml(setup: Setup) -> bytes:
    return _musicxml_text(setup).encode()


def _mxl(setup: Setup) -> bytes:
    return packed(_musicxml_text(setup).encode())


def _mei(setup: Setup) -> bytes:
    from shedbook.book.verbs.export_mei import Heading, mei_file  # noqa: PLC0415 - brings the engraver with it

    edition, settings = setup.edition, setup.manuscript.settings
    heading = Heading(settings.title, settings.author, settings.rights, version=version("shedbook"))
    return mei_file(
        setup.written, clef=edition.clef, transposed=edition.transposition, heading=heading
    ).encode()


def _picture(setup: Setup, *, png: bool) -> bytes:
    from shedbook.engrave.drawing.picture import with_margin  # noqa: PLC0415 - brings the engraver with it
    from shedbook.engrave.drawing.score_drawing import draw  # noqa: PLC0415 - as above
    from shedbook.engrave.notation.score_style import ScoreStyle  # noqa: PLC0415 - as above

    settings = setup.manuscript.settings
    look = looks_of(settings).key.score
    words = words_of(look.language.tag, dict(look.language.own))
    marks = marks_of(study(setup.sounding), look.marks, words)
    style = ScoreStyle(
        staff_mm=look.staff_mm, width_mm=look.width_mm, clef=setup.edition.clef, signature=look.signature,
        courtesy=look.courtesy,
    )  # fmt: skip
    drawing = with_margin(draw(setup.written, marks, style, setup.tab), _MARGIN_MM)
    if not png:
        return drawing.svg.encode()
    from shedbook.book.pages.typst_door import png as png_of  # noqa: PLC0415 - an SVG needs no Typst

    return png_of(drawing.svg, drawing.width_mm, drawing.height_mm, PPI)


def _midi(setup: Setup) -> bytes:
    from shedbook.book.verbs.export_midi import plain_midi  # noqa: PLC0415 - brings the players with it

    return plain_midi(setup.sounding)


FORMATS: Mapping[str, Render] = MappingProxyType(
    {
        "musicxml": _musicxml,
        "mxl": _mxl,
        "midi": _midi,
        "mei": _mei,
        "svg": partial(_picture, png=False),
        "png": partial(_picture, png=True),
    }
)
"""The formats that can be written."""

ENDINGS: Mapping[str, str] = MappingProxyType({"midi": "mid"})
"""How the files of a format end, where not with its name."""
