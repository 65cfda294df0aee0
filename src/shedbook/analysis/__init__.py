"""What a phrase means: the account of every note, links, coverage, findings and the explanation.

Lives here: pure functions from a phrase to values. May import `phrase`, `theory` and `errors`. Never
prints, and never guesses silently: what cannot be accounted for is called unaccounted.
"""
