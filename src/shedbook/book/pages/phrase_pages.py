"""The pages of one phrase as data: its first page, and its keys shared out over the pages after it. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import import_module

from shedbook.book.ground.addresses import filled
from shedbook.book.ground.paper import Paper
from shedbook.book.ground.printed_text import printed
from shedbook.book.ground.typography import typeset
from shedbook.book.ground.words import Words, opened
from shedbook.book.manuscript.chapters import PHRASE, at_place
from shedbook.book.manuscript.settings.layout import ONE_COLUMN
from shedbook.book.manuscript.settings.pages import BY_KEY
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.data import (
    ChapterData,
    KeyGroup,
    KeyScore,
    LinkData,
    PhraseData,
    ScaleScore,
    TempoData,
    as_kind,
)
from shedbook.book.pages.first_page import FirstPage, first_pages, scales_in_a_row
from shedbook.book.pages.first_page import Words as Said
from shedbook.book.pages.page_plan import COST, Box, First, Plan, Sheet, plan_phrase
from shedbook.book.pages.prose import blocks_of, sentence_runs
from shedbook.book.scores.artefacts import PhraseCard, PlacingCard, Score
from shedbook.errors import RenderError
from shedbook.phrase.feels import feel_row
from shedbook.phrase.fields import SLOWEST_BPM

_HEAD_CHARACTERS = 52
_ROUNDING_MM = 0.5
OWN_GAP_MM = 1.0
"""The white under each of the reader's own staves, besides the room for ledger lines."""


@dataclass(frozen=True, slots=True)
class PhrasePages:
    """One phrase: its printed number, its cards, its pictures.

    `scales` are the written-out scales, `changes` empty staves under the changes, `has_tracks` says that the
    book has tracks of it.
    """

    number: int
    card: PhraseCard
    placing: PlacingCard
    home: Score
    keys: tuple[Score, ...]
    scales: tuple[Score, ...] = ()
    changes: Score | None = None
    has_tracks: bool = False


def _cost_of(way: FirstPage, scales: int) -> float:
    """Return what a way to set a first page costs by its looks."""
    return (
        COST["side by side"] * way.beside
        + COST["lone scale"] * (scales == 1 and not way.beside)
        + COST["close"] * (way.white < 1)
    )


def phrase_data(phrase: PhrasePages, book: BookText) -> PhraseData:
    """Return what the template prints of a phrase."""
    card, placing, words, paper = phrase.card, phrase.placing, book.words, book.paper
    home = placing.home.written
    pages = book.settings.pages
    drill = book.is_drill(phrase.number)
    own = phrase.changes if pages.own_staves and not drill else None
    said = _said(phrase, book)
    scales = [(score.width_mm, score.height_mm) for score in phrase.scales]
    ways = first_pages(said, phrase.home.height_mm, scales, paper)
    keys = [score for score in key_scores(phrase, words) if pages.layout.home_again or score.key != home]
    if pages.arrange == BY_KEY:
        keys = []
    sheet = sheet_of(book, keys, own)
    firsts = [First(way.height, _cost_of(way, len(scales))) for way in ways]
    plan = plan_phrase([Box(one.height_mm, one.staff_mm) for one in keys], firsts, sheet)
    way = ways[plan.way]
    # A drill is explained in its one line; why each of its notes is there needs no telling.
    told = () if drill else placing.explanation
    return PhraseData(
        number=phrase.number,
        title=card.title,
        head=shortened(card.title),
        progression=printed(words.named("progression", card.progression)),
        key=words.whole_key(home),
        facts=_facts(card, placing, words),
        commentary=blocks_of(placing.commentary or card.commentary, words, book.settings.language),
        commentary_note=words("words name concert") if placing.names_concert else "",
        explanation=sentence_runs(" ".join(told), words, book.settings.language),
        home=phrase.home,
        scales=tuple(
            as_kind(ScaleScore, score, name=words.named("scale", name))
            for score, name in zip(phrase.scales, placing.scales, strict=True)
        ),
        tempos=tuple(
            TempoData(bpm, words(f"tempo.{word}"))
            for bpm, word in tempo_ladder(card.tempo, card.feel, book.settings.tempos)
        ),
        links=link_data(_links(phrase, book)),
        changes=own,
        beside=way.beside,
        text_mm=way.text_mm,
        white=way.white,
        scale_columns=scales_in_a_row(
            max((wide for wide, _ in scales), default=1), max(1, len(scales)), paper
        ),
        pages=groups_of(keys, plan, sheet, paper),
        chapters=chapters_at(book, PHRASE, str(phrase.number)),
    )


def key_scores(phrase: PhrasePages, words: Words) -> tuple[KeyScore, ...]:
    """Return the scores of a phrase's keys with the names that stand beside them."""
    found = []
    for score, key in zip(phrase.keys, phrase.placing.keys, strict=True):
        tonic, mode = words.key(score.key)
        sounding = words.key(key.concert)[0] if phrase.placing.transposes else ""
        concert = words("key.concert", tonic=sounding) if sounding else ""
        found.append(as_kind(KeyScore, score, tonic=tonic, mode=mode, sounding=sounding, concert=concert))
    return tuple(found)


def sheet_of(book: BookText, keys: Sequence[Score], changes: Score | None) -> Sheet:
    """Return what the plan of a phrase's pages must know of the book; keys in columns are short ones."""
    paper, layout = book.paper, book.settings.pages.layout
    column = bool(paper.column_mm) and bool(keys) and all(
        one.width_mm <= paper.column_mm + _ROUNDING_MM for one in keys
    )  # fmt: skip
    return Sheet(
        room=paper.room_mm,
        most=layout.systems or paper.most_keys,
        columns=2 if column and layout.columns != ONE_COLUMN else 1,
        opening=book.openings and book.settings.pages.arrange != BY_KEY,
        own=changes.height_mm + OWN_GAP_MM if changes is not None else 0.0,
        own_head=4.5 + 4.0 * paper.text_times,
    )


def groups_of(keys: Sequence[KeyScore], plan: Plan, sheet: Sheet, paper: Paper) -> tuple[KeyGroup, ...]:
    """Return the keys of each page of a plan with their places."""
    found, start = [], 0
    for page in plan.pages:
        scores = [
            replace(
                score,
                x_mm=paper.gutter_mm + (index // len(page.rows)) * (paper.line_mm - paper.column_mm),
                y_mm=round(page.rows[index % len(page.rows)].top - score.staff_mm, 2),
            )
            for index, score in enumerate(keys[start : start + page.count])
        ]
        found.append(KeyGroup(tuple(scores), page.height, page.own, page.height > sheet.room))
        start += page.count
    return tuple(found)


def shortened(title: str, most: int = _HEAD_CHARACTERS) -> str:
    """Return a title short enough for the running head, cut between words where that is possible."""
    if len(title) <= most:
        return title
    cut = title[: most - 1]
    return (cut[: cut.rindex(" ")] if " " in cut[most // 2 :] else cut).rstrip(" ,.;:–-") + "…"


def chapters_at(book: BookText, place: str, where: str = "") -> tuple[ChapterData, ...]:
    """Return the chapters of a place as they are set."""
    language = book.settings.language
    return tuple(
        ChapterData(typeset(one.name, language), blocks_of("\n\n".join(one.paragraphs), book.words, language))
        for one in at_place(book.chapters, place, where)
    )


def own_chapter(book: BookText, name: str, text: str) -> tuple[ChapterData, ...]:
    """Return a text of the settings as a chapter whose head is a word of the book; none for none."""
    blocks = blocks_of(text, book.words, book.settings.language)
    return (ChapterData(book.words(name), blocks),) if blocks else ()


def _said(phrase: PhrasePages, book: BookText) -> Said:
    """Return the words of a first page, as far as they take room."""
    card, placing, words = phrase.card, phrase.placing, book.words
    return Said(
        title=card.title,
        chapters=tuple(
            (one.name, tuple(block.text for block in one.blocks))
            for one in chapters_at(book, PHRASE, str(phrase.number))
        ),
        commentary=tuple(
            block.text
            for block in blocks_of(placing.commentary or card.commentary, words, book.settings.language)
        ),
        note=words("words name concert") if placing.names_concert else "",
        explanation=" ".join(placing.explanation),
        ladder=bool(tempo_ladder(card.tempo, card.feel, book.settings.tempos)),
        links=len(_links(phrase, book)),
    )


def _links(phrase: PhrasePages, book: BookText) -> tuple[tuple[str, str], ...]:
    """Return the links of a phrase, before them those of its tracks and video where the book says where."""
    shop, found = book.settings.shop, []
    if shop.tracks_address and phrase.has_tracks:
        found.append((book.words("tracks"), shop.tracks_address.replace("{n}", str(phrase.number))))
    if shop.videos_address:
        found.append((book.words("video"), filled(shop.videos_address, phrase.number, book.largest)))
    return (*found, *phrase.card.links)


def _facts(card: PhraseCard, placing: PlacingCard, words: Words) -> tuple[str, ...]:
    key, sounding = placing.home.written, placing.home.concert
    tonic, _ = words.key(key)
    progression = card.progression
    named = tonic if progression.startswith(f"{key.partition(' ')[2]} ") else words.whole_key(key)
    if progression:
        named = words("key.progression", progression=words.named("progression", progression), key=named)
    first = named
    if sounding != key:
        first += f", {words('key.concert', tonic=words.key(sounding)[0])}"
    if progression or not words.small_minor:
        first = opened(first, words)
    return printed(first), words(f"level.{card.level}")


# Tempos.

_SHARES = ((0.5, "slow"), (0.75, "medium"))
"""Half and three quarters of the goal: common practice."""
_STEP_BPM = 4
"""The steps of a metronome in the middle of its range (Maelzel's scale, from memory)."""


def tempo_ladder(goal_bpm: int, feel: str, tempos: Sequence[int] = ()) -> tuple[tuple[int, str], ...]:
    """Return the tempos to practise at, slowest first, each with its name; nothing where time is free.

    Args:
        goal_bpm: the phrase's own tempo.
        feel: the phrase's feel.
        tempos: the author's own; those under the goal lead up to it.
    """
    if not feel_row(feel).steady:
        return ()
    if tempos:
        below = sorted({tempo for tempo in tempos if tempo < goal_bpm})
        named = [(tempo, "step" if place else "slow") for place, tempo in enumerate(below)]
        return (*named, (goal_bpm, "goal"))
    steps = {word: _rounded(goal_bpm * share) for share, word in _SHARES}
    below_goal = [(tempo, word) for word, tempo in steps.items() if tempo < goal_bpm]
    return (*below_goal, (goal_bpm, "goal"))


def _rounded(tempo: float) -> int:
    return max(SLOWEST_BPM, round(tempo / _STEP_BPM) * _STEP_BPM)


# Links. A QR code is a tuple of rows, each a text of "1" for a dark module and "0" for a light one, without
# the quiet zone, which the page keeps white (four modules wide: ISO/IEC 18004, from memory).

LONGEST_ADDRESS = 300
"""A longer address makes squares too small for a camera at the printed size (our own limit)."""


@lru_cache(maxsize=1024)
def qr_code(address: str) -> tuple[str, ...]:
    """Return the QR code of a web address, with medium error correction.

    Raises:
        RenderError: if the library that makes codes is not installed, or the address is too long.
    """
    try:
        segno = import_module("segno")  # only a book with links of phrases needs it
    except ImportError:
        raise RenderError(
            "QR codes need the Python package segno.", hint="Install it, or leave out the phrases' links."
        ) from None
    if len(address) > LONGEST_ADDRESS:
        raise RenderError(
            f"A link is {len(address)} characters long; a QR code of it could not be read from paper.",
            hint=f"Use an address of at most {LONGEST_ADDRESS} characters.",
        )
    code = segno.make_qr(address, error="m", boost_error=False)
    return tuple("".join("1" if module else "0" for module in row) for row in code.matrix)


def link_data(links: Iterable[tuple[str, str]]) -> tuple[LinkData, ...]:
    """Return what the page prints of links, pairs of a name and an address, with their codes."""
    return tuple(LinkData(name, address, qr_code(address)) for name, address in links)
