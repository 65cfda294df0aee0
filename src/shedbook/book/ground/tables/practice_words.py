"""The fixed words of the student's page, in English; a part of the table of `tables.words`, in its format.

Rows under "practice." go into the page. The source of every row is the trade's usual wording, or our own.
"""

from __future__ import annotations

PRACTICE: dict[str, str] = {
    # The frame.
    "practice.skip": "To what is practised",
    "practice.screens": "What to do",
    "practice.close": "Close",
    "practice.missing": "{file} is missing from the folder of this page. Copy the whole folder.",
    "practice.old": "This browser is too old for this page: it has no {what}. Browsers from 2023 on open it.",
    "practice.screen.play": "Play",
    "practice.screen.ear": "By ear",
    "practice.screen.why": "Why it works",
    "practice.screen.own": "Your own line",
    # Choosing.
    "practice.choose.phrase": "Which phrase?",
    "practice.choose.key": "Which key?",
    "practice.choose.search": "A word of its title, or its number",
    "practice.reader.asked": "Which part do you read?",
    "practice.reader.instrument": "You read",
    "practice.reader.tuning": "Your A is tuned to",
    "practice.reader.tuning.n": "{n} Hz",
    "practice.reader.theme": "Paper",
    "practice.reader.theme.system": "as the device has it",
    "practice.reader.theme.light": "light",
    "practice.reader.theme.dark": "dark",
    # Playing.
    "practice.play.phrase": "{n} · {title}",
    "practice.play.start": "Play",
    "practice.play.stop": "Stop",
    "practice.play.key.before": "The key before",
    "practice.play.key.next": "The next key",
    "practice.play.tempo": "Tempo",
    "practice.play.tempo.value": "{n} a minute, {share} %",
    "practice.play.told": "{title}, {key}, {n} beats a minute",
    "practice.play.more": "Who plays, what is repeated, your instrument",
    "practice.play.heard": "You hear",
    "practice.play.heard.line": "the line",
    "practice.play.heard.bass": "bass",
    "practice.play.heard.comping": "chords",
    "practice.play.heard.drums": "drums",
    "practice.play.heard.click": "a click on 2 and 4",
    "practice.play.heard.count": "a bar counted in",
    "practice.play.source": "The sound comes from",
    "practice.play.source.page": "this page",
    "practice.play.source.track": "the track: {name}",
    "practice.play.source.says":
    "A track sounds as it was made: "
    "its players, its register and its tuning stay.",
    "practice.play.track.demonstration": "demonstration",
    "practice.play.track.play-along": "play-along",
    "practice.play.track.line": "the line alone",
    "practice.play.track.click": "the line with a click",
    "practice.play.track.call-and-answer": "call and answer",
    "practice.play.track.no-bass": "without bass",
    "practice.play.track.no-piano": "without piano",
    "practice.play.track.no-drums": "without drums",
    "practice.play.track.bass-alone": "the bass alone",
    "practice.play.track.piano-alone": "the piano alone",
    "practice.play.track.drums-alone": "the drums alone",
    "practice.play.loop": "Round and round",
    "practice.play.loop.whole": "the whole phrase",
    "practice.play.loop.bar": "bar {n}",
    "practice.play.loop.link": "the link from bar {n} into bar {m}",
    "practice.play.rounds": "Then",
    "practice.play.rounds.stay": "stay in this key until I go on",
    "practice.play.rounds.n": "go to the next key after {n} rounds",
    "practice.play.faster": "Faster",
    "practice.play.faster.never": "only when I say so",
    "practice.play.faster.n": "by {step} % after {n} clean rounds",
    "practice.play.faster.says": "A round counts as clean unless you say otherwise.",
    "practice.play.faster.not": "That one was not clean: a step slower",
    "practice.play.hands":
    "With your hands full: a pedal forward, Page Down or → goes to the next key; a pedal back, Page Up or "
    "← to the one before, or says “not clean” while the tempo grows by itself. ↑ and ↓ change the tempo, "
    "the space bar begins and stops, L is the line, C the click.",
    "practice.play.ears":
    "Keep headphones where you could still hear somebody speak to you. Rest five minutes in every half "
    "hour, and put the instrument down when something hurts; your teacher or a doctor knows more than a "
    "page.",
    # By ear.
    "practice.ear.says": "First the ear, then the voice, then the instrument, and the page last.",
    "practice.ear.hear": "Hear it",
    "practice.ear.hear.says": "Two or three times, without playing. Tap the beat.",
    "practice.ear.hear.bar": "Hear bar {n}",
    "practice.ear.slow": "slowly",
    "practice.ear.chords": "with the chords",
    "practice.ear.sing": "Sing it",
    "practice.ear.sing.says":
    "From memory, softly, in any octave that lies well. Hear it again where it tears.",
    "practice.ear.first": "Give me the first note",
    "practice.ear.find": "Find it",
    "practice.ear.find.says": "On your instrument, from the first note on, slowly. No hurry, and no force.",
    "practice.ear.see": "See it",
    "practice.ear.see.next": "Show bar {n}",
    "practice.ear.see.all": "Show everything",
    "practice.ear.see.none": "Cover it again",
    "practice.ear.listen": "Let the page listen",
    "practice.ear.listen.stop": "Stop listening",
    "practice.ear.listen.says":
    "The microphone hears one note at a time, and not always the right one: take it as a help, not as a "
    "judge. Nothing is recorded, and nothing leaves this device.",
    "practice.ear.listen.none": "This browser does not let the page use a microphone here ({why}).",
    "practice.ear.listen.now": "Now: {note}",
    "practice.ear.listen.found": "Heard {n} of {of} notes in order. Not heard for sure: {missing}.",
    "practice.ear.listen.all": "All {of} notes heard, in order.",
    "practice.ear.listen.nothing": "Nothing heard yet.",
    # Why it works.
    "practice.why.says": "Choose a sentence: its notes are marked, and you hear them.",
    "practice.why.home": "In its home key, {key}.",
    "practice.why.scales": "The scales",
    "practice.why.scale": "{name} over {chord}",
    "practice.why.scale.hear": "Hear the scale",
    "practice.why.line": "Hear the line",
    # A line of one's own.
    "practice.own.says":
    "Write over the same changes. Touch the staff to put a note there; touch a note to choose it. Keys: ← "
    "→ go from place to place, ↑ ↓ move a note by a step, with Shift by a half step; Enter sets one, "
    "Delete takes it away.",
    "practice.own.staff": "Your line: a staff of {bars} bars",
    "practice.own.hear": "Hear your line",
    "practice.own.band": "with the band",
    "practice.own.clear": "Begin anew",
    "practice.own.clear.sure": "Take the whole line away?",
    "practice.own.longer": "Longer",
    "practice.own.shorter": "Shorter",
    "practice.own.up": "Up",
    "practice.own.down": "Down",
    "practice.own.remove": "Take away",
    "practice.own.empty": "Bar {bar}, beat {beat}: nothing yet.",
    "practice.own.note": "Bar {bar}, beat {beat}: {note}, {degree} of {chord}, {kind}{landing}.",
    "practice.own.note.bare": "Bar {bar}, beat {beat}: {note}, {kind}{landing}.",
    "practice.own.kind.chord": "a chord tone",
    "practice.own.kind.scale": "a note of the scale",
    "practice.own.kind.outside": "outside chord and scale",
    "practice.own.landing.still": ", a landing at rest",
    "practice.own.landing.colour": ", a landing on a colour",
    "practice.own.landing.outside": ", a landing that nothing holds: lead it on by a half step",
    "practice.own.count":
    "{n} notes: {chord} chord tones, {scale} of the scale, {outside} outside; {landed} of {landings} "
    "landings stand on a chord tone.",
    "practice.own.kept": "Kept on this device with the phrase.",
}  # fmt: skip
