"""The words of a book in German. Row format: see `tables.words` and `tables.wording`.

Degrees, sizes and places have three forms: nominative, accusative, dative (of a place: with "in" before it).
Notes stand with an article ("Das Es", "zum D"), because "Es", "Des" and "As" are words of the language too;
chord symbols, degrees above the octave and scales do not bend. Numbers that are written in words are those
of phrases and keys, which are feminine. The reader is "du".
Source: the names of notes are those of Duden (ces, des, es, asas, heses …) and of common practice (H is B
natural, B is B flat); the terms are common practice; the sentences are our own.
"""

from __future__ import annotations

_OWN_DEGREES = {
    "1": "der Grundton | den Grundton | dem Grundton",
    **dict.fromkeys(("3", "b3"), "die Terz | die Terz | der Terz"),
    "4": "die Quarte | die Quarte | der Quarte",
    **dict.fromkeys(("5", "b5", "#5"), "die Quinte | die Quinte | der Quinte"),
    "6": "die Sexte | die Sexte | der Sexte",
    **dict.fromkeys(("b7", "7", "bb7"), "die Septime | die Septime | der Septime"),
}  # fmt: skip
_BENT = {
    "3": ("große", "Terz"), "b3": ("kleine", "Terz"), "5": ("reine", "Quinte"),
    "b5": ("verminderte", "Quinte"), "#5": ("übermäßige", "Quinte"), "b7": ("kleine", "Septime"),
    "7": ("große", "Septime"), "bb7": ("verminderte", "Septime"),
}  # fmt: skip
_FIGURES = {
    "b9": "♭9", "9": "9", "#9": "♯9", "11": "11", "#11": "♯11", "b13": "♭13", "13": "13",
}  # fmt: skip
_DEGREES = {
    **{degree: _OWN_DEGREES[degree] for degree in ("1", "4", "6")},
    **{
        degree: f"die {kind} {noun} | die {kind} {noun} | der {kind}n {noun}"
        for degree, (kind, noun) in _BENT.items()
    },
    **{degree: f"die {figure} | die {figure} | der {figure}" for degree, figure in _FIGURES.items()},
}
_SIZES = (
    "eine Prime", "ein Halbton | einen Halbton", "ein Ganzton | einen Ganzton", "eine kleine Terz",
    "eine große Terz", "eine Quarte", "ein Tritonus | einen Tritonus", "eine Quinte", "eine kleine Sexte",
    "eine große Sexte", "eine kleine Septime", "eine große Septime", "eine Oktave",
)  # fmt: skip
_NOTES = {
    "C": "C", "D": "D", "E": "E", "F": "F", "G": "G", "A": "A", "B": "H",
    "Eb": "Es", "Ab": "As", "Bb": "B", "Ebb": "Eses", "Abb": "Asas", "Bbb": "Heses",
}  # fmt: skip
_REGULAR = (
    *(f"{letter}b" for letter in "CDFG"), *(f"{letter}bb" for letter in "CDFG"),
    *(f"{letter}#" for letter in "CDEFGAB"), *(f"{letter}##" for letter in "CDEFGAB"),
)  # fmt: skip
_SCALES = {
    "ionian": "Ionisch", "dorian": "Dorisch", "phrygian": "Phrygisch", "lydian": "Lydisch",
    "mixolydian": "Mixolydisch", "aeolian": "Äolisch", "locrian": "Lokrisch",
    "melodic minor": "Melodisch-Moll", "dorian b2": "Dorisch ♭2", "lydian augmented": "Lydisch übermäßig",
    "lydian dominant": "Lydisch ♭7", "mixolydian b6": "Mixolydisch ♭6", "locrian natural 2": "Lokrisch 9",
    "altered": "Alteriert", "harmonic minor": "Harmonisch-Moll", "locrian natural 6": "Lokrisch 13",
    "ionian augmented": "Ionisch übermäßig", "dorian #4": "Dorisch ♯4",
    "phrygian dominant": "Phrygisch dominant", "lydian #2": "Lydisch ♯2", "altered bb7": "Alteriert ♭♭7",
    "harmonic major": "Harmonisch-Dur", "dorian b5": "Dorisch ♭5", "phrygian b4": "Phrygisch ♭4",
    "lydian b3": "Lydisch ♭3", "mixolydian b2": "Mixolydisch ♭2",
    "lydian augmented #2": "Lydisch übermäßig ♯2", "locrian bb7": "Lokrisch ♭♭7",
    "half-whole diminished": "Halbton-Ganzton", "whole-half diminished": "Ganzton-Halbton",
    "whole tone": "Ganzton", "augmented": "Übermäßig", "bebop dominant": "Bebop-Dominant",
    "bebop major": "Bebop-Dur", "bebop dorian": "Bebop-Dorisch",
    "bebop melodic minor": "Bebop-Melodisch-Moll", "major pentatonic": "Dur-Pentatonik",
    "minor pentatonic": "Moll-Pentatonik", "blues": "Blues", "major blues": "Dur-Blues",
    "chromatic": "Chromatisch",
}  # fmt: skip
_UNITS = ("zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun")
_TENS = ("zwanzig", "dreißig", "vierzig", "fünfzig", "sechzig", "siebzig", "achtzig", "neunzig")
_NUMBERS = (
    "null", "eine", *_UNITS, "zehn", "elf", "zwölf", "dreizehn", "vierzehn", "fünfzehn", "sechzehn",
    "siebzehn", "achtzehn", "neunzehn",
    *(one if one == ten else f"{one}und{ten}" for ten in _TENS for one in (ten, "ein", *_UNITS)),
)  # fmt: skip

WORDS: dict[str, str] = {
    # Names of notes.
    **{f"{form}note.{name}": said for form in ("", "short ") for name, said in _NOTES.items()},
    **{f"{form}note.{name}": "{usual}" for form in ("", "short ") for name in _REGULAR},
    **{
        f"{form}note.{name}": said
        for form in ("", "short ")
        for name, said in (
            ("flat", "{letter}es"), ("sharp", "{letter}is"), ("double flat", "{letter}eses"),
            ("double sharp", "{letter}isis"),
        )
    },
    "short note.natural": "{letter}",  # E is never Es: the sign would say nothing
    # Chords.
    "chord.symbol": "{symbol}", "chord.slash": "/{bass}", "chord.minor": "{lower root}-Moll",
    "chord.none": "kein Akkord", "chord.silent": "{symbol}",
    "voice.chord": "{root} {kind}", "voice.flat": " Be {n}", "voice.sharp": " Kreuz {n}",
    "voice.slash": "{chord} über {bass}",
    # Degrees.
    **{f"own degree.{degree}": said for degree, said in _OWN_DEGREES.items()},
    **{f"degree.{degree}": said for degree, said in _DEGREES.items()},
    **{f"bare own degree.{degree}": said.split(" | ")[0][4:] for degree, said in _OWN_DEGREES.items()},
    **{f"bare degree.{degree}": said.split(" | ")[0][4:] for degree, said in _DEGREES.items()},
    "degree.over no chord": "ohne Akkord",
    "degree.of chord": "{degree} von {chord}",
    # Scales.
    **{f"{form}scale.{name}": said for form in ("", "short ") for name, said in _SCALES.items()},
    "scale.on": "{root}-{scale}",
    # Sizes of intervals.
    **{f"size.{semitones}": name for semitones, name in enumerate(_SIZES)},
    "size.more": "mehr als eine Oktave",
    # Numbers and lists.
    "numbers.small": "null ein zwei drei vier fünf sechs sieben acht neun zehn elf zwölf",
    "list.two": "{first} und {last}", "list.more": "{first}, {next}", "list.last": "{first} und {last}",
    "sentence": "{Text}",
    # Places.
    "beat.half": "der „{n} und“", "beat.other": "Zählzeit {n}", "beat.on": "auf {beat}",
    "bar": "Takt {n} | Takt {n} | in Takt {n}",
    "bar.pick-up": "der Auftakt | den Auftakt | im Auftakt",
    "bars.two": "die Takte {first} und {last}", "bars.many": "die Takte {first} bis {last}",
    "placed": "{bar 3}: {text}",
    "way.up": "aufwärts", "way.down": "abwärts",
    "way.compared up": "höher", "way.compared down": "tiefer",
    "move": "{a} nach {b}",
    "no notes": "Diese Phrase hat noch keine Noten.",
    # Guide tones.
    "tell.falls.each": "Bei jedem Akkordwechsel fällt eine Septime in die nächste Terz: {pairs}.",
    "tell.falls.both": "Bei beiden Akkordwechseln fällt die Septime in die nächste Terz: {pairs}.",
    "tell.falls.twice": "Zweimal fällt eine Septime in die Terz des nächsten Akkords: {pairs}.",
    "tell.falls.some": "Bei {times} Akkordwechseln fällt eine Septime in die nächste Terz: {pairs}.",
    "tell.falls.many":
    "Bei {times} Akkordwechseln fällt eine Septime in die nächste Terz, zuerst {pairs}.",
    "tell.fall.half": "Das {guide} ist {of} und fällt einen Halbton zum {goal}, {goal_of 3}.",
    "tell.fall.whole": "Das {guide} ist {of} und fällt einen Ganzton zum {goal}, {goal_of 3}.",
    "tell.fall.through": "Das {guide}, {of}, rutscht über {between} hinunter zum {goal}, {goal_of 3}.",
    "tell.fall.late": "Das {guide}, {of}, fällt einen Ton später als erwartet zum {goal}, {goal_of 3}.",
    "tell.guide line.whole":
    "Unter allem liegt eine einzige Linie mit einer Terz oder Septime je Akkord: {notes}.",
    "tell.guide line.part":
    "Von {first} bis {last} liegt eine Linie darunter, mit einer Terz oder Septime je Akkord: {notes}.",
    "tell.steps": "Jeden neuen Akkord erreichst du mit einem Schritt: {pairs}.",
    # Cells, bars and notes that come back.
    "tell.cell.twice": "Das Motiv {notes} kommt sofort noch einmal, {size 2} {way}.",
    "tell.cell.shape": "Die Kontur von {notes} kommt sofort noch einmal, diesmal ab {second}.",
    "tell.cell.steady": "Das Motiv {notes} kommt insgesamt {times} Mal, jedes Mal {size 2} {way}.",
    "tell.cell.often": "Die Kontur von {notes} kommt insgesamt {times} Mal, und zwar ab {starts}.",
    "tell.cell.across":
    "Die Kontur von {notes} kommt insgesamt {times} Mal; sie dauert anderthalb Schläge und beginnt deshalb "
    "immer an einer anderen Stelle.",
    "tell.staying note":
    "Das {note} bleibt über {times} Akkorde liegen und bedeutet jedes Mal etwas anderes: {meanings}.",
    "tell.echo.one": "{later} beginnt wie {earlier}, nur {size 2} {way}.",
    "tell.echo.whole one": "{later} wiederholt {earlier}, nur {size 2} {way}.",
    "tell.echo.same one": "{later} beginnt mit denselben Tönen wie {earlier}, jetzt aber über {chord}.",
    "tell.echo.whole same one": "{later} wiederholt {earlier} Ton für Ton, jetzt aber über {chord}.",
    "tell.echo.altered":
    "{later} wiederholt {earlier}, nur mit {new} statt {old}: Genau darin liegt der Wechsel zu {chord}.",
    # The chords that a line hangs on.
    "tell.frame.diminished":
    "Die Töne {notes} tragen die Linie {way}: auf den betonten Zählzeiten ein verminderter Septakkord, der "
    "Rest füllt ihn aus.",
    "tell.frame.own":
    "Die Töne {notes} tragen die Linie {way}: auf den betonten Zählzeiten die Töne von {chord}, der Rest "
    "füllt sie aus.",
    "tell.arpeggio.up": "Vom {first}, {degree 3}, geht es durch {chord} hinauf zum {last}, {last_degree 3}.",
    "tell.arpeggio.down":
    "Vom {first}, {degree 3}, fällt die Linie durch {chord} hinunter zum {last}, {last_degree 3}.",
    "tell.arpeggio.thirds up":
    "Vom {first}, {degree 3} von {chord}, steigst du in Terzen zum {last}, {last_degree 3}.",
    "tell.arpeggio.thirds down":
    "Vom {first}, {degree 3} von {chord}, gehst du in Terzen hinunter zum {last}, {last_degree 3}.",
    "tell.arpeggio.start up":
    "Beginne auf dem {first}, {degree 3} von {chord}, und steige durch den Akkord zum {last}, "
    "{last_degree 3}.",
    "tell.arpeggio.start down":
    "Beginne auf dem {first}, {degree 3} von {chord}, und geh durch den Akkord hinunter zum {last}, "
    "{last_degree 3}.",
    "tell.arpeggio.start thirds up":
    "Beginne auf dem {first}, {degree 3} von {chord}, und steige in Terzen zum {last}, {last_degree 3}.",
    "tell.arpeggio.start thirds down":
    "Beginne auf dem {first}, {degree 3} von {chord}, und geh in Terzen hinunter zum {last}, "
    "{last_degree 3}.",
    "tell.arpeggio.octave up":
    "Vom {first}, {degree 3} von {chord}, steigst du durch den Akkord bis zum nächsten {last}.",
    "tell.arpeggio.octave down":
    "Vom {first}, {degree 3} von {chord}, fällst du durch den Akkord bis zum nächsten {last}.",
    "tell.arpeggio.start octave up":
    "Beginne auf dem {first}, {degree 3} von {chord}, und steige durch den Akkord bis zum nächsten {last}.",
    "tell.arpeggio.start octave down":
    "Beginne auf dem {first}, {degree 3} von {chord}, und geh durch den Akkord hinunter bis zum nächsten "
    "{last}.",
    "tell.fourths.up":
    "Vom {first}, {degree 3} von {chord}, steigst du in Quarten zum {last}, {last_degree 3}.",
    "tell.fourths.down":
    "Vom {first}, {degree 3} von {chord}, gehst du in Quarten hinunter zum {last}, {last_degree 3}.",
    "tell.triad.major":
    "Die Töne {notes} bilden über {chord} einen Dreiklang in {root}-Dur: {meanings}.",
    "tell.triad.minor":
    "Die Töne {notes} bilden über {chord} einen Dreiklang in {lower root}-Moll: {meanings}.",
    "tell.triad.outside major":
    "Die Töne {notes} bilden {root}-Dur, einen fremden Dreiklang, der über {chord} gelegt ist.",
    "tell.triad.outside minor":
    "Die Töne {notes} bilden {lower root}-Moll, einen fremden Dreiklang, der über {chord} gelegt ist.",
    # Scales, colours, tension.
    "tell.whole.bar": "Alle Töne der Skala {scale} kommen {bar 3} vor.",
    "tell.whole.chord": "Die Linie enthält alle Töne der Skala {scale}.",
    "tell.telling.place":
    "Achte über {chord} auf das {note}, {degree 2}: Daran hörst du {scale}; bei {other} stünde dort {tone}.",
    "tell.telling.only":
    "Achte über {chord} auf das {note}, {degree 2}: Daran hörst du {scale} und nicht {other}.",
    "tell.colours": "Die Farbe über {chord} kommt von {notes}, also von {degrees 3}.",
    "tell.colour": "Koste das {note} aus, {of 2}: Das ist hier die Farbe.",
    "tell.only the chord": "Über {chord} spielt die Linie nur Akkordtöne.",
    "tell.tension":
    "Mit {notes}, also {degrees 3}, kommt die Spannung in {chord}; mit dem {goal}, {of 3}, löst sie sich.",
    # Crossings, enclosures, runs.
    "tell.suspended":
    "Das {note} hängt als Vorhalt in {chord} hinein und fällt dann zum {goal}, {degree 3}.",
    "tell.early": "Das {note} kommt vorgezogen; damit klingt schon {of}.",
    "tell.led": "Das {note} führt einen Halbton {way} ins {goal}, {of 2}.",
    "tell.step.half": "Das {before} geht einen Halbton {way} zum {goal}, {of 3}.",
    "tell.step.whole": "Das {before} geht einen Ganzton {way} zum {goal}, {of 3}.",
    "tell.kept": "Das {note} bleibt beim Akkordwechsel liegen: erst {of}, dann {goal_of}.",
    "tell.enclosure.half":
    "Die Töne {notes} umspielen das {goal}, {of 2}, im Halbtonabstand von oben und unten.",
    "tell.enclosure.whole":
    "Die Töne {notes} umspielen das {goal}, {of 2}, im Ganztonabstand von oben und unten.",
    "tell.enclosure.any": "Die Töne {notes} umspielen das {goal}, {of 2}.",
    "tell.run.step up": "Vom {first} steigt die Linie schrittweise zum {last}, {of 3}.",
    "tell.run.step down": "Vom {first} geht die Linie schrittweise hinunter zum {last}, {of 3}.",
    "tell.run.half steps up": "Vom {first} steigt die Linie chromatisch zum {last}, {of 3}.",
    "tell.run.half steps down": "Vom {first} gleitet die Linie chromatisch hinunter zum {last}, {of 3}.",
    # Single notes.
    "tell.outside.passing note.one":
    "Das {note} ist leiterfremd und nur Durchgang, vom {before} {way} zum {goal}.",
    "tell.outside.passing note.many":
    "Die Töne {notes} sind leiterfremd und nur Durchgang; spiel sie also leicht.",
    "tell.outside.passing note.same":
    "Das {note} ist jedes Mal leiterfremd und nur Durchgang; spiel es also leicht.",
    "tell.outside.approach note.same": "Das {note} ist jedes Mal leiterfremd und führt einen Halbton weiter.",
    "tell.outside.neighbour.same":
    "Das {note} ist jedes Mal leiterfremd und kehrt zu dem Ton zurück, von dem es kam.",
    "tell.outside.approach note.one":
    "Das {note} ist leiterfremd und führt einen Halbton {way} ins {goal}, {of 2}.",
    "tell.outside.approach whole.one": "Das {note} ist leiterfremd und führt {way} ins {goal}, {of 2}.",
    "tell.outside.approach note.many":
    "Die Töne {notes} sind leiterfremd; jeder führt einen Halbton weiter.",
    "tell.outside.neighbour.one":
    "Das {note} ist leiterfremd: Die Linie weicht vom {before} dorthin aus und kommt zurück.",
    "tell.outside.neighbour.many":
    "Die Töne {notes} sind leiterfremd: Jeder liegt einen Halbton neben dem Ton, zu dem er zurückkehrt.",
    "tell.leaning":
    "Das {note} ist leiterfremd, liegt betont auf dem Schlag und löst sich dann ins {goal} auf, {of 2}.",
    "tell.extra note":
    "Das {note} ist der Zusatzton der Skala {scale}: Dank ihm fallen die Akkordtöne von {chord}, nämlich "
    "{notes}, auf die Schläge.",
    "tell.blue.note": "Das {note} ist eine Blue Note: {degree} über {chord}.",
    "tell.blue.seventh of the minor":
    "Das {note}, die große Septime über {chord}, klingt ein wenig nach Melodisch-Moll.",
    "tell.blue.bent third":
    "Das {note}, die große Terz über {chord}, schmiegt sich an die kleine Terz, wie im Blues.",
    "tell.pedal": "Das {note} bleibt als Orgelpunkt liegen, obwohl es nicht zu {chord} gehört.",
    "tell.leap.back":
    "Achte auf den Sprung um {size 2} {way}, vom {before} zum {after}; danach geht es einen Schritt zurück.",
    "tell.leap.open": "Achte auf den Sprung um {size 2} {way}, vom {before} zum {after}, {of 3}.",
    "tell.leap.octave": "Das {before} springt eine Oktave {way} und ist {of}.",
    "tell.top": "Der höchste Ton ist das {note}, {of}.",
    "tell.end": "Die Linie endet auf dem {note}, {of 3}, und bleibt offen.",
    # Rhythm.
    "tell.late": "Die Linie wartet und setzt erst {when} ein.",
    "tell.off beats.all": "Jede Note kommt auf einer unbetonten Achtel.",
    "tell.off beats.some": "Vom {first} bis zum {last} kommt jede Note auf einer unbetonten Achtel.",
    "tell.breath.one":
    "Nach dem {note} {bar 3} atmet die Linie; halte die Pause ganz aus.",
    "tell.breath.many":
    "Die längste Atempause kommt nach dem {note} {bar 3}; halte sie ganz aus.",
    # What to practise.
    "tell.practice.frame":
    "Spiel zuerst nur {notes} auf ihren betonten Zählzeiten und füll dann den Rest auf.",
    "tell.practice.frame told":
    "Spiel zuerst nur den Akkord auf den betonten Zählzeiten und füll dann den Rest auf.",
    "tell.practice.guide line":
    "Sing zuerst {notes} über die Akkorde und hör sie dann in der Linie.",
    "tell.practice.guide line told":
    "Sing zuerst diese eine Linie über die Akkorde und hör sie dann in der Phrase.",
    "tell.practice.guides": "Spiel zuerst nur die Paare ({pairs}) und füg dann den Rest wieder ein.",
    "tell.practice.guides told":
    "Spiel zuerst nur diese Septimen und Terzen im Tempo und füg dann den Rest wieder ein.",
    "tell.practice.echo": "Lern zuerst {earlier}, denn {later} beginnen genauso, nur {size 2} {way}.",
    "tell.practice.echo whole": "Lern zuerst {earlier}, denn {later} wiederholen sie, nur {size 2} {way}.",
    "tell.practice.echo same": "Lern zuerst {earlier}, denn {later} beginnen mit denselben Tönen.",
    "tell.practice.echo same whole": "Lern zuerst {earlier}, denn {later} wiederholen sie Ton für Ton.",
    "tell.practice.cell": "Führ das Motiv {notes} durch die Skala, von jedem Ton aus.",
    "tell.practice.cell told": "Führ das Motiv durch die Skala, von jedem Ton aus.",
    "tell.practice.skeleton":
    "Spiel zuerst nur {notes}, jeweils auf ihrer Zählzeit: An ihnen hängt alles andere.",
    "tell.practice.crossing":
    "Spiel {notes} immer wieder über den Taktstrich, bis das {goal} ohne Eile {when} ankommt.",
    "tell.practice.crossing inside": "Spiel {notes} immer wieder, bis das {goal} ohne Eile kommt.",
    "tell.practice.change":
    "Spiel immer wieder nur den Wechsel zu {chord}: vom {before} zum {goal}, {degree 3}.",
    "tell.practice.change told":
    "Spiel immer wieder nur den Wechsel zu {chord}, von einem Schlag davor bis einen Schlag danach.",
    "tell.practice.leap": "Sing {before} und {after}, bevor du den Sprung dazwischen spielst.",
    "tell.practice.octave":
    "Üb den Oktavsprung vom {before} aus für sich allein, bis das zweite {after} von selbst kommt.",
    "tell.practice.arpeggio": "Spiel {notes} auf und ab, bevor du die Linie spielst.",
    "tell.practice.push":
    "Spiel das {note} einmal genau {when} ({bar}), danach vorgezogen, wie es dasteht.",
    "tell.practice.aim": "Ziel auf das {note}, {of 2}, und lass alles andere dorthin führen.",
    "tell.practice.line": "Beginne auf dem {first}, {of 3}, und ziel auf das {last}, {last_of 2}.",
    "tell.practice.line alone": "Sing {first} und {last}, bevor du spielst.",
    "tell.practice.one note": "Sing das {first} über {chord}, bevor du spielst.",
    "tell.practice.one note alone": "Sing das {first}, bevor du spielst.",
    # Where else it fits.
    "tell.home.tritone substitute":
    "Was du über {chord} spielst, passt auch zu {other}, der Tritonusvertretung: Dort ist {third} die Terz.",
    "tell.home.tritone substitute with seventh":
    "Was du über {chord} spielst, passt auch zu {other}, der Tritonusvertretung: Dort ist {third} die Terz "
    "und {seventh} die Septime.",
    "tell.home.minor a fifth up":
    "Was du über {chord} spielst, passt auch zu {other}, dem Mollakkord eine Quinte höher: Dort ist {third} "
    "die Terz.",
    "tell.home.minor a fifth up with seventh":
    "Was du über {chord} spielst, passt auch zu {other}, dem Mollakkord eine Quinte höher: Dort ist {third} "
    "die Terz.",
    "tell.home.same diminished scale":
    "Was du über {chord} spielst, passt auch zu {others}: Alle haben dieselbe Halbton-Ganzton-Skala.",
    # Names of keys, progressions and feels.
    "mode.major": "Dur", "mode.minor": "Moll",
    "key": "{tonic}-{mode}", "tonic.minor": "{lower tonic}",
    "key.concert": "klingend {tonic}",
    "key.progression": "{progression} in {key}",
    **{f"progression.{name}": name for name in (
        "ii–V–I", "ii–V", "V–I", "iii–VI–ii–V", "iii–vi–ii–V", "I–VI–ii–V", "I–vi–ii–V", "I–#i°–ii–#ii°",
        "I–#i°–ii–V", "I–biii°–ii–V", "iii–biii°–ii–V", "iii–bIII–ii–bII", "iii–VI–ii–bII", "I–VI–ii–bII",
        "I–bIII–ii–bII", "I–bIII–bVI–bII",
    )},
    **{f"progression.minor {name}": f"Moll {name}" for name in (
        "ii–V–i", "ii–V", "V–i", "i–viø–iiø–V", "i–bVI–iiø–V", "iiiø–VI–iiø–V",
    )},
    **{f"progression.tritone substitute {name}": f"Tritonusvertretung {name}" for name in (
        "ii–bII–I", "ii–bII", "bII–I", "bvi–bII–I",
    )},
    **{f"progression.minor tritone substitute {name}": f"Tritonusvertretung in Moll {name}" for name in (
        "iiø–bII–i", "iiø–bII", "bII–i",
    )},
    **{f"progression.blues {name}": f"Blues {name}" for name in ("I–IV–I", "IV–I–IV", "V–IV–I", "V–I")},
    "progression.backdoor ii–V": "Backdoor-ii–V", "progression.backdoor bVII–I": "Backdoor-Dominante bVII–I",
    "progression.cycle of dominants": "Dominantkette",
    "progression.cycle of three dominants": "Kette aus drei Dominanten",
    "progression.secondary dominant II–V–I": "Doppeldominante II–V–I",
    "progression.iiø–V–I borrowed from minor": "iiø–V–I, aus Moll entlehnt",
    "progression.cycle of major thirds": "Großterzzyklus",
    "progression.half a cycle of major thirds": "halber Großterzzyklus",
    "progression.major chords in falling major thirds": "Durakkorde in fallenden großen Terzen",
    "progression.major chords in rising minor thirds": "Durakkorde in steigenden kleinen Terzen",
    "progression.dominants in rising minor thirds": "Dominanten in steigenden kleinen Terzen",
    "progression.side-slip into ii–V": "Rückung in die ii–V",
    "progression.side-slip out of ii–V": "Rückung aus der ii–V",
    "progression.descending line in minor": "fallende Linie in Moll",
    "progression.rising line in minor": "steigende Linie in Moll",
    "progression.major blues": "Dur-Blues", "progression.minor blues": "Moll-Blues",
    "feel.swing": "Swing", "feel.fast swing": "schneller Swing", "feel.shuffle": "Shuffle",
    "feel.straight": "gerade Achtel", "feel.ballad": "Ballade", "feel.bossa": "Bossa",
    "feel.samba": "Samba", "feel.latin": "Latin", "feel.waltz": "Walzer", "feel.funk": "Funk",
    "feel.free": "frei",
    "inside": "{text}",
    # Numbers.
    "numbers": " ".join(_NUMBERS),
    "tens": f"- - {' '.join(_TENS)}",
    "tens and ones": "{ones}und{tens}",
    # Title page and imprint.
    "phrase": "Phrase", "phrases": "Phrasen", "phrases.few": "Phrasen",
    "plural.one": "1", "plural.few": "-",
    "phrase.untitled": "Phrase Nr. {n}",
    "in all keys": "{count} {phrases} in allen {keys} Tonarten",
    "in keys": "{count} {phrases} in {keys} Tonarten",
    "in one key": "{count} {phrases} in einer Tonart",
    "edition.title": "Ausgabe für {name}",
    "edition.concert": "Notiert, wie es klingt, für Instrumente in C",
    "edition.name.concert": "C-Instrumente", "edition.name.bflat": "B-Instrumente",
    "edition.name.eflat": "Es-Instrumente", "edition.name.bass": "Instrumente im Bassschlüssel",
    "edition.name.f": "F-Instrumente", "edition.name.flute": "Flöte", "edition.name.clarinet": "Klarinette",
    "edition.name.bass clarinet": "Bassklarinette", "edition.name.soprano saxophone": "Sopransaxofon",
    "edition.name.alto saxophone": "Altsaxofon", "edition.name.tenor saxophone": "Tenorsaxofon",
    "edition.name.baritone saxophone": "Baritonsaxofon", "edition.name.trumpet": "Trompete",
    "edition.name.flugelhorn": "Flügelhorn", "edition.name.trombone": "Posaune",
    "edition.name.horn in f": "Horn in F", "edition.name.violin": "Violine", "edition.name.viola": "Bratsche",
    "edition.name.cello": "Violoncello", "edition.name.guitar": "Gitarre",
    "edition.name.double bass": "Kontrabass", "edition.name.electric bass": "E-Bass",
    "edition.name.piano": "Klavier", "edition.name.vibraphone": "Vibrafon",
    "edition.name.soprano voice": "Sopran", "edition.name.mezzo-soprano voice": "Mezzosopran",
    "edition.name.alto voice": "Alt", "edition.name.tenor voice": "Tenor",
    "edition.name.baritone voice": "Bariton", "edition.name.bass voice": "Bass",
    "edition.as it sounds": "Notiert, wie es klingt",
    "edition.above": "Notiert {interval} höher, als es klingt",
    "edition.below": "Notiert {interval} tiefer, als es klingt",
    "interval.1.1": "eine kleine Sekunde", "interval.1.2": "eine große Sekunde",
    "interval.2.3": "eine kleine Terz", "interval.2.4": "eine große Terz", "interval.3.5": "eine Quarte",
    "interval.3.6": "eine übermäßige Quarte", "interval.4.6": "eine verminderte Quinte",
    "interval.4.7": "eine Quinte", "interval.4.8": "eine übermäßige Quinte",
    "interval.5.8": "eine kleine Sexte", "interval.5.9": "eine große Sexte",
    "interval.6.10": "eine kleine Septime", "interval.6.11": "eine große Septime",
    "interval.octave": "eine Oktave", "interval.octaves": "zwei Oktaven",
    "interval.and": "{octaves} und {rest}",
    "clef.G2": "Violinschlüssel", "clef.G2-8": "oktavierten Violinschlüssel", "clef.F4": "Bassschlüssel",
    "clef.F4-8": "oktavierten Bassschlüssel", "clef.C3": "Altschlüssel", "clef.C4": "Tenorschlüssel",
    "words name concert": "Dieser Text nennt klingende Töne.",
    "edition.large": "Großdruck", "edition.sample": "Kostenlose Leseprobe",
    "keywords": "Jazz, Improvisation, Übung, zwölf Tonarten",
    "imprint": "Über dieses Buch", "imprint.music": "Text und Musik von {author}.",
    "imprint.sizes": "Notensystem {staff} mm, Schrift {text} pt.",
    "licensee": "Dieses Exemplar gehört {name}",
    "proof": "Korrekturabzug", "published": "Erschienen: {date}.",
    # Heads.
    "contents": "Inhalt", "how to use": "Wie du mit diesem Buch übst", "on the web": "Im Netz",
    "why it works": "Warum es klingt", "scale": "Die Skala", "scales": "Die Skalen", "tempo": "Das Tempo",
    "your own": "Deine eigene Linie über diese Akkorde", "listen": "Zum Hören und Sehen",
    "indexes": "Register", "index.progression": "Nach Akkordfolgen", "index.scale": "Nach Skalen",
    "index.device": "Nach Gestaltungsmitteln", "index.difficulty": "Nach Schwierigkeit",
    "checklist": "Tonart für Tonart",
    "checklist.says":
    "Hake eine Tonart ab, wenn du die Phrase in ihr dreimal hintereinander auswendig und im Tempo gespielt "
    "hast.",
    "part": "Teil {n}", "part.none": "Andere Akkordfolgen", "part.no scale": "Ohne genannte Skala",
    # Drills.
    # What to practise now.
    "practice.plan.screen": "Heute",
    "practice.plan.title": "Was du jetzt übst",
    "practice.plan.minutes": "So viele Minuten hast du",
    "practice.plan.minutes.n": "{n} min",
    "practice.plan.begin": "Anfangen",
    "practice.plan.set": "Das Programm für heute",
    "practice.plan.nothing": "In diese Minuten passt nichts. Nimm ein paar mehr, oder lass es für morgen.",
    "practice.plan.part.warm": "zum Einspielen",
    "practice.plan.part.new": "neu",
    "practice.plan.part.back": "noch einmal",
    "practice.plan.part.old": "von früher",
    "practice.plan.part.rest": "Pause",
    "practice.plan.part.warm.alone": "Lange Töne",
    "practice.plan.in": "{title} in {key}",
    "practice.plan.at": "♩ = {n}",
    "practice.plan.phrase": "{n} · {title}",
    "practice.plan.hands":
    "Hör auf, wenn es weh tut. Schmerzen, taube Finger, ein müder Kiefer oder Ansatz heißen Pause und "
    "nicht Durchhalten; kommen sie wieder, weiß deine Lehrkraft oder ein Arzt mehr als eine Seite.",
    "practice.plan.ears":
    "Auch dein Instrument ist laut: Bei 94 Dezibel erlauben Regeln für Arbeitsplätze eine Stunde am Tag. "
    "Stell die Band unter deinen eigenen Klang, nicht darüber.",
    "practice.plan.play": "Zu den Noten",
    "practice.plan.next": "Weiter zum Nächsten",
    "practice.plan.pause": "Uhr anhalten",
    "practice.plan.go on": "Uhr weiterlaufen lassen",
    "practice.plan.stop": "Genug für heute",
    "practice.plan.clock": "{spent} von {whole}",
    "practice.plan.rest.says":
    "Leg das Instrument weg. Lass Hände, Schultern, Kiefer und Lippen locker, und gönn deinen Ohren Ruhe.",
    "practice.plan.rest.left": "noch {time}",
    "practice.plan.rest.over": "Die Pause ist um. Mach weiter, wenn du so weit bist.",
    "practice.plan.warm.says": "Leise, und langsamer, als du kannst. Noch zählt nichts.",
    "practice.plan.warm.alone.says": "Leise, mit deinem besten Klang, tief vor hoch. Atme dazwischen.",
    "practice.plan.over": "Das war die Zeit für heute: {n} min. Der Rest wartet auf dich.",
    "practice.plan.copy":
    "So viel ist seit deiner letzten Kopie dazugekommen: {n}. Sichere eine: Ein Browser kann löschen, was"
    " er behält.",
    "practice.plan.later": "Später",
    "practice.plan.then": "Danach: {what}",
    "practice.plan.went": "Wie ging es?",
    "practice.plan.went.apart": "Es fiel auseinander",
    "practice.plan.went.slips": "Es hielt, mit Patzern",
    "practice.plan.went.clean": "Es war sauber",
    "practice.plan.went.sang": "Es hat gesungen",
    "practice.plan.went.kept": "Notiert.",
    "practice.progress.screen": "Wie weit du bist",
    "practice.progress.title": "Wie weit du bist",
    "practice.progress.tonics": "C Des D Es E F Fis G As A B H",
    "practice.progress.table": "Phrasen und Tonarten",
    "practice.progress.legend":
    "Das Wasser steht so hoch wie das Tempo, in dem du es zuletzt sauber gespielt hast; ein volles Feld "
    "ist das Tempo der Phrase. Ein gepunkteter Rand: Es verblasst und kommt wieder ins Programm.",
    "practice.progress.nothing": "Noch ist hier nichts: Es füllt sich, wenn du spielst.",
    "practice.progress.counts": "Tonarten im Tempo: {there}. Unterwegs: {way}. Noch vor dir: {none}.",
    "practice.progress.cell": "{key}: {n} von {goal}",
    "practice.progress.cell.fading": "{key}: {n} von {goal}, verblasst",
    "practice.progress.cell.none": "{key}: noch nicht",
    "practice.progress.year": "Das Jahr",
    "practice.progress.year.month": "Monat",
    "practice.progress.year.minutes": "Minuten Musik",
    "practice.progress.year.begun": "Tonarten bisher",
    "practice.progress.year.there": "Im Tempo",
    "practice.progress.year.says": "Monate ohne Musik stehen nicht da. Ein Buch hat Zeit.",
    "practice.progress.copies": "Eine Kopie zum Aufheben oder für ein anderes Gerät",
    "practice.progress.copies.says":
    "Was du gespielt hast, behält nur dieser Browser, und er schickt es nirgendwohin. Sichere ab und zu "
    "eine Kopie; öffne auf einem anderen Telefon oder Rechner die Seite dieses Buchs und lies sie dort "
    "ein. Beides kommt zusammen, nichts wird überschrieben.",
    "practice.progress.copy.save": "Kopie sichern",
    "practice.progress.copy.read": "Kopie einlesen",
    "practice.progress.copy.saved": "Die Kopie liegt bei deinen Downloads.",
    "practice.progress.read": "Gelesen: {n} Einträge, neu davon {new}.",
    "practice.progress.read.cut":
    "Die Datei hört zu früh auf. Was vor dem Ende stand, ist gelesen; sichere sie dort, wo sie herkommt, "
    "noch einmal, wenn du kannst.",
    "practice.progress.read.bad": "Zeilen, die nicht zu lesen waren: {lines}. Alle anderen sind gelesen.",
    "practice.progress.read.newer":
    "Die Datei kommt von einer neueren Seite. Was diese hier nicht kennt, bleibt erhalten und kommt in "
    "deine Kopien.",
    "practice.progress.read.gone":
    "Einträge zu Phrasen, die diese Ausgabe nicht hat: {n}. Sie bleiben erhalten.",
    "practice.progress.read.book":
    "Diese Kopie gehört zu einem anderen Buch, „{title}“. Öffne sie auf dessen Seite. Nichts wurde "
    "geändert.",
    "practice.progress.read.not":
    "Das ist keine Kopie von der Seite eines Buchs, oder sie ist von der ersten Zeile an beschädigt. "
    "Nichts wurde geändert.",
    "practice.progress.read.long": "Diese Datei ist viel länger als jede Kopie. Nichts wurde geändert.",
    "practice.progress.take back": "Das Eingelesene wieder herausnehmen",
    "practice.progress.taken back": "Es ist wie vorher.",
    "practice.progress.not lasting":
    "Dieser Browser behält hier nichts länger, als die Seite offen ist, oder sein Speicher ist voll. "
    "Sichere eine Kopie, bevor du sie schließt.",
    "practice.teacher.screen": "Für Lehrende",
    "practice.teacher.title": "Ein Blatt für jemanden, den du unterrichtest",
    "practice.teacher.says":
    "Wähle Phrasen und Tonarten für die nächsten Tage. Die Seite am anderen Ende nimmt das Neue aus dem "
    "Blatt und macht mit dem Bekannten weiter.",
    "practice.teacher.phrases": "Phrasen und ihre Tonarten",
    "practice.teacher.all keys": "alle",
    "practice.teacher.keys.n": "(gewählt: {n})",
    "practice.teacher.week": "Wann, und ein Wort dazu",
    "practice.teacher.from": "Ab",
    "practice.teacher.for": "Für",
    "practice.teacher.days.n": "{n} Tage",
    "practice.teacher.minutes": "Minuten am Tag",
    "practice.teacher.minutes.free": "nach Belieben",
    "practice.teacher.minutes.says": "Vorschlag: {n} min am Tag.",
    "practice.teacher.words": "Deine Worte",
    "practice.teacher.made": "Das Blatt als Code, für eine Nachricht",
    "practice.teacher.copy": "Code kopieren",
    "practice.teacher.copied": "Kopiert.",
    "practice.teacher.save": "Als Datei sichern",
    "practice.teacher.print": "Drucken",
    "practice.teacher.print.phrase": "Phrase",
    "practice.teacher.print.keys": "Tonarten",
    "practice.teacher.print.tempo": "Ihr Tempo",
    "practice.teacher.print.notes": "Deine Notizen",
    "practice.teacher.row": "{title}: {keys}",
    "practice.teacher.days": "{from} bis {to}",
    "practice.teacher.how":
    "Öffne die Seite deines Buchs, wähle „Heute“ und setze diesen ganzen Text unter „Ein Blatt aus dem "
    "Unterricht“ ein.",
    "practice.teacher.have one": "Ein Blatt aus dem Unterricht",
    "practice.teacher.code": "Setze seinen Code hier ein",
    "practice.teacher.open": "Öffnen",
    "practice.teacher.open file": "Datei öffnen",
    "practice.teacher.opened": "Das Blatt ist offen.",
    "practice.teacher.yours": "Aus dem Unterricht",
    "practice.teacher.put away": "Blatt weglegen",
    "practice.teacher.read.empty": "Hier ist noch kein Code.",
    "practice.teacher.read.not": "In diesem Text ist kein Blatt. Der Code fängt mit „{mark}“ an.",
    "practice.teacher.read.damaged":
    "Ein Teil des Codes fehlt oder wurde unterwegs verändert. Kopiere ihn ganz, oder bitte um die Datei.",
    "practice.teacher.read.book": "Dieses Blatt gehört zu einem anderen Buch, „{title}“.",
    "practice.teacher.read.gone": "Phrasen des Blatts, die diese Ausgabe nicht hat: {n}.",
    "drills": "Übungen",
    "drill.title": "{scale} {pattern}",
    "drill.through": "{pattern} über {progression}",
    "drill.through.says":
    "Eine Gruppe auf jedem Akkord, ihr erster Ton der Grundton; dauert ein Akkord länger, kommt die Gruppe "
    "wieder herunter. Sag den Akkord, wenn du seine Gruppe beginnst.",
    "drill.own cell": "mit dem Motiv {cell}",
    "drill.own cell.says": "Das Motiv {cell} auf jeder Stufe, aufwärts; abwärts wird es gespiegelt.",
    "drill.up and down": "auf und ab",
    "drill.up and down.says": "Jeder Ton der Skala, bis ganz nach oben und zurück. Atme am Wendepunkt.",
    "drill.in thirds": "in Terzen",
    "drill.in thirds.says":
    "Überspring einen Ton, geh einen Schritt zurück: jede Terz der Skala, erst aufwärts, dann abwärts.",
    "drill.in fourths": "in Quarten",
    "drill.in fourths.says": "Jede Quarte der Skala. Hör, welche weiter oder enger ist als die anderen.",
    "drill.in fifths": "in Quinten",
    "drill.in fifths.says": "Jede Quinte der Skala, gleichmäßig; lass den unteren Ton im Ohr nachklingen.",
    "drill.in sixths": "in Sexten",
    "drill.in sixths.says": "Jede Sexte der Skala. Hör den oberen Ton, bevor du ihn spielst.",
    "drill.in sevenths": "in Septimen",
    "drill.in sevenths.says": "Jede Septime der Skala, langsam: der obere Ton so voll wie der untere.",
    "drill.in triads": "in Dreiklängen",
    "drill.in triads.says":
    "Der Dreiklang auf jeder Stufe, in Triolen. Sag jeweils Dur, Moll oder vermindert dazu.",
    "drill.in seventh chords": "in Septakkorden",
    "drill.in seventh chords.says":
    "Der Septakkord auf jeder Stufe, aufwärts; dann jeder von seinem obersten Ton abwärts.",
    "drill.in groups of three": "in Dreiergruppen",
    "drill.in groups of three.says":
    "Drei Töne von jeder Stufe aus, in Triolen. Gib jeweils dem ersten Gewicht.",
    "drill.in groups of four": "in Vierergruppen",
    "drill.in groups of four.says":
    "Vier Töne von jeder Stufe aus, aufwärts; dann vier von jeder Stufe aus, abwärts.",
    "drill.in groups of five": "in Fünfergruppen",
    "drill.in groups of five.says":
    "Fünf Töne von jeder Stufe aus, in Achteln: Jede Gruppe beginnt an einer anderen Stelle im Takt.",
    "drill.1 2 3 5": "mit dem Motiv 1 2 3 5",
    "drill.1 2 3 5.says":
    "Erster, zweiter, dritter und fünfter Ton von jeder Stufe aus; abwärts wird das Motiv gespiegelt.",
    "drill.enclosed": "mit Umspielungen",
    "drill.enclosed.says":
    "Vor jedem Ton der Skalenton darüber und der Halbton darunter. Lande auf dem Schlag.",
    "drill.from below": "mit Halbtönen von unten",
    "drill.from below.says":
    "Zu jedem Ton führt ein Halbtonschritt. Gemeint ist der Ton, bei dem er ankommt.",
    "drill.symmetric cells": "mit wiederkehrendem Motiv",
    "drill.symmetric cells.says":
    "Die Skala wiederholt sich, und das Motiv auch: Lern es einmal und verschieb die Hand.",
    "drill.grouped in three": "in Dreiern gegen den Schlag",
    "drill.grouped in three.says":
    "Durchgehende Achtel mit einem Akzent auf jedem dritten Ton; dein Fuß bleibt auf dem Schlag.",
    "drill.grouped in five": "in Fünfern gegen den Schlag",
    "drill.grouped in five.says":
    "Durchgehende Achtel mit einem Akzent auf jedem fünften Ton; dein Fuß bleibt auf dem Schlag.",
    "drill.grouped in seven": "in Siebenern gegen den Schlag",
    "drill.grouped in seven.says":
    "Durchgehende Achtel mit einem Akzent auf jedem siebten Ton; zähl zuerst die Schläge laut.",
    "drill.off the beat": "mit Akzenten zwischen den Schlägen",
    "drill.off the beat.says":
    "Durchgehende Achtel, die zweite jedes Paars betont und mit der Zunge angestoßen oder angeschlagen.",
    "all in": "Alle Phrasen in {tonic}",
    "proof sheet": "Korrekturbogen",
    "proof sheet.says": "Lies jedes Notenbild gegen das Manuskript und hake es ab.",
    "sample": "Das war eine Leseprobe",
    "sample.says":
    "Du hast {n} von {all} Phrasen gelesen. Das ganze Buch enthält sie alle, auf dieselbe Weise gemacht.",
    # Tempo.
    "tempo.slow": "langsam", "tempo.medium": "mittel", "tempo.goal": "Ziel", "tempo.step": "Stufe",
    "tempo.fact": "{n} Schläge pro Minute, {feel}", "tempo.fact.free": "{feel}",
    # Devices.
    "device.enclosure": "Umspielung", "device.passing note": "Durchgangston",
    "device.neighbour": "Wechselnote", "device.approach note": "Leitton zum Zielton",
    "device.anticipation": "Vorausnahme", "device.suspension": "Vorhalt",
    "device.leaning note": "freier Vorhalt", "device.escape note": "abspringende Nebennote",
    "device.blue note": "Blue Note", "device.pedal": "Orgelpunkt", "device.arpeggio": "Akkordbrechung",
    "device.run": "Lauf", "device.sequence": "Sequenz", "device.delayed resolution": "verzögerte Auflösung",
    "level.1": "Stufe 1, leicht", "level.2": "Stufe 2", "level.3": "Stufe 3", "level.4": "Stufe 4",
    "level.5": "Stufe 5, schwer",
    # Alternative text of a score.
    "alt.title": "{title} in {key}, {metre}, {tempo}.", "alt.bar": "Takt {n}, {chords}: {notes}.",
    "alt.pickup": "Auftakt: {notes}.", "alt.rest": "Pause", "alt.note": "{note} {octave}",
    "alt.valued": "{value} {note}", "alt.next": "{first}, {next}", "alt.tie": "übergebundene {value}",
    "alt.1": "Ganze", "alt.2": "Halbe", "alt.4": "Viertel", "alt.8": "Achtel", "alt.16": "Sechzehntel",
    "alt.32": "Zweiunddreißigstel", "alt.dotted": "punktierte {value}", "alt.triplet": "{value}-Triole",
    "alt.tuplet": "{value}, {actual} im Wert von {normal},",
    "alt.stop": "auf Saite {string}, Bund {fret}",
    "alt.scale": "{scale} über {chord}: {notes}.",
    "alt.changes": "Leere Notensysteme unter den Akkorden: {changes}.",
    "alt.code": "QR-Code zum Link {name}",
    "alt.page": "Seite",
    # How to use this book.
    "advice.edition": "Die Ausgabe",
    "advice.edition.concert":
    "Dies ist die klingende Ausgabe: Jede Note ist notiert, wie sie klingt, für Klavier, Gitarre, Flöte, "
    "Geige, Vibrafon und alle anderen, die in C lesen. Liegt eine Tonart auf deinem Instrument ungünstig, "
    "versetz die ganze Linie um eine Oktave und behalte ihre Form.",
    "advice.edition.reader": "Dies ist die {title}, im {clef}. Für jede Note gilt: {lower says}.",
    "advice.edition.octave": "Manche Instrumente, die daraus spielen, klingen noch eine Oktave tiefer.",
    "advice.edition.keys":
    "Die Tonarten heißen so, wie du sie liest. Der kleine Name daneben ist die klingende Tonart; sie nennst "
    "du am Klavier und am Bass.",
    "advice.edition.register": "In jeder Tonart liegt die Linie in der Oktave, die dem Instrument am besten "
    "entspricht.",
    "advice.edition.tablature":
    "Unter jedem Notensystem steht die Tabulatur: eine Linie für jede Saite, Saite 1 oben, und darauf der "
    "Bund, 0 für die leere Saite. Ein Bund in Klammern ist aus dem Takt davor übergebunden. Die Saiten sind "
    "von Saite 1 an klingend so gestimmt: {strings}. Die Bünde sind so gewählt, dass sich die Hand möglichst "
    "wenig bewegt; wenn dir andere besser liegen, schreib sie hinein.",
    "advice.edition.author":
    "Wo der Autorentext Töne, Akkorde oder Tonarten nennt, sind sie klingend gemeint.",
    "advice.phrase": "Jede Woche eine Phrase",
    "advice.phrase.says":
    "Jede Phrase beginnt auf einer eigenen Seite, in ihrer Grundtonart. Lies zuerst die Akkorde. Spiel sie, "
    "wenigstens ihre Terzen und Septimen, bis du sie ohne Instrument hörst; dann sing die Linie langsam "
    "darüber; erst dann spiel sie. Was du nicht singen kannst, hörst du noch nicht.\n\n"
    "Eine Phrase, die du in allen Tonarten auswendig kannst, ist mehr wert als zehn, die du vom Blatt liest.",
    "advice.keys": "Die Tonarten",
    "advice.keys.one": "Die ganze Phrase steht in einer Tonart.",
    "advice.keys.many":
    "Danach folgt die ganze Phrase in {keys} Tonarten; der Name steht jeweils neben dem Notensystem.",
    "advice.keys.by key":
    "Die ersten Seiten aller Phrasen stehen beisammen; danach kommt Tonart für Tonart, jeweils mit allen "
    "Phrasen.",
    "advice.accidentals":
    "Es gibt keine Vorzeichen am Zeilenanfang: Jede Note, die ein Versetzungszeichen braucht, hat eines, und "
    "es gilt bis zum Ende des Taktes.",
    "advice.signature":
    "Die Vorzeichen jeder Tonart stehen am Anfang jeder Zeile; ein Versetzungszeichen gilt bis zum Ende des "
    "Taktes.",
    "advice.method":
    "Lern die Phrase nach dem, was jeder Ton über seinem Akkord ist, nicht nach seinem Namen: Terz, Quinte, "
    "♭9. Dann ist eine neue Tonart derselbe Satz mit einem anderen Akzent. Nimm dir drei oder vier Tonarten "
    "am Tag vor und fang morgen dort an, wo du aufgehört hast. Deck die Seite zu, sobald du kannst; sie ist "
    "zum Nachsehen da, nicht zum Festhalten. Bleibt eine Tonart schwer, ist sie die nächste, die du übst.",
    "order.fourths": "Sie gehen durch den Quartenzirkel, sodass jede Tonart die Dominante der nächsten ist.",
    "order.fifths": "Sie gehen durch den Quintenzirkel.",
    "order.chromatic": "Sie steigen in Halbtönen.", "order.chromatic down": "Sie fallen in Halbtönen.",
    "order.whole steps": "Sie steigen in Ganztönen, erst sechs Tonarten, dann die anderen sechs.",
    "order.whole steps down": "Sie fallen in Ganztönen, erst sechs Tonarten, dann die anderen sechs.",
    "order.minor thirds": "Sie steigen in kleinen Terzen, je vier Tonarten.",
    "order.major thirds": "Sie steigen in großen Terzen, je drei Tonarten.",
    "advice.signs": "Die Zeichen",
    "signs.degrees":
    "Die kleinen Ziffern unter den Noten sagen, was eine Note über ihrem Akkord ist: 1, 3, 5 und 7 sind der "
    "Akkord selbst, 9, 11 und 13 seine Optionen, mit ♭ und ♯, wo sie alteriert sind. Wo eine Stufe ein "
    "Doppel-♭ oder einen Namen bräuchte, über den man stolpert, etwa die ♭9 von D♭, steht über ihrer Ziffer "
    "die einfachere Note.",
    "signs.sparse": "Sie stehen dort, wo die Linie ankommt, und dort, wo der Text von der Note spricht.",
    "signs.landings":
    "Auf der ersten Seite zeigt ein kleiner Keil unter einer Ziffer einen Zielpunkt: eine betonte Zählzeit "
    "oder den ersten Ton über einem neuen Akkord. Eine dünne Klammer unter dem Notensystem verbindet die "
    "beiden Töne, die über einen Taktstrich oder in einen neuen Akkord führen.",
    "signs.scales":
    "Der Name über einem Akkord ist die Skala, an die die Linie denkt; er steht dort, wo die Skala wechselt.",
    "signs.ghost": "Eine Note in Klammern ist eine Ghost Note: mehr gefühlt als gehört.",
    "advice.time": "Das Timing",
    "advice.time.says":
    "Beginne mit dem ersten Tempo der Leiter oder langsamer und zähl vor dem Spielen einen Takt laut vor. "
    "Waren vier Wiederholungen hintereinander gleichmäßig und locker, geh vier Schläge pro Minute höher; war "
    "eine es nicht, geh acht zurück. Sitzt die Linie, leg den Klick auf zwei und vier, dann nur auf vier, "
    "dann auf einen Schlag alle zwei Takte. Swing entsteht dadurch, wo du die Töne hinsetzt, nicht durch "
    "Eile: Nimm dich auf und hör es am nächsten Tag an.",
    "advice.yours": "Mach sie zu deiner",
    "advice.yours.says":
    "Lass den ersten Ton weg. Beginne eine Achtel später. Behalte den Rhythmus und ändere die Töne, behalte "
    "die Töne und ändere den Rhythmus. Verwende noch am selben Abend in einem Stück, was du findest, ganz "
    "gleich wie holprig.",
    "advice.yours.staves":
    "Schreib auf die leeren Notensysteme unter der Phrase, was du magst, unter ihre Akkorde.",
    "advice.body": "Hände, Kiefer, Ohren",
    "advice.body.says":
    "Mach in jeder halben Stunde fünf Minuten Pause und hör auf, bevor du müde bist, nicht danach. Schultern "
    "tief, Handgelenke gerade, Kiefer und Atem locker. Schmerz, Taubheit oder Kribbeln gehören nie zum Üben: "
    "Leg das Instrument weg. Kommen sie wieder, frag deine Lehrerin oder deinen Lehrer nach deiner Haltung "
    "und eine Ärztin oder einen Arzt nach allem anderen. Stell Kopfhörer so leise, dass du noch hören "
    "könntest, wenn dich jemand anspricht; klingeln die Ohren, war es zu lange zu laut.",
}  # fmt: skip

_SHORT_SCALES = {
    "half-whole diminished": "HT-GT", "whole-half diminished": "GT-HT", "melodic minor": "Mel. Moll",
    "harmonic minor": "Harm. Moll", "harmonic major": "Harm. Dur", "lydian dominant": "Lyd. ♭7",
    "phrygian dominant": "Phryg. dom.", "mixolydian": "Mixolyd.", "lydian augmented": "Lyd. überm.",
    "locrian natural 2": "Lokr. 9", "locrian natural 6": "Lokr. 13", "ionian augmented": "Ion. überm.",
    "mixolydian b6": "Mixolyd. ♭6", "mixolydian b2": "Mixolyd. ♭2", "bebop melodic minor": "Bebop Mel. Moll",
    "bebop dominant": "Bebop-Dom.", "major pentatonic": "Dur-Pent.", "minor pentatonic": "Moll-Pent.",
}  # fmt: skip
PENDING: dict[str, str] = {
    # Rows that are used only where the English table has them: it gains some and loses others.
    **{f"scale.short.{name}": said for name, said in _SHORT_SCALES.items()},
    "date": "{day}. {month} {year}",
    "months": "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
    "isbn": "ISBN {number}", "tracks": "Hörbeispiele", "preface": "Vorwort", "acknowledgements": "Dank",
    "about the author": "Zur Autorin, zum Autor", "cover": "Umschlag", "logo": "Verlagssignet",
    "index.key": "Nach Tonarten",
    "signs.symbols":
    "In den Akkordsymbolen, die international geschrieben sind, ist B unser H und B♭ unser B. Dort heißt m "
    "oder ein Strich Moll, maj7 oder ein Dreieck große Septime, ein kleiner Kreis vermindert und ein Kreis "
    "mit Strich halbvermindert; Alterationen stehen hochgestellt.",
    "signs.chords":
    "Akkordsymbole sind international geschrieben: B ist dort unser H, B♭ unser B. Außerdem gilt: {signs}.",
    "signs.next": "{first}; {next}",
    "signs.chord.m": "m ist Moll", "signs.chord.dash": "ein Strich ist Moll",
    "signs.chord.maj": "maj ist die große Septime",
    "signs.chord.triangle": "ein Dreieck ist die große Septime",
    "signs.chord.ring": "ein kleiner Kreis ist vermindert",
    "signs.chord.struck ring": "ein Kreis mit Strich ist halbvermindert",
    "signs.chord.plus": "ein Plus ist übermäßig",
    "signs.chord.alt": "alt ist eine Dominante, deren Optionen alle alteriert sind",
    "signs.chord.sus": "sus hat eine Quarte anstelle der Terz",
    "signs.chord.raised": "was alteriert oder hinzugefügt ist, steht hochgestellt in Klammern",
    "signs.chord.bass": "der Buchstabe nach einem Schrägstrich ist der Basston",
    "signs.scoop": "Eine Linie, die in eine Note hinaufführt: Du schleifst sie von unten an.",
    "signs.fall": "Eine Linie, die nach einer Note abfällt: Du lässt ihr Ende nach unten gleiten.",
    "signs.courtesy":
    "Ein Versetzungszeichen in Klammern dient nur der Erinnerung: Es würde auch ohne Klammern gelten.",
    "signs.grace":
    "Eine kleine Note spielst du schnell, kurz vor ihrem Schlag oder auf ihm; sie braucht keine eigene Zeit.",
    "signs.accent": "Ein liegender Keil über einer Note ist ein Akzent.",
    "signs.staccato": "Ein Punkt über oder unter einer Note macht sie kurz.",
    "signs.tenuto": "Ein Strich über oder unter einer Note gibt ihr ihre ganze Länge.",
    "signs.slur": "Ein Bogen verbindet Töne, die du mit einem Zungenstoß, Bogenstrich oder Anschlag spielst.",
}  # fmt: skip

SAME: frozenset[str] = frozenset({
    *(f"{form}note.{letter}" for form in ("", "short ") for letter in "CDEFGA"),
    *(name for name in WORDS if name.startswith("progression.") and WORDS[name] == name[12:]),
    "isbn", "edition.name.horn in f", "key.progression", "alt.title",
    # The practice page.
    "practice.plan.minutes.n", "practice.plan.in", "practice.teacher.print.phrase",
})  # fmt: skip
