"""What the proof-reader says in Spanish; row format as in `analysis.naming.tables.findings`.

A note stands behind an article ("El la", "del si al do"), a degree without one, in apposition. What has to be
typed stands in quotation marks, as it is typed. The author is "tú". The terms are common practice, the
sentences our own.
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
    "finding.bar-does-not-fill.long": "El compás {bar} dura {beats} de más.",
    "finding.bar-does-not-fill.short": "El compás {bar} dura {beats} de menos.",
    "finding.bar-does-not-fill.mend": "Quita lo que sobra o añade lo que falta.",
    "finding.tie-to-another-pitch.rest": "Una ligadura de unión va de un silencio al {to}.",
    "finding.tie-to-another-pitch.note": "Una ligadura de unión va del {start} al {to}.",
    "finding.tie-to-another-pitch.mend": "Liga a la misma nota o escribe una ligadura de expresión.",
    "finding.long-phrase": "La frase tiene {n} compases.",
    "finding.long-phrase.mend": "Divídela en varias frases, cada una con una sola cosa que estudiar.",
    "finding.misread-accidental.name": "El {note} se lee mal con facilidad.",
    "finding.misread-accidental.two ways":
    "El {note} está escrito también como {other} en el mismo compás.",
    "finding.misread-accidental.mend": "Escribe el nombre más sencillo.",
    "finding.misread-accidental.mend.plain": "Escribe {plain}.",
    "finding.misread-accidental.mend.alike": "Escribe las dos notas igual.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"El {{note}} queda una octava demasiado {said} para las notas que lo rodean: {{odds}} de que el "
        "número de octava sea un despiste."
        for way, said in (("low", "grave"), ("high", "agudo"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} notas, del {{first}} al {{last}}, quedan una octava demasiado {said}: {{odds}} de que el "
        "número de octava sea un despiste."
        for way, said in (("low", "graves"), ("high", "agudas"))
    },
    "finding.octave-slip.mend": "Revisa el número de octava: vale hasta el siguiente.",
    "finding.octave-slip.mend.here": "Escribe {typed}.",
    "finding.octave-slip.mend.back": "Escribe {typed}, y {after} donde la línea vuelve.",
    **{
        f"finding.{rule}.over":
        "El {note} es {degree} sobre {chord}. A la línea le iría mejor el {meant}, {would}: {odds} de que "
        "fuera esa la nota."
        for rule in _SLIPS
    },
    **{
        f"finding.{rule}.alone":
        "A la línea le iría mejor el {meant} que el {note}: {odds} de que fuera esa la nota."
        for rule in _SLIPS
    },
    "finding.accidental-slip.mend": "Revisa la alteración.",
    "finding.accidental-slip.mend.meant": "Revisa la alteración: ¿{meant}?",
    "finding.accidental-slip.mend.carried":
    "Revisa la alteración: ¿{meant}? Cada alteración vale solo para su nota.",
    "finding.letter-slip.mend": "Revisa la letra.",
    "finding.letter-slip.mend.meant": "Revisa la letra: ¿{meant}?",
    "finding.doubled-note":
    "El {note} está dos veces donde la línea seguiría al {meant}: {odds} de que se haya escrito dos veces "
    "sin querer.",
    "finding.doubled-note.mend": "Escribe la segunda vez la nota que querías.",
    "finding.doubled-note.mend.meant": "La segunda vez, ¿{meant}?",
    "finding.chord-quality-slip.notes":
    "Lo que toca la línea sobre {chord} ({heard}) apunta a {meant}: {odds} de que fuera ese el acorde.",
    "finding.chord-quality-slip.notes and none":
    "Lo que toca la línea sobre {chord} ({heard}, pero no {lacking}) apunta a {meant}: {odds} de que fuera "
    "ese el acorde.",
    "finding.chord-quality-slip.chords":
    "Los acordes alrededor de {chord} piden {meant}: {odds} de que fuera ese el acorde.",
    "finding.chord-quality-slip.mend": "Revisa el cifrado.",
    "finding.chord-quality-slip.mend.meant": "Revisa el cifrado: ¿{typed}?",
    "finding.changes-shifted.late":
    "Parece que los acordes llegan un compás tarde para la línea: {odds}.",
    "finding.changes-shifted.early":
    "Parece que los acordes llegan un compás antes de tiempo para la línea: {odds}.",
    "finding.changes-shifted.mend": "Revisa en qué compás empiezan los acordes.",
    "finding.changes-shifted.mend.late": "¿Escribir los acordes un compás antes?",
    "finding.changes-shifted.mend.early": "¿Escribir los acordes un compás después?",
    # Held notes.
    "finding.chord-contradicted.held": "El {note} es {heard} sobre {chord}, y se mantiene.",
    "finding.chord-contradicted.into":
    "El {note} se mantiene hasta {chord}, donde es {heard}, fuera de la escala.",
    "finding.chord-contradicted.mend": "Cambia la nota o el cifrado.",
    "finding.chord-contradicted.mend.held": "Cambia el {note}, o el cifrado {typed}.",
    "finding.outside-held": "El {note} es {degree} sobre {chord}, fuera de la escala, y se mantiene.",
    "finding.outside-held.mend":
    "Escribe una nota del acorde o de la escala, o deja que resuelva por grado conjunto.",
    # Scales and harmony.
    "finding.pass-through-held":
    "El {note}, {degree} sobre {chord}, se mantiene, y está medio tono por encima del {below}.",
    "finding.pass-through-held.mend": "Pasa por ella sin parar, o resuélvela bajando un grado.",
    "finding.pass-through-held.mend.below": "Pasa por esa nota sin parar, o resuélvela en el {below}.",
    "finding.scale-does-not-fit.one":
    "El {notes} queda fuera de la escala {scale} sobre {chord}; en la escala {better} cabría más de la "
    "línea.",
    "finding.scale-does-not-fit.many":
    "Las notas {notes} quedan fuera de la escala {scale} sobre {chord}; en la escala {better} cabría más de "
    "la línea.",
    "finding.scale-does-not-fit.mend": "Indica la otra escala, o cambia las notas.",
    "finding.scale-does-not-fit.mend.better": "Indica {scale} sobre {typed}, o cambia las notas.",
    "finding.scale-contradicts-chord": "En la escala {scale} no está el {tones} de {chord}.",
    "finding.scale-contradicts-chord.tone": "{note}, {degree}",
    "finding.scale-contradicts-chord.and": "{first}, ni el {next}",
    "finding.scale-contradicts-chord.mend": "Indica una escala que la tenga, o cambia el cifrado.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Las más cercanas de las escalas que van con {chord}: {scales}. O cambia el cifrado.",
    "finding.key-contradicted":
    "La tonalidad indicada es {stated}, pero los acordes apuntan a {heard}.",
    "finding.key-contradicted.mend":
    "Indica la tonalidad a la que apuntan los acordes, o no indiques ninguna.",
    "finding.key-contradicted.mend.heard": "Indica {typed} como tonalidad, o no indiques ninguna.",
    # The shape of the line.
    "finding.range.extreme": "El {note} está en un registro extremo.",
    "finding.range.wide": "La línea abarca {n} semitonos, del {low} al {high}.",
    "finding.range.mend": "Mueve la frase, o una parte, una octava.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "Es la misma frase que «{title}» (número {n}).",
    "finding.duplicate-phrase.moved": "Es la misma frase que «{title}» (número {n}), en otra tonalidad.",
    "finding.duplicate-phrase.mend": "Quita una de las dos.",
    "finding.shifted-phrase":
    "Tiene la misma línea que «{title}» (número {n}), sobre otros acordes o desde otro tiempo.",
    "finding.shifted-phrase.mend": "Di en el comentario que es a propósito, o quita una de las dos.",
    "finding.silence-names-no-rule": "Ninguna regla se llama «{rule}».",
    "finding.silence-names-no-rule.mend": "Escribe el nombre de la regla tal como está en la lista.",
    "finding.silence-names-no-rule.mend.near": "¿Querías decir {names}?",
    # Editions.
    "finding.place": "En {key}", "finding.place.concert": "En {key} (suena en {concert})",
    "finding.band": "{low} a {high}",
    "finding.out-of-range.one":
    "{place}: ni en la mejor octava cabe todo; una nota queda fuera de la extensión completa de {reader}, "
    "escrita de {band}.",
    "finding.out-of-range.many":
    "{place}: ni en la mejor octava cabe todo; {n} notas quedan fuera de la extensión completa de {reader}, "
    "escrita de {band}.",
    "finding.out-of-reach.one":
    "{place}: ni en la mejor octava se puede tocar todo; una nota queda fuera del alcance de {reader}, "
    "escrito de {band}.",
    "finding.out-of-reach.many":
    "{place}: ni en la mejor octava se puede tocar todo; {n} notas quedan fuera del alcance de {reader}, "
    "escrito de {band}.",
    **{
        f"finding.{rule}.mend":
        "Permite un cambio de octava («fold = true»), quita la tonalidad, o acerca las notas extremas."
        for rule in _RANGES
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Tampoco lo arregla un cambio de octava en un silencio o en el salto mayor: quita la tonalidad, o "
        "acerca las notas extremas."
        for rule in _RANGES
    },
    "finding.folded.higher":
    "{place} la línea sigue una octava más arriba desde el compás {bar}, tiempo {beat}, en {reader}.",
    "finding.folded.lower":
    "{place} la línea sigue una octava más abajo desde el compás {bar}, tiempo {beat}, en {reader}.",
    "finding.folded.mend": "Si no quieres el cambio de octava, quita «fold = true».",
    "finding.off-fingerboard.one":
    "{place} hay una nota de {reader} que no está en el diapasón ({tuning}, {frets} trastes): la tablatura "
    "queda ahí vacía.",
    "finding.off-fingerboard.many":
    "{place} hay {n} notas de {reader} que no están en el diapasón ({tuning}, {frets} trastes): la "
    "tablatura queda ahí vacía.",
    "finding.off-fingerboard.mend": "Acércalas, quita la tonalidad, o indica otra afinación.",
    "finding.no-tablature.one":
    "Se queda sin tablatura: {editions}. Hace falta un instrumento con trastes.",
    "finding.no-tablature.many":
    "Se quedan sin tablatura: {editions}. Hace falta un instrumento con trastes.",
    "finding.no-tablature.not made":
    "Se pide tablatura para la edición {name}, que no está entre las que se hacen.",
    "finding.no-tablature.mend":
    "Nombra las ediciones que deben tenerla: «tablature = [\"guitar\"]».",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "El {written} se imprime como lo has escrito; quien lee espera aquí el {better}.",
    "finding.stumbling-name.mend": "Escribe {better}, o déjalo si lo que quieres es {written}.",
    "finding.commentary-names": "El comentario dice {said}; en la partitura está el {score}.",
    "finding.commentary-names.mend":
    "Escribe {score} en el comentario, o pon {{{said}}} entre llaves donde no sea el nombre de una nota.",
    "finding.sentence-outdated":
    "Ha cambiado la música a la que se refería tu frase, por eso no se imprime: «{sentence}»",
    "finding.sentence-outdated.mend": "Escríbela de nuevo para lo que se explica ahora, o quítala.",
    "finding.untranslated":
    "El libro está en «{language}», y {left} de sus {all} textos fijos están en inglés.",
    "finding.untranslated.mend":
    "Traduce las filas de «docs/language.md» bajo «[words]», o silencia esta regla si es lo que quieres.",
    "finding.unused-recording": "La grabación «{file}» de «[tracks]» no sustituye a ninguna pista.",
    "finding.unused-recording.mend":
    "De esta frase no se hace ninguna demostración: mira «kinds» y «phrases» en «[tracks]».",
    "finding.unused-recording.mend.feel":
    "Entre los estilos rítmicos del libro no está el que indica la propia frase.",
    "finding.unused-recording.mend.there":
    "Sus demostraciones están en {keys}, a {tempos} pulsos por minuto.",
    "finding.unused-recording.mend.taken":
    "Sus demostraciones están en {keys}, a {tempos} pulsos por minuto. Cada una tiene ya su grabación.",
}  # fmt: skip

SAME: frozenset[str] = frozenset()
