"""The words of a book in French. Row format: see `tables.words` and `tables.wording`.

Degrees have two forms, with an article ("la tierce") and without, as they stand beside a note ("le mi, tierce
de Cmaj7"); a size is "une tierce" and "d'une tierce"; a place is "la mesure 2" and, third, "à la mesure 2".
Directions are verbs ("monte", "descend"). Notes are masculine; degrees, phrases and keys are feminine, and so
are the numbers written in words. The reader is "tu". Apostrophes and the spaces before : ; and inside « » are
set below.
Source: the names of notes are common practice (do, ré, mi …; "ut" only in the names of clefs); the terms are
common practice; the sentences are our own.
"""

from __future__ import annotations

_OWN_DEGREES = {
    "1": "fondamentale", "3": "tierce", "b3": "tierce", "4": "quarte", "5": "quinte", "b5": "quinte",
    "#5": "quinte", "6": "sixte", "b7": "septième", "7": "septième", "bb7": "septième",
}  # fmt: skip
_DEGREES = {
    "1": "fondamentale", "3": "tierce majeure", "b3": "tierce mineure", "4": "quarte", "5": "quinte juste",
    "b5": "quinte diminuée", "#5": "quinte augmentée", "6": "sixte", "b7": "septième mineure",
    "7": "septième majeure", "bb7": "septième diminuée", "b9": "neuvième mineure", "9": "neuvième",
    "#9": "neuvième augmentée", "11": "onzième", "#11": "onzième augmentée", "b13": "treizième mineure",
    "13": "treizième",
}  # fmt: skip
_SIZES = (
    "un unisson", "un demi-ton", "un ton", "une tierce mineure", "une tierce majeure", "une quarte",
    "un triton", "une quinte", "une sixte mineure", "une sixte majeure", "une septième mineure",
    "une septième majeure", "une octave",
)  # fmt: skip
_NOTES = {"C": "do", "D": "ré", "E": "mi", "F": "fa", "G": "sol", "A": "la", "B": "si"}
_ALTERED = tuple(f"{letter}{sign}" for sign in ("b", "#", "bb", "##") for letter in "CDEFGAB")
_SCALES = {
    "ionian": "ionien", "dorian": "dorien", "phrygian": "phrygien", "lydian": "lydien",
    "mixolydian": "mixolydien", "aeolian": "éolien", "locrian": "locrien",
    "melodic minor": "mineur mélodique", "dorian b2": "dorien ♭2", "lydian augmented": "lydien augmenté",
    "lydian dominant": "lydien ♭7", "mixolydian b6": "mixolydien ♭6",
    "locrian natural 2": "locrien bécarre 2", "altered": "altéré", "harmonic minor": "mineur harmonique",
    "locrian natural 6": "locrien bécarre 6", "ionian augmented": "ionien augmenté",
    "dorian #4": "dorien ♯4", "phrygian dominant": "phrygien majeur", "lydian #2": "lydien ♯2",
    "altered bb7": "altéré ♭♭7", "harmonic major": "majeur harmonique", "dorian b5": "dorien ♭5",
    "phrygian b4": "phrygien ♭4", "lydian b3": "lydien ♭3", "mixolydian b2": "mixolydien ♭2",
    "lydian augmented #2": "lydien augmenté ♯2", "locrian bb7": "locrien ♭♭7",
    "half-whole diminished": "demi-ton/ton", "whole-half diminished": "ton/demi-ton",
    "whole tone": "par tons", "augmented": "augmenté", "bebop dominant": "bebop dominant",
    "bebop major": "bebop majeur", "bebop dorian": "bebop dorien",
    "bebop melodic minor": "bebop mineur mélodique", "major pentatonic": "pentatonique majeur",
    "minor pentatonic": "pentatonique mineur", "blues": "blues", "major blues": "blues majeur",
    "chromatic": "chromatique",
}  # fmt: skip
_NO_BREAK = "\u00a0"
_TO_SIXTEEN = (
    "une", "deux", "trois", "quatre", "cinq", "six", "sept", "huit", "neuf", "dix", "onze", "douze", "treize",
    "quatorze", "quinze", "seize",
)  # fmt: skip
_TEENS = (*_TO_SIXTEEN, "dix-sept", "dix-huit", "dix-neuf")
_TENS = ("vingt", "trente", "quarante", "cinquante", "soixante")
_NUMBERS = (
    "zéro", *_TEENS,
    *(
        ten if not one else f"{ten}{_NO_BREAK}et{_NO_BREAK}{_TEENS[one - 1]}" if one in (1, 11)
        else f"{ten}-{_TEENS[one - 1]}"
        for ten in _TENS for one in range(20 if ten == "soixante" else 10)
    ),
    "quatre-vingts", *(f"quatre-vingt-{one}" for one in _TEENS),
)  # fmt: skip

_ROWS: dict[str, str] = {
    # Names of notes.
    **{f"{form}note.{letter}": said for form in ("", "short ") for letter, said in _NOTES.items()},
    "note.flat": "{letter} bémol", "note.sharp": "{letter} dièse",
    "note.double flat": "{letter} double bémol", "note.double sharp": "{letter} double dièse",
    "short note.flat": "{letter}♭", "short note.sharp": "{letter}♯",
    "short note.double flat": "{letter}♭♭", "short note.double sharp": "{letter}♯♯",
    "short note.natural": "{letter}♮",
    **{f"{form}note.{name}": "{usual}" for form in ("", "short ") for name in _ALTERED},
    # Chords.
    "chord.symbol": "{symbol}", "chord.slash": "/{bass}", "chord.minor": f"{{root}}{_NO_BREAK}mineur",
    "chord.none": "aucun accord", "chord.silent": "{symbol}",
    "voice.chord": "{root} {kind}", "voice.flat": " bémol {n}", "voice.sharp": " dièse {n}",
    "voice.slash": "{chord} sur {bass}",
    # Degrees.
    **{f"own degree.{degree}": f"la {said} | {said}" for degree, said in _OWN_DEGREES.items()},
    **{f"degree.{degree}": f"la {said} | {said}" for degree, said in _DEGREES.items()},
    **{f"bare own degree.{degree}": said for degree, said in _OWN_DEGREES.items()},
    **{f"bare degree.{degree}": said for degree, said in _DEGREES.items()},
    "degree.over no chord": "sans accord",
    "degree.of chord": "{degree} de {chord}",
    # Scales.
    **{f"{form}scale.{name}": said for form in ("", "short ") for name, said in _SCALES.items()},
    "scale.on": "{scale} de {root}",
    # Sizes of intervals.
    **{f"size.{semitones}": f"{name} | d'{name}" for semitones, name in enumerate(_SIZES)},
    "size.more": "plus d'une octave | de plus d'une octave",
    # Numbers and lists.
    "numbers.small": "zéro un deux trois quatre cinq six sept huit neuf dix onze douze",
    "list.two": "{first} et {last}", "list.more": "{first}, {next}", "list.last": "{first} et {last}",
    "sentence": "{Text}",
    # Places.
    "beat.half": "le « et » du temps {n}", "beat.other": "le temps {n}", "beat.on": "sur {beat}",
    "bar": "la mesure {n} | la mesure {n} | à la mesure {n}",
    "bar.pick-up": "la levée | la levée | dans la levée",
    "bars.two": "les mesures {first} et {last}", "bars.many": "les mesures {first} à {last}",
    "placed": "{bar 3}, {text}",
    "way.up": "monte", "way.down": "descend",
    "way.compared up": "plus haut", "way.compared down": "plus bas",
    "move": "du {a} au {b}",
    "no notes": "La phrase n'a pas encore de notes.",
    # Guide tones.
    "tell.falls.each":
    "À chaque changement d'accord, une septième descend sur la tierce suivante : {pairs}.",
    "tell.falls.both":
    "Aux deux changements d'accord, la septième descend sur la tierce suivante : {pairs}.",
    "tell.falls.twice": "Deux fois, une septième descend sur la tierce de l'accord suivant : {pairs}.",
    "tell.falls.some":
    "À {times} changements d'accord, une septième descend sur la tierce suivante : {pairs}.",
    "tell.falls.many":
    "À {times} changements d'accord, une septième descend sur la tierce suivante, d'abord {pairs}.",
    "tell.fall.half": "Le {guide} est {of} ; il descend d'un demi-ton sur le {goal}, {goal_of 2}.",
    "tell.fall.whole": "Le {guide} est {of} ; il descend d'un ton sur le {goal}, {goal_of 2}.",
    "tell.fall.through":
    "Le {guide}, {of 2}, glisse vers le bas en passant par le {between} jusqu'au {goal}, {goal_of 2}.",
    "tell.fall.late": "Le {guide}, {of 2}, descend une note plus tard que prévu sur le {goal}, {goal_of 2}.",
    "tell.guide line.whole":
    "Une seule ligne court sous toute la phrase, une tierce ou une septième par accord : {notes}.",
    "tell.guide line.part":
    "De {first} à {last}, une ligne court en dessous, une tierce ou une septième par accord : {notes}.",
    "tell.steps": "On entre dans chaque nouvel accord par mouvement conjoint : {pairs}.",
    # Cells, bars and notes that come back.
    "tell.cell.twice": "le motif {notes} revient aussitôt, {size} {way}.",
    "tell.cell.shape": "le dessin {notes} revient aussitôt, à partir de {second}.",
    "tell.cell.steady": "le motif {notes} est joué {times} fois, chaque fois {size} {way}.",
    "tell.cell.often": "le dessin {notes} est joué {times} fois, à partir de {starts}.",
    "tell.cell.across":
    "le dessin {notes} est joué {times} fois ; comme il dure un temps et demi, il commence chaque fois à un "
    "autre endroit.",
    "tell.staying note":
    "Le {note} reste en place sur {times} accords et change chaque fois de sens : {meanings}.",
    "tell.echo.one": "{later} commence comme {earlier}, {size} {way}.",
    "tell.echo.whole one": "{later} reprend {earlier}, {size} {way}.",
    "tell.echo.same one":
    "{later} commence avec les mêmes notes que {earlier}, mais cette fois sur {chord}.",
    "tell.echo.whole same one": "{later} reprend {earlier} note pour note, mais cette fois sur {chord}.",
    "tell.echo.altered":
    "{later} reprend {earlier} avec {new} au lieu de {old} : c'est là tout le passage à {chord}.",
    # The chords that a line hangs on.
    "tell.frame.diminished":
    "La ligne {way} en s'appuyant sur {notes} : un accord de septième diminuée sur les temps forts, que le "
    "reste vient remplir.",
    "tell.frame.own":
    "La ligne {way} en s'appuyant sur {notes} : les notes de {chord} sur les temps forts, que le reste vient "
    "relier.",
    "tell.arpeggio.up":
    "Du {first} ({degree}), la ligne s'ouvre à travers {chord} jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.down":
    "Du {first} ({degree}), la ligne descend à travers {chord} jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.thirds up":
    "Du {first}, {degree 2} de {chord}, monte par tierces jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.thirds down":
    "Du {first}, {degree 2} de {chord}, descends par tierces jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.start up":
    "Pars du {first}, {degree 2} de {chord}, et monte par les notes de l'accord jusqu'au {last} "
    "({last_degree}).",
    "tell.arpeggio.start down":
    "Pars du {first}, {degree 2} de {chord}, et descends par les notes de l'accord jusqu'au {last} "
    "({last_degree}).",
    "tell.arpeggio.start thirds up":
    "Pars du {first}, {degree 2} de {chord}, et monte par tierces jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.start thirds down":
    "Pars du {first}, {degree 2} de {chord}, et descends par tierces jusqu'au {last} ({last_degree}).",
    "tell.arpeggio.octave up":
    "Du {first}, {degree 2} de {chord}, monte par les notes de l'accord jusqu'au {last} suivant.",
    "tell.arpeggio.octave down":
    "Du {first}, {degree 2} de {chord}, descends par les notes de l'accord jusqu'au {last} suivant.",
    "tell.arpeggio.start octave up":
    "Pars du {first}, {degree 2} de {chord}, et monte par les notes de l'accord jusqu'au {last} suivant.",
    "tell.arpeggio.start octave down":
    "Pars du {first}, {degree 2} de {chord}, et descends par les notes de l'accord jusqu'au {last} suivant.",
    "tell.fourths.up":
    "Du {first}, {degree 2} de {chord}, monte par quartes jusqu'au {last} ({last_degree}).",
    "tell.fourths.down":
    "Du {first}, {degree 2} de {chord}, descends par quartes jusqu'au {last} ({last_degree}).",
    "tell.triad.major": "Les notes {notes} forment {root} majeur sur {chord} : {meanings}.",
    "tell.triad.minor": "Les notes {notes} forment {root} mineur sur {chord} : {meanings}.",
    "tell.triad.outside major":
    "Les notes {notes} forment {root} majeur, une triade étrangère posée sur {chord}.",
    "tell.triad.outside minor":
    "Les notes {notes} forment {root} mineur, une triade étrangère posée sur {chord}.",
    # Scales, colours, tension.
    "tell.whole.bar": "Toutes les notes du mode {scale} se trouvent {bar 3}.",
    "tell.whole.chord": "La ligne contient toutes les notes du mode {scale}.",
    "tell.telling.place":
    "Sur {chord}, écoute le {note} ({degree}) : il fait entendre le mode {scale} ; le mode {other} aurait "
    "ici le {tone}.",
    "tell.telling.only":
    "Sur {chord}, écoute le {note} ({degree}) : il fait entendre le mode {scale}, et non le mode {other}.",
    "tell.colours": "Sur {chord}, les couleurs sont {notes}, soit {degrees}.",
    "tell.colour": "Fais chanter le {note}, {of 2} : c'est lui qui donne la couleur.",
    "tell.only the chord": "Sur {chord}, la ligne ne joue que les notes de l'accord.",
    "tell.tension":
    "Les notes {notes}, soit {degrees}, créent la tension sur {chord} ; elle se relâche sur le {goal}, "
    "{of 2}.",
    # Crossings, enclosures, runs.
    "tell.suspended":
    "Le {note} se prolonge sur {chord}, comme un retard, puis descend sur le {goal} ({degree}).",
    "tell.early": "Le {note} arrive en avance : c'est déjà {of}.",
    "tell.led": "Le {note} {way} d'un demi-ton et mène au {goal}, {of 2}.",
    "tell.step.half": "Le {before} {way} d'un demi-ton vers le {goal}, {of 2}.",
    "tell.step.whole": "Le {before} {way} d'un ton vers le {goal}, {of 2}.",
    "tell.kept": "Le {note} reste quand l'accord change : d'abord {of}, puis {goal_of}.",
    "tell.enclosure.half":
    "Les notes {notes} encerclent le {goal}, {of 2}, à un demi-ton de chaque côté.",
    "tell.enclosure.whole": "Les notes {notes} encerclent le {goal}, {of 2}, à un ton de chaque côté.",
    "tell.enclosure.any": "Les notes {notes} encerclent le {goal}, {of 2}.",
    "tell.run.step up": "Du {first}, la ligne monte par degrés conjoints jusqu'au {last}, {of 2}.",
    "tell.run.step down": "Du {first}, la ligne descend par degrés conjoints jusqu'au {last}, {of 2}.",
    "tell.run.half steps up": "Du {first}, la ligne monte par demi-tons jusqu'au {last}, {of 2}.",
    "tell.run.half steps down": "Du {first}, la ligne descend par demi-tons jusqu'au {last}, {of 2}.",
    # Single notes.
    "tell.outside.passing note.one":
    "Le {note} est étranger à la gamme et ne fait que passer : la ligne {way} du {before} au {goal}.",
    "tell.outside.passing note.many":
    "Les notes {notes} sont étrangères à la gamme et ne font que passer : joue-les légèrement.",
    "tell.outside.passing note.same":
    "Le {note} est chaque fois étranger à la gamme et ne fait que passer : joue-le légèrement.",
    "tell.outside.approach note.same":
    "Le {note} est chaque fois étranger à la gamme et mène à la note suivante par demi-ton.",
    "tell.outside.neighbour.same":
    "Le {note} est chaque fois étranger à la gamme et revient à la note d'où il vient.",
    "tell.outside.approach note.one":
    "Le {note}, étranger à la gamme, {way} d'un demi-ton vers le {goal}, {of 2}.",
    "tell.outside.approach whole.one": "Le {note}, étranger à la gamme, {way} vers le {goal}, {of 2}.",
    "tell.outside.approach note.many":
    "Les notes {notes} sont étrangères à la gamme ; chacune mène à la suivante par demi-ton.",
    "tell.outside.neighbour.one":
    "Le {note} est étranger à la gamme : la ligne quitte le {before} pour lui et y revient.",
    "tell.outside.neighbour.many":
    "Les notes {notes} sont étrangères à la gamme : chacune est à un demi-ton de la "
    "note à laquelle elle revient.",
    "tell.leaning":
    "Le {note}, étranger à la gamme, s'appuie sur le temps, puis se résout sur le {goal}, {of 2}.",
    "tell.extra note":
    "Le {note} est la note ajoutée du mode {scale} : grâce à elle, les notes de {chord} ({notes}) tombent "
    "sur les temps.",
    "tell.blue.note": "Le {note} est une blue note, {degree} sur {chord}.",
    "tell.blue.seventh of the minor":
    "Le {note}, septième majeure sur {chord}, apporte une touche de mineur mélodique.",
    "tell.blue.bent third":
    "Le {note}, tierce majeure sur {chord}, joue avec la tierce mineure, comme dans le blues.",
    "tell.pedal": "Le {note} reste en pédale, étranger à {chord}.",
    "tell.leap.back":
    "Écoute le saut du {before} au {after}, qui {way} {size 2} ; la ligne revient ensuite d'un degré.",
    "tell.leap.open": "Écoute le saut du {before} au {after}, {of 2} : la ligne {way} {size 2}.",
    "tell.leap.octave": "Le {before} {way} d'une octave ; c'est {of}.",
    "tell.top": "La note la plus haute est le {note}, {of 2}.",
    "tell.end": "La ligne finit sur le {note}, {of 2}, et reste ouverte.",
    # Rhythm.
    "tell.late": "La ligne attend et n'entre que {when}.",
    "tell.off beats.all": "Toutes les notes tombent à contretemps.",
    "tell.off beats.some": "du {first} au {last}, toutes les notes tombent à contretemps.",
    "tell.breath.one":
    "Après le {note}, {bar 3}, la ligne respire ; donne au silence toute sa durée.",
    "tell.breath.many":
    "La plus longue respiration vient après le {note}, {bar 3} ; donne-lui toute sa durée.",
    # What to practise.
    "tell.practice.frame":
    "Ne joue d'abord que les notes {notes}, sur leurs temps forts, puis ajoute le reste.",
    "tell.practice.frame told":
    "Ne joue d'abord que l'accord sur les temps forts, puis ajoute le reste.",
    "tell.practice.guide line":
    "Chante d'abord les notes {notes} sur les accords, puis entends-les dans la ligne.",
    "tell.practice.guide line told":
    "Chante d'abord cette seule ligne sur les accords, puis entends-la dans la phrase.",
    "tell.practice.guides": "Ne joue d'abord que les paires ({pairs}), puis remets le reste.",
    "tell.practice.guides told":
    "Ne joue d'abord que ces septièmes et ces tierces, en mesure, puis remets le reste.",
    "tell.practice.echo":
    "Apprends d'abord {earlier} : {later} commencent de la même façon, {size} {way}.",
    "tell.practice.echo whole": "Apprends d'abord {earlier} : {later} les reprennent, {size} {way}.",
    "tell.practice.echo same": "Apprends d'abord {earlier} : {later} commencent avec les mêmes notes.",
    "tell.practice.echo same whole": "Apprends d'abord {earlier} : {later} les reprennent note pour note.",
    "tell.practice.cell": "Promène le motif {notes} dans la gamme, en partant de chaque note.",
    "tell.practice.cell told": "Promène le motif dans la gamme, en partant de chaque note.",
    "tell.practice.skeleton":
    "Ne joue d'abord que les notes {notes}, chacune sur son temps : tout le reste s'y accroche.",
    "tell.practice.crossing":
    "Joue en boucle les notes {notes} par-dessus la barre de mesure, jusqu'à ce que le {goal} tombe {when} "
    "sans hâte.",
    "tell.practice.crossing inside":
    "Joue en boucle les notes {notes}, jusqu'à ce que le {goal} vienne sans hâte.",
    "tell.practice.change":
    "Joue en boucle le passage à {chord} : du {before} au {goal} ({degree}).",
    "tell.practice.change told":
    "Joue en boucle le passage à {chord}, d'un temps avant à un temps après.",
    "tell.practice.leap": "Chante {before} et {after} avant de jouer le saut qui les sépare.",
    "tell.practice.octave":
    "Travaille à part l'octave du {before}, jusqu'à ce que le second {after} vienne tout seul.",
    "tell.practice.arpeggio": "Joue les notes {notes} en montant et en descendant avant de jouer la ligne.",
    "tell.practice.push":
    "Joue une fois le {note} exactement {when}, {bar 3}, puis en avance, comme c'est écrit.",
    "tell.practice.aim": "Vise le {note}, {of 2}, et laisse tout le reste y conduire.",
    "tell.practice.line": "Pars du {first}, {of 2}, et vise le {last}, {last_of 2}.",
    "tell.practice.line alone": "Chante {first} et {last} avant de jouer.",
    "tell.practice.one note": "Chante le {first} sur {chord} avant de jouer.",
    "tell.practice.one note alone": "Chante le {first} avant de jouer.",
    # Where else it fits.
    "tell.home.tritone substitute":
    "Ce que tu joues sur {chord} convient aussi à {other}, sa substitution tritonique : sa tierce est le "
    "{third}.",
    "tell.home.tritone substitute with seventh":
    "Ce que tu joues sur {chord} convient aussi à {other}, sa substitution tritonique : sa tierce est le "
    "{third}, sa septième le {seventh}.",
    "tell.home.minor a fifth up":
    "Ce que tu joues sur {chord} convient aussi à {other}, l'accord mineur une quinte plus haut : sa tierce "
    "est le {third}.",
    "tell.home.minor a fifth up with seventh":
    "Ce que tu joues sur {chord} convient aussi à {other}, l'accord mineur une quinte plus haut : sa tierce "
    "est le {third}.",
    "tell.home.same diminished scale":
    "Ce que tu joues sur {chord} convient aussi à {others} : ils partagent la gamme diminuée.",
    # Names of keys, progressions and feels.
    "mode.major": "majeur", "mode.minor": "mineur",
    "key": "{tonic} {mode}", "tonic.minor": "{tonic}",
    "key.concert": "{tonic} réel",
    "key.progression": "{progression} en {key}",
    **{f"progression.{name}": name for name in (
        "ii–V–I", "ii–V", "V–I", "iii–VI–ii–V", "iii–vi–ii–V", "I–VI–ii–V", "I–vi–ii–V", "I–#i°–ii–#ii°",
        "I–#i°–ii–V", "I–biii°–ii–V", "iii–biii°–ii–V", "iii–bIII–ii–bII", "iii–VI–ii–bII", "I–VI–ii–bII",
        "I–bIII–ii–bII", "I–bIII–bVI–bII", "blues I–IV–I", "blues IV–I–IV", "blues V–IV–I", "blues V–I",
    )},
    **{f"progression.minor {name}": f"{name} mineur" for name in (
        "ii–V–i", "ii–V", "V–i", "i–viø–iiø–V", "i–bVI–iiø–V", "iiiø–VI–iiø–V",
    )},
    **{f"progression.tritone substitute {name}": f"substitution tritonique {name}" for name in (
        "ii–bII–I", "ii–bII", "bII–I", "bvi–bII–I",
    )},
    **{f"progression.minor tritone substitute {name}": f"substitution tritonique mineure {name}" for name in (
        "iiø–bII–i", "iiø–bII", "bII–i",
    )},
    "progression.backdoor ii–V": "cadence backdoor ii–V",
    "progression.backdoor bVII–I": "cadence backdoor bVII–I",
    "progression.cycle of dominants": "cycle de dominantes",
    "progression.cycle of three dominants": "cycle de trois dominantes",
    "progression.secondary dominant II–V–I": "dominante secondaire II–V–I",
    "progression.iiø–V–I borrowed from minor": "iiø–V–I emprunté au mineur",
    "progression.cycle of major thirds": "cycle de tierces majeures",
    "progression.half a cycle of major thirds": "demi-cycle de tierces majeures",
    "progression.major chords in falling major thirds": "accords majeurs par tierces majeures descendantes",
    "progression.major chords in rising minor thirds": "accords majeurs par tierces mineures ascendantes",
    "progression.dominants in rising minor thirds": "dominantes par tierces mineures ascendantes",
    "progression.side-slip into ii–V": "glissement chromatique vers ii–V",
    "progression.side-slip out of ii–V": "glissement chromatique hors de ii–V",
    "progression.descending line in minor": "ligne descendante en mineur",
    "progression.rising line in minor": "ligne montante en mineur",
    "progression.major blues": "blues majeur", "progression.minor blues": "blues mineur",
    "feel.swing": "swing", "feel.fast swing": "swing rapide", "feel.shuffle": "shuffle",
    "feel.straight": "binaire", "feel.ballad": "ballade", "feel.bossa": "bossa",
    "feel.samba": "samba", "feel.latin": "latin", "feel.waltz": "valse", "feel.funk": "funk",
    "feel.free": "libre",
    "inside": "{lower text}",
    # Numbers.
    "numbers": " ".join(_NUMBERS),
    "tens": f"- - {' '.join(_TENS)} soixante-dix quatre-vingts quatre-vingt-dix",
    "tens and ones": "{tens}-{ones}",
    # Title page and imprint.
    "phrase": "phrase", "phrases": "phrases", "phrases.few": "phrases",
    "plural.one": "0 1", "plural.few": "-",
    "phrase.untitled": "Phrase nº {n}",
    "in all keys": "{count} {phrases} dans les {keys} tonalités",
    "in keys": "{count} {phrases} dans {keys} tonalités",
    "in one key": "{count} {phrases} dans une seule tonalité",
    "edition.title": "Édition {name}",
    "edition.concert": "Écrite en sons réels, pour les instruments en do",
    "edition.name.concert": "en do", "edition.name.bflat": "en si♭", "edition.name.eflat": "en mi♭",
    "edition.name.bass": "en clé de fa", "edition.name.f": "en fa", "edition.name.flute": "pour flûte",
    "edition.name.clarinet": "pour clarinette", "edition.name.bass clarinet": "pour clarinette basse",
    "edition.name.soprano saxophone": "pour saxophone soprano",
    "edition.name.alto saxophone": "pour saxophone alto",
    "edition.name.tenor saxophone": "pour saxophone ténor",
    "edition.name.baritone saxophone": "pour saxophone baryton", "edition.name.trumpet": "pour trompette",
    "edition.name.flugelhorn": "pour bugle", "edition.name.trombone": "pour trombone",
    "edition.name.horn in f": "pour cor en fa", "edition.name.violin": "pour violon",
    "edition.name.viola": "pour alto à cordes", "edition.name.cello": "pour violoncelle",
    "edition.name.guitar": "pour guitare", "edition.name.double bass": "pour contrebasse",
    "edition.name.electric bass": "pour basse électrique", "edition.name.piano": "pour piano",
    "edition.name.vibraphone": "pour vibraphone", "edition.name.soprano voice": "pour voix de soprano",
    "edition.name.mezzo-soprano voice": "pour voix de mezzo-soprano",
    "edition.name.alto voice": "pour voix d'alto", "edition.name.tenor voice": "pour voix de ténor",
    "edition.name.baritone voice": "pour voix de baryton", "edition.name.bass voice": "pour voix de basse",
    "edition.as it sounds": "Les notes sont écrites en sons réels",
    "edition.above": "Les notes sont écrites {interval} au-dessus du son réel",
    "edition.below": "Les notes sont écrites {interval} au-dessous du son réel",
    "interval.1.1": "une seconde mineure", "interval.1.2": "une seconde majeure",
    "interval.2.3": "une tierce mineure", "interval.2.4": "une tierce majeure",
    "interval.3.5": "une quarte", "interval.3.6": "une quarte augmentée",
    "interval.4.6": "une quinte diminuée", "interval.4.7": "une quinte",
    "interval.4.8": "une quinte augmentée", "interval.5.8": "une sixte mineure",
    "interval.5.9": "une sixte majeure", "interval.6.10": "une septième mineure",
    "interval.6.11": "une septième majeure",
    "interval.octave": "une octave", "interval.octaves": "deux octaves",
    "interval.and": "{octaves} et {rest}",
    "clef.G2": "clé de sol", "clef.G2-8": "clé de sol octaviée", "clef.F4": "clé de fa",
    "clef.F4-8": "clé de fa octaviée", "clef.C3": "clé d'ut troisième ligne",
    "clef.C4": "clé d'ut quatrième ligne",
    "words name concert": "Ce texte nomme les sons réels.",
    "edition.large": "Gros caractères", "edition.sample": "Extrait gratuit",
    "keywords": "jazz, improvisation, exercice, douze tonalités",
    "imprint": "À propos de ce livre", "imprint.music": "Texte et musique de {author}.",
    "imprint.sizes": "Portée {staff} mm, texte {text} pt.",
    "licensee": "Cet exemplaire appartient à {name}",
    "proof": "épreuve", "published": "Publié le {date}.",
    # Heads.
    "contents": "Table des matières", "how to use": "Comment travailler avec ce livre",
    "on the web": "Sur le web", "why it works": "Pourquoi ça sonne", "scale": "Le mode",
    "scales": "Les modes", "tempo": "Le tempo", "your own": "Ta propre ligne sur ces accords",
    "listen": "À écouter et à voir", "indexes": "Index",
    "index.progression": "Par suite d'accords", "index.scale": "Par mode", "index.device": "Par procédé",
    "index.difficulty": "Par difficulté",
    "checklist": "Tonalité par tonalité",
    "checklist.says":
    "Coche une tonalité quand tu y as joué la phrase trois fois de suite, de mémoire et en mesure.",
    "part": "Partie {n}", "part.none": "Autres suites d'accords", "part.no scale": "Sans mode nommé",
    # Drills.
    # What to practise now.
    "practice.plan.screen": "Aujourd’hui",
    "practice.plan.title": "Quoi travailler maintenant",
    "practice.plan.minutes": "Les minutes que tu as",
    "practice.plan.minutes.n": "{n} min",
    "practice.plan.begin": "Commencer",
    "practice.plan.set": "Le programme du jour",
    "practice.plan.nothing":
    "Rien ne tient dans ces minutes. Prends-en quelques-unes de plus, ou garde tout pour demain.",
    "practice.plan.part.warm": "échauffement",
    "practice.plan.part.new": "nouveau",
    "practice.plan.part.back": "encore une fois",
    "practice.plan.part.old": "déjà travaillé",
    "practice.plan.part.rest": "Repos",
    "practice.plan.part.warm.alone": "Notes tenues",
    "practice.plan.in": "{title} en {key}",
    "practice.plan.at": "♩ = {n}",
    "practice.plan.phrase": "{n} · {title}",
    "practice.plan.hands":
    "Arrête-toi si tu as mal. Une douleur, des doigts engourdis, une mâchoire ou des lèvres fatiguées "
    "demandent du repos, pas de la volonté ; si cela revient, ton professeur ou un médecin en sait plus "
    "qu’une page.",
    "practice.plan.ears":
    "Ton instrument aussi est fort : à 94 décibels, les règles du travail admettent une heure par jour. "
    "Règle l’orchestre au-dessous de ton propre son, pas au-dessus.",
    "practice.plan.play": "Vers la partition",
    "practice.plan.next": "Passer à la suite",
    "practice.plan.pause": "Arrêter la montre",
    "practice.plan.go on": "Relancer la montre",
    "practice.plan.stop": "Assez pour aujourd’hui",
    "practice.plan.clock": "{spent} sur {whole}",
    "practice.plan.rest.says":
    "Pose l’instrument. Relâche les mains, les épaules, la mâchoire et les lèvres, et offre du silence à "
    "tes oreilles.",
    "practice.plan.rest.left": "encore {time}",
    "practice.plan.rest.over": "Le repos est fini. Reprends quand tu es prêt.",
    "practice.plan.warm.says": "Doucement, et plus lentement que tu ne peux. Rien ne compte encore.",
    "practice.plan.warm.alone.says":
    "Doucement, avec ton plus beau son, le grave avant l’aigu. Respire entre elles.",
    "practice.plan.over": "C’était le temps d’aujourd’hui : {n} min. Le reste t’attend.",
    "practice.plan.copy":
    "Voici combien il y a de nouveau depuis ta dernière copie : {n}. Enregistres-en une : un navigateur "
    "peut effacer ce qu’il garde.",
    "practice.plan.later": "Plus tard",
    "practice.plan.then": "Ensuite : {what}",
    "practice.plan.went": "Comment c’était ?",
    "practice.plan.went.apart": "Ça s’est défait",
    "practice.plan.went.slips": "Ça tenait, avec des accrocs",
    "practice.plan.went.clean": "C’était propre",
    "practice.plan.went.sang": "Ça chantait",
    "practice.plan.went.kept": "C’est noté.",
    "practice.progress.screen": "Où tu en es",
    "practice.progress.title": "Où tu en es",
    "practice.progress.tonics": "do ré♭ ré mi♭ mi fa fa♯ sol la♭ la si♭ si",
    "practice.progress.table": "Phrases et tonalités",
    "practice.progress.legend":
    "L’eau monte jusqu’au tempo de ta dernière version propre ; une case pleine est le tempo de la "
    "phrase. Un bord en pointillés : cela s’efface, et revient au programme.",
    "practice.progress.nothing": "Rien encore ici : cela se remplit quand tu joues.",
    "practice.progress.counts": "Tonalités au tempo : {there}. En chemin : {way}. À découvrir : {none}.",
    "practice.progress.cell": "{key} : {n} sur {goal}",
    "practice.progress.cell.fading": "{key} : {n} sur {goal}, s’efface",
    "practice.progress.cell.none": "{key} : pas encore",
    "practice.progress.year": "L’année",
    "practice.progress.year.month": "Mois",
    "practice.progress.year.minutes": "Minutes de musique",
    "practice.progress.year.begun": "Tonalités vues",
    "practice.progress.year.there": "Au tempo",
    "practice.progress.year.says": "Les mois sans musique n’y sont pas. Un livre a le temps.",
    "practice.progress.copies": "Une copie à garder, ou pour un autre appareil",
    "practice.progress.copies.says":
    "Ce que tu as joué reste dans ce seul navigateur et n’est envoyé nulle part. Enregistre une copie de "
    "temps en temps ; sur un autre téléphone ou ordinateur, ouvre la page de ce livre et lis-la là. Les "
    "deux s’additionnent, rien n’est écrasé.",
    "practice.progress.copy.save": "Enregistrer une copie",
    "practice.progress.copy.read": "Lire une copie",
    "practice.progress.copy.saved": "La copie est dans tes téléchargements.",
    "practice.progress.read": "Lu : {n} passages, dont {new} nouveaux ici.",
    "practice.progress.read.cut":
    "Le fichier finit trop tôt. Ce qui précède est lu ; enregistre-le de nouveau là d’où il vient, si tu "
    "peux.",
    "practice.progress.read.bad": "Lignes illisibles : {lines}. Toutes les autres sont lues.",
    "practice.progress.read.newer":
    "Le fichier vient d’une page plus récente. Ce que celle-ci ne connaît pas est gardé, et va dans tes "
    "copies.",
    "practice.progress.read.gone":
    "Passages sur des phrases que cette édition n’a pas : {n}. Ils sont gardés.",
    "practice.progress.read.book":
    "Cette copie appartient à un autre livre, « {title} ». Ouvre-la sur la page de ce livre. Rien n’a "
    "changé.",
    "practice.progress.read.not":
    "Ce n’est pas une copie venue de la page d’un livre, ou elle est abîmée dès la première ligne. Rien "
    "n’a changé.",
    "practice.progress.read.long": "Ce fichier est bien plus long que toute copie. Rien n’a changé.",
    "practice.progress.take back": "Retirer ce qui a été lu",
    "practice.progress.taken back": "Tout est comme avant.",
    "practice.progress.not lasting":
    "Ce navigateur ne garde rien ici une fois la page fermée, ou sa mémoire est pleine. Enregistre une "
    "copie avant de la fermer.",
    "practice.teacher.screen": "Pour le professeur",
    "practice.teacher.title": "Une feuille pour un élève",
    "practice.teacher.says":
    "Choisis des phrases et des tonalités pour les jours à venir. La page de ton élève prend son travail "
    "nouveau dans la feuille, et continue avec ce qui est connu.",
    "practice.teacher.phrases": "Les phrases et leurs tonalités",
    "practice.teacher.all keys": "toutes",
    "practice.teacher.keys.n": "(choix : {n})",
    "practice.teacher.week": "Quand, et un mot pour l’accompagner",
    "practice.teacher.from": "À partir du",
    "practice.teacher.for": "Pendant",
    "practice.teacher.days.n": "{n} jours",
    "practice.teacher.minutes": "Minutes par jour",
    "practice.teacher.minutes.free": "au choix de l’élève",
    "practice.teacher.minutes.says": "Ton professeur propose {n} min par jour.",
    "practice.teacher.words": "Tes mots",
    "practice.teacher.made": "La feuille sous forme de code, pour un message",
    "practice.teacher.copy": "Copier le code",
    "practice.teacher.copied": "Copié.",
    "practice.teacher.save": "Enregistrer en fichier",
    "practice.teacher.print": "Imprimer",
    "practice.teacher.print.phrase": "Phrase",
    "practice.teacher.print.keys": "Tonalités",
    "practice.teacher.print.tempo": "Son tempo",
    "practice.teacher.print.notes": "Tes notes",
    "practice.teacher.row": "{title} : {keys}",
    "practice.teacher.days": "du {from} au {to}",
    "practice.teacher.how":
    "Ouvre la page de ton livre, choisis « Aujourd’hui » et colle tout ce texte sous « Une feuille de ton"
    " professeur ».",
    "practice.teacher.have one": "Une feuille de ton professeur",
    "practice.teacher.code": "Colle son code ici",
    "practice.teacher.open": "Ouvrir",
    "practice.teacher.open file": "Ouvrir son fichier",
    "practice.teacher.opened": "La feuille est ouverte.",
    "practice.teacher.yours": "De ton professeur",
    "practice.teacher.put away": "Ranger la feuille",
    "practice.teacher.read.empty": "Il n’y a pas encore de code.",
    "practice.teacher.read.not": "Il n’y a pas de feuille dans ce texte. Le code commence par « {mark} ».",
    "practice.teacher.read.damaged":
    "Une partie du code manque ou a changé en chemin. Copie-le en entier, ou demande le fichier.",
    "practice.teacher.read.book": "Cette feuille appartient à un autre livre, « {title} ».",
    "practice.teacher.read.gone": "Phrases de la feuille que cette édition n’a pas : {n}.",
    "drills": "Exercices",
    "drill.title": "{scale} {pattern}",
    "drill.through": "{pattern} sur {progression}",
    "drill.through.says":
    "Un groupe par accord, à partir de la fondamentale ; quand un accord dure, le groupe redescend. Dis "
    "l'accord en commençant son groupe.",
    "drill.own cell": "avec la cellule {cell}",
    "drill.own cell.says":
    "La cellule {cell} sur chaque degré, en montant ; en descendant, elle se joue en miroir.",
    "drill.up and down": "en montant et en descendant",
    "drill.up and down.says":
    "Toutes les notes de la gamme, jusqu'en haut et retour. Respire avant de redescendre.",
    "drill.in thirds": "par tierces",
    "drill.in thirds.says":
    "Saute une note, reviens d'un degré : toutes les tierces de la gamme, en montant puis en descendant.",
    "drill.in fourths": "par quartes",
    "drill.in fourths.says":
    "Toutes les quartes de la gamme. Écoute laquelle est plus large ou plus étroite que les autres.",
    "drill.in fifths": "par quintes",
    "drill.in fifths.says":
    "Toutes les quintes de la gamme, régulièrement ; laisse la note du bas résonner dans ton oreille.",
    "drill.in sixths": "par sixtes",
    "drill.in sixths.says": "Toutes les sixtes de la gamme. Entends la note du haut avant de la jouer.",
    "drill.in sevenths": "par septièmes",
    "drill.in sevenths.says":
    "Toutes les septièmes de la gamme, lentement : la note du haut aussi pleine que celle du bas.",
    "drill.in triads": "en triades",
    "drill.in triads.says":
    "La triade sur chaque degré, en triolets. Dis majeur, mineur ou diminué au passage.",
    "drill.in seventh chords": "en accords de septième",
    "drill.in seventh chords.says":
    "L'accord de septième sur chaque degré, en montant ; puis chacun depuis sa note du haut, en descendant.",
    "drill.in groups of three": "par groupes de trois",
    "drill.in groups of three.says":
    "Trois notes à partir de chaque degré, en triolets. Appuie la première de chaque groupe.",
    "drill.in groups of four": "par groupes de quatre",
    "drill.in groups of four.says":
    "Quatre notes à partir de chaque degré, en montant ; puis quatre à partir de chaque degré, en "
    "descendant.",
    "drill.in groups of five": "par groupes de cinq",
    "drill.in groups of five.says":
    "Cinq notes à partir de chaque degré, en croches : chaque groupe commence ailleurs dans la mesure.",
    "drill.1 2 3 5": "avec la cellule 1 2 3 5",
    "drill.1 2 3 5.says":
    "Première, deuxième, troisième et cinquième note à partir de chaque degré ; en descendant, la cellule "
    "se joue en miroir.",
    "drill.enclosed": "avec encerclements",
    "drill.enclosed.says":
    "Avant chaque note, la note de la gamme au-dessus et le demi-ton au-dessous. Arrive sur le temps.",
    "drill.from below": "avec approches par demi-ton inférieur",
    "drill.from below.says": "Un demi-ton mène à chaque note. C'est la note d'arrivée qui compte.",
    "drill.symmetric cells": "avec sa cellule répétée",
    "drill.symmetric cells.says":
    "La gamme se répète, et la cellule aussi : apprends-la une fois et déplace la main.",
    "drill.grouped in three": "avec accents par trois",
    "drill.grouped in three.says":
    "Des croches continues, avec un accent toutes les trois notes ; garde le pied sur le temps.",
    "drill.grouped in five": "avec accents par cinq",
    "drill.grouped in five.says":
    "Des croches continues, avec un accent toutes les cinq notes ; garde le pied sur le temps.",
    "drill.grouped in seven": "avec accents par sept",
    "drill.grouped in seven.says":
    "Des croches continues, avec un accent toutes les sept notes ; compte d'abord les temps à voix haute.",
    "drill.off the beat": "avec accents à contretemps",
    "drill.off the beat.says":
    "Des croches continues, la seconde de chaque paire accentuée et attaquée, à la langue ou au médiator.",
    "all in": "Toutes les phrases en {tonic}",
    "proof sheet": "Feuille d'épreuves",
    "proof sheet.says": "Relis chaque partition en la comparant au manuscrit, et coche-la.",
    "sample": "Ceci est un extrait",
    "sample.says": "Tu as lu {n} phrases sur {all}. Le livre entier les contient toutes, faites de même.",
    # Tempo.
    "tempo.slow": "lent", "tempo.medium": "moyen", "tempo.goal": "but", "tempo.step": "palier",
    "tempo.fact": "{n} battements par minute, {feel}", "tempo.fact.free": "{feel}",
    # Devices.
    "device.enclosure": "encerclement", "device.passing note": "note de passage",
    "device.neighbour": "broderie", "device.approach note": "note d'approche",
    "device.anticipation": "anticipation", "device.suspension": "retard",
    "device.leaning note": "appoggiature", "device.escape note": "échappée",
    "device.blue note": "blue note", "device.pedal": "pédale", "device.arpeggio": "arpège",
    "device.run": "trait", "device.sequence": "marche mélodique",
    "device.delayed resolution": "résolution retardée",
    "level.1": "niveau 1, facile", "level.2": "niveau 2", "level.3": "niveau 3", "level.4": "niveau 4",
    "level.5": "niveau 5, difficile",
    # Alternative text of a score.
    "alt.title": "{title} en {key}, {metre}, {tempo}.", "alt.bar": "Mesure {n}, {chords} : {notes}.",
    "alt.pickup": "Levée : {notes}.", "alt.rest": "silence", "alt.note": "{note} {octave}",
    "alt.valued": "{note} ({value})", "alt.next": "{first}, {next}", "alt.tie": "{value} liée",
    "alt.1": "ronde", "alt.2": "blanche", "alt.4": "noire", "alt.8": "croche", "alt.16": "double croche",
    "alt.32": "triple croche", "alt.dotted": "{value} pointée", "alt.triplet": "{value} de triolet",
    "alt.tuplet": "{value}, {actual} pour {normal}",
    "alt.stop": "sur la corde {string}, case {fret}",
    "alt.scale": "{scale} sur {chord} : {notes}.",
    "alt.changes": "Portées vides sous les accords : {changes}.",
    "alt.code": "Code QR du lien {name}",
    "alt.page": "page",
    # How to use this book.
    "advice.edition": "L'édition",
    "advice.edition.concert":
    "Voici l'édition en sons réels : chaque note est écrite comme elle sonne, pour le piano, la guitare, la "
    "flûte, le violon, le vibraphone et tous ceux qui lisent en do. Si une tonalité tombe mal sur ton "
    "instrument, déplace toute la ligne d'une octave et garde son dessin.",
    "advice.edition.reader": "Voici l'{lower title}, en {clef} : {lower says}.",
    "advice.edition.octave": "Certains des instruments qui la lisent sonnent encore une octave plus bas.",
    "advice.edition.keys":
    "Les tonalités portent les noms que tu lis. Le petit nom à côté de chacune est la tonalité réelle : "
    "c'est celle qu'il faut annoncer au piano et à la contrebasse.",
    "advice.edition.register":
    "Dans chaque tonalité, la ligne se trouve à l'octave qui convient le mieux à l'instrument.",
    "advice.edition.tablature":
    "Sous chaque portée se trouve sa tablature : une ligne par corde, la corde 1 en haut, avec la case, 0 "
    "pour la corde à vide. Une case entre parenthèses est liée depuis la mesure précédente. Les cordes sont "
    "accordées ainsi, à partir de la corde 1, en sons réels : {strings}. Les cases sont choisies pour que la "
    "main bouge le moins possible ; si d'autres te conviennent mieux, note-les.",
    "advice.edition.author":
    "Quand le texte de l'auteur nomme des notes, des accords ou des tonalités, ce sont des sons réels.",
    "advice.phrase": "Une phrase par semaine",
    "advice.phrase.says":
    "Chaque phrase commence sur une nouvelle page, dans sa tonalité d'origine. Lis d'abord les accords. "
    "Joue-les, ou au moins leurs tierces et leurs septièmes, jusqu'à les entendre sans instrument ; chante "
    "ensuite la ligne par-dessus, lentement ; alors seulement, joue-la. Ce que tu ne peux pas chanter, tu ne "
    "l'entends pas encore.\n\n"
    "Une phrase sue par cœur dans toutes les tonalités vaut mieux que dix que tu sais lire.",
    "advice.keys": "Les tonalités",
    "advice.keys.one": "La phrase entière est écrite dans une tonalité.",
    "advice.keys.many":
    "Vient ensuite la phrase entière dans {keys} tonalités, chacune nommée à côté de sa portée.",
    "advice.keys.by key":
    "Les premières pages des phrases sont réunies ; viennent ensuite les tonalités une à une, chacune avec "
    "toutes les phrases.",
    "advice.accidentals":
    "Il n'y a pas d'armure : chaque note qui a besoin d'une altération la porte, et celle-ci vaut jusqu'à la "
    "fin de la mesure.",
    "advice.signature":
    "Chaque tonalité a son armure au début de chaque ligne ; une altération vaut jusqu'à la fin de sa "
    "mesure.",
    "advice.method":
    "Apprends la phrase par ce que chaque note est sur son accord, non par son nom : tierce, quinte, "
    "neuvième mineure. Une nouvelle tonalité est alors la même phrase dite avec un autre accent. Prends "
    "trois ou quatre tonalités par jour et reprends demain là où tu en étais. Cache la page dès que tu "
    "peux ; elle est là pour vérifier, pas pour s'y appuyer. Si une tonalité reste difficile, c'est la "
    "prochaine à travailler.",
    "order.fourths":
    "Elles suivent le cycle des quartes, si bien que chaque tonalité est la dominante de la suivante.",
    "order.fifths": "Elles suivent le cycle des quintes.",
    "order.chromatic": "Elles montent par demi-tons.",
    "order.chromatic down": "Elles descendent par demi-tons.",
    "order.whole steps": "Elles montent par tons, six tonalités d'abord, puis les six autres.",
    "order.whole steps down": "Elles descendent par tons, six tonalités d'abord, puis les six autres.",
    "order.minor thirds": "Elles montent par tierces mineures, quatre tonalités à la fois.",
    "order.major thirds": "Elles montent par tierces majeures, trois tonalités à la fois.",
    "advice.signs": "Les signes",
    "signs.degrees":
    "Les petits chiffres sous les notes disent ce qu'une note est sur son accord : 1, 3, 5 et 7 sont "
    "l'accord lui-même, 9, 11 et 13 ses tensions, avec ♭ et ♯ quand elles sont altérées. Quand un degré "
    "demanderait un double bémol ou un nom qui arrête l'œil, comme la ♭9 de D♭, la note simple se trouve "
    "au-dessus de son chiffre.",
    "signs.sparse": "Ils sont placés là où la ligne se pose, et là où le texte parle de la note.",
    "signs.landings":
    "Sur une première page, une petite pointe sous un chiffre marque un appui : un temps fort, ou la "
    "première note d'un nouvel accord. Un crochet fin sous la portée relie les deux notes qui franchissent "
    "une barre de mesure ou mènent à un nouvel accord.",
    "signs.scales":
    "Le nom au-dessus d'un accord est le mode auquel pense la ligne ; il paraît là où le mode change.",
    "signs.ghost": "Une note entre parenthèses est une note fantôme : on la sent plus qu'on ne l'entend.",
    "advice.time": "Le tempo et la mise en place",
    "advice.time.says":
    "Commence au premier tempo de l'échelle, ou plus lentement, et compte une mesure à voix haute avant de "
    "jouer. Après quatre répétitions régulières et détendues, monte de quatre battements par minute ; si "
    "l'une ne l'était pas, redescends de huit. Une fois la ligne en place, mets le clic sur deux et quatre, "
    "puis seulement sur quatre, puis une fois toutes les deux mesures. Le swing vient de la façon de placer "
    "les notes, pas de les presser : enregistre-toi et écoute le lendemain.",
    "advice.yours": "Fais-la tienne",
    "advice.yours.says":
    "Enlève la première note. Commence une croche plus tard. Garde le rythme et change les notes, garde les "
    "notes et change le rythme. Sers-toi de ce que tu trouves dans un morceau le soir même, tant pis si "
    "c'est maladroit.",
    "advice.yours.staves":
    "Écris ce que tu veux sur les portées vides sous la phrase, sous ses accords.",
    "advice.body": "Mains, mâchoire, oreilles",
    "advice.body.says":
    "Repose-toi cinq minutes par demi-heure, et arrête avant la fatigue, pas après. Épaules basses, poignets "
    "droits, mâchoire et souffle libres. La douleur, l'engourdissement ou les fourmillements ne font jamais "
    "partie du travail : pose l'instrument et, si cela revient, consulte ton professeur pour la tenue et un "
    "médecin pour le reste. Au casque, garde un niveau qui te laisse encore entendre quelqu'un te parler ; "
    "des oreilles qui sifflent disent que c'était trop fort trop longtemps.",
}  # fmt: skip

_SHORT_SCALES = {
    "half-whole diminished": "½-1", "whole-half diminished": "1-½", "melodic minor": "min. mél.",
    "harmonic minor": "min. harm.", "harmonic major": "maj. harm.", "lydian dominant": "lyd. ♭7",
    "phrygian dominant": "phryg. maj.", "mixolydian": "mixolyd.", "lydian augmented": "lyd. aug.",
    "locrian natural 2": "locr. béc. 2", "locrian natural 6": "locr. béc. 6",
    "ionian augmented": "ion. aug.", "mixolydian b6": "mixol. ♭6", "mixolydian b2": "mixol. ♭2",
    "bebop melodic minor": "bebop min. mél.", "bebop dominant": "bebop dom.",
    "major pentatonic": "penta. maj.", "minor pentatonic": "penta. min.",
}  # fmt: skip
_PENDING: dict[str, str] = {
    # Rows that are used only where the English table has them: it gains some and loses others.
    **{f"scale.short.{name}": said for name, said in _SHORT_SCALES.items()},
    "date": "{day} {month} {year}",
    "months": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
    "isbn": "ISBN {number}", "tracks": "Pistes audio", "preface": "Préface",
    "acknowledgements": "Remerciements", "about the author": "À propos de l'auteur",
    "cover": "Couverture", "logo": "Marque de l'éditeur", "index.key": "Par tonalité",
    "signs.symbols":
    "Les accords gardent leurs lettres internationales : A est la, B si, C do, et ainsi de suite. Un m ou un "
    "tiret veut dire mineur, maj7 ou un triangle septième majeure, un petit cercle diminué et un cercle "
    "barré demi-diminué ; les altérations sont surélevées.",
    "signs.chords":
    "Les accords gardent leurs lettres internationales : A est la, B si, C do, et ainsi de suite. De plus, "
    "{signs}.",
    "signs.next": "{first} ; {next}",
    "signs.chord.m": "m veut dire mineur", "signs.chord.dash": "un tiret veut dire mineur",
    "signs.chord.maj": "maj est la septième majeure",
    "signs.chord.triangle": "un triangle est la septième majeure",
    "signs.chord.ring": "un petit cercle veut dire diminué",
    "signs.chord.struck ring": "un cercle barré veut dire demi-diminué",
    "signs.chord.plus": "un plus veut dire augmenté",
    "signs.chord.alt": "alt est une dominante dont toutes les tensions sont altérées",
    "signs.chord.sus": "sus a une quarte à la place de la tierce",
    "signs.chord.raised": "ce qui est altéré ou ajouté est surélevé, entre parenthèses",
    "signs.chord.bass": "la lettre après une barre oblique est la basse",
    "signs.scoop": "Un trait qui monte vers une note : tu l'attaques par en dessous.",
    "signs.fall": "Un trait qui descend après une note : tu en laisses glisser la fin.",
    "signs.courtesy":
    "Une altération entre parenthèses n'est qu'un rappel : la note serait la même sans elle.",
    "signs.grace":
    "Une petite note se joue vite, juste avant son temps ou dessus, et ne prend pas de temps à elle.",
    "signs.accent": "Un chevron couché au-dessus d'une note est un accent.",
    "signs.staccato": "Un point au-dessus ou au-dessous d'une note la rend courte.",
    "signs.tenuto": "Un trait au-dessus ou au-dessous d'une note lui laisse toute sa durée.",
    "signs.slur":
    "Une liaison réunit des notes jouées d'un seul coup de langue, d'archet ou de médiator.",
}  # fmt: skip


_SET = {
    part: {
        name: text.replace("'", "’").replace("« ", f"«{_NO_BREAK}").replace(" »", f"{_NO_BREAK}»")
        .replace(" :", f"{_NO_BREAK}:").replace(" ;", f"{_NO_BREAK};")
        for name, text in rows.items()
    }
    for part, rows in (("words", _ROWS), ("pending", _PENDING))
}  # fmt: skip
"""The rows with French apostrophes, and spaces at which no line is broken."""
WORDS: dict[str, str] = _SET["words"]
PENDING: dict[str, str] = _SET["pending"]

SAME: frozenset[str] = frozenset({
    *(name for name in WORDS if name.startswith("progression.") and WORDS[name] == name[12:]),
    "alt.page", "scale.blues", "short scale.blues", "scale.bebop dominant", "short scale.bebop dominant",
    "feel.swing", "feel.shuffle", "feel.bossa", "feel.samba", "feel.latin", "feel.funk", "phrase", "phrases",
    "phrases.few", "device.anticipation", "device.blue note", "isbn", "scale.short.mixolydian",
    "scale.short.bebop dominant", "bundle.version", "errata.note", "errata.tempo",
    # The practice page.
    "practice.plan.minutes.n", "practice.teacher.print.phrase",
})  # fmt: skip
