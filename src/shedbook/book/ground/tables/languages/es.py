"""Every fixed word of a book and of an explanation, in Spanish.

The reader is addressed with "tú". Notes are do re mi in small letters, as the language's spelling has them;
chord symbols stay international. A note stands behind an article ("el la", "del sol al la"), so that no name
is taken for the word "la" or "si". Names of degrees stand without an article, in apposition, their second
form with "su": all of them are feminine. Scales are named as adjectives of "escala" in sentences, and as the
mode in the labels over a staff. Numbers in words count phrases and keys, both feminine.
Source: the names are common practice of Spanish-speaking teachers; the sentences are our own.
"""

from __future__ import annotations

_SIGNED = ("b", "#", "bb", "##")
_NAMES = tuple(f"{letter}{sign}" for sign in _SIGNED for letter in "CDEFGAB")
_NOTES = {"C": "do", "D": "re", "E": "mi", "F": "fa", "G": "sol", "A": "la", "B": "si"}
_OWN_DEGREES = {
    "1": "fundamental", "3": "tercera", "b3": "tercera", "4": "cuarta", "5": "quinta", "b5": "quinta",
    "#5": "quinta", "6": "sexta", "b7": "séptima", "7": "séptima", "bb7": "séptima",
}  # fmt: skip
_DEGREES = {
    "1": "fundamental", "3": "tercera mayor", "b3": "tercera menor", "4": "cuarta", "5": "quinta justa",
    "b5": "quinta disminuida", "#5": "quinta aumentada", "6": "sexta", "b7": "séptima menor",
    "7": "séptima mayor", "bb7": "séptima disminuida", "b9": "novena menor", "9": "novena",
    "#9": "novena aumentada", "11": "oncena", "#11": "oncena aumentada", "b13": "trecena menor",
    "13": "trecena",
}  # fmt: skip
_SIZES = (
    "un unísono", "medio tono", "un tono", "una tercera menor", "una tercera mayor", "una cuarta",
    "un tritono", "una quinta", "una sexta menor", "una sexta mayor", "una séptima menor",
    "una séptima mayor", "una octava",
)  # fmt: skip
_LABELS = {
    "ionian": "jónico", "dorian": "dórico", "phrygian": "frigio", "lydian": "lidio",
    "mixolydian": "mixolidio", "aeolian": "eólico", "locrian": "locrio",
    "melodic minor": "menor melódica", "dorian b2": "dórico ♭2", "lydian augmented": "lidio aumentado",
    "lydian dominant": "lidio dominante", "mixolydian b6": "mixolidio ♭6",
    "locrian natural 2": "locrio con 2 mayor", "altered": "alterada", "harmonic minor": "menor armónica",
    "locrian natural 6": "locrio con 6 mayor", "ionian augmented": "jónico aumentado",
    "dorian #4": "dórico ♯4", "phrygian dominant": "frigio dominante", "lydian #2": "lidio ♯2",
    "altered bb7": "alterada ♭♭7", "harmonic major": "mayor armónica", "dorian b5": "dórico ♭5",
    "phrygian b4": "frigio ♭4", "lydian b3": "lidio ♭3", "mixolydian b2": "mixolidio ♭2",
    "lydian augmented #2": "lidio aumentado ♯2", "locrian bb7": "locrio ♭♭7",
    "half-whole diminished": "disminuida semitono-tono", "whole-half diminished": "disminuida tono-semitono",
    "whole tone": "tonos enteros", "augmented": "aumentada", "bebop dominant": "bebop dominante",
    "bebop major": "bebop mayor", "bebop dorian": "bebop dórico",
    "bebop melodic minor": "bebop menor melódica", "major pentatonic": "pentatónica mayor",
    "minor pentatonic": "pentatónica menor", "blues": "blues", "major blues": "blues mayor",
    "chromatic": "cromática",
}  # fmt: skip
_SAID = {
    "ionian": "jónica", "dorian": "dórica", "phrygian": "frigia", "lydian": "lidia",
    "mixolydian": "mixolidia", "aeolian": "eólica", "locrian": "locria",
    "melodic minor": "menor melódica", "dorian b2": "dórica ♭2", "lydian augmented": "lidia aumentada",
    "lydian dominant": "lidia dominante", "mixolydian b6": "mixolidia ♭6",
    "locrian natural 2": "locria con segunda mayor", "altered": "alterada",
    "harmonic minor": "menor armónica", "locrian natural 6": "locria con sexta mayor",
    "ionian augmented": "jónica aumentada", "dorian #4": "dórica ♯4",
    "phrygian dominant": "frigia dominante", "lydian #2": "lidia ♯2", "altered bb7": "alterada ♭♭7",
    "harmonic major": "mayor armónica", "dorian b5": "dórica ♭5", "phrygian b4": "frigia ♭4",
    "lydian b3": "lidia ♭3", "mixolydian b2": "mixolidia ♭2",
    "lydian augmented #2": "lidia aumentada ♯2", "locrian bb7": "locria ♭♭7",
    "half-whole diminished": "semitono-tono", "whole-half diminished": "tono-semitono",
    "whole tone": "de tonos enteros", "augmented": "aumentada", "bebop dominant": "bebop dominante",
    "bebop major": "bebop mayor", "bebop dorian": "bebop dórica",
    "bebop melodic minor": "bebop menor melódica", "major pentatonic": "pentatónica mayor",
    "minor pentatonic": "pentatónica menor", "blues": "de blues", "major blues": "de blues mayor",
    "chromatic": "cromática",
}  # fmt: skip
_NUMERALS = (
    "ii–V–I", "ii–V", "V–I", "iii–VI–ii–V", "iii–vi–ii–V", "I–VI–ii–V", "I–vi–ii–V", "I–#i°–ii–#ii°",
    "I–#i°–ii–V", "I–biii°–ii–V", "iii–biii°–ii–V", "iii–bIII–ii–bII", "iii–VI–ii–bII", "I–VI–ii–bII",
    "I–bIII–ii–bII", "I–bIII–bVI–bII",
)  # fmt: skip
"""Progressions whose name is numerals alone, the same in every language."""

_PROGRESSIONS = {
    "descending line in minor": "línea descendente en menor",
    "rising line in minor": "línea ascendente en menor",
    "minor ii–V–i": "ii–V–i menor", "minor ii–V": "ii–V menor", "minor V–i": "V–i menor",
    "minor i–viø–iiø–V": "i–viø–iiø–V menor", "minor i–bVI–iiø–V": "i–bVI–iiø–V menor",
    "minor iiiø–VI–iiø–V": "iiiø–VI–iiø–V menor",
    "tritone substitute ii–bII–I": "ii–bII–I con sustituto tritonal",
    "minor tritone substitute iiø–bII–i": "iiø–bII–i menor con sustituto tritonal",
    "tritone substitute ii–bII": "ii–bII con sustituto tritonal",
    "minor tritone substitute iiø–bII": "iiø–bII menor con sustituto tritonal",
    "tritone substitute bII–I": "sustituto tritonal bII–I",
    "tritone substitute bvi–bII–I": "bvi–bII–I con sustituto tritonal",
    "minor tritone substitute bII–i": "sustituto tritonal bII–i menor",
    "backdoor ii–V": "ii–V por la puerta de atrás", "backdoor bVII–I": "bVII–I por la puerta de atrás",
    "cycle of dominants": "ciclo de dominantes", "cycle of three dominants": "ciclo de tres dominantes",
    "secondary dominant II–V–I": "II–V–I con dominante secundario",
    "iiø–V–I borrowed from minor": "iiø–V–I prestado del modo menor",
    "blues I–IV–I": "I–IV–I de blues", "blues IV–I–IV": "IV–I–IV de blues",
    "blues V–IV–I": "V–IV–I de blues", "blues V–I": "V–I de blues",
    "cycle of major thirds": "ciclo de terceras mayores",
    "half a cycle of major thirds": "medio ciclo de terceras mayores",
    "major chords in falling major thirds": "acordes mayores por terceras mayores descendentes",
    "major chords in rising minor thirds": "acordes mayores por terceras menores ascendentes",
    "dominants in rising minor thirds": "dominantes por terceras menores ascendentes",
    "side-slip into ii–V": "ii–V con entrada por semitono",
    "side-slip out of ii–V": "ii–V con salida por semitono",
    "major blues": "blues mayor", "minor blues": "blues menor",
}  # fmt: skip

WORDS: dict[str, str] = {
    # Names of notes, with words and with signs.
    **{f"note.{letter}": name for letter, name in _NOTES.items()},
    "note.flat": "{letter} bemol",
    "note.sharp": "{letter} sostenido",
    "note.double flat": "{letter} doble bemol",
    "note.double sharp": "{letter} doble sostenido",
    **{f"note.{name}": "{usual}" for name in _NAMES},
    **{f"short note.{letter}": name for letter, name in _NOTES.items()},
    "short note.flat": "{letter}♭",
    "short note.sharp": "{letter}♯",
    "short note.double flat": "{letter}♭♭",
    "short note.double sharp": "{letter}♯♯",
    "short note.natural": "{letter}♮",
    **{f"short note.{name}": "{usual}" for name in _NAMES},
    # Chords.
    "chord.symbol": "{symbol}",
    "chord.slash": "/{bass}",
    "chord.minor": "{root}\u00a0menor",
    "chord.none": "ningún acorde",
    "chord.silent": "{symbol}",
    "voice.chord": "{root} {kind}",
    "voice.flat": " bemol {n}",
    "voice.sharp": " sostenido {n}",
    "voice.slash": "{chord} con bajo en {bass}",
    # Degrees, all feminine: without an article, and the second form with "su" ("hasta el mi, su novena").
    **{f"own degree.{degree}": f"{name} | su {name}" for degree, name in _OWN_DEGREES.items()},
    **{f"degree.{degree}": f"{name} | su {name}" for degree, name in _DEGREES.items()},
    **{f"bare own degree.{degree}": name for degree, name in _OWN_DEGREES.items()},
    **{f"bare degree.{degree}": name for degree, name in _DEGREES.items()},
    "degree.over no chord": "sin acorde debajo",
    "degree.of chord": "{degree} de {chord}",
    # Scales: labels, and adjectives of "escala".
    **{f"scale.{name}": label for name, label in _LABELS.items()},
    **{f"short scale.{name}": said for name, said in _SAID.items()},
    "scale.on": "{scale} de {root}",
    # Sizes, numbers, lists.
    **{f"size.{semitones}": name for semitones, name in enumerate(_SIZES)},
    "size.more": "más de una octava",
    "numbers.small": "cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce",
    "list.two": "{first} y {last}",
    "list.more": "{first}, {next}",
    "list.last": "{first} y {last}",
    "sentence": "{Text}",
    # Places. Bars have their article; the prepositions "de" and "a" do not stand before them.
    "beat.half": "contratiempo del {n}",
    "beat.other": "tiempo {n}",
    "beat.on": "en el {beat}",
    "bar": "el compás {n}",
    "bar.pick-up": "la anacrusa",
    "bars.two": "los compases {first} y {last}",
    "bars.many": "los compases {first} a {last}",
    "placed": "en {bar}, {text}",
    "way.up": "hacia arriba", "way.down": "hacia abajo",
    "way.compared up": "más arriba", "way.compared down": "más abajo",
    "move": "del {a} al {b}",
    "no notes": "La frase todavía no tiene notas.",
    # Guide tones.
    "tell.falls.each": "En cada cambio de acorde, una séptima baja a la tercera siguiente: {pairs}.",
    "tell.falls.both": "En los dos cambios de acorde, la séptima baja a la tercera siguiente: {pairs}.",
    "tell.falls.twice": "Dos veces baja una séptima a la tercera del acorde siguiente: {pairs}.",
    "tell.falls.some":
    "En {times} de los cambios de acorde, una séptima baja a la tercera siguiente: {pairs}.",
    "tell.falls.many":
    "En {times} cambios de acorde, una séptima baja a la tercera siguiente; las primeras veces, {pairs}.",
    "tell.fall.half": "El {guide}, {of}, baja medio tono al {goal}, {goal_of}.",
    "tell.fall.whole": "El {guide}, {of}, baja un tono al {goal}, {goal_of}.",
    "tell.fall.through": "El {guide}, {of}, se desliza por el {between} hasta el {goal}, {goal_of}.",
    "tell.fall.late": "El {guide}, {of}, resuelve una nota más tarde en el {goal}, {goal_of}.",
    "tell.guide line.whole":
    "Por debajo de toda la frase corre una sola línea, una tercera o una séptima por acorde: {notes}.",
    "tell.guide line.part":
    "Desde {first} hasta {last} corre por debajo una sola línea, una tercera o una séptima por acorde: "
    "{notes}.",
    "tell.steps": "A cada acorde nuevo se entra por grado conjunto: {pairs}.",
    # Cells, bars and notes that come back.
    "tell.cell.twice": "se repite enseguida la célula {notes}, {size} {way}.",
    "tell.cell.shape": "se repite enseguida el dibujo {notes}, a partir del {second}.",
    "tell.cell.steady": "{times} veces suena la célula {notes}, cada vez {size} {way}.",
    "tell.cell.often": "{times} veces suena el dibujo {notes}, a partir de {starts}.",
    "tell.cell.across":
    "{times} veces suena el dibujo {notes}, que dura tiempo y medio: cada vez empieza en otro lugar del "
    "compás.",
    "tell.staying note":
    "El {note} se mantiene durante {times} acordes y en cada uno significa otra cosa: {meanings}.",
    "tell.echo.one": "{later} empieza como {earlier}, {size} {way}.",
    "tell.echo.whole one": "{later} repite {earlier}, {size} {way}.",
    "tell.echo.same one": "{later} empieza con las mismas notas que {earlier}, ahora sobre {chord}.",
    "tell.echo.whole same one": "{later} repite {earlier} nota por nota, ahora sobre {chord}.",
    "tell.echo.altered":
    "{later} repite {earlier}, pero cambia {old} por {new}: así se oye el paso a {chord}.",
    # The chords that a line hangs on.
    "tell.frame.diminished":
    "Los tiempos fuertes llevan la línea {way} por un acorde de séptima disminuida: {notes}; el resto lo "
    "rellena.",
    "tell.frame.own":
    "Los tiempos fuertes llevan la línea {way} por las notas de {chord}: {notes}; el resto las enlaza.",
    "tell.arpeggio.up":
    "{chord} se despliega hacia arriba desde el {first}, {degree 2}, hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.down":
    "La línea baja por las notas de {chord} desde el {first}, {degree 2}, hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.thirds up":
    "Desde el {first}, {degree} de {chord}, sube por terceras hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.thirds down":
    "Desde el {first}, {degree} de {chord}, baja por terceras hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.start up":
    "Empieza en el {first}, {degree} de {chord}, y sube por el acorde hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.start down":
    "Empieza en el {first}, {degree} de {chord}, y baja por el acorde hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.start thirds up":
    "Empieza en el {first}, {degree} de {chord}, y sube por terceras hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.start thirds down":
    "Empieza en el {first}, {degree} de {chord}, y baja por terceras hasta el {last}, {last_degree 2}.",
    "tell.arpeggio.octave up":
    "Desde el {first}, {degree} de {chord}, sube por el acorde hasta el {last} de la octava de arriba.",
    "tell.arpeggio.octave down":
    "Desde el {first}, {degree} de {chord}, baja por el acorde hasta el {last} de la octava de abajo.",
    "tell.arpeggio.start octave up":
    "Empieza en el {first}, {degree} de {chord}, y sube por el acorde hasta el {last} de la octava de "
    "arriba.",
    "tell.arpeggio.start octave down":
    "Empieza en el {first}, {degree} de {chord}, y baja por el acorde hasta el {last} de la octava de abajo.",
    "tell.fourths.up":
    "Desde el {first}, {degree} de {chord}, sube por cuartas hasta el {last}, {last_degree 2}.",
    "tell.fourths.down":
    "Desde el {first}, {degree} de {chord}, baja por cuartas hasta el {last}, {last_degree 2}.",
    "tell.triad.major": "Sobre {chord} suena la tríada de {root} mayor: {notes} ({meanings}).",
    "tell.triad.minor": "Sobre {chord} suena la tríada de {root} menor: {notes} ({meanings}).",
    "tell.triad.outside major":
    "Sobre {chord} se superpone una tríada que viene de fuera, la de {root} mayor: {notes}.",
    "tell.triad.outside minor":
    "Sobre {chord} se superpone una tríada que viene de fuera, la de {root} menor: {notes}.",
    # Scales, colours, tension.
    "tell.whole.bar": "{bar} reúne todas las notas de la escala {scale}.",
    "tell.whole.chord": "La línea recorre todas las notas de la escala {scale}.",
    "tell.telling.place":
    "Sobre {chord}, escucha el {note}, {degree 2}: es la nota que distingue la escala {scale}; el {tone}, "
    "en cambio, sería de la escala {other}.",
    "tell.telling.only":
    "Sobre {chord}, escucha el {note}, {degree 2}: es una nota de la escala {scale}, no de la escala "
    "{other}.",
    "tell.colours": "Los colores sobre {chord} son las notas {notes}: {degrees}.",
    "tell.colour": "Apóyate en el {note}, {of}: ahí está el color.",
    "tell.only the chord": "Sobre {chord}, la línea toca solo notas del acorde.",
    "tell.tension": "Las notas {notes} ({degrees}) ponen tensión en {chord}; el {goal}, {of}, la resuelve.",
    # Crossings, enclosures, runs.
    "tell.suspended": "El {note} se prolonga sobre {chord} y después baja al {goal}, {degree 2}.",
    "tell.early": "El {note} se adelanta: suena ya como {of}.",
    "tell.led": "El {note} resuelve medio tono {way}, en el {goal}, {of}.",
    "tell.step.half": "El {before} se mueve medio tono {way}, hasta el {goal}, {of}.",
    "tell.step.whole": "El {before} se mueve un tono {way}, hasta el {goal}, {of}.",
    "tell.kept":
    "El {note} se mantiene cuando cambia el acorde: primero suena como {of} y después como {goal_of}.",
    "tell.enclosure.half":
    "El {goal}, {of}, llega rodeado: antes suenan las notas {notes}, a medio tono por cada lado.",
    "tell.enclosure.whole":
    "El {goal}, {of}, llega rodeado: antes suenan las notas {notes}, a un tono por cada lado.",
    "tell.enclosure.any": "El {goal}, {of}, llega rodeado: antes suenan las notas {notes}.",
    "tell.run.step up": "Desde el {first}, la línea sube por grados conjuntos hasta el {last}, {of}.",
    "tell.run.step down": "Desde el {first}, la línea baja por grados conjuntos hasta el {last}, {of}.",
    "tell.run.half steps up": "Desde el {first}, la línea sube por semitonos hasta el {last}, {of}.",
    "tell.run.half steps down": "Desde el {first}, la línea se desliza por semitonos hasta el {last}, {of}.",
    # Single notes.
    "tell.outside.passing note.one":
    "El {note} es ajeno a la escala y está solo de paso, del {before} al {goal}.",
    "tell.outside.passing note.many":
    "Son ajenas a la escala y están solo de paso las notas {notes}: tócalas ligeras.",
    "tell.outside.passing note.same":
    "Cada vez que aparece, el {note} es ajeno a la escala y está solo de paso: tócalo ligero.",
    "tell.outside.approach note.same":
    "Cada vez que aparece, el {note} es ajeno a la escala y resuelve por semitono en la nota siguiente.",
    "tell.outside.neighbour.same":
    "Cada vez que aparece, el {note} es ajeno a la escala: es una bordadura, y la línea vuelve a la nota de "
    "la que salió.",
    "tell.outside.approach note.one":
    "El {note} es ajeno a la escala y resuelve medio tono {way}, en el {goal}, {of}.",
    "tell.outside.approach whole.one": "El {note} es ajeno a la escala y resuelve {way}, en el {goal}, {of}.",
    "tell.outside.approach note.many":
    "Son ajenas a la escala las notas {notes}, y cada una resuelve por semitono en la siguiente.",
    "tell.outside.neighbour.one":
    "El {note} es ajeno a la escala: es una bordadura, la línea sale del {before} y vuelve a él.",
    "tell.outside.neighbour.many":
    "Son ajenas a la escala las notas {notes}: son bordaduras, a medio tono de la nota a la que vuelven.",
    "tell.leaning":
    "El {note} es una apoyatura ajena a la escala: cae en el tiempo y resuelve en el {goal}, {of}.",
    "tell.extra note":
    "El {note} es la nota añadida de la escala {scale}; gracias a ella, las notas de {chord} caen en el "
    "tiempo: {notes}.",
    "tell.blue.note": "El {note} es una nota de blues, {degree} sobre {chord}.",
    "tell.blue.seventh of the minor":
    "El {note}, séptima mayor sobre {chord}, es una pincelada de menor melódica.",
    "tell.blue.bent third":
    "El {note}, tercera mayor sobre {chord}, juega con la tercera menor, como en el blues.",
    "tell.pedal": "El {note} se queda como pedal, ajeno a {chord}.",
    "tell.leap.back":
    "Escucha el salto {way}, del {before} al {after}: es {size}; después la línea vuelve por grado "
    "conjunto.",
    "tell.leap.open": "Escucha el salto {way}, del {before} al {after}, {of}: es {size}.",
    "tell.leap.octave": "El {before} salta una octava {way} y suena como {of}.",
    "tell.top": "La línea llega a lo más alto en el {note}, {of}.",
    "tell.end": "La línea termina en el {note}, {of}, y queda abierta.",
    # Rhythm.
    "tell.late": "La línea espera y entra {when}.",
    "tell.off beats.all": "Todas las notas caen a contratiempo.",
    "tell.off beats.some": "del {first} al {last}, todas las notas caen a contratiempo.",
    "tell.breath.one":
    "Después del {note}, en {bar}, la línea respira; dale al silencio toda su duración.",
    "tell.breath.many":
    "La respiración más larga llega después del {note}, en {bar}; dale toda su duración.",
    # What to practise.
    "tell.practice.frame":
    "Toca primero solo las notas {notes}, cada una en su tiempo fuerte, y después rellena el resto.",
    "tell.practice.frame told":
    "Toca primero solo el acorde de los tiempos fuertes, y después rellena el resto.",
    "tell.practice.guide line":
    "Canta primero sobre los acordes la línea {notes}, y después escúchala dentro de la frase.",
    "tell.practice.guide line told":
    "Canta primero sobre los acordes esa línea sola, y después escúchala dentro de la frase.",
    "tell.practice.guides": "Toca primero solo los pares, {pairs}, y después añade el resto.",
    "tell.practice.guides told":
    "Toca primero solo esas séptimas y terceras, a tiempo, y después añade el resto.",
    "tell.practice.echo": "Aprende primero {earlier}: {later} empiezan igual, {size} {way}.",
    "tell.practice.echo whole": "Aprende primero {earlier}: {later} los repiten, {size} {way}.",
    "tell.practice.echo same": "Aprende primero {earlier}: {later} empiezan con las mismas notas.",
    "tell.practice.echo same whole": "Aprende primero {earlier}: {later} los repiten nota por nota.",
    "tell.practice.cell": "Lleva por toda la escala la célula {notes}, empezando en cada uno de los grados.",
    "tell.practice.cell told": "Lleva la célula por toda la escala, empezando en cada uno de los grados.",
    "tell.practice.skeleton":
    "Toca primero solo las notas {notes}, en los tiempos en que caen: de ellas cuelga todo lo demás.",
    "tell.practice.crossing":
    "Repite, cruzando la barra de compás, el giro {notes}, hasta que el {goal} caiga sin prisa {when}.",
    "tell.practice.crossing inside": "Repite el giro {notes}, hasta que el {goal} llegue sin prisa.",
    "tell.practice.change": "Repite una y otra vez el paso a {chord}: del {before} al {goal}, {degree 2}.",
    "tell.practice.change told":
    "Repite una y otra vez el paso a {chord}, desde un tiempo antes hasta un tiempo después.",
    "tell.practice.leap": "Canta el {before} y el {after} antes de tocar el salto que hay entre los dos.",
    "tell.practice.octave":
    "Practica aparte la octava que empieza en el {before}, hasta que el segundo {after} salga sin pensarlo.",
    "tell.practice.arpeggio": "Antes de tocar la línea, toca subiendo y bajando las notas {notes}.",
    "tell.practice.push":
    "En {bar}, toca primero el {note} justo {when}; después adelántalo, como está escrito.",
    "tell.practice.aim": "Apunta al {note}, {of}, y deja que lo demás te lleve hasta él.",
    "tell.practice.line": "Empieza en el {first}, {of}, y apunta al {last}, {last_of}.",
    "tell.practice.line alone": "Canta el {first} y el {last} antes de tocar.",
    "tell.practice.one note": "Canta el {first} sobre {chord} antes de tocar.",
    "tell.practice.one note alone": "Canta el {first} antes de tocar.",
    # Where else it fits.
    "tell.home.tritone substitute":
    "Lo que tocas sobre {chord} sirve también sobre {other}, su sustituto tritonal: ahí el {third} es la "
    "tercera.",
    "tell.home.tritone substitute with seventh":
    "Lo que tocas sobre {chord} sirve también sobre {other}, su sustituto tritonal: ahí el {third} es la "
    "tercera y el {seventh} es la séptima.",
    "tell.home.minor a fifth up":
    "Lo que tocas sobre {chord} sirve también sobre {other}, el acorde menor que está una quinta más arriba: "
    "el {third} es su tercera.",
    "tell.home.minor a fifth up with seventh":
    "Lo que tocas sobre {chord} sirve también sobre {other}, el acorde menor que está una quinta más arriba: "
    "el {third} es su tercera.",
    "tell.home.same diminished scale":
    "Lo que tocas sobre {chord} sirve también sobre {others}: comparten la escala disminuida.",
    # Names of keys, progressions and feels.
    "mode.major": "mayor",
    "mode.minor": "menor",
    "key": "{tonic} {mode}",
    "tonic.minor": "{tonic}",
    "key.concert": "suena en {tonic}",
    "key.progression": "{progression} en {key}",
    **{f"progression.{name}": name for name in _NUMERALS},
    **{f"progression.{name}": text for name, text in _PROGRESSIONS.items()},
    "feel.swing": "swing", "feel.fast swing": "swing rápido", "feel.shuffle": "shuffle",
    "feel.straight": "corcheas iguales", "feel.ballad": "balada", "feel.bossa": "bossa nova",
    "feel.samba": "samba", "feel.latin": "ritmo latino", "feel.waltz": "vals", "feel.funk": "funk",
    "feel.free": "tempo libre",
    "inside": "{lower text}",
    # Numbers, as they count phrases and keys.
    "numbers":
    "cero una dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis "
    "diecisiete dieciocho diecinueve veinte veintiuna veintidós veintitrés veinticuatro veinticinco "
    "veintiséis veintisiete veintiocho veintinueve",
    "tens": "- - veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa",
    "tens and ones": "{tens} y {ones}",
    # Title page and imprint.
    "phrase": "frase", "phrases": "frases", "phrases.few": "frases",
    "plural.one": "1", "plural.few": "-",
    "phrase.untitled": "Frase {n}",
    "in all keys": "{count} {phrases} en las {keys} tonalidades",
    "in keys": "{count} {phrases} en {keys} tonalidades",
    "in one key": "{count} {phrases} en una tonalidad",
    "edition.title": "Edición para {name}",
    "edition.concert": "Escrita como suena, para instrumentos en do",
    "edition.name.concert": "instrumentos en do", "edition.name.bflat": "instrumentos en si♭",
    "edition.name.eflat": "instrumentos en mi♭", "edition.name.bass": "instrumentos en clave de fa",
    "edition.name.f": "instrumentos en fa",
    "edition.name.flute": "flauta", "edition.name.clarinet": "clarinete",
    "edition.name.bass clarinet": "clarinete bajo", "edition.name.soprano saxophone": "saxofón soprano",
    "edition.name.alto saxophone": "saxofón alto", "edition.name.tenor saxophone": "saxofón tenor",
    "edition.name.baritone saxophone": "saxofón barítono", "edition.name.trumpet": "trompeta",
    "edition.name.flugelhorn": "fliscorno", "edition.name.trombone": "trombón",
    "edition.name.horn in f": "trompa en fa", "edition.name.violin": "violín", "edition.name.viola": "viola",
    "edition.name.cello": "violonchelo", "edition.name.guitar": "guitarra",
    "edition.name.double bass": "contrabajo", "edition.name.electric bass": "bajo eléctrico",
    "edition.name.piano": "piano", "edition.name.vibraphone": "vibráfono",
    "edition.name.soprano voice": "voz de soprano", "edition.name.mezzo-soprano voice": "voz de mezzosoprano",
    "edition.name.alto voice": "voz de contralto", "edition.name.tenor voice": "voz de tenor",
    "edition.name.baritone voice": "voz de barítono", "edition.name.bass voice": "voz de bajo",
    "edition.as it sounds": "Escrita como suena",
    "edition.above": "Escrita {interval} por encima del sonido real",
    "edition.below": "Escrita {interval} por debajo del sonido real",
    "interval.1.1": "una segunda menor", "interval.1.2": "una segunda mayor",
    "interval.2.3": "una tercera menor", "interval.2.4": "una tercera mayor", "interval.3.5": "una cuarta",
    "interval.3.6": "una cuarta aumentada", "interval.4.6": "una quinta disminuida",
    "interval.4.7": "una quinta", "interval.4.8": "una quinta aumentada", "interval.5.8": "una sexta menor",
    "interval.5.9": "una sexta mayor", "interval.6.10": "una séptima menor",
    "interval.6.11": "una séptima mayor",
    "interval.octave": "una octava", "interval.octaves": "dos octavas", "interval.and": "{octaves} y {rest}",
    "clef.G2": "clave de sol", "clef.G2-8": "clave de sol octavada", "clef.F4": "clave de fa",
    "clef.F4-8": "clave de fa octavada", "clef.C3": "clave de do en tercera línea",
    "clef.C4": "clave de do en cuarta línea",
    "words name concert": "Este texto nombra los sonidos reales.",
    "edition.large": "Letra y música grandes",
    "edition.sample": "Muestra gratuita",
    "keywords": "jazz, improvisación, estudio, doce tonalidades",
    "imprint": "Sobre este libro",
    "imprint.music": "Texto y música de {author}.",
    "imprint.sizes": "Pentagrama de {staff} mm, texto de {text} pt.",
    "licensee": "Este ejemplar pertenece a {name}",
    "proof": "prueba",
    "published": "Publicado: {date}.",
    # Heads.
    "contents": "Índice",
    "how to use": "Cómo usar este libro",
    "on the web": "En la red",
    "why it works": "Por qué funciona",
    "scale": "La escala",
    "scales": "Las escalas",
    "tempo": "El tempo",
    "your own": "Tu propia línea sobre estos acordes",
    "listen": "Para oír y ver",
    "indexes": "Índices",
    "index.progression": "Por progresión",
    "index.scale": "Por escala",
    "index.device": "Por recurso",
    "index.difficulty": "Por nivel",
    "checklist": "Tonalidad por tonalidad",
    "checklist.says":
    "Marca una tonalidad cuando hayas tocado en ella la frase tres veces seguidas, de memoria y a tempo.",
    "part": "Parte {n}",
    "part.none": "Otras progresiones",
    "part.no scale": "Sin escala indicada",
    # Drills: what each pattern is called after the name of its scale, and how it is practised.
    # What to practise now.
    "practice.plan.screen": "Hoy",
    "practice.plan.title": "Qué estudiar ahora",
    "practice.plan.minutes": "Minutos que tienes",
    "practice.plan.minutes.n": "{n} minutos",
    "practice.plan.begin": "Empezar",
    "practice.plan.set": "El repertorio de hoy",
    "practice.plan.nothing": "Nada cabe en estos minutos. Toma unos pocos más o déjalo para mañana.",
    "practice.plan.part.warm": "calentamiento",
    "practice.plan.part.new": "nuevo",
    "practice.plan.part.back": "otra vez",
    "practice.plan.part.old": "de antes",
    "practice.plan.part.rest": "Descanso",
    "practice.plan.part.warm.alone": "Notas largas",
    "practice.plan.in": "{title} en {key}",
    "practice.plan.at": "♩ = {n}",
    "practice.plan.phrase": "{n} · {title}",
    "practice.plan.hands":
    "Para si te duele. El dolor, los dedos dormidos, la mandíbula o los labios cansados piden descanso, "
    "no esfuerzo; si vuelven, tu profesor o un médico sabe más que una página.",
    "practice.plan.ears":
    "Tu propio instrumento también suena fuerte: a 94 decibelios, las normas laborales admiten una hora "
    "al día. Pon la banda por debajo de tu sonido, no por encima.",
    "practice.plan.play": "A la partitura",
    "practice.plan.next": "Pasar a lo siguiente",
    "practice.plan.pause": "Parar el reloj",
    "practice.plan.go on": "Poner el reloj en marcha",
    "practice.plan.stop": "Basta por hoy",
    "practice.plan.clock": "{spent} de {whole}",
    "practice.plan.rest.says":
    "Deja el instrumento. Suelta manos, hombros, mandíbula y labios, y dales silencio a tus oídos.",
    "practice.plan.rest.left": "quedan {time}",
    "practice.plan.rest.over": "El descanso ha terminado. Sigue cuando quieras.",
    "practice.plan.warm.says": "Suave y más lento de lo que puedes. Todavía no cuenta nada.",
    "practice.plan.warm.alone.says":
    "Suave, con tu mejor sonido, el grave antes que el agudo. Respira entre una y otra.",
    "practice.plan.over": "Ese era el tiempo de hoy (minutos: {n}). Lo demás te espera.",
    "practice.plan.copy":
    "Esto es lo nuevo desde tu última copia: {n}. Guarda una: un navegador puede borrar lo que conserva.",
    "practice.plan.later": "Más tarde",
    "practice.plan.then": "Después: {what}",
    "practice.plan.went": "¿Cómo fue?",
    "practice.plan.went.apart": "Se deshizo",
    "practice.plan.went.slips": "Aguantó, con tropiezos",
    "practice.plan.went.clean": "Salió limpio",
    "practice.plan.went.sang": "Cantaba",
    "practice.plan.went.kept": "Anotado.",
    "practice.progress.screen": "Cómo vas",
    "practice.progress.title": "Hasta dónde has llegado",
    "practice.progress.tonics": "do re♭ re mi♭ mi fa fa♯ sol la♭ la si♭ si",
    "practice.progress.table": "Frases y tonalidades",
    "practice.progress.legend":
    "El agua llega hasta el tempo en que lo tocaste limpio por última vez; una casilla llena es el tempo "
    "de la frase. Un borde punteado: se va borrando y vuelve al repertorio.",
    "practice.progress.nothing": "Aquí no hay nada todavía: se llena cuando tocas.",
    "practice.progress.counts": "Tonalidades a su tempo: {there}. En camino: {way}. Por conocer: {none}.",
    "practice.progress.cell": "{key}: {n} de {goal}",
    "practice.progress.cell.fading": "{key}: {n} de {goal}, se va borrando",
    "practice.progress.cell.none": "{key}: todavía no",
    "practice.progress.year": "El año",
    "practice.progress.year.month": "Mes",
    "practice.progress.year.minutes": "Minutos de música",
    "practice.progress.year.begun": "Tonalidades vistas",
    "practice.progress.year.there": "A su tempo",
    "practice.progress.year.says": "Los meses sin música no aparecen. Un libro tiene tiempo.",
    "practice.progress.copies": "Una copia para guardar o para otro dispositivo",
    "practice.progress.copies.says":
    "Lo que has tocado se guarda solo en este navegador y no se envía a ninguna parte. Guarda una copia "
    "de vez en cuando; en otro teléfono u ordenador, abre la página de este libro y léela allí. Las dos "
    "se suman y nada se sobrescribe.",
    "practice.progress.copy.save": "Guardar una copia",
    "practice.progress.copy.read": "Leer una copia",
    "practice.progress.copy.saved": "La copia está entre tus descargas.",
    "practice.progress.read": "Leídos: {n} pasos, nuevos aquí {new}.",
    "practice.progress.read.cut":
    "El archivo termina antes de tiempo. Lo anterior está leído; guárdalo otra vez allí de donde viene, "
    "si puedes.",
    "practice.progress.read.bad": "Líneas que no se pudieron leer: {lines}. Todas las demás están leídas.",
    "practice.progress.read.newer":
    "El archivo viene de una página más nueva. Lo que esta no conoce se conserva y va en tus copias.",
    "practice.progress.read.gone": "Pasos por frases que esta edición no tiene: {n}. Se conservan.",
    "practice.progress.read.book":
    "Esta copia es de otro libro, «{title}». Ábrela en la página de ese libro. No ha cambiado nada.",
    "practice.progress.read.not":
    "Esto no es una copia de la página de un libro, o está dañada desde la primera línea. No ha cambiado "
    "nada.",
    "practice.progress.read.long":
    "Este archivo es mucho más largo que cualquier copia. No ha cambiado nada.",
    "practice.progress.take back": "Retirar lo leído",
    "practice.progress.taken back": "Todo está como antes.",
    "practice.progress.not lasting":
    "Este navegador no guarda nada aquí al cerrar la página, o su memoria está llena. Guarda una copia "
    "antes de cerrarla.",
    "practice.teacher.screen": "Para el profesor",
    "practice.teacher.title": "Una hoja para un alumno",
    "practice.teacher.says":
    "Elige frases y tonalidades para los próximos días. La página de tu alumno toma de la hoja el trabajo"
    " nuevo y sigue con lo conocido.",
    "practice.teacher.phrases": "Frases y sus tonalidades",
    "practice.teacher.all keys": "todas",
    "practice.teacher.keys.n": "(elegidas: {n})",
    "practice.teacher.week": "Cuándo, y unas palabras",
    "practice.teacher.from": "Desde",
    "practice.teacher.for": "Durante",
    "practice.teacher.days.n": "{n} días",
    "practice.teacher.minutes": "Minutos al día",
    "practice.teacher.minutes.free": "a gusto del alumno",
    "practice.teacher.minutes.says": "Tu profesor propone {n} minutos al día.",
    "practice.teacher.words": "Tus palabras",
    "practice.teacher.made": "La hoja como código, para un mensaje",
    "practice.teacher.copy": "Copiar el código",
    "practice.teacher.copied": "Copiado.",
    "practice.teacher.save": "Guardar como archivo",
    "practice.teacher.print": "Imprimir",
    "practice.teacher.print.phrase": "Frase",
    "practice.teacher.print.keys": "Tonalidades",
    "practice.teacher.print.tempo": "Su tempo",
    "practice.teacher.print.notes": "Tus notas",
    "practice.teacher.row": "{title}: {keys}",
    "practice.teacher.days": "del {from} al {to}",
    "practice.teacher.how":
    "Abre la página de tu libro, elige «Hoy» y pega todo este texto en «Una hoja de tu profesor».",
    "practice.teacher.have one": "Una hoja de tu profesor",
    "practice.teacher.code": "Pega aquí su código",
    "practice.teacher.open": "Abrir",
    "practice.teacher.open file": "Abrir su archivo",
    "practice.teacher.opened": "La hoja está abierta.",
    "practice.teacher.yours": "De tu profesor",
    "practice.teacher.put away": "Guardar la hoja en el cajón",
    "practice.teacher.read.empty": "Todavía no hay código.",
    "practice.teacher.read.not": "En este texto no hay ninguna hoja. El código empieza por «{mark}».",
    "practice.teacher.read.damaged":
    "Falta una parte del código o cambió por el camino. Cópialo entero o pide el archivo.",
    "practice.teacher.read.book": "Esta hoja es de otro libro, «{title}».",
    "practice.teacher.read.gone": "Frases de la hoja que esta edición no tiene: {n}.",
    "drills": "Ejercicios",
    "drill.title": "{scale} {pattern}",
    "drill.through": "{pattern} sobre {progression}",
    "drill.through.says":
    "Un grupo por acorde, desde la fundamental; si el acorde se alarga, el grupo vuelve a bajar. Di el "
    "acorde al empezar su grupo.",
    "drill.own cell": "con la célula {cell}",
    "drill.own cell.says": "La célula {cell} desde cada grado, subiendo; al bajar se le da la vuelta.",
    "drill.up and down": "subiendo y bajando",
    "drill.up and down.says":
    "Todas las notas de la escala, hasta arriba y de vuelta. Respira al dar la vuelta.",
    "drill.in thirds": "por terceras",
    "drill.in thirds.says":
    "Salta una nota y vuelve un grado atrás: todas las terceras de la escala, primero subiendo y después "
    "bajando.",
    "drill.in fourths": "por cuartas",
    "drill.in fourths.says":
    "Todas las cuartas de la escala. Escucha cuál es más ancha o más estrecha que las demás.",
    "drill.in fifths": "por quintas",
    "drill.in fifths.says":
    "Todas las quintas de la escala, parejas; deja que la nota grave te siga sonando en el oído.",
    "drill.in sixths": "por sextas",
    "drill.in sixths.says": "Todas las sextas de la escala. Oye la nota aguda antes de tocarla.",
    "drill.in sevenths": "por séptimas",
    "drill.in sevenths.says":
    "Todas las séptimas de la escala, despacio: la nota aguda, tan llena como la grave.",
    "drill.in triads": "por tríadas",
    "drill.in triads.says":
    "La tríada de cada grado, en tresillos. Di mayor, menor o disminuida según van pasando.",
    "drill.in seventh chords": "por acordes de séptima",
    "drill.in seventh chords.says":
    "El acorde de séptima de cada grado, subiendo; después cada uno desde su nota más aguda, bajando.",
    "drill.in groups of three": "en grupos de tres",
    "drill.in groups of three.says":
    "Tres notas desde cada grado, en tresillos. Apóyate en la primera de cada grupo.",
    "drill.in groups of four": "en grupos de cuatro",
    "drill.in groups of four.says":
    "Cuatro notas desde cada grado, subiendo; después cuatro desde cada grado, bajando.",
    "drill.in groups of five": "en grupos de cinco",
    "drill.in groups of five.says":
    "Cinco notas desde cada grado, en corcheas: cada grupo empieza en otro lugar del compás.",
    "drill.1 2 3 5": "con la célula 1 2 3 5",
    "drill.1 2 3 5.says":
    "Primera, segunda, tercera y quinta desde cada grado; al bajar se le da la vuelta a la célula.",
    "drill.enclosed": "con notas que rodean",
    "drill.enclosed.says":
    "Antes de cada nota, la de arriba en la escala y el semitono de abajo. Aterriza en el tiempo.",
    "drill.from below": "desde un semitono por debajo",
    "drill.from below.says": "A cada nota la precede un semitono. La nota a la que lleva es la que cuenta.",
    "drill.symmetric cells": "con la célula que se repite",
    "drill.symmetric cells.says":
    "La escala se repite y la célula también: apréndela una vez y desplaza la mano.",
    "drill.grouped in three": "de tres en tres contra el pulso",
    "drill.grouped in three.says":
    "Corcheas seguidas con un acento cada tres notas; que el pie no suelte el pulso.",
    "drill.grouped in five": "de cinco en cinco contra el pulso",
    "drill.grouped in five.says":
    "Corcheas seguidas con un acento cada cinco notas; que el pie no suelte el pulso.",
    "drill.grouped in seven": "de siete en siete contra el pulso",
    "drill.grouped in seven.says":
    "Corcheas seguidas con un acento cada siete notas; cuenta antes el pulso en voz alta.",
    "drill.off the beat": "con los acentos a contratiempo",
    "drill.off the beat.says":
    "Corcheas seguidas: acentúa la segunda de cada par y atácala con la lengua o la púa.",
    "all in": "Todas las frases en {tonic}",
    "proof sheet": "Hoja de pruebas",
    "proof sheet.says": "Coteja cada partitura con el manuscrito y márcala.",
    "sample": "Esto es una muestra",
    "sample.says":
    "Has leído {n} de {all} frases. El libro completo las tiene todas, hechas de la misma manera.",
    # Tempo.
    "tempo.slow": "lento", "tempo.medium": "medio", "tempo.goal": "meta", "tempo.step": "paso",
    "tempo.fact": "{n} pulsos por minuto, {feel}",
    "tempo.fact.free": "{feel}",
    # Devices.
    "device.enclosure": "notas que rodean",
    "device.passing note": "nota de paso",
    "device.neighbour": "bordadura",
    "device.approach note": "nota de aproximación",
    "device.anticipation": "anticipación",
    "device.suspension": "retardo",
    "device.leaning note": "apoyatura",
    "device.escape note": "escapada",
    "device.blue note": "nota de blues",
    "device.pedal": "pedal",
    "device.arpeggio": "arpegio",
    "device.run": "grados conjuntos",
    "device.sequence": "secuencia",
    "device.delayed resolution": "resolución retrasada",
    "level.1": "nivel 1, fácil", "level.2": "nivel 2", "level.3": "nivel 3", "level.4": "nivel 4",
    "level.5": "nivel 5, difícil",
    # Alternative text of a score, for those who hear the page.
    "alt.title": "{title} en {key}, {metre}, {tempo}.",
    "alt.bar": "Compás {n}, {chords}: {notes}.",
    "alt.pickup": "Anacrusa: {notes}.",
    "alt.rest": "silencio",
    "alt.note": "{note} {octave}",
    "alt.valued": "{value} de {note}",
    "alt.next": "{first}, {next}",
    "alt.tie": "{value} ligada",
    "alt.1": "redonda", "alt.2": "blanca", "alt.4": "negra", "alt.8": "corchea", "alt.16": "semicorchea",
    "alt.32": "fusa",
    "alt.dotted": "{value} con puntillo", "alt.triplet": "{value} de tresillo",
    "alt.tuplet": "{value}, {actual} en el tiempo de {normal},",
    "alt.stop": "en la cuerda {string}, traste {fret}",
    "alt.scale": "{scale} sobre {chord}: {notes}.",
    "alt.changes": "Pentagramas vacíos bajo los acordes: {changes}.",
    "alt.code": "Código QR del enlace {name}",
    "alt.page": "página",
    # How to use this book.
    "advice.edition": "La edición",
    "advice.edition.concert":
    "Esta es la edición en sonido real: cada nota está escrita como suena, para piano, guitarra, flauta, "
    "violín, vibráfono y quien lea en do. Si una tonalidad queda incómoda en tu instrumento, cambia de "
    "octava la línea entera y conserva su dibujo.",
    "advice.edition.reader": "Esta es la {lower title}, en {clef}. Cada nota está {says}.",
    "advice.edition.octave": "Algunos de los instrumentos que la leen suenan todavía una octava más abajo.",
    "advice.edition.keys":
    "Las tonalidades llevan el nombre que tú lees. El nombre pequeño que hay al lado es la tonalidad en "
    "sonido real: esa es la que hay que decirles al pianista y al bajista.",
    "advice.edition.register":
    "En cada tonalidad, la línea está en la octava que mejor le va al instrumento.",
    "advice.edition.tablature":
    "Debajo de cada pentagrama está su tablatura: una línea por cuerda, la cuerda 1 arriba, y sobre la "
    "línea el traste, 0 para la cuerda al aire. Un traste entre paréntesis viene ligado del compás "
    "anterior. La afinación, desde la cuerda 1 y tal como suena, es {strings}. Los trastes están elegidos "
    "para que la mano se mueva lo menos posible; si otros te resultan más cómodos, anótalos.",
    "advice.edition.author":
    "Las notas, los acordes y las tonalidades que se nombran en los textos de autor están en sonido real.",
    "advice.phrase": "Una frase por semana",
    "advice.phrase.says":
    "Cada frase empieza en una página propia, en su tonalidad de origen. Lee primero los acordes. Tócalos, o "
    "toca al menos sus terceras y séptimas, hasta que los oigas sin instrumento; después canta la línea "
    "encima, despacio; y solo entonces tócala. Lo que no puedes cantar todavía no lo oyes.\n\n"
    "Una frase que sabes de memoria en todas las tonalidades vale más que diez que puedes leer.",
    "advice.keys": "Las tonalidades",
    "advice.keys.one": "La frase entera aparece en una tonalidad, con su nombre junto al pentagrama.",
    "advice.keys.many":
    "Después del texto viene la frase entera en {keys} tonalidades, cada una con su nombre junto al "
    "pentagrama.",
    "advice.keys.by key":
    "Las primeras páginas están juntas; después viene, tonalidad por tonalidad, cada una con todas las "
    "frases.",
    "advice.accidentals":
    "No hay armadura: cada nota que necesita una alteración la lleva, y vale hasta el final de su compás.",
    "advice.signature":
    "Cada tonalidad tiene su armadura al principio de cada línea; una alteración accidental vale hasta el "
    "final de su compás.",
    "advice.method":
    "Apréndete la frase por lo que es cada nota sobre su acorde, no por su nombre: tercera, quinta, novena "
    "menor. Así, una tonalidad nueva es la misma frase con otro acento. Trabaja tres o cuatro tonalidades al "
    "día y empieza mañana donde lo dejaste. Tapa la página en cuanto puedas; está para comprobar, no para "
    "apoyarte en ella. Si una tonalidad se te resiste, es la próxima que debes estudiar.",
    "order.fourths":
    "Siguen el círculo de cuartas, de modo que la tónica de cada una es el quinto grado de la siguiente.",
    "order.fifths": "Siguen el círculo de quintas.",
    "order.chromatic": "Suben por semitonos.",
    "order.chromatic down": "Bajan por semitonos.",
    "order.whole steps": "Suben por tonos, primero seis tonalidades y después las otras seis.",
    "order.whole steps down": "Bajan por tonos, primero seis tonalidades y después las otras seis.",
    "order.minor thirds": "Suben por terceras menores, de cuatro en cuatro tonalidades.",
    "order.major thirds": "Suben por terceras mayores, de tres en tres tonalidades.",
    "advice.signs": "Los signos",
    "signs.degrees":
    "Las cifras pequeñas debajo de las notas dicen qué es cada nota sobre su acorde: 1, 3, 5 y 7 son el "
    "acorde mismo; 9, 11 y 13, sus tensiones, con bemoles (menor, disminuida) y sostenidos (aumentada) "
    "cuando están alteradas. Si un grado pidiera un doble bemol o un nombre que frena la lectura, como la "
    "novena menor de D♭, sobre su cifra está escrita la nota sencilla.",
    "signs.sparse": "Las cifras están donde aterriza la línea y donde el texto habla de la nota.",
    "signs.landings":
    "En la primera página, una cuña pequeña debajo de una cifra señala un punto de llegada: un tiempo fuerte "
    "o la primera nota sobre un acorde nuevo. Un corchete fino debajo del pentagrama une las dos notas que "
    "cruzan una barra de compás o llevan a un acorde nuevo.",
    "signs.scales":
    "El nombre que hay sobre un acorde es la escala en la que piensa la línea; aparece donde cambia la "
    "escala.",
    "signs.ghost": "Una nota entre paréntesis es una nota fantasma: se siente más de lo que se oye.",
    "advice.time": "El tiempo",
    "advice.time.says":
    "Empieza por el primer tempo de la escalera, o más despacio, y cuenta un compás en voz alta antes de "
    "tocar. Cuando cuatro repeticiones seguidas hayan salido parejas y relajadas, sube cuatro pulsos por "
    "minuto; cuando una no, baja ocho. Cuando la línea esté asentada, deja que el metrónomo suene en el "
    "dos y el cuatro, después solo en el cuatro, después una vez cada dos compases. El swing nace de dónde "
    "colocas las notas, no de correr: grábate y escúchate al día siguiente.",
    "advice.yours": "Hazla tuya",
    "advice.yours.says":
    "Quita la primera nota. Empieza una corchea más tarde. Conserva el ritmo y cambia las notas, conserva "
    "las notas y cambia el ritmo. Usa lo que encuentres en un tema esa misma noche, salga como salga.",
    "advice.yours.staves":
    "Escribe lo que quieras en los pentagramas vacíos que hay debajo de la frase, bajo sus acordes.",
    "advice.body": "Manos, mandíbula, oídos",
    "advice.body.says":
    "Descansa cinco minutos cada media hora y para antes de cansarte, no después. Hombros abajo, muñecas "
    "rectas, mandíbula y respiración sueltas. El dolor, el entumecimiento y el hormigueo nunca son parte del "
    "estudio: deja el instrumento y, si vuelven, consulta la postura con quien te enseña y lo demás, con "
    "un médico. Con auriculares, deja el volumen donde todavía puedas oír a alguien que te hable; si te "
    "zumban los oídos, estaba demasiado alto demasiado tiempo.",
}  # fmt: skip
"""Every row."""

SAME: frozenset[str] = frozenset({
    *(f"progression.{name}" for name in _NUMERALS),
    "feel.swing", "feel.shuffle", "feel.samba", "feel.funk", "scale.blues", "device.pedal", "isbn",
    "errata.tempo",
})  # fmt: skip
"""Rows that are the same in English."""

PENDING: dict[str, str] = {
    "scale.short.half-whole diminished": "semitono-tono",
    "scale.short.whole-half diminished": "tono-semitono",
    "scale.short.melodic minor": "menor mel.", "scale.short.harmonic minor": "menor arm.",
    "scale.short.harmonic major": "mayor arm.", "scale.short.lydian dominant": "lidio domin.",
    "scale.short.phrygian dominant": "frigio domin.", "scale.short.mixolydian": "mixolid.",
    "scale.short.lydian augmented": "lidio aum.", "scale.short.locrian natural 2": "locrio 2 mayor",
    "scale.short.locrian natural 6": "locrio 6 mayor", "scale.short.ionian augmented": "jónico aum.",
    "scale.short.mixolydian b6": "mixolid. ♭6", "scale.short.mixolydian b2": "mixolid. ♭2",
    "scale.short.bebop melodic minor": "bebop menor mel.", "scale.short.bebop dominant": "bebop domin.",
    "scale.short.major pentatonic": "pent. mayor", "scale.short.minor pentatonic": "pent. menor",
    "date": "{day} de {month} de {year}",
    "months": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
    "isbn": "ISBN {number}",
    "tracks": "Pistas",
    "preface": "Prólogo",
    "acknowledgements": "Agradecimientos",
    "about the author": "Quién ha escrito este libro",
    "cover": "Cubierta", "logo": "Sello de la editorial",
    "index.key": "Por tonalidad",
    "signs.symbols":
    "Los acordes se cifran con las letras internacionales: C es do, D re, E mi, F fa, G sol, A la y B si. "
    "Una m o un guion es menor; maj7 o un triángulo, séptima mayor; un círculo pequeño, disminuido, y un "
    "círculo tachado, semidisminuido. Las alteraciones van en superíndice.",
    "signs.chords":
    "Los acordes se cifran con las letras internacionales: C es do, D re, E mi, F fa, G sol, A la y B si. "
    "Además, {signs}.",
    "signs.next": "{first}, {next}",
    "signs.chord.m": "m es menor", "signs.chord.dash": "un guion es menor",
    "signs.chord.maj": "maj es séptima mayor", "signs.chord.triangle": "un triángulo es séptima mayor",
    "signs.chord.ring": "un círculo pequeño es disminuido",
    "signs.chord.struck ring": "un círculo tachado es semidisminuido",
    "signs.chord.plus": "el signo más es aumentado",
    "signs.chord.alt": "alt es un dominante con todas sus tensiones alteradas",
    "signs.chord.sus": "sus tiene la cuarta en lugar de la tercera",
    "signs.chord.raised": "lo alterado o añadido va en superíndice, entre paréntesis",
    "signs.chord.bass": "la letra que sigue a la barra es el bajo",
    "signs.courtesy": "Una alteración entre paréntesis es un recordatorio: valdría igual sin ella.",
    "signs.grace": "Una nota pequeña se toca deprisa, antes de su tiempo o en él, y no ocupa tiempo propio.",
    "signs.fall": "Una línea curva que sale de una nota hacia abajo la deja caer hasta perderse.",
    "signs.scoop": "Una línea curva que sube hasta una nota la alcanza desde abajo.",
    "signs.accent": "Una cuña tumbada sobre una nota es un acento.",
    "signs.staccato": "Un punto encima o debajo de una nota la hace corta.",
    "signs.tenuto": "Una raya encima o debajo de una nota le deja toda su duración.",
    "signs.slur": "Una ligadura de expresión une notas que se atacan una sola vez, con lengua, arco o púa.",
}  # fmt: skip
"""Rows that are used as soon as the English table has them."""
