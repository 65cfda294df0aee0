"""The words of the student's page in Spanish; row format as in `tables.practice_words`.

The terms are common practice, the sentences our own.
"""

from __future__ import annotations

WORDS: dict[str, str] = {
    "practice.skip": "Ir a lo que se estudia",
    "practice.screens": "Qué hacer",
    "practice.close": "Cerrar",
    "practice.missing": "Falta {file} en la carpeta de esta página. Copia la carpeta entera.",
    "practice.old":
    "Este navegador es demasiado viejo para esta página: le falta {what}. Los de 2023 en adelante la abren.",
    "practice.screen.play": "Tocar",
    "practice.screen.ear": "De oído",
    "practice.screen.why": "Por qué funciona",
    "practice.screen.own": "Tu línea",
    "practice.choose.phrase": "¿Qué frase?",
    "practice.choose.key": "¿Qué tonalidad?",
    "practice.choose.search": "Una palabra del título, o el número",
    "practice.reader.asked": "¿Qué parte lees?",
    "practice.reader.instrument": "Tú lees",
    "practice.reader.tuning": "Tu la está afinado a",
    "practice.reader.tuning.n": "{n} Hz",
    "practice.reader.theme": "Papel",
    "practice.reader.theme.system": "como el aparato",
    "practice.reader.theme.light": "claro",
    "practice.reader.theme.dark": "oscuro",
    "practice.play.phrase": "{n} · {title}",
    "practice.play.start": "Tocar",
    "practice.play.stop": "Parar",
    "practice.play.key.before": "La tonalidad anterior",
    "practice.play.key.next": "La tonalidad siguiente",
    "practice.play.tempo": "Tempo",
    "practice.play.tempo.value": "{n} por minuto, {share} %",
    "practice.play.told": "{title}, {key}, {n} pulsos por minuto",
    "practice.play.more": "Quién toca, qué se repite, tu instrumento",
    "practice.play.heard": "Oyes",
    "practice.play.heard.line": "la línea",
    "practice.play.heard.bass": "el bajo",
    "practice.play.heard.comping": "los acordes",
    "practice.play.heard.drums": "la batería",
    "practice.play.heard.click": "un clic en 2 y 4",
    "practice.play.heard.count": "la cuenta de entrada",
    "practice.play.loop": "Una y otra vez",
    "practice.play.loop.whole": "la frase entera",
    "practice.play.loop.bar": "el compás {n}",
    "practice.play.loop.link": "el paso del compás {n} al compás {m}",
    "practice.play.rounds": "Después",
    "practice.play.rounds.stay": "quedarme en esta tonalidad hasta que siga",
    "practice.play.rounds.n": "ir a la tonalidad siguiente tras tantas vueltas: {n}",
    "practice.play.faster": "Más rápido",
    "practice.play.faster.never": "solo cuando yo lo diga",
    "practice.play.faster.n": "un {step} % tras tantas vueltas limpias: {n}",
    "practice.play.faster.says": "Una vuelta cuenta como limpia si no dices lo contrario.",
    "practice.play.faster.not": "Esa no salió limpia: un paso más lento",
    "practice.play.hands":
    "Con las manos ocupadas: pedal adelante, Av Pág o → va a la tonalidad siguiente; pedal atrás, Re Pág o "
    "← a la anterior, o dice «no salió limpia» mientras el tempo crece solo. ↑ y ↓ cambian el tempo, la "
    "barra espaciadora empieza y para, L es la línea, C el clic.",
    "practice.play.ears":
    "Pon los auriculares de modo que aún oigas a quien te hable. Descansa cinco minutos cada media hora, y "
    "deja el instrumento cuando algo duela; tu profesor o un médico sabe más que una página.",
    "practice.ear.says": "Primero el oído, luego la voz, luego el instrumento, y la página al final.",
    "practice.ear.hear": "Escúchala",
    "practice.ear.hear.says": "Dos o tres veces, sin tocar. Marca el pulso.",
    "practice.ear.hear.bar": "Oír el compás {n}",
    "practice.ear.slow": "despacio",
    "practice.ear.chords": "con los acordes",
    "practice.ear.sing": "Cántala",
    "practice.ear.sing.says":
    "De memoria, suave, en la octava que te venga bien. Vuelve a oírla donde se rompa.",
    "practice.ear.first": "Dame la primera nota",
    "practice.ear.find": "Encuéntrala",
    "practice.ear.find.says": "En tu instrumento, desde la primera nota, despacio. Sin prisa y sin fuerza.",
    "practice.ear.see": "Mírala",
    "practice.ear.see.next": "Mostrar el compás {n}",
    "practice.ear.see.all": "Mostrarlo todo",
    "practice.ear.see.none": "Taparla otra vez",
    "practice.ear.listen": "Dejar que la página escuche",
    "practice.ear.listen.stop": "Dejar de escuchar",
    "practice.ear.listen.says":
    "El micrófono oye una nota cada vez, y no siempre la buena: tómalo como ayuda, no como juez. No se "
    "graba nada, y nada sale de este aparato.",
    "practice.ear.listen.none": "Este navegador no deja que la página emplee un micrófono aquí ({why}).",
    "practice.ear.listen.now": "Ahora: {note}",
    "practice.ear.listen.found": "{n} de {of} notas oídas en orden. No oídas con certeza: {missing}.",
    "practice.ear.listen.all": "Las {of} notas oídas, en orden.",
    "practice.ear.listen.nothing": "Aún no se oye nada.",
    "practice.why.says": "Elige una oración: sus notas se marcan, y las oyes.",
    "practice.why.home": "En su tonalidad de origen, {key}.",
    "practice.why.scales": "Las escalas",
    "practice.why.scale": "{name} sobre {chord}",
    "practice.why.scale.hear": "Oír la escala",
    "practice.why.line": "Oír la línea",
    "practice.own.says":
    "Escribe sobre los mismos acordes. Toca el pentagrama para poner una nota; toca una nota para "
    "elegirla. Teclas: ← → van de lugar en lugar, ↑ ↓ mueven una nota un grado, con Mayús un semitono; "
    "Intro pone una, Supr la quita.",
    "practice.own.staff": "Tu línea: un pentagrama con tantos compases: {bars}",
    "practice.own.hear": "Oír tu línea",
    "practice.own.band": "con el grupo",
    "practice.own.clear": "Empezar de nuevo",
    "practice.own.clear.sure": "¿Quitar la línea entera?",
    "practice.own.longer": "Más larga",
    "practice.own.shorter": "Más corta",
    "practice.own.up": "Subir",
    "practice.own.down": "Bajar",
    "practice.own.remove": "Quitar",
    "practice.own.empty": "Compás {bar}, tiempo {beat}: nada todavía.",
    "practice.own.note": "Compás {bar}, tiempo {beat}: {note}, {degree} de {chord}, {kind}{landing}.",
    "practice.own.note.bare": "Compás {bar}, tiempo {beat}: {note}, {kind}{landing}.",
    "practice.own.kind.chord": "nota del acorde",
    "practice.own.kind.scale": "nota de la escala",
    "practice.own.kind.outside": "fuera del acorde y de la escala",
    "practice.own.landing.still": ", un apoyo en reposo",
    "practice.own.landing.colour": ", un apoyo en una nota de color",
    "practice.own.landing.outside": ", un apoyo que nada sostiene: llévalo un semitono más allá",
    "practice.own.count":
    "Notas: {n}, de ellas en el acorde {chord}, en la escala {scale}, fuera {outside}; de los apoyos "
    "({landings}), los que caen en una nota del acorde: {landed}.",
    "practice.own.kept": "Se guarda en este aparato con la frase.",
}  # fmt: skip

SAME = frozenset(("practice.reader.tuning.n", "practice.play.tempo"))
