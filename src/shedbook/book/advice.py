"""The words of the page "How to use this book": what a teacher would say before the first lesson."""

from __future__ import annotations

from typing import NamedTuple


class Advice(NamedTuple):
    """One paragraph or more under a head in the margin."""

    head: str
    says: tuple[str, ...]


def advice(*, keys: int, order: str, degrees: bool, scale_names: bool) -> tuple[Advice, ...]:
    """Return the sections; `order` is the name of an order of keys, or "" for one of the author's own."""
    return (
        Advice("The edition", _EDITION),
        Advice("A phrase a week", _PHRASE),
        Advice("The keys", (_keys(keys, order), _KEYS_METHOD)),
        Advice("The signs", (_signs(degrees, scale_names),)),
        Advice("Time", _TIME),
        Advice("Make it yours", _YOURS),
        Advice("Hands, jaw, ears", _BODY),
    )


_EDITION = (
    "This is the concert edition: every note is written as it sounds, for piano, guitar, flute, violin, "
    "vibraphone and anyone else who reads in C. Where a key lies badly on your instrument, move the whole "
    "line an octave and keep its shape.",
)
_PHRASE = (
    "Each phrase begins on a page of its own, in its home key. Read the changes first. Play the chords, or "
    "at least their thirds and sevenths, until you hear them without an instrument; then sing the line over "
    "them, slowly; only then play it. What you cannot sing you do not yet hear.",
    "One phrase known by heart in every key is worth more than ten that you can read.",
)
_KEYS_METHOD = (
    "Learn the phrase by what each note is over its chord, not by its name: third, fifth, flat nine. Then a "
    "new key is the same sentence with another accent. Take three or four keys a day and begin tomorrow "
    "where you stopped. Cover the page as soon as you can; the page is there to check, not to lean on. "
    "When one key stays hard, it is the next one to practise."
)
_TIME = (
    "Set the metronome to half the printed tempo, or slower, and count a bar aloud before you play. When "
    "four repetitions in a row were even and relaxed, go up by four beats a minute; when one was not, go "
    "down by eight. Once the line sits, let the click fall on two and four, then on four alone, then once "
    "every two bars. Swing comes from where you place the notes, not from hurrying them: record yourself "
    "and listen the next day.",
)
_YOURS = (
    "Leave out the first note. Begin an eighth note late. Keep the rhythm and change the notes; keep the "
    "notes and change the rhythm. Write what you like on the empty staves beneath the phrase, and use it in "
    "a tune the same evening, however badly.",
)
_BODY = (
    "Rest for five minutes in every half hour, and stop before you are tired, not after. Shoulders down, "
    "wrists straight, jaw and breath loose. Pain, numbness or tingling is never part of practising: put the "
    "instrument down, and if it comes back, see your teacher about how you hold it and a doctor about the "
    "rest. With headphones, keep the level where you could still hear somebody speak to you; ringing ears "
    "mean it was too loud for too long.",
)


def _keys(keys: int, order: str) -> str:
    count = "one key" if keys == 1 else f"{_NUMBERS.get(keys, str(keys))} keys"
    goes = f" {_ORDERS[order]}" if order in _ORDERS and keys > 1 else ""
    return (
        f"After the first page comes the whole phrase in {count}, each with its name beside the staff.{goes} "
        "There is no key signature: every note that needs an accidental carries one, and it holds to the end "
        "of its bar."
    )


def _signs(degrees: bool, scale_names: bool) -> str:
    parts = [
        "Chord symbols: m is minor, maj7 the major seventh, a small circle is diminished and a circle with "
        "a stroke half-diminished; alterations are raised."
    ]
    if degrees:
        parts.append(
            "The small figures under the notes say what each note is over its chord: 1, 3, 5 and 7 are the "
            "chord itself, 9, 11 and 13 its tensions, with flats and sharps where they are altered."
        )
    if scale_names:
        parts.append("The name over a chord is the scale that the line has in mind.")
    parts.append("A note in brackets is a ghost note: felt more than heard.")
    return " ".join(parts)


_ORDERS = {
    "fourths": "They go round the circle of fourths, so that each key is the fifth of the next.",
    "fifths": "They go round the circle of fifths.",
    "chromatic": "They climb by half steps.",
    "chromatic down": "They fall by half steps.",
    "whole steps": "They climb by whole steps, first one six keys, then the other six.",
    "whole steps down": "They fall by whole steps, first one six keys, then the other six.",
    "minor thirds": "They climb by minor thirds, four keys at a time.",
    "major thirds": "They climb by major thirds, three keys at a time.",
}

_NUMBERS = {
    2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine", 10: "ten",
    11: "eleven", 12: "twelve",
}  # fmt: skip
