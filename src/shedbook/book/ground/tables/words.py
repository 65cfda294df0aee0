"""Every fixed word of a book, in English. A book in another language needs a table like this one.

Row format: the name by which the program asks for a word, and the word. In braces stand names that are
filled in; a translation has the same names. `{n}` is a figure, `{count}` a number in words.
Text that says how to practise stands here too; a section has a head and paragraphs divided by a blank line.
The rows of the explanation, and the names of notes, chords, degrees and scales, come from
`analysis.naming.tables.wording`, what the proof-reader says from `analysis.naming.tables.findings`,
`editions.tables.edition_rules` and `finding_words`; together they are the one table.
The source of every row is the trade's usual wording, or our own.
"""

from __future__ import annotations

from shedbook.analysis.naming.tables.findings import FINDINGS
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.book.ground.tables import lesson_words
from shedbook.book.ground.tables.bundle_words import BUNDLE
from shedbook.book.ground.tables.finding_words import OF_A_BOOK
from shedbook.book.ground.tables.plan_words import PLAN
from shedbook.book.ground.tables.practice_words import PRACTICE
from shedbook.editions.tables.edition_rules import EDITION_WORDS
from shedbook.editions.tables.instruments import INSTRUMENTS
from shedbook.phrase.tables.feels import FEELS
from shedbook.theory.tables.progressions import BLUES, LINES, PROGRESSIONS

PAGES: dict[str, str] = {
    # Names of keys, progressions and feels.
    "key.concert": "concert {tonic}",
    "key.progression": "{progression} in {key}",
    **{f"progression.{row.name}": row.name for row in PROGRESSIONS},
    **{f"progression.{row.name}": row.name for row in LINES},
    **{f"progression.{row.name}": row.name for row in BLUES},
    **{f"feel.{row.name}": row.name for row in FEELS},
    # Names of scales as they stand over a chord that leaves them little room.
    "scale.short.half-whole diminished": "half-whole", "scale.short.whole-half diminished": "whole-half",
    "scale.short.melodic minor": "mel. minor", "scale.short.harmonic minor": "harm. minor",
    "scale.short.harmonic major": "harm. major", "scale.short.lydian dominant": "lyd. dominant",
    "scale.short.phrygian dominant": "phryg. dominant", "scale.short.mixolydian": "mixolyd.",
    "scale.short.lydian augmented": "lyd. augmented", "scale.short.locrian natural 2": "locrian nat. 2",
    "scale.short.locrian natural 6": "locrian nat. 6", "scale.short.ionian augmented": "ionian aug.",
    "scale.short.mixolydian b6": "mixolyd. ♭6", "scale.short.mixolydian b2": "mixolyd. ♭2",
    "scale.short.bebop melodic minor": "bebop mel. minor", "scale.short.bebop dominant": "bebop dom.",
    "scale.short.major pentatonic": "major pent.", "scale.short.minor pentatonic": "minor pent.",
    # A text in the middle of a sentence.
    "inside": "{lower text}",
    # Numbers.
    "numbers":
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen",
    "tens": "- - twenty thirty forty fifty sixty seventy eighty ninety",
    "tens and ones": "{tens}-{ones}",
    # Dates.
    "date": "{day} {month} {year}",
    "months": "January February March April May June July August September October November December",
    # Title page and imprint.
    "phrase": "phrase", "phrases": "phrases", "phrases.few": "phrases",
    "phrase.untitled": "Phrase {n}",
    "in all keys": "{count} {phrases} in all {keys} keys",
    "in keys": "{count} {phrases} in {keys} keys",
    "in one key": "{count} {phrases} in one key",
    "edition.title": "{name} edition",
    "edition.concert": "Written as it sounds, for instruments in C",
    "edition.name.concert": "Concert", "edition.name.bflat": "B♭", "edition.name.eflat": "E♭",
    "edition.name.bass": "Bass clef", "edition.name.f": "F",
    **{f"edition.name.{row.name.lower()}": row.name[:1].upper() + row.name[1:] for row in INSTRUMENTS},
    "edition.as it sounds": "Written as it sounds",
    "edition.above": "Written {interval} above concert pitch",
    "edition.below": "Written {interval} below concert pitch",
    "interval.1.1": "a minor second", "interval.1.2": "a major second", "interval.2.3": "a minor third",
    "interval.2.4": "a major third", "interval.3.5": "a fourth", "interval.3.6": "an augmented fourth",
    "interval.4.6": "a diminished fifth", "interval.4.7": "a fifth", "interval.4.8": "an augmented fifth",
    "interval.5.8": "a minor sixth", "interval.5.9": "a major sixth", "interval.6.10": "a minor seventh",
    "interval.6.11": "a major seventh",
    "interval.octave": "an octave", "interval.octaves": "two octaves", "interval.and": "{octaves} and {rest}",
    "clef.G2": "treble clef", "clef.G2-8": "octave treble clef", "clef.F4": "bass clef",
    "clef.F4-8": "octave bass clef", "clef.C3": "alto clef", "clef.C4": "tenor clef",
    "words name concert": "These words name concert pitch.",
    "edition.large": "Large print",
    "edition.sample": "Free sample",
    "keywords": "jazz, improvisation, study, twelve keys",
    "imprint": "About this book",
    "imprint.music": "Words and music by {author}.",
    "imprint.sizes": "Staff {staff} mm, text {text} pt.",
    "licensee": "This copy belongs to {name}",
    "proof": "proof",
    "published": "Published {date}.",
    "isbn": "ISBN {number}",
    "tracks": "Tracks",
    "preface": "Preface",
    "acknowledgements": "Acknowledgements",
    "about the author": "About the author",
    "cover": "Cover", "logo": "Publisher's mark",
    # Heads.
    "contents": "Contents",
    "how to use": "How to use this book",
    "on the web": "On the web",
    "why it works": "Why it works",
    "scale": "The scale",
    "scales": "The scales",
    "tempo": "Tempo",
    "your own": "Your own line over these changes",
    "listen": "Listen and watch",
    "indexes": "Indexes",
    "index.key": "By key",
    "index.progression": "By progression",
    "index.scale": "By scale",
    "index.device": "By device",
    "index.difficulty": "By level",
    "checklist": "Key by key",
    "checklist.says":
    "Tick a key when you have played the phrase in it three times running, from memory and in time.",
    "part": "Part {n}",
    "part.none": "Other changes",
    "part.no scale": "No scale named",
    # Drills: what each pattern is called after the name of its scale, and how it is practised.
    "drills": "Drills",
    "drill.title": "{scale} {pattern}",
    "drill.through": "{pattern} through {progression}",
    "drill.through.says":
    "One group on each chord, its first note the root; where a chord lasts, the group comes back down. Say "
    "the chord as you begin its group.",
    "drill.own cell": "in the cell {cell}",
    "drill.own cell.says": "The cell {cell} on every step, up; on the way down it is turned over.",
    "drill.up and down": "up and down",
    "drill.up and down.says": "Every note of the scale, up to the top and back. Breathe at the turn.",
    "drill.in thirds": "in thirds",
    "drill.in thirds.says": "Skip a note, step back: every third of the scale, up and then down.",
    "drill.in fourths": "in fourths",
    "drill.in fourths.says":
    "Every fourth of the scale. Hear which of them is wider or narrower than the others.",
    "drill.in fifths": "in fifths",
    "drill.in fifths.says": "Every fifth of the scale, evenly; let the lower note ring in your ear.",
    "drill.in sixths": "in sixths",
    "drill.in sixths.says": "Every sixth of the scale. Hear the upper note before you play it.",
    "drill.in sevenths": "in sevenths",
    "drill.in sevenths.says": "Every seventh of the scale, slowly: the upper note as full as the lower.",
    "drill.in triads": "in triads",
    "drill.in triads.says":
    "The triad on every step, in triplets. Say major, minor, diminished as they pass.",
    "drill.in seventh chords": "in seventh chords",
    "drill.in seventh chords.says": "The seventh chord on every step, up; then each from its top note down.",
    "drill.in groups of three": "in groups of three",
    "drill.in groups of three.says": "Three notes from every step, in triplets. Lean on the first of each.",
    "drill.in groups of four": "in groups of four",
    "drill.in groups of four.says": "Four notes from every step, up; then four from every step, down.",
    "drill.in groups of five": "in groups of five",
    "drill.in groups of five.says":
    "Five notes from every step in eighths: each group begins elsewhere in the bar.",
    "drill.1 2 3 5": "in the cell 1 2 3 5",
    "drill.1 2 3 5.says":
    "First, second, third, fifth from every step; on the way down the cell is turned over.",
    "drill.enclosed": "with enclosures",
    "drill.enclosed.says":
    "Before every note the scale note above it and the half step below. Land on the beat.",
    "drill.from below": "from a half step below",
    "drill.from below.says": "A half step leads to every note. The note it leads to is the one you mean.",
    "drill.symmetric cells": "in its repeating cell",
    "drill.symmetric cells.says":
    "The scale repeats itself, and so does the cell: learn it once and move your hand.",
    "drill.grouped in three": "in threes across the beat",
    "drill.grouped in three.says":
    "Plain eighths with an accent on every third note; keep your foot on the beat.",
    "drill.grouped in five": "in fives across the beat",
    "drill.grouped in five.says":
    "Plain eighths with an accent on every fifth note; keep your foot on the beat.",
    "drill.grouped in seven": "in sevens across the beat",
    "drill.grouped in seven.says":
    "Plain eighths with an accent on every seventh note; count the beat aloud first.",
    "drill.off the beat": "with the accents off the beat",
    "drill.off the beat.says": "Plain eighths, the second of each pair accented and tongued or picked.",
    "all in": "All phrases in {tonic}",
    "proof sheet": "Proof sheet",
    "proof sheet.says": "Read each score against the manuscript and tick it.",
    "sample": "This is a sample",
    "sample.says": "You have read {n} of {all} phrases. The whole book has them all, made in the same way.",
    # Tempo.
    "tempo.slow": "slow", "tempo.medium": "medium", "tempo.goal": "goal", "tempo.step": "step",
    "tempo.fact": "{n} beats a minute, {feel}",
    "tempo.fact.free": "{feel}",
    # Devices.
    "device.enclosure": "enclosure",
    "device.passing note": "passing note",
    "device.neighbour": "neighbour",
    "device.approach note": "approach note",
    "device.anticipation": "anticipation",
    "device.suspension": "suspension",
    "device.leaning note": "leaning note",
    "device.escape note": "escape note",
    "device.blue note": "blue note",
    "device.pedal": "pedal",
    "device.arpeggio": "arpeggio",
    "device.run": "run",
    "device.sequence": "sequence",
    "device.delayed resolution": "delayed resolution",
    "level.1": "level 1, easy", "level.2": "level 2", "level.3": "level 3", "level.4": "level 4",
    "level.5": "level 5, hard",
    # Alternative text of a score, for those who hear the page.
    "alt.title": "{title} in {key}, {metre}, {tempo}.",
    "alt.bar": "Bar {n}, {chords}: {notes}.",
    "alt.pickup": "Pick-up: {notes}.",
    "alt.rest": "rest",
    "alt.note": "{note} {octave}",
    "alt.valued": "{value} {note}",
    "alt.next": "{first}, {next}",
    "alt.tie": "tied {value}",
    "alt.1": "whole note", "alt.2": "half note", "alt.4": "quarter", "alt.8": "eighth", "alt.16": "sixteenth",
    "alt.32": "thirty-second",
    "alt.dotted": "dotted {value}", "alt.triplet": "{value} triplet",
    "alt.tuplet": "{value} {actual} in the time of {normal}",
    "alt.stop": "on string {string}, fret {fret}",
    "alt.scale": "{scale} over {chord}: {notes}.",
    "alt.changes": "Empty staves under the changes: {changes}.",
    "alt.code": "QR code of the link {name}",
    "alt.page": "page",
    # How to use this book.
    "advice.edition": "The edition",
    "advice.edition.concert":
    "This is the concert edition: every note is written as it sounds, for piano, guitar, flute, violin, "
    "vibraphone and anyone else who reads in C. Where a key lies badly on your instrument, move the "
    "whole line an octave and keep its shape.",
    "advice.edition.reader": "This is the {title}, in the {clef}. Every note is {says}.",
    "advice.edition.octave": "Some of the instruments that read it sound an octave lower still.",
    "advice.edition.keys":
    "The keys have the names that you read. The small name beside each is the concert key, which is the "
    "one to tell the pianist and the bass player.",
    "advice.edition.register": "In every key the line lies in the octave that suits the instrument best.",
    "advice.edition.tablature":
    "Under each staff stands its tablature: a line for each string, string 1 at the top, and on it the fret, "
    "0 for the open string. A fret in brackets is tied over from the bar before. The strings are tuned, from "
    "string 1, {strings}, as they sound. The frets are chosen so that the hand moves least; where others lie "
    "better for you, write them in.",
    "advice.edition.author":
    "Where the author's own words name notes, chords or keys, they are concert pitch.",
    "advice.phrase": "A phrase a week",
    "advice.phrase.says":
    "Each phrase begins on a page of its own, in its home key. Read the changes first. Play the chords, "
    "or at least their thirds and sevenths, until you hear them without an instrument; then sing the "
    "line over them, slowly; only then play it. What you cannot sing you do not yet hear.\n\n"
    "One phrase known by heart in every key is worth more than ten that you can read.",
    "advice.keys": "The keys",
    "advice.keys.one":
    "The phrase stands in one key.",
    "advice.keys.many":
    "After its words the phrase stands in {keys} more keys, each with its name beside the staff.",
    "advice.keys.by key":
    "The first pages stand together; after them comes key by key, with every phrase in it.",
    "advice.accidentals":
    "There is no key signature: every note that needs an accidental carries one, and it holds to the "
    "end of its bar.",
    "advice.signature":
    "Each key has its signature at the start of every line; an accidental holds to the end of its bar.",
    "advice.method":
    "Learn the phrase by what each note is over its chord, not by its name: third, fifth, flat nine. "
    "Then a new key is the same sentence with another accent. Take three or four keys a day and begin "
    "tomorrow where you stopped. Cover the page as soon as you can; the page is there to check, not to "
    "lean on. When one key stays hard, it is the next one to practise.",
    "order.fourths": "They go round the circle of fourths, so that each key is the fifth of the next.",
    "order.fifths": "They go round the circle of fifths.",
    "order.chromatic": "They climb by half steps.",
    "order.chromatic down": "They fall by half steps.",
    "order.whole steps": "They climb by whole steps, first one six keys, then the other six.",
    "order.whole steps down": "They fall by whole steps, first one six keys, then the other six.",
    "order.minor thirds": "They climb by minor thirds, four keys at a time.",
    "order.major thirds": "They climb by major thirds, three keys at a time.",
    "advice.signs": "The signs",
    "signs.chords": "In chord symbols {signs}.",
    "signs.next": "{first}, {next}",
    "signs.chord.m": "m is minor", "signs.chord.dash": "a dash is minor",
    "signs.chord.maj": "maj is the major seventh", "signs.chord.triangle": "a triangle is the major seventh",
    "signs.chord.ring": "a small circle is diminished",
    "signs.chord.struck ring": "a circle with a stroke is half-diminished",
    "signs.chord.plus": "a plus is augmented",
    "signs.chord.alt": "alt is a dominant with all its tensions altered",
    "signs.chord.sus": "sus has a fourth in place of the third",
    "signs.chord.raised": "what is altered or added stands raised in brackets",
    "signs.chord.bass": "the letter after a stroke is the bass note",
    "signs.courtesy": "An accidental in brackets only reminds you: it would hold without it.",
    "signs.grace": "A small note is played quickly before its beat or on it, and takes no time of its own.",
    "signs.accent": "A wedge lying over a note is an accent.",
    "signs.staccato": "A dot over or under a note makes it short.",
    "signs.tenuto": "A line over or under a note lets it have its whole length.",
    "signs.fall": "A line that falls away after a note lets its end slide down.",
    "signs.scoop": "A line that rises into a note lets it be reached from below.",
    "signs.slur": "A slur joins notes that are tongued, bowed or picked once.",
    "signs.degrees":
    "The small figures under the notes say what a note is over its chord: 1, 3, 5 and 7 are the chord "
    "itself, 9, 11 and 13 its tensions, with flats and sharps where they are altered. Where a degree would "
    "need a double flat or a name that stops the eye, such as the flat nine of D♭, the plain note stands "
    "over its figure.",
    "signs.sparse": "They stand where the line lands, and where the text speaks of the note.",
    "signs.landings":
    "On a first page a small wedge under a figure marks a landing: a strong beat, or the first note "
    "over a new chord. A thin bracket under the staff joins the two notes that lead across a bar line "
    "or into a new chord.",
    "signs.scales":
    "The name over a chord is the scale that the line has in mind; it stands where the scale changes.",
    "signs.ghost": "A note in brackets is a ghost note: felt more than heard.",
    "advice.time": "Time",
    "advice.time.says":
    "Begin at the first tempo of the ladder, or slower, and count a bar aloud before you play. When "
    "four repetitions in a row were even and relaxed, go up by four beats a minute; when one was not, "
    "go down by eight. Once the line sits, let the click fall on two and four, then on four alone, then "
    "once every two bars. Swing comes from where you place the notes, not from hurrying them: record "
    "yourself and listen the next day.",
    "advice.yours": "Make it yours",
    "advice.yours.says":
    "Leave out the first note. Begin an eighth note late. Keep the rhythm and change the notes, keep "
    "the notes and change the rhythm. Use what you find in a tune the same evening, however badly.",
    "advice.yours.staves": "Write what you like on the empty staves beneath the phrase, under its changes.",
    "advice.body": "Hands, jaw, ears",
    "advice.body.says":
    "Rest for five minutes in every half hour, and stop before you are tired, not after. Shoulders "
    "down, wrists straight, jaw and breath loose. Pain, numbness or tingling is never part of "
    "practising: put the instrument down, and if it comes back, see your teacher about how you hold it "
    "and a doctor about the rest. With headphones, keep the level where you could still hear somebody "
    "speak to you; ringing ears mean it was too loud for too long.",
    **lesson_words.EN,
}  # fmt: skip

ENGLISH: dict[str, str] = {
    **WORDING, **PAGES, **BUNDLE["en"], **PRACTICE, **PLAN, **FINDINGS, **EDITION_WORDS, **OF_A_BOOK,
}  # fmt: skip
"""The whole table, by the names of its rows."""

LISTS = ("numbers", "tens", "numbers.small", "months", "practice.progress.tonics")
"""Rows that are lists of words divided by spaces, as many in every language."""

IN_SCORES = ("alt.", "scale.short.", "key", "tonic.", "mode.", "feel.", "tempo.fact", "phrase.untitled")
"""How the rows begin that are shown in or with a score; of the others only those of the explanation are."""

IN_FINDINGS = ("finding.", "edition.")
"""How the rows begin that are used, besides those, in what the proof-reader says."""
