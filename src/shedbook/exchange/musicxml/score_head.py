"""What stands before the notes of a score: titles, names of parts, credits, and the fields of shedbook."""

from __future__ import annotations

from dataclasses import dataclass, field

from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, child_text, text_of
from shedbook.exchange.ground.tables.own_fields import PREFIX

MOST_PARTS = 500
"""A score may have so many parts at most."""
_MOST_TITLE = 200
_MOST_SHOWN = 60
_MOST_ROUND = 24


@dataclass(slots=True)
class ScoreHead:
    """What a score says before its notes.

    Attributes:
        work: the title of the work.
        movement: the title of the movement.
        credit: the first words on the page that may be a title.
        round: other words round the music, each with what they are.
        kept: the fields of a file that shedbook wrote, by their names.
        parts: the names of the parts by their ids.
    """

    work: str = ""
    movement: str = ""
    credit: str = ""
    round: list[tuple[str, str]] = field(default_factory=list)
    kept: dict[str, str] = field(default_factory=dict)
    parts: dict[str, str] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """The title of the score, "" for none."""
        return (self.movement or self.work or self.credit)[:_MOST_TITLE]

    def name_what_is_lost(self, reporter: Reporter) -> None:
        """Report the words for which a phrase has no place.

        A file of shedbook needs no remark, because its words are those of the book.
        """
        if self.kept:
            return
        said = {self.movement or self.work or self.credit, ""}
        for what, text in [("title", self.work), ("title", self.credit), *self.round][:_MOST_ROUND]:
            if text not in said:
                said.add(text)
                reporter.note(f'the {what} "{text[:_MOST_SHOWN]}" is left out')


def read_head(element: Element, head: ScoreHead) -> None:
    """Take in one of the elements before the notes."""
    if element.tag == "work":
        head.work = _line(child_text(element, "work-title"))
    elif element.tag == "movement-title":
        head.movement = _line(text_of(element))
    elif element.tag == "credit":
        _read_credit(child_text(element, "credit-type"), _line(child_text(element, "credit-words")), head)
    elif element.tag == "identification":
        _read_identification(element, head)
    elif element.tag == "part-list":
        for part in element.findall("score-part")[:MOST_PARTS]:
            head.parts[part.get("id", "")] = _line(child_text(part, "part-name"))


def _read_identification(element: Element, head: ScoreHead) -> None:
    """Take in the makers of the music, and the fields of a file that shedbook wrote."""
    for one in element:
        if one.tag in ("creator", "rights"):
            what = one.get("type", "")[:_MOST_SHOWN] if one.tag == "creator" else "line of rights"
            head.round.append((what or "creator", _line(text_of(one))))
    for fields in element.findall("miscellaneous"):
        for one in fields.findall("miscellaneous-field"):
            name = one.get("name", "")
            if name.startswith(PREFIX):
                head.kept[name.removeprefix(PREFIX)] = one.text or ""


def _read_credit(kind: str, words: str, head: ScoreHead) -> None:
    """Take in words that are printed round the music; `kind` says what they are, "" for nothing."""
    if kind in ("", "title") and not head.credit:
        head.credit = words
    elif kind != "page number":
        head.round.append((kind[:_MOST_SHOWN] or "line of words", words))


def _line(text: str) -> str:
    """Return a text on one line, with single spaces."""
    return " ".join(text.split())
