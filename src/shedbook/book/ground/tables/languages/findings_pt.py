"""What the proof-reader says in Portuguese; row format as in `analysis.naming.tables.findings`.

A note stands behind its article ("O si", "do lá ao ré"), a degree without one, in apposition. What has to be
typed stands in quotation marks, as it is typed. The author is addressed in the form of "você", without the
pronoun. The terms are common practice, the sentences our own.
"""

from __future__ import annotations

_SLIPS = ("accidental-slip", "letter-slip")
_RANGES = ("out-of-range", "out-of-reach")

WORDS: dict[str, str] = {
    "finding.name": "{name}", "finding.typed": "“{typed}”", "finding.quoted": "“{text}”",
    "finding.or": "{first} ou {next}",
    "finding.beats": "{n} tempo", "finding.beats.many": "{n} tempos",
    "finding.beats.many.few": "{n} tempos",
    "finding.odds.even": "há cerca de uma chance em duas",
    "finding.odds.to one": "há cerca de {n} chances contra uma",
    "finding.odds.one in": "há cerca de uma chance em {n}",
    "finding.reader": "a {lower title} | na {lower title} | da {lower title}",
    # How a phrase is written.
    "finding.bar-does-not-fill.long": "O compasso {bar} tem {beats} a mais.",
    "finding.bar-does-not-fill.short": "O compasso {bar} tem {beats} a menos.",
    "finding.bar-does-not-fill.mend": "Tire o que sobra ou acrescente o que falta.",
    "finding.tie-to-another-pitch.rest": "Uma ligadura de prolongamento vai de uma pausa ao {to}.",
    "finding.tie-to-another-pitch.note": "Uma ligadura de prolongamento vai do {start} ao {to}.",
    "finding.tie-to-another-pitch.mend": "Ligue à mesma nota ou escreva uma ligadura de expressão.",
    "finding.long-phrase": "A frase tem {n} compassos.",
    "finding.long-phrase.mend": "Divida-a em várias frases, cada uma com uma só coisa para estudar.",
    "finding.misread-accidental.name": "O {note} engana na leitura.",
    "finding.misread-accidental.two ways":
    "O {note} está escrito também como {other} no mesmo compasso.",
    "finding.misread-accidental.mend": "Use o nome mais simples.",
    "finding.misread-accidental.mend.plain": "Escreva {plain}.",
    "finding.misread-accidental.mend.alike": "Escreva as duas notas da mesma forma.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"O {{note}} está uma oitava {said} do que pedem as notas em volta: {{odds}} de que o número da "
        "oitava esteja errado."
        for way, said in (("low", "abaixo"), ("high", "acima"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} notas, do {{first}} ao {{last}}, estão uma oitava {said} do que deveriam: {{odds}} de que "
        "o número da oitava esteja errado."
        for way, said in (("low", "abaixo"), ("high", "acima"))
    },
    "finding.octave-slip.mend": "Confira o número da oitava: ele vale até o próximo.",
    "finding.octave-slip.mend.here": "Escreva {typed}.",
    "finding.octave-slip.mend.back": "Escreva {typed} e, onde a linha volta à oitava certa, {after}.",
    **{
        f"finding.{rule}.over":
        "O {note} é {degree} sobre {chord}. O {meant}, {would}, ficaria melhor na linha: {odds} de que fosse "
        "essa a nota."
        for rule in _SLIPS
    },
    **{
        f"finding.{rule}.alone":
        "Em vez do {note}, o {meant} ficaria melhor na linha: {odds} de que fosse essa a nota."
        for rule in _SLIPS
    },
    "finding.accidental-slip.mend": "Confira o acidente.",
    "finding.accidental-slip.mend.meant": "Confira o acidente: seria {meant}?",
    "finding.accidental-slip.mend.carried":
    "Confira o acidente: seria {meant}? Cada acidente vale só para a nota em que está.",
    "finding.letter-slip.mend": "Confira a letra da nota.",
    "finding.letter-slip.mend.meant": "Confira a letra da nota: seria {meant}?",
    "finding.doubled-note":
    "O {note} aparece duas vezes onde a linha seguiria para o {meant}: {odds} de que tenha sido repetido por "
    "engano.",
    "finding.doubled-note.mend": "Na segunda vez, escreva a nota que queria.",
    "finding.doubled-note.mend.meant": "Na segunda vez, seria {meant}?",
    "finding.chord-quality-slip.notes":
    "O que se toca sobre {chord} ({heard}) aponta para {meant}: {odds} de que fosse esse o acorde.",
    "finding.chord-quality-slip.notes and none":
    "O que se toca sobre {chord} (com {heard}, sem {lacking}) aponta para {meant}: {odds} de que fosse "
    "esse o acorde.",
    "finding.chord-quality-slip.chords":
    "Os acordes em volta de {chord} pedem {meant}: {odds} de que fosse esse o acorde.",
    "finding.chord-quality-slip.mend": "Confira a cifra.",
    "finding.chord-quality-slip.mend.meant": "Confira a cifra: seria {typed}?",
    "finding.changes-shifted.late":
    "Os acordes parecem estar atrasados um compasso em relação à linha: {odds} de que seja isso.",
    "finding.changes-shifted.early":
    "Os acordes parecem estar adiantados um compasso em relação à linha: {odds} de que seja isso.",
    "finding.changes-shifted.mend": "Confira em que compasso começam os acordes.",
    "finding.changes-shifted.mend.late": "Escrever os acordes um compasso antes?",
    "finding.changes-shifted.mend.early": "Escrever os acordes um compasso depois?",
    # Held notes.
    "finding.chord-contradicted.held": "O {note} é {heard} sobre {chord} e fica sustentado.",
    "finding.chord-contradicted.into":
    "O {note} continua sustentado sobre {chord}, onde é {heard}, fora da escala.",
    "finding.chord-contradicted.mend": "Mude a nota ou a cifra.",
    "finding.chord-contradicted.mend.held": "Mude o {note} ou a cifra {typed}.",
    "finding.outside-held": "O {note} é {degree} sobre {chord}, fora da escala, e fica sustentado.",
    "finding.outside-held.mend":
    "Escreva uma nota do acorde ou da escala, ou resolva esta por grau conjunto.",
    # Scales and harmony.
    "finding.pass-through-held":
    "O {note}, {degree} sobre {chord}, fica sustentado meio tom acima do {below}.",
    "finding.pass-through-held.mend": "Passe por essa nota sem parar ou resolva-a um grau abaixo.",
    "finding.pass-through-held.mend.below": "Passe por essa nota sem parar ou resolva-a no {below}.",
    "finding.scale-does-not-fit.one":
    "O {notes} fica fora da escala {scale} sobre {chord}; na escala {better} caberiam mais notas da linha.",
    "finding.scale-does-not-fit.many":
    "As notas {notes} ficam fora da escala {scale} sobre {chord}; na escala {better} caberiam mais notas "
    "da linha.",
    "finding.scale-does-not-fit.mend": "Indique a outra escala ou mude as notas.",
    "finding.scale-does-not-fit.mend.better": "Indique {scale} sobre {typed} ou mude as notas.",
    "finding.scale-contradicts-chord": "A escala {scale} não tem o {tones} de {chord}.",
    "finding.scale-contradicts-chord.tone": "{note}, {degree}",
    "finding.scale-contradicts-chord.and": "{first}, nem o {next}",
    "finding.scale-contradicts-chord.mend": "Indique uma escala que tenha essa nota ou mude a cifra.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Indique uma escala que combine com {chord} (perto da sua: {scales}) ou mude a cifra.",
    "finding.key-contradicted":
    "A tonalidade indicada é {stated}, mas os acordes apontam para {heard}.",
    "finding.key-contradicted.mend":
    "Indique a tonalidade para a qual os acordes apontam ou não indique nenhuma.",
    "finding.key-contradicted.mend.heard": "Indique {typed} como tonalidade ou não indique nenhuma.",
    # The shape of the line.
    "finding.range.extreme": "O {note} está num registro extremo.",
    "finding.range.wide": "A linha abrange {n} semitons, do {low} ao {high}.",
    "finding.range.mend": "Mude de oitava a frase ou parte dela.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "É a mesma frase que “{title}” (número {n}).",
    "finding.duplicate-phrase.moved": "É a mesma frase que “{title}” (número {n}), em outra tonalidade.",
    "finding.duplicate-phrase.mend": "Tire uma das duas.",
    "finding.shifted-phrase":
    "Tem a mesma linha que “{title}” (número {n}), sobre outros acordes ou a partir de outro tempo.",
    "finding.shifted-phrase.mend": "Diga no comentário que é de propósito ou tire uma das duas.",
    "finding.silence-names-no-rule": "Nenhuma regra se chama “{rule}”.",
    "finding.silence-names-no-rule.mend": "Escreva o nome da regra tal como está na lista.",
    "finding.silence-names-no-rule.mend.near": "Seria {names}?",
    # Editions.
    "finding.place": "Em {key}", "finding.place.concert": "Em {key} (soa em {concert})",
    "finding.band": "do {low} ao {high}",
    "finding.out-of-range.one":
    "{place}: mesmo na melhor oitava, uma nota {reader 3} fica fora da extensão completa (escrita: {band}).",
    "finding.out-of-range.many":
    "{place}: mesmo na melhor oitava, {n} notas {reader 3} ficam fora da extensão completa (escrita: "
    "{band}).",
    "finding.out-of-reach.one":
    "{place}: mesmo na melhor oitava, uma nota {reader 3} fica fora do alcance (notas escritas: {band}).",
    "finding.out-of-reach.many":
    "{place}: mesmo na melhor oitava, {n} notas {reader 3} ficam fora do alcance (notas escritas: {band}).",
    **{
        f"finding.{rule}.mend":
        "Permita uma mudança de oitava (“fold = true”), deixe essa tonalidade de fora ou aproxime "
        "as notas extremas."
        for rule in _RANGES
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Uma mudança de oitava numa pausa ou no maior salto também não resolve: deixe essa "
        "tonalidade de fora ou aproxime as notas extremas."
        for rule in _RANGES
    },
    "finding.folded.higher":
    "{place}, {reader 2}, a linha segue uma oitava acima a partir do compasso {bar}, tempo {beat}.",
    "finding.folded.lower":
    "{place}, {reader 2}, a linha segue uma oitava abaixo a partir do compasso {bar}, tempo {beat}.",
    "finding.folded.mend": "Se a mudança de oitava não agradar, tire “fold = true”.",
    "finding.off-fingerboard.one":
    "{place}, há uma nota {reader 3} que não está no braço (afinação {tuning}, {frets} trastes): ali a "
    "tablatura fica vazia.",
    "finding.off-fingerboard.many":
    "{place}, há {n} notas {reader 3} que não estão no braço (afinação {tuning}, {frets} trastes): ali a "
    "tablatura fica vazia.",
    "finding.off-fingerboard.mend":
    "Traga as notas para dentro do braço, deixe essa tonalidade de fora ou indique outra afinação.",
    "finding.no-tablature.one": "Fica sem tablatura: {editions}. É preciso um instrumento com trastes.",
    "finding.no-tablature.many": "Ficam sem tablatura: {editions}. É preciso um instrumento com trastes.",
    "finding.no-tablature.not made":
    "Foi pedida tablatura para a edição {name}, que não está entre as do livro.",
    "finding.no-tablature.mend":
    "Indique as edições que devem ter tablatura: “tablature = [\"guitar\"]”.",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "O {written} é impresso como foi digitado; quem lê espera aqui um {better}.",
    "finding.stumbling-name.mend": "Escreva {better} ou deixe como está, se for mesmo {written}.",
    "finding.commentary-names": "O comentário diz {said}; a partitura traz {score}.",
    "finding.commentary-names.mend":
    "Escreva {score} no comentário ou ponha {{{said}}} entre chaves onde não for nome de nota.",
    "finding.sentence-outdated":
    "O trecho musical que o seu texto explicava mudou, por isso o texto não é impresso: “{sentence}”",
    "finding.sentence-outdated.mend": "Reescreva o texto de acordo com a explicação atual ou tire-o.",
    "finding.untranslated":
    "O livro está em “{language}”, mas há textos fixos em inglês: {left} de {all}.",
    "finding.untranslated.mend":
    "Traduza em “[words]” as linhas de “docs/language.md” ou silencie esta regra, se for de propósito.",
    "finding.unused-recording": "A gravação “{file}” de “[tracks]” não substitui nenhuma faixa.",
    "finding.unused-recording.mend":
    "Desta frase não se faz nenhuma demonstração: veja “kinds” e “phrases” em “[tracks]”.",
    "finding.unused-recording.mend.feel":
    "Os estilos rítmicos do livro não incluem o que a própria frase indica.",
    "finding.unused-recording.mend.there":
    "Há demonstrações desta frase em {keys}; andamento: {tempos} batidas por minuto.",
    "finding.unused-recording.mend.taken":
    "Há demonstrações desta frase em {keys}; andamento: {tempos} batidas por minuto. Cada uma já tem a sua "
    "gravação.",
}  # fmt: skip

SAME: frozenset[str] = frozenset()
