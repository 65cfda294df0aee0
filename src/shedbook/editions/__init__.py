"""What a reader can play: transposition, key orders, spelling and register.

Lives here: pure functions from a phrase to a phrase, each choice by a minimised cost that stands in a
table. May import `phrase`, `theory` and `errors`.
"""
