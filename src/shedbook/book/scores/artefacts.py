"""What the jobs of this room make: frozen values that the store keeps, and pictures with their facts."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.ground.findings import PhraseFinding

HOME = "home"
"""Stands for the larger score in the home key among the names of a phrase's pictures."""

CHANGES = "changes"
"""Stands for the empty staves with the changes among the names of a phrase's pictures."""


@dataclass(frozen=True, slots=True)
class PhraseCard:
    """What a book must know of a phrase whatever the edition.

    `home` and `keys` are the keys of the concert edition, `progression` the one that covers most of the
    changes, `scale` the name of the scale that is in mind longest. `outline` are the line's half steps
    from its first note: phrases with different ones are no twins. `devices` are roles and figures, `level`
    is the difficulty. `scale_shares` says for each scale what share of the time it is in mind,
    `device_shares` for each role and figure what share of the notes it has; `signs` what has to be explained
    in its score.
    """

    title: str
    key: str
    key_inferred: bool
    home: str
    keys: tuple[str, ...]
    metre: str
    tempo: int
    feel: str
    commentary: str
    progression: str
    outline: str
    links: tuple[tuple[str, str], ...]
    progressions: tuple[str, ...]
    scale: str
    scale_names: tuple[str, ...]
    devices: tuple[str, ...]
    level: int
    scale_shares: tuple[tuple[str, float], ...] = ()
    device_shares: tuple[tuple[str, float], ...] = ()
    signs: tuple[str, ...] = ()
    findings: tuple[PhraseFinding, ...] = ()


@dataclass(frozen=True, slots=True)
class CycleKey:
    """One key of the author's order, as it sounds and as the reader of an edition has it: "F minor"."""

    concert: str
    written: str


@dataclass(frozen=True, slots=True)
class PlacingCard:
    """What a book must know of a phrase in an edition besides its pictures.

    `home` and `keys` are the keys that are printed, `cycle` is the author's whole order, whose registers hang
    together. `scales` are the names of the written-out scales. `transposes` says that the reader's keys
    have other names than the concert keys, `names_concert` that the author's words then name notes in concert
    pitch, because the names of their language are not known. `commentary` are the author's words with the
    names that the reader of the edition sees.
    """

    home: CycleKey
    keys: tuple[CycleKey, ...]
    cycle: tuple[CycleKey, ...]
    explanation: tuple[str, ...]
    scales: tuple[str, ...]
    transposes: bool
    names_concert: bool
    findings: tuple[PhraseFinding, ...] = ()
    commentary: str = ""


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """What a page must know of a picture, in millimetres rounded to a hundredth.

    `staff_mm` is how far under the picture's upper edge the first staff begins; at `cuts_mm` under it the
    picture may be cut between systems. `alt` is what a listener is told of it.
    """

    width_mm: float
    height_mm: float
    staff_mm: float
    alt: str
    cuts_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as SVG, and what the page must know of it."""

    svg: str
    facts: PictureFacts


@dataclass(frozen=True, slots=True, kw_only=True)
class Score(PictureFacts):
    """A finished picture: where it lies beneath the store, the key as it is read, and its facts."""

    path: str
    key: str


@dataclass(frozen=True, slots=True)
class NumberedFinding:
    """A finding between phrases, with the number of the phrase to which it belongs."""

    number: int
    finding: PhraseFinding


@dataclass(frozen=True, slots=True)
class Compared:
    """What is found between the phrases of a book."""

    findings: tuple[NumberedFinding, ...] = ()
