"""The account of a phrase: one value with every note accounted for, and what makes the line work.

Lives here: the account of one note, figures, landings, links, coverage, contour, difficulty, and `account`,
which makes them all. May import the rooms `roles` and `hearing`, and `phrase` with the floors
below it.
"""

from shedbook.analysis.account.phrase_account import Account, account, felt_beat, quarters_a_minute

__all__ = ["Account", "account", "felt_beat", "quarters_a_minute"]
