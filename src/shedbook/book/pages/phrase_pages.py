"""The pages of one phrase as data: its first page, and its keys shared out over the pages after it. Pure."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from shedbook.book.ground.paper import Paper
from shedbook.book.ground.printed_text import printed, printed_prose
from shedbook.book.ground.words import Words, opened
from shedbook.book.pages.qr_codes import link_data
from shedbook.book.pages.tempo_ladder import tempo_ladder
from shedbook.book.scores.spoken_text import tempo_words

GAP_MM = 6.5
"""The least white between two scores."""

_HEAD_CHARACTERS = 52


@dataclass(frozen=True, slots=True)
class Score:
    """A finished picture: where it lies beneath the store, its size, and what a listener is told of it.

    `key` is the key as it is read. `staff_mm` is how far under the picture's upper edge the first staff
    begins; at `cuts_mm` under it the picture may be cut between systems.
    """

    path: str
    key: str
    width_mm: float
    height_mm: float
    staff_mm: float
    alt: str
    cuts_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class PhrasePages:
    """One phrase: its printed number, its card (see `jobs.read_card`), its scores.

    `concert` are the keys as they sound, where they have other names than the reader's. `scales` are the
    written-out scales, each with the words beside it, `changes` empty staves under the changes.
    """

    number: int
    card: Mapping[str, Any]
    home: Score
    keys: tuple[Score, ...]
    scales: tuple[Score, ...] = ()
    concert: tuple[str, ...] = ()
    changes: Score | None = None


@dataclass(frozen=True, slots=True)
class PhraseSetting:
    """What of the book the pages of a phrase depend on."""

    words: Words
    paper: Paper
    tempos: tuple[int, ...] = ()
    own_staves: bool = True


def phrase_data(phrase: PhrasePages, setting: PhraseSetting) -> dict[str, Any]:
    """Return what the template prints of a phrase."""
    card, words, paper = phrase.card, setting.words, setting.paper
    keys = key_scores(phrase, words)
    return {
        "number": phrase.number,
        "title": card["title"],
        "head": shortened(card["title"]),
        "progression": printed(words.named("progression", card["progression"])),
        "key": words.whole_key(phrase.home.key),
        "facts": _facts(card, phrase.home.key, words),
        "commentary": [printed_prose(says, words) for says in paragraphs(card["commentary"])],
        "commentary_note": words("words name concert") if card.get("names_concert") else "",
        "explanation": [printed_prose(sentence, words) for sentence in card["explanation"]],
        "home": asdict(phrase.home),
        "scales": [
            {**asdict(score), **said}
            for score, said in zip(phrase.scales, card.get("scales", ()), strict=True)
        ],
        "tempos": [
            {"bpm": bpm, "word": words(f"tempo.{word}")}
            for bpm, word in tempo_ladder(card["tempo"], card["feel"], setting.tempos)
        ],
        "links": link_data(card.get("links", {})),
        "own_staves": setting.own_staves,
        "changes": asdict(phrase.changes) if phrase.changes else None,
        "pages": share_out(keys, paper),
        "per_page": paper.most_keys,
    }


def key_scores(phrase: PhrasePages, words: Words) -> list[dict[str, Any]]:
    """Return the scores of a phrase's keys with the names that stand beside them."""
    found = []
    concert = phrase.concert or ("",) * len(phrase.keys)
    for score, sounding in zip(phrase.keys, concert, strict=True):
        tonic, mode = words.key(score.key)
        beside = words.note(sounding.partition(" ")[0]) if sounding else ""
        found.append({**asdict(score), "tonic": tonic, "mode": mode, "sounding": beside,
                      "concert": words("key.concert", tonic=beside) if beside else ""})  # fmt: skip
    return found


def share_out(
    scores: Sequence[dict[str, Any]], paper: Paper, head_mm: float = 0.0
) -> list[list[dict[str, Any]]]:
    """Share scores out over pages, with room for a head."""
    pages, start = [], 0
    room = paper.room_mm - head_mm * paper.text_times
    for count in spread([score["height_mm"] for score in scores], room, most=paper.most_keys):
        pages.append(list(scores[start : start + count]))
        start += count
    return pages


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


def _facts(card: Mapping[str, Any], key: str, words: Words) -> list[str]:
    tonic, _ = words.key(key)
    progression = card["progression"]
    named = tonic if progression.startswith(f"{key.partition(' ')[2]} ") else words.whole_key(key)
    if progression:
        named = words("key.progression", progression=words.named("progression", progression), key=named)
    first = named
    sounding = card.get("home_concert", key)
    if sounding != key:
        first += f", {words('key.concert', tonic=words.key(sounding)[0])}"
    return [printed(opened(first, words)), tempo_words(card["tempo"], card["feel"], words), card["metre"]]


def titles(phrases: Iterable[PhrasePages]) -> dict[int, str]:
    """Return the titles of phrases by their numbers."""
    return {phrase.number: str(phrase.card["title"]) for phrase in phrases}
