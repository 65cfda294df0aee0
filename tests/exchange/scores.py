"""Small MusicXML scores for the tests, written out part by part."""

from __future__ import annotations

from shedbook.exchange.ground.report import Imported
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.phrase.changes_text import print_changes
from shedbook.phrase.line_text import print_line

FOUR_FOUR = (
    "<attributes><divisions>2</divisions><key><fifths>0</fifths></key>"
    "<time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
)

DOUBLE_BAR = '<barline location="right"><bar-style>light-light</bar-style></barline>'


def note(name: str, duration: int = 8, inside: str = "", after: str = "") -> str:
    """Return a note such as "Bb4", or a rest for "-"; `inside` goes before the duration."""
    pitch = "<rest/>"
    if name != "-":
        alter = {"#": 1, "b": -1}.get(name[1:-1], 0)
        pitch = f"<pitch><step>{name[0]}</step><alter>{alter}</alter><octave>{name[-1]}</octave></pitch>"
    return f"<note>{inside}{pitch}<duration>{duration}</duration>{after}</note>"


def harmony(step: str, kind: str, more: str = "", text: str | None = None) -> str:
    said = "" if text is None else f' text="{text}"'
    return f"<harmony><root><root-step>{step}</root-step></root><kind{said}>{kind}</kind>{more}</harmony>"


def score(*measures: str, head: str = "", first: str = FOUR_FOUR, prolog: str = "") -> bytes:
    """Return a partwise score of one part."""
    bars = "".join(
        f'<measure number="{number}">{first if number == 1 else ""}{inside}</measure>'
        for number, inside in enumerate(measures, 1)
    )
    text = (
        f'{prolog}<score-partwise version="4.0">{head}<part-list><score-part id="P1"><part-name>Tenor'
        f'</part-name></score-part></part-list><part id="P1">{bars}</part></score-partwise>'
    )
    return text.encode()


def read(*measures: str, head: str = "", first: str = FOUR_FOUR, **options: object) -> Imported:
    """Read a score of one part."""
    return read_musicxml(score(*measures, head=head, first=first), "test.musicxml", **options)  # type: ignore[arg-type]


def line(imported: Imported, at: int = 0) -> str:
    """Return the line of a phrase as text."""
    return print_line(imported.phrases[at].bars)


def chords(imported: Imported, at: int = 0) -> str:
    """Return the changes of a phrase as text."""
    phrase = imported.phrases[at]
    return print_changes(phrase.changes, phrase.full_bars, phrase.metre)


def remarks(imported: Imported) -> list[str]:
    """Return what is said of a file, but for tempo and feel, which few of the small scores here give."""
    said = [str(remark) for remark in imported.report.remarks]
    return [remark for remark in said if not remark.endswith("is assumed.")]
