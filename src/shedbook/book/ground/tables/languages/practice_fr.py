"""The words of the student's page in French; row format as in `tables.practice_words`.

The terms are common practice, the sentences our own.
"""

from __future__ import annotations

WORDS: dict[str, str] = {
    "practice.skip": "Aller à ce que tu travailles",
    "practice.screens": "Que faire",
    "practice.close": "Fermer",
    "practice.missing": "{file} manque dans le dossier de cette page. Copie le dossier entier.",
    "practice.old":
    "Ce navigateur est trop ancien pour cette page : {what} lui manque. Ceux d’après 2023 l’ouvrent.",
    "practice.screen.play": "Jouer",
    "practice.screen.ear": "À l’oreille",
    "practice.screen.why": "Pourquoi ça sonne",
    "practice.screen.own": "Ta ligne",
    "practice.choose.phrase": "Quelle phrase ?",
    "practice.choose.key": "Quelle tonalité ?",
    "practice.choose.search": "Un mot du titre, ou le numéro",
    "practice.reader.asked": "Quelle partie lis-tu ?",
    "practice.reader.instrument": "Tu lis",
    "practice.reader.tuning": "Ton la est accordé à",
    "practice.reader.tuning.n": "{n} Hz",
    "practice.reader.theme": "Papier",
    "practice.reader.theme.system": "comme l’appareil",
    "practice.reader.theme.light": "clair",
    "practice.reader.theme.dark": "sombre",
    "practice.play.phrase": "{n} · {title}",
    "practice.play.start": "Jouer",
    "practice.play.stop": "Arrêter",
    "practice.play.key.before": "La tonalité d’avant",
    "practice.play.key.next": "La tonalité suivante",
    "practice.play.tempo": "Tempo",
    "practice.play.tempo.value": "{n} à la minute, {share} %",
    "practice.play.told": "{title}, {key}, {n} temps à la minute",
    "practice.play.more": "Qui joue, ce qui se répète, ton instrument",
    "practice.play.heard": "Tu entends",
    "practice.play.heard.line": "la ligne",
    "practice.play.heard.bass": "la basse",
    "practice.play.heard.comping": "les accords",
    "practice.play.heard.drums": "la batterie",
    "practice.play.heard.click": "un clic sur 2 et 4",
    "practice.play.heard.count": "le décompte",
    "practice.play.source": "Le son vient de",
    "practice.play.source.page": "cette page",
    "practice.play.source.track": "la piste : {name}",
    "practice.play.source.says":
    "Une piste sonne comme elle a été faite : "
    "ses musiciens, son registre et son accord restent.",
    "practice.play.track.demonstration": "démonstration",
    "practice.play.track.play-along": "accompagnement",
    "practice.play.track.line": "la ligne seule",
    "practice.play.track.click": "la ligne avec un clic",
    "practice.play.track.call-and-answer": "appel et réponse",
    "practice.play.track.no-bass": "sans basse",
    "practice.play.track.no-piano": "sans piano",
    "practice.play.track.no-drums": "sans batterie",
    "practice.play.track.bass-alone": "la basse seule",
    "practice.play.track.piano-alone": "le piano seul",
    "practice.play.track.drums-alone": "la batterie seule",
    "practice.play.loop": "En boucle",
    "practice.play.loop.whole": "toute la phrase",
    "practice.play.loop.bar": "la mesure {n}",
    "practice.play.loop.link": "le passage de la mesure {n} à la mesure {m}",
    "practice.play.rounds": "Ensuite",
    "practice.play.rounds.stay": "rester dans cette tonalité jusqu’à ce que je continue",
    "practice.play.rounds.n": "changer de tonalité après tant de tours : {n}",
    "practice.play.faster": "Plus vite",
    "practice.play.faster.never": "seulement quand je le dis",
    "practice.play.faster.n": "de {step} % après tant de tours propres : {n}",
    "practice.play.faster.says": "Un tour compte comme propre si tu ne dis pas le contraire.",
    "practice.play.faster.not": "Celui-là n’était pas propre : un cran plus lent",
    "practice.play.hands":
    "Les mains prises : pédale avant, Page suivante ou → mène à la tonalité suivante ; pédale arrière, "
    "Page précédente ou ← à celle d’avant, ou dit « pas propre » tant que le tempo monte tout seul. ↑ et ↓ "
    "changent le tempo, la barre d’espace commence et arrête, L est la ligne, C le clic.",
    "practice.play.ears":
    "Règle le casque de façon à entendre encore quelqu’un qui te parle. Repose-toi cinq minutes par "
    "demi-heure, et pose l’instrument dès que quelque chose fait mal ; ton professeur ou un médecin en "
    "sait plus qu’une page.",
    "practice.ear.says": "D’abord l’oreille, puis la voix, puis l’instrument, et la page en dernier.",
    "practice.ear.hear": "Écoute",
    "practice.ear.hear.says": "Deux ou trois fois, sans jouer. Bats la pulsation.",
    "practice.ear.hear.bar": "Écouter la mesure {n}",
    "practice.ear.slow": "lentement",
    "practice.ear.chords": "avec les accords",
    "practice.ear.sing": "Chante",
    "practice.ear.sing.says":
    "De mémoire, doucement, dans l’octave qui te convient. Réécoute là où le fil casse.",
    "practice.ear.first": "Donne-moi la première note",
    "practice.ear.find": "Trouve",
    "practice.ear.find.says":
    "Sur ton instrument, depuis la première note, lentement. Sans hâte et sans forcer.",
    "practice.ear.see": "Regarde",
    "practice.ear.see.next": "Montrer la mesure {n}",
    "practice.ear.see.all": "Tout montrer",
    "practice.ear.see.none": "Recouvrir",
    "practice.ear.listen": "Laisser la page écouter",
    "practice.ear.listen.stop": "Ne plus écouter",
    "practice.ear.listen.says":
    "Le micro entend une note à la fois, et pas toujours la bonne : prends-le comme une aide, pas comme un "
    "juge. Rien n’est enregistré, et rien ne quitte cet appareil.",
    "practice.ear.listen.none": "Ce navigateur ne laisse pas la page utiliser un micro ici ({why}).",
    "practice.ear.listen.now": "Maintenant : {note}",
    "practice.ear.listen.found":
    "{n} notes sur {of} entendues dans l’ordre. Pas entendues à coup sûr : {missing}.",
    "practice.ear.listen.all": "Les {of} notes entendues, dans l’ordre.",
    "practice.ear.listen.nothing": "Rien entendu encore.",
    "practice.why.says": "Choisis une phrase du texte : ses notes sont marquées, et tu les entends.",
    "practice.why.home": "Dans sa tonalité d’origine, {key}.",
    "practice.why.scales": "Les gammes",
    "practice.why.scale": "{name} sur {chord}",
    "practice.why.scale.hear": "Entendre la gamme",
    "practice.why.line": "Entendre la ligne",
    "practice.own.says":
    "Écris sur les mêmes accords. Touche la portée pour y poser une note, touche une note pour la choisir. "
    "Touches : ← → vont d’une place à l’autre, ↑ ↓ déplacent une note d’un degré, avec Maj d’un demi-ton ; "
    "Entrée en pose une, Suppr l’enlève.",
    "practice.own.staff": "Ta ligne : une portée avec tant de mesures : {bars}",
    "practice.own.hear": "Entendre ta ligne",
    "practice.own.band": "avec l’orchestre",
    "practice.own.clear": "Recommencer",
    "practice.own.clear.sure": "Enlever toute la ligne ?",
    "practice.own.longer": "Plus longue",
    "practice.own.shorter": "Plus courte",
    "practice.own.up": "Monter",
    "practice.own.down": "Descendre",
    "practice.own.remove": "Enlever",
    "practice.own.empty": "Mesure {bar}, temps {beat} : rien encore.",
    "practice.own.note": "Mesure {bar}, temps {beat} : {note}, {degree} de {chord}, {kind}{landing}.",
    "practice.own.note.bare": "Mesure {bar}, temps {beat} : {note}, {kind}{landing}.",
    "practice.own.kind.chord": "note de l’accord",
    "practice.own.kind.scale": "note de la gamme",
    "practice.own.kind.outside": "hors de l’accord et de la gamme",
    "practice.own.landing.still": ", un appui au repos",
    "practice.own.landing.colour": ", un appui sur une couleur",
    "practice.own.landing.outside": ", un appui que rien ne tient : mène-le plus loin d’un demi-ton",
    "practice.own.count":
    "Notes : {n}, dont dans l’accord {chord}, dans la gamme {scale}, en dehors {outside} ; sur les appuis "
    "({landings}), ceux qui tombent sur une note de l’accord : {landed}.",
    "practice.own.kept": "Gardée sur cet appareil avec la phrase.",
}  # fmt: skip

SAME = frozenset(("practice.reader.tuning.n", "practice.play.tempo"))
