"""The explanation: what a teacher would say of a phrase, in five to twelve sentences.

Lives here: remarks on the account, by what they are about, the names of things as the reader sees them, and
the choice of what is told. May import the rooms `account`, `roles`, `naming` and `hearing`, and `theory`
and `errors`.
"""

from shedbook.analysis.telling.explanation import explain

__all__ = ["explain"]
