"""What the proof-reader says of a whole book, and of the author's own names and words, in English.

Row format: as in `analysis.naming.tables.findings`, whose rows are those of a phrase.
Source: the terms are common practice, the sentences are our own.
"""

from __future__ import annotations

OF_A_BOOK: dict[str, str] = {
    # The edition for whose reader something is found.
    "finding.reader": "the {title}",
    # Names that the author gives to notes.
    "finding.stumbling-name": "{written} is printed as you typed it; a reader expects {better} here.",
    "finding.stumbling-name.mend": "Write {better}, or leave it if you mean {written}.",
    "finding.commentary-names": "The commentary says {said}; the score has {score}.",
    "finding.commentary-names.mend":
    "Write {score} in the commentary, or {{{said}}} in braces where it is no name of a note.",
    # Sentences that the author has written anew, and words that are not translated.
    "finding.sentence-outdated":
    "The music under your sentence has changed, so it is not printed: “{sentence}”",
    "finding.sentence-outdated.mend": "Write it anew under what is told now, or take it away.",
    "finding.untranslated":
    'The book is in "{language}", and {left} of its {all} fixed words are English.',
    "finding.untranslated.mend":
    "Translate the rows of docs/language.md under [words], or silence this if English is meant.",
    # Recordings.
    "finding.unused-recording": '[tracks] The recording "{file}" takes the place of no track.',
    "finding.unused-recording.mend":
    'The build makes no demonstration of the phrase: see "kinds" and "phrases" of [tracks].',
    "finding.unused-recording.mend.feel":
    "The feels of the book leave out the feel that the phrase itself names.",
    "finding.unused-recording.mend.there":
    "Its demonstrations are in {keys}, at {tempos} beats a minute.",
    "finding.unused-recording.mend.taken":
    "Its demonstrations are in {keys}, at {tempos} beats a minute. Each has its recording.",
}  # fmt: skip
