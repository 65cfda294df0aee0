"""Études: a study over a whole form, put together from phrases and from drafted bars.

`fitting` says which excerpts stand where in some changes, `filling` drafts what is between, `composing`
chooses.
"""
