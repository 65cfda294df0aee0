"""What the proof-reader says, in English: the sentences of its findings and their mends.

Row format: as in `tables.wording`. The name of a row is "finding.", the name of the rule, and what tells its
sentences apart where it has several; ".mend" behind the rule is how its findings are usually mended, what
stands behind that is another mend. The rows of editions stand in `editions.tables.edition_rules`, those of a
whole book in `book.ground.tables.finding_words`; every language has them all.
Source: the terms are common practice, the sentences are our own.
"""

from __future__ import annotations

_WRONG_PITCHES = ("accidental-slip", "letter-slip")

FINDINGS: dict[str, str] = {
    # What findings are made of: a name that is also typed, what has to be typed, what is quoted, how long.
    "finding.name": "{name}",
    "finding.typed": "{typed}",
    "finding.quoted": '"{text}"',
    "finding.or": "{first} or {next}",
    "finding.beats": "{n} beat", "finding.beats.many": "{n} beats", "finding.beats.many.few": "{n} beats",
    "finding.odds.even": "about even odds", "finding.odds.to one": "about {n} to one",
    "finding.odds.one in": "about one chance in {n}",
    # How a phrase is written.
    "finding.bar-does-not-fill.long": "Bar {bar} is {beats} too long.",
    "finding.bar-does-not-fill.short": "Bar {bar} is {beats} too short.",
    "finding.bar-does-not-fill.mend": "Add or take away what is too short or too long.",
    "finding.tie-to-another-pitch.rest": "A tie goes from a rest to {to}.",
    "finding.tie-to-another-pitch.note": "A tie goes from {start} to {to}.",
    "finding.tie-to-another-pitch.mend": "Tie to the same pitch, or write a slur.",
    "finding.long-phrase": "The phrase has {n} bars.",
    "finding.long-phrase.mend": "Divide it into phrases, each with one thing to practise.",
    "finding.misread-accidental.name": "{note} is easily misread.",
    "finding.misread-accidental.two ways": "{note} stands as {other} in the same bar.",
    "finding.misread-accidental.mend": "Write the plain name.",
    "finding.misread-accidental.mend.plain": "Write {plain}.",
    "finding.misread-accidental.mend.alike": "Write both alike.",
    # Slips of the pen.
    "finding.octave-slip.one low":
    "{note} lies an octave too low for the notes around it: {odds} that the octave number is a slip.",
    "finding.octave-slip.one high":
    "{note} lies an octave too high for the notes around it: {odds} that the octave number is a slip.",
    "finding.octave-slip.many low":
    "{n} notes from {first} to {last} lie an octave too low: {odds} that the octave number is a slip.",
    "finding.octave-slip.many high":
    "{n} notes from {first} to {last} lie an octave too high: {odds} that the octave number is a slip.",
    "finding.octave-slip.mend": "Check the octave number: it holds until the next one.",
    "finding.octave-slip.mend.here": "Write {typed}.",
    "finding.octave-slip.mend.back": "Write {typed}, and {after} where the line goes back.",
    **{
        f"finding.{rule}.over":
        "{note} is {degree} over {chord}; {meant}, {would}, would go better with the line: "
        "{odds} that it was meant."
        for rule in _WRONG_PITCHES
    },
    **{
        f"finding.{rule}.alone": "{note}; {meant} would go better with the line: {odds} that it was meant."
        for rule in _WRONG_PITCHES
    },
    "finding.accidental-slip.mend": "Check the accidental.",
    "finding.accidental-slip.mend.meant": "Check the accidental: {meant}?",
    "finding.accidental-slip.mend.carried":
    "Check the accidental: {meant}? An accidental belongs to its note alone.",
    "finding.letter-slip.mend": "Check the letter.",
    "finding.letter-slip.mend.meant": "Check the letter: {meant}?",
    "finding.doubled-note":
    "{note} stands twice where the line would go on to {meant}: {odds} that it was typed twice.",
    "finding.doubled-note.mend": "Write the note that was meant the second time.",
    "finding.doubled-note.mend.meant": "Write {meant} the second time?",
    "finding.chord-quality-slip.notes":
    "Over {chord} the line has {heard}: {odds} that {meant} was meant.",
    "finding.chord-quality-slip.notes and none":
    "Over {chord} the line has {heard} and no {lacking}: {odds} that {meant} was meant.",
    "finding.chord-quality-slip.chords":
    "The chords around {chord} ask for {meant}: {odds} that it was meant.",
    "finding.chord-quality-slip.mend": "Check the chord symbol.",
    "finding.chord-quality-slip.mend.meant": "Check the symbol: {typed}?",
    "finding.changes-shifted.late": "The changes seem to stand a bar too late for the line: {odds}.",
    "finding.changes-shifted.early": "The changes seem to stand a bar too early for the line: {odds}.",
    "finding.changes-shifted.mend": "Check in which bar the changes begin.",
    "finding.changes-shifted.mend.late": "Write the changes a bar earlier?",
    "finding.changes-shifted.mend.early": "Write the changes a bar later?",
    # Held notes.
    "finding.chord-contradicted.held": "{note} is {heard} over {chord}, and it is held.",
    "finding.chord-contradicted.into":
    "{note} is held into {chord}, where it is {heard}, outside the scale.",
    "finding.chord-contradicted.mend": "Change the note or the chord symbol.",
    "finding.chord-contradicted.mend.held": "Change {note}, or the symbol {typed}.",
    "finding.outside-held": "{note} is {degree} over {chord}, outside the scale, and held.",
    "finding.outside-held.mend": "Write a note of the chord or the scale, or let it resolve by step.",
    # Scales and what the author states of the harmony.
    "finding.pass-through-held":
    "{note}, {degree} over {chord}, is held: it lies a half step above {below}.",
    "finding.pass-through-held.mend": "Pass through it, or resolve it a step down.",
    "finding.pass-through-held.mend.below": "Pass through it, or resolve it to {below}.",
    "finding.scale-does-not-fit.one":
    "{notes} is outside {scale} over {chord}; {better} would hold more of the line.",
    "finding.scale-does-not-fit.many":
    "{notes} are outside {scale} over {chord}; {better} would hold more of the line.",
    "finding.scale-does-not-fit.mend": "Name the other scale, or change the notes.",
    "finding.scale-does-not-fit.mend.better": "Name {scale} over {typed}, or change the notes.",
    "finding.scale-contradicts-chord": "{scale} has no {tones} of {chord}.",
    "finding.scale-contradicts-chord.tone": "{note}, {degree}",
    "finding.scale-contradicts-chord.and": "{first} and no {next}",
    "finding.scale-contradicts-chord.mend": "Name a scale that holds it, or change the chord symbol.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Nearest of the scales that fit {chord}: {scales}. Or change the chord symbol.",
    "finding.key-contradicted": "The key is named {stated}, and the chords speak for {heard}.",
    "finding.key-contradicted.mend": "Name the key that the chords speak for, or leave it out.",
    "finding.key-contradicted.mend.heard": "Name {typed} as the key, or leave the key out.",
    # The shape of the line.
    "finding.range.extreme": "{note} lies in an extreme register.",
    "finding.range.wide": "The line spans {n} half steps, from {low} to {high}.",
    "finding.range.mend": "Move the phrase, or part of it, by an octave.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": 'This is the same phrase as "{title}" (number {n}).',
    "finding.duplicate-phrase.moved":
    'This is the same phrase as "{title}" (number {n}), in another key.',
    "finding.duplicate-phrase.mend": "Leave one of them out.",
    "finding.shifted-phrase":
    'This has the same line as "{title}" (number {n}), over other chords or from another beat.',
    "finding.shifted-phrase.mend": "Say in the commentary that it is meant, or leave one out.",
    "finding.silence-names-no-rule": 'No rule is called "{rule}".',
    "finding.silence-names-no-rule.mend": "Write a rule's name as the table gives it.",
    "finding.silence-names-no-rule.mend.near": "Did you mean {names}?",
}  # fmt: skip
