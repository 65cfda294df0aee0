"""The plan of a lesson: an opening, the phrases from easy to hard, a closing that points to the book.

The author's own commentary on a phrase comes first, as it stands. What is done is in brackets, where it is
done: what to play, which card to show.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from shedbook.analysis.account import Account
from shedbook.analysis.naming.language import Words, joined
from shedbook.lesson.script import Block, cue, head, said
from shedbook.lesson.talk import Talk, line_of_notes, talk
from shedbook.lesson.timing import WORDS_A_MINUTE, clock, played_seconds, spoken_seconds

_SLOW = 0.6
"""The share of its tempo at which a line is shown slowly (the project's design)."""


@dataclass(frozen=True, slots=True)
class LessonPhrase:
    """A phrase of a lesson, with its account in concert pitch.

    `own` is its account as the player's instrument reads it, None where it reads what sounds. `cards` are
    the names of its cards: plain, landings, figures, links. `keys` are how many keys the book has.
    """

    number: int
    title: str
    account: Account
    own: Account | None
    cards: tuple[str, str, str, str]
    keys: int

    @property
    def hardness(self) -> tuple[int, float, int]:
        """What phrases are ordered by: the level, how fast its notes are, its number."""
        found = self.account.difficulty
        return found.level, float(found.steady_rate), self.number


@dataclass(frozen=True, slots=True)
class Lesson:
    """What a lesson is made of: the book, where it is to be had, the player's instrument, the phrases."""

    book: str
    address: str
    instrument: str
    phrases: tuple[LessonPhrase, ...]
    words_a_minute: int = WORDS_A_MINUTE


Section = tuple[Block, ...]


def ordered(phrases: Sequence[LessonPhrase]) -> tuple[LessonPhrase, ...]:
    """Return phrases from easy to hard."""
    return tuple(sorted(phrases, key=lambda phrase: phrase.hardness))


def plan(lesson: Lesson, words: Words) -> tuple[Block, ...]:
    """Return the plan of a lesson, without its running time.

    Raises:
        MissingRowError: if the words lack a row.
    """
    phrases = ordered(lesson.phrases)
    found = [head(words("lesson.title", book=lesson.book), 1), *_opening(lesson, phrases, words)]
    for phrase in phrases:
        found += _phrase(phrase, lesson, words)
    return (*found, *_closing(lesson, phrases, words))


def part_head(phrase: LessonPhrase) -> str:
    """Return the head of a phrase's part, which begins with its number."""
    return f"{phrase.number}. {phrase.title}"


def times(blocks: Sequence[Block], lesson: Lesson) -> dict[str, float]:
    """Return how many seconds each part of a text takes, by its head, words and demonstrations together."""
    known = {part_head(phrase).partition(".")[0]: phrase for phrase in lesson.phrases}
    found: dict[str, float] = {}
    parts: list[tuple[str, list[Block]]] = []
    for block in blocks:
        if block.level == 2:
            parts.append((block.text, []))
        elif parts:
            parts[-1][1].append(block)
    for name, own in parts:
        phrase = known.get(name.partition(".")[0])
        played = 0.0 if phrase is None else _demonstrated(phrase)
        found[name] = found.get(name, 0.0) + spoken_seconds(own, lesson.words_a_minute) + played
    return found


def timed(blocks: Sequence[Block], lesson: Lesson, words: Words) -> tuple[Block, ...]:
    """Return a text with its running time, as a cue behind the title and behind the head of each part."""
    lengths = times(blocks, lesson)
    found: list[Block] = []
    for block in blocks:
        found.append(block)
        seconds = sum(lengths.values()) if block.level == 1 else lengths.get(block.text, 0.0)
        if block.level in (1, 2) and seconds:
            found.append(cue(words("lesson.time", time=clock(seconds))))
    return tuple(found)


def untimed(blocks: Sequence[Block], words: Words) -> tuple[Block, ...]:
    """Return a text without the cues of its running time."""
    start = words("lesson.time", time="\0").partition("\0")[0]
    return tuple(block for block in blocks if not (block.kind == "cue" and block.text.startswith(start)))


def _demonstrated(phrase: LessonPhrase) -> float:
    """Return how long what is played takes: once, slowly, some bars to practise, twice with the trio."""
    line = phrase.account.phrase
    return (
        played_seconds(line)
        + played_seconds(line, share=_SLOW)
        + played_seconds(line, share=_SLOW) / 2
        + played_seconds(line, times=2)
    )


# The parts.


def _opening(lesson: Lesson, phrases: Sequence[LessonPhrase], words: Words) -> Iterator[Block]:
    """Say what the lesson is about: which phrases, progressions and scales, and what all of them share."""
    yield head(words("lesson.head.opening"), 2)
    count = len(phrases)
    titles = joined([f'"{phrase.title}"' for phrase in phrases], words)
    noun = words.of_number(count, "phrase", "phrases")
    yield said(
        words("lesson.today", count=words.number(count), phrases=noun, book=lesson.book, titles=titles)
    )
    progressions = _named(phrases, words, _progressions)
    if progressions:
        yield said(words("lesson.changes", progressions=joined(progressions, words)))
    yield said(words("lesson.scales", scales=joined(_named(phrases, words, _scales), words)))
    if count > 1:
        shared = [
            *_shared(phrases, words, _progressions), *_shared(phrases, words, _scales),
            *_shared(phrases, words, _devices),
        ]  # fmt: skip
        if shared:
            yield said(words("lesson.share", things=joined(shared, words)))
        yield said(words("lesson.order"))


Names = Callable[[LessonPhrase, Words], list[str]]


def _named(phrases: Sequence[LessonPhrase], words: Words, names: Names) -> list[str]:
    return list(dict.fromkeys(name for phrase in phrases for name in names(phrase, words)))


def _shared(phrases: Sequence[LessonPhrase], words: Words, names: Names) -> list[str]:
    """Return the names that every phrase has."""
    every = [set(names(phrase, words)) for phrase in phrases]
    return [name for name in dict.fromkeys(names(phrases[0], words)) if all(name in own for own in every)]


def _progressions(phrase: LessonPhrase, words: Words) -> list[str]:
    found = [one.name for one in phrase.account.harmony.progressions]
    return [words.named("progression", name) for name in dict.fromkeys(found)]


def _scales(phrase: LessonPhrase, words: Words) -> list[str]:
    found = [span.scale.name for span in phrase.account.spans if span.scale is not None]
    return [words.named("short scale", name) for name in dict.fromkeys(found)]


def _devices(phrase: LessonPhrase, words: Words) -> list[str]:
    roles = [note.role for note in phrase.account.notes]
    kinds = [*roles, *(figure.kind for figure in phrase.account.figures)]
    return [words.table[f"device.{kind}"] for kind in dict.fromkeys(kinds) if words.has(f"device.{kind}")]


def _phrase(phrase: LessonPhrase, lesson: Lesson, words: Words) -> Iterator[Block]:
    """Say of a phrase what a teacher says, in the order in which it is shown."""
    line, told = phrase.account.phrase, talk(phrase.account, words)
    yield head(part_head(phrase), 2)
    if line.commentary.strip():
        yield said(line.commentary)
    yield cue(words("lesson.cue.show", card=phrase.cards[0]))
    yield from _topic("lesson.topic.chords", told.chords, words)
    play = words(
        "lesson.cue.play", title=phrase.title, key=words.whole_key(str(line.key)), tempo=line.tempo_bpm
    )
    yield cue(play)
    yield said(words("lesson.notes", notes=line_of_notes(phrase.account, words)))
    if phrase.own is not None:
        yield said(
            words("lesson.notes.own", instrument=lesson.instrument, notes=line_of_notes(phrase.own, words))
        )
    yield from _shown("lesson.topic.landings", told.landings, phrase.cards[1], words)
    yield from _shown("lesson.topic.crossings", told.crossings, phrase.cards[3], words)
    if told.crossings:
        yield cue(words("lesson.cue.slow", tempo=round(line.tempo_bpm * _SLOW)))
    yield from _shown("lesson.topic.outside", told.outside, phrase.cards[2], words)
    yield from _topic("lesson.topic.practice", told.practice, words)
    if told.practice:
        yield cue(words("lesson.cue.practice"))
    elsewhere = (*told.elsewhere, words.sentence(words("lesson.keys", keys=phrase.keys)))
    yield from _topic("lesson.topic.elsewhere", elsewhere, words)
    yield cue(words("lesson.cue.band", tempo=line.tempo_bpm))


def _topic(row: str, sentences: Sequence[str], words: Words) -> Iterator[Block]:
    if sentences:
        yield head(words(row), 3)
        for text in sentences:
            yield said(text)


def _shown(row: str, sentences: Sequence[str], card: str, words: Words) -> Iterator[Block]:
    """Yield a topic with the card that shows it."""
    blocks = list(_topic(row, sentences, words))
    if blocks:
        yield blocks[0]
        yield cue(words("lesson.cue.show", card=card))
        yield from blocks[1:]


def _closing(lesson: Lesson, phrases: Sequence[LessonPhrase], words: Words) -> Iterator[Block]:
    yield head(words("lesson.head.closing"), 2)
    numbers = joined([str(phrase.number) for phrase in sorted(phrases, key=lambda one: one.number)], words)
    yield said(words("lesson.closing", book=lesson.book, numbers=numbers))
    if lesson.address:
        yield said(words("lesson.closing.link", address=lesson.address))
    yield said(words("lesson.closing.rest"))


__all__ = ["Lesson", "LessonPhrase", "Talk", "ordered", "part_head", "plan", "timed", "times", "untimed"]
