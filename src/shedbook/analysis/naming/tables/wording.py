"""Every fixed word of an explanation, in English: names of notes and degrees, numbers, lists, sentences.

Row format: the name by which the program asks for a row, and its text. In braces stand names that are filled
in; a row in another language may use those of the English one, in any order, or leave some out. The rows
"tell." are the sentence patterns of the explanation, one for each kind of remark: a language writes them anew
from the same slots. Where a word has to agree there are rows "one" and "many". A sentence gets its capital
letter from `sentence`.
`book.ground.tables.words` adds the rows of the pages: together they are the one table of a language.
The wording is our own; the names of things are common practice.
"""

from __future__ import annotations

from shedbook.theory.tables.scales import SCALES

_OWN_DEGREES = {
    "1": "root", "3": "third", "b3": "third", "4": "fourth", "5": "fifth", "b5": "fifth", "#5": "fifth",
    "6": "sixth", "b7": "seventh", "7": "seventh", "bb7": "seventh",
}  # fmt: skip
_DEGREES = {
    "1": "root", "3": "major third", "b3": "minor third", "4": "fourth", "5": "natural fifth",
    "b5": "flat fifth", "#5": "sharp fifth", "6": "sixth", "b7": "flat seventh", "7": "major seventh",
    "bb7": "diminished seventh", "b9": "flat 9", "9": "9", "#9": "sharp 9", "11": "11", "#11": "sharp 11",
    "b13": "flat 13", "13": "13",
}  # fmt: skip
_SIZES = (
    "a unison", "a half step", "a whole step", "a minor third", "a major third", "a fourth", "a tritone",
    "a fifth", "a minor sixth", "a major sixth", "a minor seventh", "a major seventh", "an octave",
)  # fmt: skip
_SIGNED_SCALES = {
    "dorian b2": "dorian ♭2", "dorian #4": "dorian ♯4", "dorian b5": "dorian ♭5",
    "mixolydian b6": "mixolydian ♭6", "mixolydian b2": "mixolydian ♭2", "phrygian b4": "phrygian ♭4",
    "lydian #2": "lydian ♯2", "lydian b3": "lydian ♭3", "lydian augmented #2": "lydian augmented ♯2",
    "altered bb7": "altered ♭♭7", "locrian bb7": "locrian ♭♭7",
}  # fmt: skip
_NAMES = tuple(f"{letter}{sign}" for sign in ("b", "#", "bb", "##") for letter in "CDEFGAB")

WORDING: dict[str, str] = {
    # Names of notes: a letter, then what is made of it; `usual` is what the rows above it give.
    **{f"note.{letter}": letter for letter in "ABCDEFG"},
    "note.flat": "{letter} flat",
    "note.sharp": "{letter} sharp",
    "note.double flat": "{letter} double flat",
    "note.double sharp": "{letter} double sharp",
    **{f"note.{name}": "{usual}" for name in _NAMES},
    # The same with signs, as they are printed everywhere; those above are for a voice that reads.
    **{f"short note.{letter}": letter for letter in "CDEFGAB"},
    "short note.flat": "{letter}♭",
    "short note.sharp": "{letter}♯",
    "short note.double flat": "{letter}♭♭",
    "short note.double sharp": "{letter}♯♯",
    "short note.natural": "{letter}♮",
    **{f"short note.{name}": "{usual}" for name in _NAMES},
    # Keys.
    "mode.major": "major",
    "mode.minor": "minor",
    "key": "{tonic} {mode}",
    "tonic.minor": "{tonic}",
    # Chords in a text: the symbol as it stands, or made of {root}{kind}{slash}; a plain minor chord as said.
    "chord.symbol": "{symbol}",
    "chord.slash": "/{bass}",
    "chord.minor": "{root}\u00a0minor",
    "chord.none": "no chord",
    "chord.silent": "{symbol}",
    # A chord for a voice: "E flat m7 flat 5 over G".
    "voice.chord": "{root} {kind}",
    "voice.flat": " flat {n}",
    "voice.sharp": " sharp {n}",
    "voice.slash": "{chord} over {bass}",
    # What a degree is called that the chord has, and what any other is; then the same without an article.
    **{f"own degree.{degree}": f"the {name}" for degree, name in _OWN_DEGREES.items()},
    **{f"degree.{degree}": f"the {name}" for degree, name in _DEGREES.items()},
    **{f"bare own degree.{degree}": name for degree, name in _OWN_DEGREES.items()},
    **{f"bare degree.{degree}": name for degree, name in _DEGREES.items()},
    "degree.over no chord": "over no chord",
    "degree.of chord": "{degree} of {chord}",
    # Scales: as they are printed, and shorter, as they are said.
    **{f"scale.{row.name}": row.name for row in SCALES},
    **{f"scale.{name}": said for name, said in _SIGNED_SCALES.items()},
    **{f"short scale.{row.name}": row.name.removesuffix(" diminished") for row in SCALES},
    **{f"short scale.{name}": said for name, said in _SIGNED_SCALES.items()},
    "short scale.whole tone": "whole-tone",
    "scale.on": "{root} {scale}",
    # Sizes of intervals, in half steps.
    **{f"size.{semitones}": name for semitones, name in enumerate(_SIZES)},
    "size.more": "more than an octave",
    # Numbers: 0 to 12 in words, larger ones in figures. A list of single words.
    "numbers.small": "no one two three four five six seven eight nine ten eleven twelve",
    # Which numbers are singular, and which take a second plural; "*01" is any from 100 up that ends so.
    "plural.one": "1", "plural.few": "-",
    # Lists; `Text` has a capital letter at its start.
    "list.two": "{first} and {last}",
    "list.more": "{first}, {next}",
    "list.last": "{first} and {last}",
    "sentence": "{Text}",
    # Places.
    "beat.half": "the and of {n}",
    "beat.other": "beat {n}",
    "beat.on": "on {beat}",
    "bar": "bar {n}",
    "bar.pick-up": "the pick-up",
    "bars.two": "bars {first} and {last}",
    "bars.many": "bars {first} to {last}",
    "placed": "in {bar}, {text}",
    "way.up": "up", "way.down": "down",
    "way.compared up": "higher", "way.compared down": "lower",
    "move": "{a} to {b}",
    "no notes": "The phrase has no notes yet.",
    # Guide tones.
    "tell.falls.each": "At every change a seventh falls to the next third: {pairs}.",
    "tell.falls.both": "At both changes the seventh falls to the next third: {pairs}.",
    "tell.falls.twice": "Twice a seventh falls to the next chord's third: {pairs}.",
    "tell.falls.some": "At {times} of the changes a seventh falls to the next third: {pairs}.",
    "tell.falls.many": "At {times} changes a seventh falls to the next third, the first ones {pairs}.",
    "tell.fall.half": "{guide} is {of} and drops a half step to {goal}, {goal_of}.",
    "tell.fall.whole": "{guide} is {of} and drops a whole step to {goal}, {goal_of}.",
    "tell.fall.through": "{guide}, {of}, slips down through {between} to {goal}, {goal_of}.",
    "tell.fall.late": "{guide}, {of}, falls one note late, to {goal}, {goal_of}.",
    "tell.guide line.whole": "One line runs under it all, a third or a seventh for each chord: {notes}.",
    "tell.guide line.part":
    "From {first} to {last} one line runs underneath, a third or a seventh for each chord: {notes}.",
    "tell.steps": "Each new chord is a step away: {pairs}.",
    # Cells, bars and notes that come back.
    "tell.cell.twice": "the cell {notes} comes again at once, {size} {way}.",
    "tell.cell.shape": "the shape of {notes} comes again at once, from {second}.",
    "tell.cell.steady": "the cell {notes} comes {times} times, each time {size} {way}.",
    "tell.cell.often": "the shape of {notes} comes {times} times, from {starts}.",
    "tell.cell.across":
    "the shape of {notes} comes {times} times and lasts a beat and a half, so it starts in a new "
    "place each time.",
    "tell.staying note": "{note} stays through {times} chords and changes its meaning with each: {meanings}.",
    "tell.echo.one": "{later} begins like {earlier}, {size} {way}.",
    "tell.echo.whole one": "{later} repeats {earlier}, {size} {way}.",
    "tell.echo.same one": "{later} begins with the same notes as {earlier}, now over {chord}.",
    "tell.echo.whole same one": "{later} repeats {earlier} note for note, now over {chord}.",
    "tell.echo.altered":
    "{later} repeats {earlier} with {new} in place of {old}: that is the change to {chord}.",
    # The chords that a line hangs on.
    "tell.frame.diminished":
    "{notes} carry the line {way}: a diminished seventh chord on the strong beats, and the rest fills it in.",
    "tell.frame.own":
    "{notes} carry the line {way}: the notes of {chord} on the strong beats, and the rest fills them in.",
    "tell.arpeggio.up": "{chord} opens up from {first}, {degree}, to {last}, {last_degree}.",
    "tell.arpeggio.down": "The line falls through {chord} from {first}, {degree}, to {last}, {last_degree}.",
    "tell.arpeggio.thirds up": "From {first}, {degree} of {chord}, climb in thirds to {last}, {last_degree}.",
    "tell.arpeggio.thirds down":
    "From {first}, {degree} of {chord}, come down in thirds to {last}, {last_degree}.",
    "tell.arpeggio.start up":
    "Start on {first}, {degree} of {chord}, and climb through the chord to {last}, {last_degree}.",
    "tell.arpeggio.start down":
    "Start on {first}, {degree} of {chord}, and come down through the chord to {last}, {last_degree}.",
    "tell.arpeggio.start thirds up":
    "Start on {first}, {degree} of {chord}, and climb in thirds to {last}, {last_degree}.",
    "tell.arpeggio.start thirds down":
    "Start on {first}, {degree} of {chord}, and come down in thirds to {last}, {last_degree}.",
    "tell.arpeggio.octave up":
    "From {first}, {degree} of {chord}, climb through the chord to the next {last}.",
    "tell.arpeggio.octave down":
    "From {first}, {degree} of {chord}, fall through the chord to the next {last}.",
    "tell.arpeggio.start octave up":
    "Start on {first}, {degree} of {chord}, and climb through the chord to the next {last}.",
    "tell.arpeggio.start octave down":
    "Start on {first}, {degree} of {chord}, and fall through the chord to the next {last}.",
    "tell.fourths.up": "From {first}, {degree} of {chord}, climb in fourths to {last}, {last_degree}.",
    "tell.fourths.down": "From {first}, {degree} of {chord}, come down in fourths to {last}, {last_degree}.",
    "tell.triad.major": "{notes} spell {root} major over {chord}: {meanings}.",
    "tell.triad.minor": "{notes} spell {root} minor over {chord}: {meanings}.",
    "tell.triad.outside major": "{notes} spell {root} major, a triad from outside, laid over {chord}.",
    "tell.triad.outside minor": "{notes} spell {root} minor, a triad from outside, laid over {chord}.",
    # Scales, colours, tension.
    "tell.whole.bar": "Every note of the {scale} scale is in {bar}.",
    "tell.whole.chord": "The line takes in every note of the {scale} scale.",
    "tell.telling.place":
    "Over {chord} hear {note}, {degree}: that makes it {scale}; the {other} scale would have {tone} there.",
    "tell.telling.only": "Over {chord} hear {note}, {degree}: that makes it {scale}, not {other}.",
    "tell.colours": "The colours over {chord} are {notes}, {degrees}.",
    "tell.colour": "Lean on {note}, {of}: that is the colour here.",
    "tell.only the chord": "Over {chord} the line plays nothing but the chord.",
    "tell.tension": "{notes}, {degrees}, put the tension into {chord}; {goal}, {of}, lets it go.",
    # Crossings, enclosures, runs.
    "tell.suspended": "{note} hangs over into {chord} and then falls to {goal}, {degree}.",
    "tell.early": "{note} comes early: it is already {of}.",
    "tell.led": "{note} leads {way} a half step into {goal}, {of}.",
    "tell.step.half": "{before} moves {way} a half step to {goal}, {of}.",
    "tell.step.whole": "{before} moves {way} a whole step to {goal}, {of}.",
    "tell.kept": "{note} stays across the change: it is {of}, then {goal_of}.",
    "tell.enclosure.half": "{notes} close in on {goal}, {of}, from a half step either side.",
    "tell.enclosure.whole": "{notes} close in on {goal}, {of}, from a whole step either side.",
    "tell.enclosure.any": "{notes} close in on {goal}, {of}.",
    "tell.run.step up": "From {first} the line climbs by step to {last}, {of}.",
    "tell.run.step down": "From {first} the line comes down by step to {last}, {of}.",
    "tell.run.half steps up": "From {first} the line climbs by half steps to {last}, {of}.",
    "tell.run.half steps down": "From {first} the line slides down by half steps to {last}, {of}.",
    # Single notes.
    "tell.outside.passing note.one": "{note} lies outside and only passes, from {before} {way} to {goal}.",
    "tell.outside.passing note.many": "{notes} lie outside and only pass, so keep them light.",
    "tell.outside.passing note.same": "{note} lies outside each time and only passes, so keep it light.",
    "tell.outside.approach note.same": "{note} lies outside each time and leads on by a half step.",
    "tell.outside.neighbour.same": "{note} lies outside each time and goes back to the note it came from.",
    "tell.outside.approach note.one": "{note} lies outside and leads {way} a half step into {goal}, {of}.",
    "tell.outside.approach whole.one": "{note} lies outside and leads {way} into {goal}, {of}.",
    "tell.outside.approach note.many": "{notes} lie outside, and each leads on by a half step.",
    "tell.outside.neighbour.one": "{note} lies outside: {before} steps off to it and comes back.",
    "tell.outside.neighbour.many":
    "{notes} lie outside: each is a half step off the note that it comes back to.",
    "tell.leaning": "{note} leans on the beat, from outside, and gives way to {goal}, {of}.",
    "tell.extra note":
    "{note} is the extra note of the {scale} scale: it keeps {notes}, tones of {chord}, on the beat.",
    "tell.blue.note": "{note} is a blue note, {degree} over {chord}.",
    "tell.blue.seventh of the minor": "{note}, the major seventh over {chord}, is a touch of melodic minor.",
    "tell.blue.bent third":
    "{note}, the major third over {chord}, curls round the minor third, as in the blues.",
    "tell.pedal": "{note} stays on as a pedal, outside {chord}.",
    "tell.leap.back": "Hear the leap {way} from {before} to {after}, {size}; a step back follows.",
    "tell.leap.open": "Hear the leap {way} from {before} to {after}, {of}: it is {size}.",
    "tell.leap.octave": "{before} jumps {way} an octave and is {of}.",
    "tell.top": "The line tops out on {note}, {of}.",
    "tell.end": "The line ends on {note}, {of}, and stays open.",
    # Rhythm.
    "tell.late": "The line waits and comes in {when}.",
    "tell.off beats.all": "Every note falls off the beat.",
    "tell.off beats.some": "from {first} to {last} every note falls off the beat.",
    "tell.breath.one": "After {note} in {bar} the line breathes; give the rest its full length.",
    "tell.breath.many": "The longest breath comes after {note} in {bar}; give it its full length.",
    # What to practise.
    "tell.practice.frame": "Play {notes} alone first, on their strong beats, then fill in the rest.",
    "tell.practice.frame told": "Play the chord on the strong beats alone first, then fill in the rest.",
    "tell.practice.guide line": "Sing {notes} over the changes first, then hear them inside the line.",
    "tell.practice.guide line told":
    "Sing that one line over the changes first, then hear it inside the phrase.",
    "tell.practice.guides": "Play only the pairs first, {pairs}, then put the rest back.",
    "tell.practice.guides told":
    "Play only those sevenths and thirds first, in time, then put the rest back.",
    "tell.practice.echo": "Learn {earlier} first: {later} begin like them, {size} {way}.",
    "tell.practice.echo whole": "Learn {earlier} first: {later} repeat them, {size} {way}.",
    "tell.practice.echo same": "Learn {earlier} first: {later} begin with the same notes.",
    "tell.practice.echo same whole": "Learn {earlier} first: {later} repeat them note for note.",
    "tell.practice.cell": "Take the cell {notes} through the scale, starting on every note.",
    "tell.practice.cell told": "Take the cell through the scale, starting on every note.",
    "tell.practice.skeleton":
    "Play only {notes} first, on the beats where they fall: everything else hangs on them.",
    "tell.practice.crossing": "Loop {notes} across the bar line until {goal} lands {when} without hurry.",
    "tell.practice.crossing inside": "Loop {notes} until {goal} comes without hurry.",
    "tell.practice.change": "Loop the change to {chord}: {before} to {goal}, {degree}.",
    "tell.practice.change told": "Loop the change to {chord}, from a beat before it to a beat after.",
    "tell.practice.leap": "Sing {before} and {after} before you play the leap between them.",
    "tell.practice.octave":
    "Practise the octave on {before} by itself until the second {after} needs no thought.",
    "tell.practice.arpeggio": "Play {notes} up and down before you play the line.",
    "tell.practice.push": "Play it once with {note} squarely {when} of {bar}, then early as it is written.",
    "tell.practice.aim": "Aim for {note}, {of}, and let the rest lead there.",
    "tell.practice.line": "Start on {first}, {of}, and aim for {last}, {last_of}.",
    "tell.practice.line alone": "Sing {first} and {last} before you play.",
    "tell.practice.one note": "Sing {first} over {chord} before you play.",
    "tell.practice.one note alone": "Sing {first} before you play.",
    # Where else it fits.
    "tell.home.tritone substitute":
    "What you play over {chord} fits {other} too, its tritone substitute: {third} is the third there.",
    "tell.home.tritone substitute with seventh":
    "What you play over {chord} fits {other} too, its tritone substitute: {third} is the third "
    "there and {seventh} "
    "the seventh.",
    "tell.home.minor a fifth up":
    "What you play over {chord} fits {other} too, the minor chord a fifth up: {third} is its third.",
    "tell.home.minor a fifth up with seventh":
    "What you play over {chord} fits {other} too, the minor chord a fifth up: {third} is its third.",
    "tell.home.same diminished scale":
    "What you play over {chord} fits {others} too: they share the diminished scale.",
}  # fmt: skip
