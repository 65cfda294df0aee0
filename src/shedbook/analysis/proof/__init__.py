"""The proof-reader: what in a phrase, or between the phrases of a book, wants a second look.

Lives here: the rules, each a row with its function under it, the findings, and the proof-reader that asks the
rules. May import the rooms `account`, `roles`, `naming` and `hearing`, and `phrase` with the
floors below it. Nothing here stops a build.
"""

from shedbook.analysis.proof.finding import Finding, Remedy, Told, finding_in
from shedbook.analysis.proof.proof_reader import proof, proof_book, unknown_silences
from shedbook.analysis.proof.rules import RULES

__all__ = ["RULES", "Finding", "Remedy", "Told", "finding_in", "proof", "proof_book", "unknown_silences"]
