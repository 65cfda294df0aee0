"""The pages of one phrase as data: its first page, and its keys shared out over the pages after it. Pure."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import import_module

from shedbook.book.ground.paper import GAP_MM, Paper
from shedbook.book.ground.printed_text import printed, printed_prose
from shedbook.book.ground.words import Words, opened
from shedbook.book.manuscript.chapters import PHRASE, at_place
from shedbook.book.pages.book_text import BookText
from shedbook.book.pages.data import KeyScore, LinkData, PhraseData, ScaleScore, TempoData, as_kind
from shedbook.book.scores.artefacts import PhraseCard, PlacingCard, Score
from shedbook.book.scores.spoken_text import tempo_words
from shedbook.errors import RenderError
from shedbook.phrase.feels import feel_row
from shedbook.phrase.fields import SLOWEST_BPM

_HEAD_CHARACTERS = 52


@dataclass(frozen=True, slots=True)
class PhrasePages:
    """One phrase: its printed number, its cards, its pictures.

    `scales` are the written-out scales, `changes` empty staves under the changes.
    """

    number: int
    card: PhraseCard
    placing: PlacingCard
    home: Score
    keys: tuple[Score, ...]
    scales: tuple[Score, ...] = ()
    changes: Score | None = None


def phrase_data(phrase: PhrasePages, book: BookText) -> PhraseData:
    """Return what the template prints of a phrase."""
    card, placing, words, paper = phrase.card, phrase.placing, book.words, book.paper
    home = placing.home.written
    return PhraseData(
        number=phrase.number,
        title=card.title,
        head=shortened(card.title),
        progression=printed(words.named("progression", card.progression)),
        key=words.whole_key(home),
        facts=_facts(card, placing, words),
        commentary=tuple(
            printed_prose(says, words) for says in paragraphs(placing.commentary or card.commentary)
        ),
        commentary_note=words("words name concert") if placing.names_concert else "",
        explanation=tuple(printed_prose(sentence, words) for sentence in placing.explanation),
        home=phrase.home,
        scales=tuple(
            as_kind(ScaleScore, score, name=words.named("scale", name))
            for score, name in zip(phrase.scales, placing.scales, strict=True)
        ),
        tempos=tuple(
            TempoData(bpm, words(f"tempo.{word}"))
            for bpm, word in tempo_ladder(card.tempo, card.feel, book.settings.tempos)
        ),
        links=link_data(card.links),
        own_staves=book.settings.pages.own_staves,
        changes=phrase.changes,
        pages=share_out(key_scores(phrase, words), paper),
        per_page=paper.most_keys,
        chapters=at_place(book.chapters, PHRASE, str(phrase.number)),
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


def share_out(
    scores: Sequence[KeyScore], paper: Paper, head_mm: float = 0.0
) -> tuple[tuple[KeyScore, ...], ...]:
    """Share scores out over pages, with room for a head."""
    pages, start = [], 0
    room = paper.room_mm - head_mm * paper.text_times
    for count in spread([score.height_mm for score in scores], room, most=paper.most_keys):
        pages.append(tuple(scores[start : start + count]))
        start += count
    return tuple(pages)


def spread(
    heights_mm: Sequence[float], room_mm: float, gap_mm: float = GAP_MM, most: int = 1_000
) -> list[int]:
    """Share scores out over pages, as evenly as they fit: how many go on each page, in order."""
    if not heights_mm:
        return []
    for pages in range(math.ceil(len(heights_mm) / most), len(heights_mm) + 1):
        share = math.ceil(len(heights_mm) / pages)
        groups = [heights_mm[start : start + share] for start in range(0, len(heights_mm), share)]
        if all(sum(group) + gap_mm * (len(group) - 1) <= room_mm for group in groups):
            return [len(group) for group in groups]
    return [1] * len(heights_mm)


def shortened(title: str, most: int = _HEAD_CHARACTERS) -> str:
    """Return a title short enough for the running head, cut between words where that is possible."""
    if len(title) <= most:
        return title
    cut = title[: most - 1]
    return (cut[: cut.rindex(" ")] if " " in cut[most // 2 :] else cut).rstrip(" ,.;:–-") + "…"


def paragraphs(text: str) -> list[str]:
    """Return the paragraphs of a text, each on one line."""
    return [" ".join(part.split()) for part in text.split("\n\n") if part.strip()]


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
    return printed(first), tempo_words(card.tempo, card.feel, words), card.metre


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
