"""The explanation: what a teacher would say of a phrase, in one to seven sentences.

Lives here: remarks on the account as kinds with typed slots, by what they are about; the names of things as
the reader sees them; the choice of what is told. May import the rooms `devices`, `account`, `roles`, `naming`
and `hearing`, and `theory` and `errors`.
"""

from shedbook.analysis.telling.explanation import explain, notes_of_sentences, notes_told

__all__ = ["explain", "notes_of_sentences", "notes_told"]
