"""What a bundle says of itself: its files with sizes and checksums, versions, and the music that they hold.

Each zip carries a `ZipManifest`, so that it can be proved alone; the folder a `FolderManifest`. Both are
JSON.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

MANIFEST = "manifest.json"
"""The name of a manifest in its folder or zip."""

FORM = 1
"""The form of the manifest; another number is refused."""

BOOK, TRACK, MIDI, MUSICXML, PRACTICE, TEXT = "book", "track", "midi", "musicxml", "practice", "text"
ZIP, SAMPLE, COVER, PAGE, SOUND, LISTING = "zip", "sample", "cover", "page", "sound", "listing"
"""What a file is for: the first row lies in a zip, the second in the folder."""


@dataclass(frozen=True, slots=True)
class TrackFacts:
    """What was measured of a track when it was made; None for silence and for MIDI.

    `keys` are concert keys, `heard` the pitch classes that sound in each half second, as `heard_classes`
    gives them, "" where that is not known. `chapters` are start and end in seconds, title and key. `place` is
    its number among the tracks of the book, of which there are `of`.
    """

    number: int
    kind: str
    keys: tuple[str, ...]
    tempo: int
    title: str
    place: int
    of: int
    seconds: float
    lufs: float | None = None
    peak_dbtp: float | None = None
    chapters: tuple[tuple[float, float, str, str], ...] = ()
    heard: str = ""


@dataclass(frozen=True, slots=True)
class FileRow:
    """One file: its name, what it is for, its size in bytes and its SHA-256.

    `number` and `key`, as it is written, are those of a phrase; `pages` counts the pages of a PDF.
    """

    name: str
    role: str
    size: int
    sha256: str
    number: int = 0
    key: str = ""
    pages: int = 0
    track: TrackFacts | None = None


@dataclass(frozen=True, slots=True)
class ScaleRow:
    """A written-out scale: its name, its chord, its pitches."""

    name: str
    chord: str
    pitches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScoreRow:
    """A score of a PDF, in the order of the pages: on which page, what it shows, beside which names.

    `kind` is as in `reading_back`, `written` the key as it is read, `page` counts from 1 and `printed` is the
    number that stands on that page, `text` the place of its text in `BookMusic.texts`. `stops` are strings
    and frets, None for a note that is not on the fingerboard. `feel` stands over the score, "" for none.
    """

    kind: str
    number: int
    title: str
    written: str
    tonic: str
    mode: str
    page: int
    printed: str
    text: int
    scale: ScaleRow | None = None
    stops: tuple[tuple[int, int] | None, ...] | None = None
    signature: bool = False
    reminders: tuple[int, ...] = ()
    under: tuple[tuple[int, str], ...] = ()
    feel: str = ""


@dataclass(frozen=True, slots=True)
class BookMusic:
    """What a PDF holds: its scores, and the texts of the phrases in their written keys.

    `reach_pt` is how far left of its staves the words beside a score begin at most; 0 where that is not told.
    """

    file: str
    edition: str
    title: str
    scores: tuple[ScoreRow, ...]
    texts: tuple[Mapping[str, Any], ...]
    reach_pt: float = 0.0


@dataclass(frozen=True, slots=True)
class EditionRow:
    """An edition: name, name in files, title, the half steps and letters from sound to writing, its clef."""

    name: str
    slug: str
    title: str
    semitones: int
    steps: int
    clef: str


@dataclass(frozen=True, slots=True)
class Source:
    """A phrase as the manuscript has it: its number, its title and its keys as TOML gives them."""

    number: int
    title: str
    fields: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class About:
    """The book of a bundle; `words` are the author's own in place of the fixed ones.

    `part` says that only some keys or phrases were asked for.
    """

    name: str
    title: str
    author: str
    version: str
    language: str
    licensee: str = ""
    words: tuple[tuple[str, str], ...] = ()
    part: bool = False


@dataclass(frozen=True, slots=True)
class Changes:
    """What has changed since a version before, as text and as JSON."""

    since: str = ""
    text: str = ""
    rows: tuple[Mapping[str, Any], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ZipManifest:
    """What the zip of an edition says of itself; `music` is that of its PDF."""

    form: int = FORM
    about: About
    versions: Mapping[str, str]
    edition: EditionRow
    files: tuple[FileRow, ...]
    music: BookMusic
    phrases: tuple[Source, ...]
    settings: Mapping[str, str]
    changes: Changes = field(default_factory=Changes)


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderManifest:
    """What the folder of a bundle says of itself; `samples` is the music of the sample PDFs."""

    form: int = FORM
    about: About
    versions: Mapping[str, str]
    editions: tuple[EditionRow, ...]
    files: tuple[FileRow, ...]
    samples: tuple[BookMusic, ...]
    changes: Changes = field(default_factory=Changes)
