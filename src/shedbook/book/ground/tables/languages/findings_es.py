"""What the proof-reader says in Spanish; row format as in `analysis.naming.tables.findings`.

A note stands behind an article ("El la", "del si al do"), without one only behind "con" and "sin" and in
quotation marks; a degree stands without one, in apposition or in brackets. What has to be typed stands in
quotation marks, as it is typed. The author is "tú". The terms are common practice, the sentences our own.
"""

from __future__ import annotations

_SLIPS = ("accidental-slip", "letter-slip")
_RANGES = ("out-of-range", "out-of-reach")

WORDS: dict[str, str] = {
    "finding.name": "{name}", "finding.typed": "«{typed}»", "finding.quoted": "«{text}»",
    "finding.or": "{first} o {next}",
    "finding.beats": "{n} tiempo", "finding.beats.many": "{n} tiempos",
    "finding.beats.many.few": "{n} tiempos",
    "finding.odds.even": "hay más o menos una posibilidad entre dos",
    "finding.odds.to one": "hay unas {n} posibilidades contra una",
    "finding.odds.one in": "hay más o menos una posibilidad entre {n}",
    "finding.reader": "la {lower title}",
    # How a phrase is written.
    "finding.bar-does-not-fill.long": "El compás {bar} tiene {beats} de más.",
    "finding.bar-does-not-fill.short": "El compás {bar} tiene {beats} de menos.",
    "finding.bar-does-not-fill.mend": "Quita lo que sobra o añade lo que falta.",
    "finding.tie-to-another-pitch.rest": "Una ligadura de unión va de un silencio al {to}.",
    "finding.tie-to-another-pitch.note": "Una ligadura de unión va del {start} al {to}.",
    "finding.tie-to-another-pitch.mend":
    "Une dos notas de la misma altura o escribe una ligadura de expresión.",
    "finding.long-phrase": "La frase tiene {n} compases.",
    "finding.long-phrase.mend": "Divídela en varias frases, cada una con una sola cosa que estudiar.",
    "finding.misread-accidental.name": "Es fácil leer mal el {note}.",
    "finding.misread-accidental.two ways":
    "El {note} está escrito también como {other} en el mismo compás.",
    "finding.misread-accidental.mend": "Escribe el nombre más sencillo.",
    "finding.misread-accidental.mend.plain": "Escribe un {plain}.",
    "finding.misread-accidental.mend.alike": "Escribe las dos notas igual.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"El {{note}} está una octava más {said} de lo que piden las notas que lo rodean: {{odds}} de que el "
        "número de octava sea un despiste."
        for way, said in (("low", "abajo"), ("high", "arriba"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} notas, del {{first}} al {{last}}, están una octava más {said} de lo debido: {{odds}} de que "
        "el número de octava sea un despiste."
        for way, said in (("low", "abajo"), ("high", "arriba"))
    },
    "finding.octave-slip.mend": "Revisa el número de octava: vale hasta el siguiente.",
    "finding.octave-slip.mend.here": "Escribe {typed}.",
    "finding.octave-slip.mend.back": "Escribe {typed}, y {after} donde la línea vuelve a su registro.",
    **{
        f"finding.{rule}.over":
        "El {note} es {degree} sobre {chord}. A la línea le iría mejor el {meant}, {would 2}: {odds} de que "
        "sea esa la nota que querías."
        for rule in _SLIPS
    },
    **{
        f"finding.{rule}.alone":
        "A la línea le iría mejor el {meant} que el {note}: {odds} de que sea esa la nota que querías."
        for rule in _SLIPS
    },
    "finding.accidental-slip.mend": "Revisa la alteración.",
    "finding.accidental-slip.mend.meant": "Revisa la alteración: ¿no será un {meant}?",
    "finding.accidental-slip.mend.carried":
    "Revisa la alteración: ¿no será un {meant}? Cada alteración vale solo para su nota.",
    "finding.letter-slip.mend": "Revisa la letra de la nota.",
    "finding.letter-slip.mend.meant": "Revisa la letra de la nota: ¿no será un {meant}?",
    "finding.doubled-note":
    "El {note} aparece dos veces donde la línea iría al {meant}: {odds} de que lo hayas repetido sin "
    "querer.",
    "finding.doubled-note.mend": "La segunda vez, escribe la nota que querías.",
    "finding.doubled-note.mend.meant": "La segunda vez, ¿no será un {meant}?",
    "finding.chord-quality-slip.notes":
    "Sobre {chord}, la línea, con {heard}, apunta a {meant}: {odds} de que sea ese el acorde que querías.",
    "finding.chord-quality-slip.notes and none":
    "Sobre {chord}, la línea, con {heard}, pero sin {lacking}, apunta a {meant}: {odds} de que sea ese el "
    "acorde que querías.",
    "finding.chord-quality-slip.chords":
    "Los acordes que rodean a {chord} piden {meant}: {odds} de que sea ese el acorde que querías.",
    "finding.chord-quality-slip.mend": "Revisa el cifrado.",
    "finding.chord-quality-slip.mend.meant": "Revisa el cifrado: ¿no será {typed}?",
    "finding.changes-shifted.late":
    "Parece que los acordes entran un compás tarde respecto a la línea: {odds} de que sea así.",
    "finding.changes-shifted.early":
    "Parece que los acordes entran un compás antes de tiempo respecto a la línea: {odds} de que sea así.",
    "finding.changes-shifted.mend": "Revisa en qué compás empiezan los acordes.",
    "finding.changes-shifted.mend.late": "¿Y si escribes los acordes un compás antes?",
    "finding.changes-shifted.mend.early": "¿Y si escribes los acordes un compás después?",
    # Held notes.
    "finding.chord-contradicted.held": "El {note} es {heard} sobre {chord} y se mantiene.",
    "finding.chord-contradicted.into":
    "El {note} se prolonga sobre {chord}, donde es {heard} y queda fuera de la escala.",
    "finding.chord-contradicted.mend": "Cambia la nota o el cifrado.",
    "finding.chord-contradicted.mend.held": "Cambia el {note} o el cifrado {typed}.",
    "finding.outside-held": "El {note}, {degree} sobre {chord}, está fuera de la escala y se mantiene.",
    "finding.outside-held.mend":
    "Cambia la nota por una del acorde o de la escala, o resuélvela por grado conjunto.",
    # Scales and harmony.
    "finding.pass-through-held":
    "El {note}, {degree} sobre {chord}, se mantiene, aunque está medio tono por encima del {below}.",
    "finding.pass-through-held.mend": "Úsalo solo como nota de paso o resuélvelo bajando un grado.",
    "finding.pass-through-held.mend.below": "Úsalo solo como nota de paso o resuélvelo en el {below}.",
    "finding.scale-does-not-fit.one":
    "El {notes} queda fuera de la escala {scale} sobre {chord}; la escala {better} abarcaría más notas de la "
    "línea.",
    "finding.scale-does-not-fit.many":
    "Las notas {notes} quedan fuera de la escala {scale} sobre {chord}; la escala {better} abarcaría más "
    "notas de la línea.",
    "finding.scale-does-not-fit.mend": "Indica la otra escala o cambia las notas.",
    "finding.scale-does-not-fit.mend.better": "Indica {scale} sobre {typed} o cambia las notas.",
    "finding.scale-contradicts-chord": "La escala {scale} no tiene el {tones} de {chord}.",
    "finding.scale-contradicts-chord.tone": "{note} ({degree})",
    "finding.scale-contradicts-chord.and": "{first} ni el {next}",
    "finding.scale-contradicts-chord.mend": "Indica una escala que tenga lo que falta o cambia el cifrado.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Indica una escala que vaya con {chord} (cerca de la tuya: {scales}) o cambia el cifrado.",
    "finding.key-contradicted":
    "La tonalidad indicada es {stated}, pero los acordes hacen pensar en {heard}.",
    "finding.key-contradicted.mend":
    "Indica la tonalidad a la que apuntan los acordes o no indiques ninguna.",
    "finding.key-contradicted.mend.heard": "Indica {typed} como tonalidad o no indiques ninguna.",
    # The shape of the line.
    "finding.range.extreme": "El {note} está en un registro extremo.",
    "finding.range.wide": "La línea abarca {n} semitonos, del {low} al {high}.",
    "finding.range.mend": "Sube o baja una octava la frase o una parte de ella.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "Es la misma frase que «{title}» (número {n}).",
    "finding.duplicate-phrase.moved": "Es la misma frase que «{title}» (número {n}), en otra tonalidad.",
    "finding.duplicate-phrase.mend": "Quita una de las dos.",
    "finding.shifted-phrase":
    "Tiene la misma línea que «{title}» (número {n}), sobre otros acordes o empezando en otro tiempo.",
    "finding.shifted-phrase.mend": "Di en el comentario que es a propósito, o quita una de las dos.",
    "finding.silence-names-no-rule": "Ninguna regla se llama «{rule}».",
    "finding.silence-names-no-rule.mend": "Escribe el nombre de la regla tal como está en la lista.",
    "finding.silence-names-no-rule.mend.near": "¿Querías decir {names}?",
    # Editions.
    "finding.place": "En {key}", "finding.place.concert": "En {key} (suena en {concert})",
    "finding.band": "del {low} al {high}",
    "finding.out-of-range.one":
    "{place}, en {reader}, aun en la mejor octava, una nota queda fuera de la extensión completa "
    "prevista (en notas escritas, {band}).",
    "finding.out-of-range.many":
    "{place}, en {reader}, aun en la mejor octava, {n} notas quedan fuera de la extensión completa "
    "prevista (en notas escritas, {band}).",
    "finding.out-of-reach.one":
    "{place}, en {reader}, aun en la mejor octava, una nota queda fuera de alcance (en notas escritas, "
    "{band}).",
    "finding.out-of-reach.many":
    "{place}, en {reader}, aun en la mejor octava, {n} notas quedan fuera de alcance (en notas escritas, "
    "{band}).",
    **{
        f"finding.{rule}.mend":
        "Permite un cambio de octava («fold = true»), quita esta tonalidad o acerca las notas extremas a "
        "las demás."
        for rule in _RANGES
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Tampoco lo arregla un cambio de octava en un silencio o en el salto más grande: quita esta "
        "tonalidad o acerca las notas extremas a las demás."
        for rule in _RANGES
    },
    "finding.folded.higher":
    "{place}, la línea sigue una octava más arriba desde el compás {bar}, tiempo {beat}, en {reader}.",
    "finding.folded.lower":
    "{place}, la línea sigue una octava más abajo desde el compás {bar}, tiempo {beat}, en {reader}.",
    "finding.folded.mend": "Si no quieres el cambio de octava, quita «fold = true».",
    "finding.off-fingerboard.one":
    "{place}, una nota de {reader} no está en el diapasón (afinación {tuning}, {frets} trastes): ahí la "
    "tablatura queda vacía.",
    "finding.off-fingerboard.many":
    "{place}, {n} notas de {reader} no están en el diapasón (afinación {tuning}, {frets} trastes): ahí la "
    "tablatura queda vacía.",
    "finding.off-fingerboard.mend":
    "Acerca lo que queda fuera a las demás notas, quita esta tonalidad o indica otra afinación.",
    "finding.no-tablature.one":
    "Esta edición se queda sin tablatura: {editions}. Hace falta un instrumento con trastes.",
    "finding.no-tablature.many":
    "Estas ediciones se quedan sin tablatura: {editions}. Hace falta un instrumento con trastes.",
    "finding.no-tablature.not made":
    "Se pide tablatura para la edición {name}, que no está entre las que se hacen.",
    "finding.no-tablature.mend":
    "Indica qué ediciones deben llevarla: «tablature = [\"guitar\"]».",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "El {written} se imprime tal como lo has escrito, pero quien lee espera aquí un {better}.",
    "finding.stumbling-name.mend": "Escribe un {better}, o deja el {written} si es lo que quieres.",
    "finding.commentary-names":
    "El comentario dice «{said}», pero en la partitura está escrito «{score}».",
    "finding.commentary-names.mend":
    "Escribe «{score}» en el comentario, o «{{{said}}}», entre llaves, si ahí no es el nombre de una nota.",
    "finding.sentence-outdated":
    "Ha cambiado la música de la que hablaba tu texto, así que este no se imprime: «{sentence}»",
    "finding.sentence-outdated.mend": "Vuelve a escribirlo bajo la explicación actual o quítalo.",
    "finding.untranslated":
    "El libro está en «{language}», pero {left} de sus {all} textos fijos están en inglés.",
    "finding.untranslated.mend":
    "Traduce bajo «[words]» las filas de «docs/language.md», o silencia esta regla si las quieres en inglés.",
    "finding.unused-recording": "La grabación «{file}» de «[tracks]» no sustituye a ninguna pista.",
    "finding.unused-recording.mend":
    "De esta frase no se hace ninguna demostración: mira «kinds» y «phrases» en «[tracks]».",
    "finding.unused-recording.mend.feel":
    "Entre los estilos rítmicos del libro no está el que indica la propia frase.",
    "finding.unused-recording.mend.there":
    "Hay demostraciones de la frase en {keys}, a {tempos} pulsos por minuto.",
    "finding.unused-recording.mend.taken":
    "Hay demostraciones de la frase en {keys}, a {tempos} pulsos por minuto. Cada una tiene ya su grabación.",
}  # fmt: skip

SAME: frozenset[str] = frozenset()
