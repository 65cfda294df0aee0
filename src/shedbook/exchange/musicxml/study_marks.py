"""What a part shows for study besides its notes: the scale over each chord, and the degree of each note.

They are visible words. Each stands in a `direction` whose id begins with `STUDY`, by which the reader knows
it as one that says nothing new.
"""

from __future__ import annotations

from dataclasses import dataclass

STUDY = "study-"


@dataclass(frozen=True, slots=True)
class StudyMarks:
    """The words over and under a phrase, as the reader of the part calls them.

    Attributes:
        scales: the name of the scale of each change, "" for none.
        degrees: the degree of each note of `sounding_notes`, "" for none.
    """

    scales: tuple[str, ...]
    degrees: tuple[str, ...]


def words_element(text: str, mark: str, *, above: bool, offset: int = 0) -> str:
    """Return a `direction` with words.

    Args:
        text: the words, escaped as XML wants them.
        mark: what follows `STUDY` in its id; no other direction of the file has the same.
        above: whether it stands above the staff, else below.
        offset: how far behind the note that follows it stands, in divisions.
    """
    place, style = ("above", "italic") if above else ("below", "normal")
    moved = f"<offset>{offset}</offset>" if offset else ""
    return (
        f'      <direction placement="{place}" id="{STUDY}{mark}"><direction-type>'
        f'<words font-size="8" font-style="{style}">{text}</words></direction-type>{moved}</direction>\n'
    )
