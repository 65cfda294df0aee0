"""The talking points of a video: the sentences of the explanation, each with the bar in which it is told."""

from __future__ import annotations

from shedbook.analysis.account import Account
from shedbook.analysis.naming.language import Words
from shedbook.analysis.telling.explanation import told_remarks
from shedbook.analysis.telling.reader_names import reader_names
from shedbook.analysis.telling.remark import ALONG
from shedbook.film.captions import Point


def points_of(account: Account, words: Words) -> tuple[Point, ...]:
    """Return the talking points of a phrase in the order of its bars; what to practise comes at the end."""
    if not account.notes:
        return ()
    say = reader_names(account, words)
    found = []
    for remark in told_remarks(account):
        bar = say.bar_number(account.notes[remark.first])
        found.append((remark.part, bar, words.sentence(remark.said(say))))
    found.sort(key=lambda one: (one[0], one[1] if one[0] == ALONG else 0))
    return tuple(Point(bar, text) for _, bar, text in found)
