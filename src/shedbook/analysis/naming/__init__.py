"""What things are called: the words of a language, and notes, degrees, chords and scales named in them.

Lives here: the table of the explanation's words, the value that is asked for them, and functions that name
one musical thing. May import `phrase` and the floors below it; no other room of the analysis.
"""

from shedbook.analysis.naming.language import ENGLISH, Words

__all__ = ["ENGLISH", "Words"]
