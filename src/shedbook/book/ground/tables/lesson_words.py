"""The fixed words of lesson plans, videos and recording sessions, in every language that ships.

Row format: as `tables.words`, one table a language. In a sentence of these rows a note, a degree, a scale or
a chord stands where no case or gender of the language can show. The wording is our own; the names of things
are common practice.
"""

from __future__ import annotations

EN: dict[str, str] = {
    # A lesson plan: heads, what is said, and in brackets what is done.
    "lesson.title": "Lesson: {book}",
    "lesson.head.opening": "Opening", "lesson.head.closing": "Closing",
    "lesson.today": "Today we play {count} {phrases} from {book}: {titles}.",
    "lesson.changes": "They move over these changes: {progressions}.",
    "lesson.scales": "These are the scales to know: {scales}.",
    "lesson.share": "What they have in common: {things}.",
    "lesson.order": "We begin with the easiest and end with the hardest.",
    "lesson.topic.chords": "The chords and their scales",
    "lesson.chord": "Over {chord} think {scale}: {notes}.",
    "lesson.gives": "To the chord it adds {notes}.",
    "lesson.topic.landings": "On the strong beats",
    "lesson.topic.crossings": "Across the changes",
    "lesson.crossing": "Into {chord}: {move}, {size}.",
    "lesson.crossing.same": "Into {chord}: {note} again.",
    "lesson.crossing.none": "No chord changes under the line.",
    "lesson.topic.outside": "The notes from outside",
    "lesson.outside": "{note}, {device}, on to {goal}.",
    "lesson.outside.alone": "{note}, {device}.",
    "lesson.outside.none": "Every note belongs to the scale over its chord.",
    "lesson.topic.practice": "To practise", "lesson.topic.elsewhere": "Where else it fits",
    "lesson.keys": "In the book it stands in {keys} keys.",
    "lesson.notes": "The notes as they sound: {notes}.",
    "lesson.notes.own": "The same for {instrument}: {notes}.",
    "lesson.cue.play": "Play {title} in {key}, {tempo} beats a minute.",
    "lesson.cue.slow": "Play it slowly, {tempo} beats a minute, and wait at every change.",
    "lesson.cue.practice": "Play what is to be practised.",
    "lesson.cue.band": "Play it twice with the trio, {tempo} beats a minute.",
    "lesson.cue.show": "Show the card {card}.",
    "lesson.time": "Running time: about {time}.",
    "lesson.closing": "All of it stands in {book}. Today's numbers: {numbers}.",
    "lesson.closing.link": "The book is here: {address}",
    "lesson.closing.rest":
    "Rest before you are tired, keep hands, jaw and breath loose, and the headphones low. If something "
    "hurts, stop, and ask your teacher or a doctor.",
    # A video.
    "video": "Video", "video.count-in": "Count-in", "video.round": "Round {n}",
    # A recording session: the sheet, and what is said before a take.
    "session.title": "Recording session: {book}",
    "session.take": "Take", "session.phrase": "Phrase", "session.key": "Key", "session.tempo": "Tempo",
    "session.effort": "Effort", "session.tries": "Tries", "session.keep": "Keep", "session.file": "File",
    "session.rest":
    "Rest {minutes} minutes: put the instrument down, drink, loosen hands, jaw and shoulders.",
    "session.rest.long": "Rest {minutes} minutes: headphones off, out of the room.",
    "session.slate": "Take {n}: {title}, {key}, {tempo}.",
    "session.time": "With rests about {minutes} minutes.",
    "session.says":
    "Warm up before the first take. In the left ear are the count-in and the click, in the right one the "
    "trio: set the level with the click alone, as low as you can follow it, and never raise it when you "
    "get tired. Let the slate of a take sound or say it aloud before you play, then wait two seconds. "
    "Three tries of a take are enough; what does not come then comes tomorrow. Stop when lips, hands or "
    "ears ask for it. If pain, numbness or ringing stays, see your teacher or a doctor. Whoever else is "
    "heard on a recording must have agreed to it.",
}  # fmt: skip

DE: dict[str, str] = {
    "lesson.title": "Unterricht: {book}",
    "lesson.head.opening": "Einstieg", "lesson.head.closing": "Schluss",
    "lesson.today": "Heute spielen wir {count} {phrases} aus {book}: {titles}.",
    "lesson.changes": "Sie gehen über diese Akkordfolgen: {progressions}.",
    "lesson.scales": "Diese Skalen brauchst du: {scales}.",
    "lesson.share": "Das haben sie gemeinsam: {things}.",
    "lesson.order": "Wir fangen mit der leichtesten an und hören mit der schwersten auf.",
    "lesson.topic.chords": "Die Akkorde und ihre Skalen",
    "lesson.chord": "Zu {chord} denkst du dir diese Skala: {scale}. Ihre Töne: {notes}.",
    "lesson.gives": "Zum Akkord kommt dazu: {notes}.",
    "lesson.topic.landings": "Auf den betonten Schlägen",
    "lesson.topic.crossings": "Über die Akkordwechsel",
    "lesson.crossing": "Hinein in {chord}: {move}, {size}.",
    "lesson.crossing.same": "Hinein in {chord}: noch einmal {note}.",
    "lesson.crossing.none": "Unter der Linie wechselt kein Akkord.",
    "lesson.topic.outside": "Die Töne von außerhalb",
    "lesson.outside": "{note}, {device}, danach {goal}.",
    "lesson.outside.alone": "{note}, {device}.",
    "lesson.outside.none": "Jeder Ton gehört zur Skala über seinem Akkord.",
    "lesson.topic.practice": "Zum Üben", "lesson.topic.elsewhere": "Wo es noch passt",
    "lesson.keys": "Im Buch steht sie in {keys} Tonarten.",
    "lesson.notes": "Die Töne, wie sie klingen: {notes}.",
    "lesson.notes.own": "Dasselbe für {instrument}: {notes}.",
    "lesson.cue.play": "Spielen: {title} in {key}, {tempo} Schläge pro Minute.",
    "lesson.cue.slow": "Langsam spielen, {tempo} Schläge pro Minute, an jedem Akkordwechsel warten.",
    "lesson.cue.practice": "Vorspielen, was zu üben ist.",
    "lesson.cue.band": "Zweimal mit dem Trio spielen, {tempo} Schläge pro Minute.",
    "lesson.cue.show": "Karte zeigen: {card}.",
    "lesson.time": "Dauer: etwa {time}.",
    "lesson.closing": "Das alles steht in {book}. Die Nummern von heute: {numbers}.",
    "lesson.closing.link": "Das Buch gibt es hier: {address}",
    "lesson.closing.rest":
    "Mach Pause, bevor du müde bist, halte Hände, Kiefer und Atem locker und den Kopfhörer leise. Wenn "
    "etwas wehtut, hör auf und frag deine Lehrerin, deinen Lehrer oder eine Ärztin.",
    "video": "Film", "video.count-in": "Einzählen", "video.round": "Durchgang {n}",
    "session.title": "Aufnahme: {book}",
    "session.take": "Aufnahme", "session.phrase": "Titel", "session.key": "Tonart",
    "session.tempo": "Schläge", "session.effort": "Mühe", "session.tries": "Versuche",
    "session.keep": "Behalten", "session.file": "Datei",
    "session.rest":
    "{minutes} Minuten Pause: Instrument weg, trinken, Hände, Kiefer und Schultern lockern.",
    "session.rest.long": "{minutes} Minuten Pause: Kopfhörer ab, raus aus dem Raum.",
    "session.slate": "Aufnahme {n}: {title}, {key}, {tempo}.",
    "session.time": "Mit Pausen etwa {minutes} Minuten.",
    "session.says":
    "Spiel dich vor der ersten Aufnahme ein. Links hörst du Einzähler und Klick, rechts das Trio: Stell "
    "die Lautstärke mit dem Klick allein ein, so leise, wie du ihm folgen kannst, und dreh nie lauter, "
    "wenn du müde wirst. Lass die Ansage einer Aufnahme erklingen oder sag sie laut, bevor du spielst, "
    "und warte zwei Sekunden. Drei Versuche sind genug; was dann nicht kommt, kommt morgen. Hör auf, wenn "
    "Lippen, Hände oder Ohren es verlangen. Bleiben Schmerz, Taubheit oder ein Klingeln, geh zu deinem "
    "Lehrer oder zum Arzt. Wer sonst auf einer Aufnahme zu hören ist, muss zugestimmt haben.",
}  # fmt: skip

FR: dict[str, str] = {
    "lesson.title": "Leçon\u00a0: {book}",
    "lesson.head.opening": "Ouverture", "lesson.head.closing": "Pour finir",
    "lesson.today": "Aujourd’hui, {count} {phrases} de {book}\u00a0: {titles}.",
    "lesson.changes": "Les enchaînements\u00a0: {progressions}.",
    "lesson.scales": "Les gammes à connaître\u00a0: {scales}.",
    "lesson.share": "Les points communs\u00a0: {things}.",
    "lesson.order": "On commence par la plus facile et on finit par la plus difficile.",
    "lesson.topic.chords": "Les accords et leurs gammes",
    "lesson.chord": "Sur {chord}, pense à cette gamme\u00a0: {scale}. Ses notes\u00a0: {notes}.",
    "lesson.gives": "À l’accord s’ajoutent\u00a0: {notes}.",
    "lesson.topic.landings": "Sur les temps forts",
    "lesson.topic.crossings": "D’un accord à l’autre",
    "lesson.crossing": "Vers {chord}\u00a0: {move}, {size}.",
    "lesson.crossing.same": "Vers {chord}\u00a0: encore {note}.",
    "lesson.crossing.none": "Aucun accord ne change sous la ligne.",
    "lesson.topic.outside": "Les notes étrangères",
    "lesson.outside": "{note}, {device}, puis {goal}.",
    "lesson.outside.alone": "{note}, {device}.",
    "lesson.outside.none": "Chaque note est dans la gamme de son accord.",
    "lesson.topic.practice": "À travailler", "lesson.topic.elsewhere": "Où elle va aussi",
    "lesson.keys": "Dans le livre, elle est en {keys} tonalités.",
    "lesson.notes": "Les notes réelles\u00a0: {notes}.",
    "lesson.notes.own": "Les mêmes, partie de {instrument}\u00a0: {notes}.",
    "lesson.cue.play": "Jouer {title} en {key}, {tempo} battements par minute.",
    "lesson.cue.slow": "Jouer lentement, {tempo} battements par minute, en s’arrêtant à chaque accord.",
    "lesson.cue.practice": "Jouer ce qui est à travailler.",
    "lesson.cue.band": "Jouer deux fois avec le trio, {tempo} battements par minute.",
    "lesson.cue.show": "Montrer la carte {card}.",
    "lesson.time": "Durée\u00a0: environ {time}.",
    "lesson.closing": "Tout est dans {book}. Les numéros du jour\u00a0: {numbers}.",
    "lesson.closing.link": "Le livre est ici\u00a0: {address}",
    "lesson.closing.rest":
    "Repose-toi avant d’être fatigué, garde les mains, la mâchoire et le souffle souples, et le casque "
    "bas. Si quelque chose fait mal, arrête et demande à ton professeur ou à un médecin.",
    "video": "Vidéo", "video.count-in": "Décompte", "video.round": "Tour {n}",
    "session.title": "Séance d’enregistrement\u00a0: {book}",
    "session.take": "Prise", "session.phrase": "Titre", "session.key": "Tonalité",
    "session.tempo": "Battements", "session.effort": "Effort", "session.tries": "Essais",
    "session.keep": "Garder", "session.file": "Fichier",
    "session.rest":
    "{minutes} minutes de repos\u00a0: pose l’instrument, bois, détends les mains, la mâchoire et les "
    "épaules.",
    "session.rest.long": "{minutes} minutes de repos\u00a0: sans casque, hors de la pièce.",
    "session.slate": "Prise {n}\u00a0: {title}, {key}, {tempo}.",
    "session.time": "Avec les repos, environ {minutes} minutes.",
    "session.says":
    "Échauffe-toi avant la première prise. À gauche, le décompte et le clic\u00a0; à droite, le trio. "
    "Règle le niveau sur le clic seul, aussi bas que tu peux le suivre, et ne monte jamais quand tu "
    "fatigues. Fais sonner l’annonce d’une prise, ou dis-la à voix haute, avant de jouer, puis attends "
    "deux secondes. Trois essais suffisent\u00a0; ce qui ne vient pas viendra demain. Arrête dès que les "
    "lèvres, les mains ou les oreilles le demandent. Si la douleur, l’engourdissement ou un sifflement "
    "reste, vois ton professeur ou un médecin. Toute autre personne que l’on entend doit avoir donné son "
    "accord.",
}  # fmt: skip

ES: dict[str, str] = {
    "lesson.title": "Clase: {book}",
    "lesson.head.opening": "Para empezar", "lesson.head.closing": "Para terminar",
    "lesson.today": "Hoy tocamos {count} {phrases} de {book}: {titles}.",
    "lesson.changes": "Van sobre estas progresiones: {progressions}.",
    "lesson.scales": "Estas son las escalas que hay que saber: {scales}.",
    "lesson.share": "Lo que tienen en común: {things}.",
    "lesson.order": "Empezamos por la más fácil y terminamos con la más difícil.",
    "lesson.topic.chords": "Los acordes y sus escalas",
    "lesson.chord": "Sobre {chord} piensa en esta escala: {scale}. Sus notas: {notes}.",
    "lesson.gives": "Al acorde se suman: {notes}.",
    "lesson.topic.landings": "En los tiempos fuertes",
    "lesson.topic.crossings": "De un acorde a otro",
    "lesson.crossing": "Hacia {chord}: {move}, {size}.",
    "lesson.crossing.same": "Hacia {chord}: otra vez {note}.",
    "lesson.crossing.none": "Bajo la línea no cambia ningún acorde.",
    "lesson.topic.outside": "Las notas de fuera",
    "lesson.outside": "{note}, {device}, y luego {goal}.",
    "lesson.outside.alone": "{note}, {device}.",
    "lesson.outside.none": "Cada nota está en la escala de su acorde.",
    "lesson.topic.practice": "Para estudiar", "lesson.topic.elsewhere": "Dónde más encaja",
    "lesson.keys": "En el libro está en {keys} tonalidades.",
    "lesson.notes": "Las notas como suenan: {notes}.",
    "lesson.notes.own": "Las mismas, parte de {instrument}: {notes}.",
    "lesson.cue.play": "Tocar {title} en {key}, {tempo} pulsos por minuto.",
    "lesson.cue.slow": "Tocar despacio, {tempo} pulsos por minuto, y esperar en cada cambio de acorde.",
    "lesson.cue.practice": "Tocar lo que hay que estudiar.",
    "lesson.cue.band": "Tocar dos veces con el trío, {tempo} pulsos por minuto.",
    "lesson.cue.show": "Mostrar la tarjeta {card}.",
    "lesson.time": "Duración: unos {time}.",
    "lesson.closing": "Todo está en {book}. Los números de hoy: {numbers}.",
    "lesson.closing.link": "El libro está aquí: {address}",
    "lesson.closing.rest":
    "Descansa antes de cansarte, deja sueltas las manos, la mandíbula y la respiración, y los auriculares "
    "bajos. Si algo duele, para y pregunta a tu profesor o a un médico.",
    "video": "Vídeo", "video.count-in": "Cuenta previa", "video.round": "Vuelta {n}",
    "session.title": "Sesión de grabación: {book}",
    "session.take": "Toma", "session.phrase": "Título", "session.key": "Tonalidad",
    "session.tempo": "Pulsos", "session.effort": "Esfuerzo", "session.tries": "Intentos",
    "session.keep": "Guardar", "session.file": "Archivo",
    "session.rest":
    "Descansa {minutes} minutos: deja el instrumento, bebe, suelta las manos, la mandíbula y los hombros.",
    "session.rest.long": "Descansa {minutes} minutos: sin auriculares y fuera de la sala.",
    "session.slate": "Toma {n}: {title}, {key}, {tempo}.",
    "session.time": "Con los descansos, unos {minutes} minutos.",
    "session.says":
    "Calienta antes de la primera toma. En el oído izquierdo están la cuenta y el clic, en el derecho el "
    "trío: ajusta el nivel con el clic solo, tan bajo como puedas seguirlo, y no lo subas nunca cuando te "
    "canses. Haz sonar el aviso de la toma, o dilo en voz alta, antes de tocar, y espera dos segundos. "
    "Tres intentos bastan; lo que no sale hoy sale mañana. Para cuando los labios, las manos o los oídos "
    "lo pidan. Si el dolor, el hormigueo o el zumbido no se va, consulta a tu profesor o a un médico. "
    "Quien más se oiga en una grabación tiene que haber dado su permiso.",
}  # fmt: skip

PT: dict[str, str] = {
    "lesson.title": "Aula: {book}",
    "lesson.head.opening": "Para começar", "lesson.head.closing": "Para terminar",
    "lesson.today": "Hoje tocamos {count} {phrases} de {book}: {titles}.",
    "lesson.changes": "Elas passam por estas progressões: {progressions}.",
    "lesson.scales": "Estas são as escalas a saber: {scales}.",
    "lesson.share": "O que elas têm em comum: {things}.",
    "lesson.order": "Começamos pela mais fácil e terminamos com a mais difícil.",
    "lesson.topic.chords": "Os acordes e suas escalas",
    "lesson.chord": "Sobre {chord}, pense nesta escala: {scale}. Suas notas: {notes}.",
    "lesson.gives": "Ao acorde se somam: {notes}.",
    "lesson.topic.landings": "Nos tempos fortes",
    "lesson.topic.crossings": "De um acorde a outro",
    "lesson.crossing": "Para {chord}: {move}, {size}.",
    "lesson.crossing.same": "Para {chord}: outra vez {note}.",
    "lesson.crossing.none": "Sob a linha nenhum acorde muda.",
    "lesson.topic.outside": "As notas de fora",
    "lesson.outside": "{note}, {device}, e depois {goal}.",
    "lesson.outside.alone": "{note}, {device}.",
    "lesson.outside.none": "Cada nota está na escala do seu acorde.",
    "lesson.topic.practice": "Para estudar", "lesson.topic.elsewhere": "Onde mais ela cabe",
    "lesson.keys": "No livro ela está em {keys} tonalidades.",
    "lesson.notes": "As notas como soam: {notes}.",
    "lesson.notes.own": "As mesmas, parte de {instrument}: {notes}.",
    "lesson.cue.play": "Tocar {title} em {key}, {tempo} pulsos por minuto.",
    "lesson.cue.slow": "Tocar devagar, {tempo} pulsos por minuto, e esperar em cada mudança de acorde.",
    "lesson.cue.practice": "Tocar o que é para estudar.",
    "lesson.cue.band": "Tocar duas vezes com o conjunto, {tempo} pulsos por minuto.",
    "lesson.cue.show": "Mostrar o cartão {card}.",
    "lesson.time": "Duração: cerca de {time}.",
    "lesson.closing": "Tudo está em {book}. Os números de hoje: {numbers}.",
    "lesson.closing.link": "O livro está aqui: {address}",
    "lesson.closing.rest":
    "Descanse antes de se cansar, deixe soltas as mãos, a mandíbula e a respiração, e os fones baixos. Se "
    "algo doer, pare e pergunte ao seu professor ou a um médico.",
    "video": "Vídeo", "video.count-in": "Contagem", "video.round": "Volta {n}",
    "session.title": "Sessão de gravação: {book}",
    "session.take": "Tomada", "session.phrase": "Título", "session.key": "Tonalidade",
    "session.tempo": "Pulsos", "session.effort": "Esforço", "session.tries": "Tentativas",
    "session.keep": "Guardar", "session.file": "Arquivo",
    "session.rest":
    "Descanse {minutes} minutos: largue o instrumento, beba água, solte as mãos, a mandíbula e os ombros.",
    "session.rest.long": "Descanse {minutes} minutos: sem fones e fora da sala.",
    "session.slate": "Tomada {n}: {title}, {key}, {tempo}.",
    "session.time": "Com os descansos, cerca de {minutes} minutos.",
    "session.says":
    "Aqueça antes da primeira tomada. No ouvido esquerdo estão a contagem e o clique, no direito o "
    "conjunto: ajuste o nível só com o clique, tão baixo quanto puder segui-lo, e nunca o aumente quando "
    "se cansar. Faça soar o aviso da tomada, ou diga-o em voz alta, antes de tocar, e espere dois "
    "segundos. Três tentativas bastam; o que não sai hoje sai amanhã. Pare quando os lábios, as mãos ou "
    "os ouvidos pedirem. Se a dor, o formigamento ou o zumbido ficar, procure seu professor ou um médico. "
    "Quem mais se ouvir numa gravação precisa ter concordado.",
}  # fmt: skip

SAME: dict[str, tuple[str, ...]] = {
    "de": (),
    "fr": ("session.effort",),
    "es": (),
    "pt": (),
}
"""Rows that are in a language what they are in English."""
