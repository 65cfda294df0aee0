"""What lies beside the zips: covers, pages to look into, half a minute to listen to, samples, the listing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from shedbook.book.bundle.contents import Packed, Track, packed
from shedbook.book.bundle.listing import Counts, listing_of, listing_text
from shedbook.book.bundle.making import Bundling, kept
from shedbook.book.bundle.manifest import COVER, LISTING, PAGE, SAMPLE, SOUND, BookMusic, FileRow
from shedbook.book.bundle.pictures import covers, page_previews
from shedbook.book.bundle.sound_preview import sound_preview
from shedbook.book.ground.json_values import to_json
from shedbook.book.pages.data import BookData
from shedbook.book.pages.edition_words import edition_words
from shedbook.book.pages.layout import printed_name
from shedbook.book.pages.typst_door import pages_in
from shedbook.book.reading_back.expected_scores import HOME

_PREVIEWS = 5
_DEMONSTRATION = "demonstration"


def beside_zips(
    making: Bundling,
    tracks: Sequence[Track],
    pdfs: Mapping[str, Path],
    music: Mapping[str, BookMusic],
    zips: Mapping[str, Sequence[Packed]],
) -> Iterator[Packed]:
    """Yield what lies beside the zips, the samples left out; `pdfs` are the books by edition."""
    shop = making.manuscript.settings.shop
    first = pdfs[making.editions[0].name]
    picture = making.manuscript.root / shop.cover if shop.cover else None
    about = kept(making.store, BookData, printed_name(first.name)).about
    if len(making.editions) > 1:  # the shop's picture is that of all editions
        about = replace(about, edition="")
    for name, content in covers(picture, replace(about, licensee=""), making.store.folder).items():
        yield packed(f"cover/{name}", COVER, content)
    for edition in making.editions:
        pdf = pdfs[edition.name]
        most = _PREVIEWS if pdf == first else 1
        for name, content in page_previews(pdf, _shown(music[pdf.name], most), edition.slug).items():
            yield packed(f"pages/{name}", PAGE, content)
    sound = sound_preview(_listened(tracks), making.about.title, making.about.author)
    if sound is None:
        making.told.append("There is no preview to listen to: no track of the book sounds.")
    else:
        yield packed("preview.mp3", SOUND, sound)
    rows = [one.row for one in next(iter(zips.values()))]
    listed = listing_of(
        making.about, making.cards, _counts(making, rows, zips),
        making.manuscript.settings.subtitle, shop.blurb, making.words,
    )  # fmt: skip
    yield packed("listing.txt", LISTING, listing_text(listed, making.words).encode())
    yield packed("listing.json", LISTING, to_json(listed))


def _shown(music: BookMusic, most: int) -> tuple[int, ...]:
    """Return the pages of a preview: the first pages of the first phrases, and the keys of the first."""
    homes = list(dict.fromkeys(row.page for row in music.scores if row.kind == HOME))
    if most == 1:
        return tuple(homes[:1])
    return tuple(sorted({*homes[: most - 1], *(page + 1 for page in homes[:1])}))[:most]


def _listened(tracks: Sequence[Track]) -> list[Path]:
    """Return the tracks of a preview: demonstrations, each phrase once, else whatever sounds."""
    sounding = [one for one in tracks if one.facts.lufs is not None and one.facts.number]
    shown = [one for one in sounding if one.facts.kind == _DEMONSTRATION] or sounding
    first: dict[int, Path] = {}
    for one in shown:
        first.setdefault(one.facts.number, one.path)
    return list(first.values())


def _counts(making: Bundling, rows: Sequence[FileRow], zips: Mapping[str, Sequence[Packed]]) -> Counts:
    tracks = [row.track for row in rows if row.track is not None]
    stems = {(one.number, one.kind, one.keys, one.tempo): one.seconds for one in tracks}
    endings = dict.fromkeys(row.name.rpartition(".")[2].upper() for row in rows if row.role != "text")
    endings.pop("JSON", None)
    names = [edition_words(one, making.words).title for one in making.editions]
    pages = {
        one.name: next(row.row.pages for row in members if row.row.pages)
        for one, members in zip(making.editions, zips.values(), strict=True)
    }
    shown = {"MID": "MIDI", "MUSICXML": "MusicXML"}
    formats = tuple(shown.get(one, one) for one in endings)
    return Counts(pages, len(stems), sum(stems.values()), formats, tuple(names))


def samples_of(samples: Mapping[str, Path]) -> Iterator[Packed]:
    """Yield the sample PDFs."""
    for pdf in samples.values():
        yield packed(f"sample/{pdf.name}", SAMPLE, pdf, pages=pages_in(pdf.read_bytes()))
