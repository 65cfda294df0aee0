"""What the proof-reader says in French; row format as in `analysis.naming.tables.findings`.

A note stands behind its article ("Le si", "du la au ré"). What has to be typed stands in quotation marks, as
it is typed. The author is "tu". Apostrophes and spaces that do not break are set below.
Source: the terms are common practice, the sentences are our own.
"""

from __future__ import annotations

_NO_BREAK = "\u00a0"
_SLIPS = ("accidental-slip", "letter-slip")
_RANGES = ("out-of-range", "out-of-reach")

_ROWS: dict[str, str] = {
    "finding.name": "{name}", "finding.typed": "« {typed} »", "finding.quoted": "« {text} »",
    "finding.or": "{first} ou {next}",
    "finding.beats": "{n} temps", "finding.beats.many": "{n} temps", "finding.beats.many.few": "{n} temps",
    "finding.odds.even": "il y a environ une chance sur deux",
    "finding.odds.to one": "il y a environ {n} chances contre une",
    "finding.odds.one in": "il y a environ une chance sur {n}",
    "finding.reader": "l'{lower title}",
    # How a phrase is written.
    "finding.bar-does-not-fill.long": "La mesure {bar} a {beats} de trop.",
    "finding.bar-does-not-fill.short": "Il manque {beats} à la mesure {bar}.",
    "finding.bar-does-not-fill.mend": "Enlève ce qui est de trop, ou ajoute ce qui manque.",
    "finding.tie-to-another-pitch.rest": "Une liaison de prolongation va d'un silence au {to}.",
    "finding.tie-to-another-pitch.note": "Une liaison de prolongation va du {start} au {to}.",
    "finding.tie-to-another-pitch.mend": "Lie deux notes de même hauteur, ou écris une liaison d'expression.",
    "finding.long-phrase": "La phrase compte {n} mesures.",
    "finding.long-phrase.mend": "Divise-la en plusieurs phrases, chacune avec une seule chose à travailler.",
    "finding.misread-accidental.name": "Le {note} risque d'être mal lu.",
    "finding.misread-accidental.two ways": "Le {note} est aussi écrit {other} dans la même mesure.",
    "finding.misread-accidental.mend": "Écris le nom le plus simple.",
    "finding.misread-accidental.mend.plain": "Écris {plain}.",
    "finding.misread-accidental.mend.alike": "Écris les deux de la même façon.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"Le {{note}} est une octave trop {said} par rapport aux notes qui l'entourent : {{odds}} que le "
        "numéro d'octave soit une faute de frappe."
        for way, said in (("low", "bas"), ("high", "haut"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} notes, du {{first}} au {{last}}, sont une octave trop {said} : {{odds}} que le numéro "
        "d'octave soit une faute de frappe."
        for way, said in (("low", "bas"), ("high", "haut"))
    },
    "finding.octave-slip.mend": "Vérifie le numéro d'octave : il vaut jusqu'au suivant.",
    "finding.octave-slip.mend.here": "Écris {typed}.",
    "finding.octave-slip.mend.back": "Écris {typed}, et {after} là où la ligne revient à son octave.",
    **{
        f"finding.{rule}.over":
        "Sur {chord}, le {note} est {degree}. Le {meant} ({would}) irait mieux dans la ligne : {odds} que "
        "ce soit la note voulue."
        for rule in _SLIPS
    },
    **{
        f"finding.{rule}.alone":
        "Le {meant} irait mieux dans la ligne que le {note} : {odds} que ce soit la note voulue."
        for rule in _SLIPS
    },
    "finding.accidental-slip.mend": "Vérifie l'altération.",
    "finding.accidental-slip.mend.meant": "Vérifie l'altération : {meant} ?",
    "finding.accidental-slip.mend.carried":
    "Vérifie l'altération : {meant} ? Ici, une altération ne vaut que pour la note qui la porte.",
    "finding.letter-slip.mend": "Vérifie le nom de la note.",
    "finding.letter-slip.mend.meant": "Vérifie le nom de la note : {meant} ?",
    "finding.doubled-note":
    "Le {note} est écrit deux fois alors que la ligne irait plutôt au {meant} : {odds} qu'il ait été tapé "
    "deux fois par erreur.",
    "finding.doubled-note.mend": "La deuxième fois, écris la note voulue.",
    "finding.doubled-note.mend.meant": "La deuxième fois, écrire {meant} ?",
    "finding.chord-quality-slip.notes":
    "Sur {chord}, la ligne fait entendre {heard} : {odds} que l'accord voulu soit {meant}.",
    "finding.chord-quality-slip.notes and none":
    "Sur {chord}, la ligne fait entendre {heard}, mais pas {lacking} : {odds} que l'accord voulu soit "
    "{meant}.",
    "finding.chord-quality-slip.chords":
    "Les accords autour de {chord} appellent {meant} : {odds} que ce soit l'accord voulu.",
    "finding.chord-quality-slip.mend": "Vérifie le chiffrage de l'accord.",
    "finding.chord-quality-slip.mend.meant": "Vérifie le chiffrage : {typed} ?",
    "finding.changes-shifted.late":
    "{odds} que les accords arrivent une mesure trop tard par rapport à la ligne.",
    "finding.changes-shifted.early":
    "{odds} que les accords arrivent une mesure trop tôt par rapport à la ligne.",
    "finding.changes-shifted.mend": "Vérifie à quelle mesure commencent les accords.",
    "finding.changes-shifted.mend.late": "Écrire les accords une mesure plus tôt ?",
    "finding.changes-shifted.mend.early": "Écrire les accords une mesure plus tard ?",
    # Held notes.
    "finding.chord-contradicted.held": "Sur {chord}, le {note} est {heard}, et il est tenu.",
    "finding.chord-contradicted.into":
    "Le {note} est tenu jusque sur {chord}, où il devient {heard}, étrangère à la gamme.",
    "finding.chord-contradicted.mend": "Change la note ou le chiffrage de l'accord.",
    "finding.chord-contradicted.mend.held": "Change le {note}, ou le chiffrage {typed}.",
    "finding.outside-held": "Sur {chord}, le {note} tenu ({degree}) est étranger à la gamme.",
    "finding.outside-held.mend":
    "Écris une note de l'accord ou de la gamme, ou résous la note tenue par mouvement conjoint.",
    # Scales and harmony.
    "finding.pass-through-held":
    "Le {note}, {degree 2} de {chord}, est tenu alors qu'il est à un demi-ton au-dessus du {below}.",
    "finding.pass-through-held.mend":
    "N'en fais qu'une note de passage, ou résous-le en descendant d'un degré.",
    "finding.pass-through-held.mend.below": "N'en fais qu'une note de passage, ou résous-le sur le {below}.",
    "finding.scale-does-not-fit.one":
    "Sur {chord}, le {notes} est étranger au mode {scale} ; le mode {better} contiendrait davantage de "
    "notes de la ligne.",
    "finding.scale-does-not-fit.many":
    "Sur {chord}, les notes {notes} sont étrangères au mode {scale} ; le mode {better} contiendrait "
    "davantage de notes de la ligne.",
    "finding.scale-does-not-fit.mend": "Indique l'autre mode, ou change les notes.",
    "finding.scale-does-not-fit.mend.better": "Indique {scale} sur {typed}, ou change les notes.",
    "finding.scale-contradicts-chord": "Sur {chord}, le mode {scale} ne contient pas {tones}.",
    "finding.scale-contradicts-chord.tone": "le {note} ({degree})",
    "finding.scale-contradicts-chord.and": "{first} ni {next}",
    "finding.scale-contradicts-chord.mend":
    "Indique un mode qui va avec l'accord, ou change le chiffrage.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Voici ce qu'il y a de plus proche parmi les modes qui vont avec {chord} : {scales}. Sinon, change le "
    "chiffrage.",
    "finding.key-contradicted":
    "La tonalité indiquée est {stated}, mais les accords sont plutôt en {heard}.",
    "finding.key-contradicted.mend":
    "Indique la tonalité que les accords font entendre, ou n'en indique aucune.",
    "finding.key-contradicted.mend.heard": "Indique {typed} comme tonalité, ou n'en indique aucune.",
    # The shape of the line.
    "finding.range.extreme": "Le {note} est dans un registre extrême.",
    "finding.range.wide": "La ligne s'étend sur {n} demi-tons, du {low} au {high}.",
    "finding.range.mend": "Déplace la phrase d'une octave, en entier ou en partie.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "C'est la même phrase que « {title} » (numéro {n}).",
    "finding.duplicate-phrase.moved":
    "C'est la même phrase que « {title} » (numéro {n}), dans une autre tonalité.",
    "finding.duplicate-phrase.mend": "Enlève l'une des deux.",
    "finding.shifted-phrase":
    "C'est la même ligne que « {title} » (numéro {n}), sur d'autres accords ou à partir d'un autre temps.",
    "finding.shifted-phrase.mend": "Dis dans le commentaire que c'est voulu, ou enlève l'une des deux.",
    "finding.silence-names-no-rule": "Aucune règle ne s'appelle « {rule} ».",
    "finding.silence-names-no-rule.mend": "Écris le nom de la règle comme dans la liste.",
    "finding.silence-names-no-rule.mend.near": "Voulais-tu dire {names} ?",
    # Editions.
    "finding.place": "En {key}", "finding.place.concert": "En {key} ({concert} en sons réels)",
    "finding.band": "{low} à {high}",
    "finding.out-of-range.one":
    "{place}, dans {reader}, une note sort de l'étendue complète prévue (en notes écrites : {band}), "
    "même à l'octave la plus favorable.",
    "finding.out-of-range.many":
    "{place}, dans {reader}, {n} notes sortent de l'étendue complète prévue (en notes écrites : {band}), "
    "même à l'octave la plus favorable.",
    "finding.out-of-reach.one":
    "{place}, dans {reader}, une note est injouable (limites en notes écrites : {band}), même à l'octave "
    "la plus favorable.",
    "finding.out-of-reach.many":
    "{place}, dans {reader}, {n} notes sont injouables (limites en notes écrites : {band}), même à l'octave "
    "la plus favorable.",
    **{
        f"finding.{rule}.mend":
        "Autorise un changement d'octave (« fold = true »), enlève cette tonalité, ou rapproche les notes "
        "extrêmes."
        for rule in _RANGES
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Changer d'octave à un silence ou au plus grand saut ne suffit pas non plus : enlève cette "
        "tonalité, ou rapproche les notes extrêmes."
        for rule in _RANGES
    },
    "finding.folded.higher":
    "{place}, dans {reader}, la ligne passe une octave plus haut à partir de la mesure {bar}, temps "
    "{beat}.",
    "finding.folded.lower":
    "{place}, dans {reader}, la ligne passe une octave plus bas à partir de la mesure {bar}, temps "
    "{beat}.",
    "finding.folded.mend": "Si tu ne veux pas de ce changement d'octave, enlève « fold = true ».",
    "finding.off-fingerboard.one":
    "{place}, dans {reader}, une note n'est pas sur le manche (accordage {tuning}, {frets} cases) : la "
    "tablature reste vide à cet endroit.",
    "finding.off-fingerboard.many":
    "{place}, dans {reader}, {n} notes ne sont pas sur le manche (accordage {tuning}, {frets} cases) : la "
    "tablature reste vide à ces endroits.",
    "finding.off-fingerboard.mend":
    "Rapproche les notes extrêmes, enlève cette tonalité, ou indique un autre accordage.",
    "finding.no-tablature.one": "Reste sans tablature : {editions}. Il faut un instrument à frettes.",
    "finding.no-tablature.many": "Restent sans tablature : {editions}. Il faut un instrument à frettes.",
    "finding.no-tablature.not made":
    "Une tablature est demandée pour l'édition {name}, mais cette édition n'est pas produite.",
    "finding.no-tablature.mend":
    "Nomme les éditions qui doivent en avoir une : « tablature = [\"guitar\"] ».",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "Le {written} est imprimé comme tu l'as tapé ; à la lecture, on attend ici un {better}.",
    "finding.stumbling-name.mend": "Écris {better}, ou laisse {written} si c'est bien ce que tu veux.",
    "finding.commentary-names": "Le commentaire dit {said} ; dans la partition, c'est {score}.",
    "finding.commentary-names.mend":
    "Écris {score} dans le commentaire, ou {{{said}}} entre accolades si ce n'est pas un nom de note.",
    "finding.sentence-outdated":
    "Comme la musique qu'il expliquait a changé, ton texte n'est pas imprimé : « {sentence} »",
    "finding.sentence-outdated.mend": "Réécris-le sous l'explication actuelle, ou enlève-le.",
    "finding.untranslated":
    "Le livre est en « {language} », mais certains textes fixes sont en anglais : {left} sur {all}.",
    "finding.untranslated.mend":
    "Traduis les lignes de « docs/language.md » sous « [words] », ou fais taire cette règle si l'anglais est "
    "voulu.",
    "finding.unused-recording": "L'enregistrement « {file} » de « [tracks] » ne remplace aucune piste.",
    "finding.unused-recording.mend":
    "Cette phrase n'a pas de démonstration : regarde « kinds » et « phrases » sous « [tracks] ».",
    "finding.unused-recording.mend.feel":
    "Les styles rythmiques du livre ne comprennent pas celui que la phrase indique elle-même.",
    "finding.unused-recording.mend.there":
    "Les démonstrations de la phrase sont en {keys}, à {tempos} battements par minute.",
    "finding.unused-recording.mend.taken":
    "Les démonstrations de la phrase sont en {keys}, à {tempos} battements par minute. Chacune a déjà son "
    "enregistrement.",
}  # fmt: skip

WORDS: dict[str, str] = {
    name: text.replace("'", "’").replace("« ", f"«{_NO_BREAK}").replace(" »", f"{_NO_BREAK}»")
    .replace(" :", f"{_NO_BREAK}:").replace(" ;", f"{_NO_BREAK};").replace(" ?", f"{_NO_BREAK}?")
    for name, text in _ROWS.items()
}  # fmt: skip

SAME: frozenset[str] = frozenset()
