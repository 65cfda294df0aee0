"""The proof-reader: what in a phrase, or between the phrases of a book, wants a second look.

Lives here: the rules, each a row with its function, and the findings. May import the rooms `account`,
`roles`, `naming` and `hearing`, and `phrase`, `theory` and `errors`. Nothing here stops a build.
"""

from shedbook.analysis.proof.between_phrases import proof_book
from shedbook.analysis.proof.finding import RULE, Finding
from shedbook.analysis.proof.proof_reader import proof, unknown_silences

__all__ = ["RULE", "Finding", "proof", "proof_book", "unknown_silences"]
