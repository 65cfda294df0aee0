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
    "finding.tie-to-another-pitch.mend": "Ligue à mesma nota, ou escreva uma ligadura de expressão.",
    "finding.long-phrase": "A frase tem {n} compassos.",
    "finding.long-phrase.mend": "Divida-a em várias frases, cada uma com uma só coisa para estudar.",
    "finding.misread-accidental.name": "O {note} é fácil de ler errado.",
    "finding.misread-accidental.two ways":
    "O {note} está escrito também como {other} no mesmo compasso.",
    "finding.misread-accidental.mend": "Escreva o nome mais simples.",
    "finding.misread-accidental.mend.plain": "Escreva {plain}.",
    "finding.misread-accidental.mend.alike": "Escreva as duas notas da mesma forma.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"O {{note}} está uma oitava {said} do que pedem as notas em volta: {{odds}} de que o número da "
        "oitava seja um engano."
        for way, said in (("low", "abaixo"), ("high", "acima"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} notas, do {{first}} ao {{last}}, estão uma oitava {said} do que deviam: {{odds}} de que o "
        "número da oitava seja um engano."
        for way, said in (("low", "abaixo"), ("high", "acima"))
    },
    "finding.octave-slip.mend": "Confira o número da oitava: ele vale até o seguinte.",
    "finding.octave-slip.mend.here": "Escreva {typed}.",
    "finding.octave-slip.mend.back": "Escreva {typed}, e {after} onde a linha volta.",
    **{
        f"finding.{rule}.over":
        "O {note} é {degree} sobre {chord}. À linha iria melhor o {meant}, {would}: {odds} de que essa fosse "
        "a nota."
        for rule in _SLIPS
    },
    **{
        f"finding.{rule}.alone":
        "À linha iria melhor o {meant} do que o {note}: {odds} de que essa fosse a nota."
        for rule in _SLIPS
    },
    "finding.accidental-slip.mend": "Confira o acidente.",
    "finding.accidental-slip.mend.meant": "Confira o acidente: {meant}?",
    "finding.accidental-slip.mend.carried":
    "Confira o acidente: {meant}? Cada acidente vale só para a sua nota.",
    "finding.letter-slip.mend": "Confira a letra.",
    "finding.letter-slip.mend.meant": "Confira a letra: {meant}?",
    "finding.doubled-note":
    "O {note} aparece duas vezes onde a linha seguiria para o {meant}: {odds} de que tenha sido digitado em "
    "dobro.",
    "finding.doubled-note.mend": "Escreva na segunda vez a nota pretendida.",
    "finding.doubled-note.mend.meant": "Na segunda vez, {meant}?",
    "finding.chord-quality-slip.notes":
    "O que a linha toca sobre {chord} ({heard}) aponta para {meant}: {odds} de que fosse esse o acorde.",
    "finding.chord-quality-slip.notes and none":
    "O que a linha toca sobre {chord} ({heard}, mas não {lacking}) aponta para {meant}: {odds} de que fosse "
    "esse o acorde.",
    "finding.chord-quality-slip.chords":
    "Os acordes em volta de {chord} pedem {meant}: {odds} de que fosse esse o acorde.",
    "finding.chord-quality-slip.mend": "Confira a cifra.",
    "finding.chord-quality-slip.mend.meant": "Confira a cifra: {typed}?",
    "finding.changes-shifted.late":
    "Parece que os acordes chegam um compasso tarde demais para a linha: {odds}.",
    "finding.changes-shifted.early":
    "Parece que os acordes chegam um compasso cedo demais para a linha: {odds}.",
    "finding.changes-shifted.mend": "Confira em que compasso começam os acordes.",
    "finding.changes-shifted.mend.late": "Escrever os acordes um compasso antes?",
    "finding.changes-shifted.mend.early": "Escrever os acordes um compasso depois?",
    # Held notes.
    "finding.chord-contradicted.held": "O {note} é {heard} sobre {chord}, e fica sustentado.",
    "finding.chord-contradicted.into":
    "O {note} fica sustentado até {chord}, onde é {heard}, fora da escala.",
    "finding.chord-contradicted.mend": "Mude a nota ou a cifra.",
    "finding.chord-contradicted.mend.held": "Mude o {note}, ou a cifra {typed}.",
    "finding.outside-held": "O {note} é {degree} sobre {chord}, fora da escala, e fica sustentado.",
    "finding.outside-held.mend":
    "Escreva uma nota do acorde ou da escala, ou deixe que resolva por grau conjunto.",
    # Scales and harmony.
    "finding.pass-through-held":
    "O {note}, {degree} sobre {chord}, fica sustentado, e está meio tom acima do {below}.",
    "finding.pass-through-held.mend": "Passe por ela sem parar, ou resolva-a descendo um grau.",
    "finding.pass-through-held.mend.below": "Passe por essa nota sem parar, ou resolva-a no {below}.",
    "finding.scale-does-not-fit.one":
    "O {notes} fica fora da escala {scale} sobre {chord}; na escala {better} caberia mais da linha.",
    "finding.scale-does-not-fit.many":
    "As notas {notes} ficam fora da escala {scale} sobre {chord}; na escala {better} caberia mais da linha.",
    "finding.scale-does-not-fit.mend": "Indique a outra escala, ou mude as notas.",
    "finding.scale-does-not-fit.mend.better": "Indique {scale} sobre {typed}, ou mude as notas.",
    "finding.scale-contradicts-chord": "Na escala {scale} não há o {tones} de {chord}.",
    "finding.scale-contradicts-chord.tone": "{note}, {degree}",
    "finding.scale-contradicts-chord.and": "{first}, nem o {next}",
    "finding.scale-contradicts-chord.mend": "Indique uma escala que a contenha, ou mude a cifra.",
    "finding.scale-contradicts-chord.mend.fitting":
    "As mais próximas entre as escalas que servem a {chord}: {scales}. Ou mude a cifra.",
    "finding.key-contradicted":
    "A tonalidade indicada é {stated}, mas os acordes apontam para {heard}.",
    "finding.key-contradicted.mend":
    "Indique a tonalidade para a qual os acordes apontam, ou não indique nenhuma.",
    "finding.key-contradicted.mend.heard": "Indique {typed} como tonalidade, ou não indique nenhuma.",
    # The shape of the line.
    "finding.range.extreme": "O {note} está num registro extremo.",
    "finding.range.wide": "A linha abrange {n} semitons, do {low} ao {high}.",
    "finding.range.mend": "Mova a frase, ou parte dela, uma oitava.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "É a mesma frase que “{title}” (número {n}).",
    "finding.duplicate-phrase.moved": "É a mesma frase que “{title}” (número {n}), em outra tonalidade.",
    "finding.duplicate-phrase.mend": "Tire uma das duas.",
    "finding.shifted-phrase":
    "Tem a mesma linha que “{title}” (número {n}), sobre outros acordes ou a partir de outro tempo.",
    "finding.shifted-phrase.mend": "Diga no comentário que é de propósito, ou tire uma das duas.",
    "finding.silence-names-no-rule": "Nenhuma regra se chama “{rule}”.",
    "finding.silence-names-no-rule.mend": "Escreva o nome da regra tal como está na lista.",
    "finding.silence-names-no-rule.mend.near": "Seria {names}?",
    # Editions.
    "finding.place": "Em {key}", "finding.place.concert": "Em {key} (soa em {concert})",
    "finding.band": "{low} a {high}",
    "finding.out-of-range.one":
    "{place}: nem na melhor oitava cabe tudo; uma nota fica fora da extensão completa {reader 3}, escrita de "
    "{band}.",
    "finding.out-of-range.many":
    "{place}: nem na melhor oitava cabe tudo; {n} notas ficam fora da extensão completa {reader 3}, escrita "
    "de {band}.",
    "finding.out-of-reach.one":
    "{place}: nem na melhor oitava dá para tocar tudo; uma nota fica fora do alcance {reader 3}, escrito de "
    "{band}.",
    "finding.out-of-reach.many":
    "{place}: nem na melhor oitava dá para tocar tudo; {n} notas ficam fora do alcance {reader 3}, escrito "
    "de {band}.",
    **{
        f"finding.{rule}.mend":
        "Permita uma mudança de oitava (“fold = true”), tire a tonalidade, ou aproxime as notas extremas."
        for rule in _RANGES
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Uma mudança de oitava numa pausa ou no maior salto também não resolve: tire a tonalidade, ou "
        "aproxime as notas extremas."
        for rule in _RANGES
    },
    "finding.folded.higher":
    "{place} a linha segue uma oitava acima a partir do compasso {bar}, tempo {beat}, {reader 2}.",
    "finding.folded.lower":
    "{place} a linha segue uma oitava abaixo a partir do compasso {bar}, tempo {beat}, {reader 2}.",
    "finding.folded.mend": "Se a mudança de oitava não agradar, tire “fold = true”.",
    "finding.off-fingerboard.one":
    "{place} há uma nota {reader 3} que não está no braço ({tuning}, {frets} trastes): a tablatura fica "
    "vazia ali.",
    "finding.off-fingerboard.many":
    "{place} há {n} notas {reader 3} que não estão no braço ({tuning}, {frets} trastes): a tablatura fica "
    "vazia ali.",
    "finding.off-fingerboard.mend": "Aproxime-as, tire a tonalidade, ou indique outra afinação.",
    "finding.no-tablature.one": "Fica sem tablatura: {editions}. É preciso um instrumento com trastes.",
    "finding.no-tablature.many": "Ficam sem tablatura: {editions}. É preciso um instrumento com trastes.",
    "finding.no-tablature.not made":
    "Pede-se tablatura para a edição {name}, que não está entre as que são feitas.",
    "finding.no-tablature.mend":
    "Diga que edições devem tê-la: “tablature = [\"guitar\"]”.",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "O {written} é impresso como foi digitado; quem lê espera aqui o {better}.",
    "finding.stumbling-name.mend": "Escreva {better}, ou deixe como está se for mesmo {written}.",
    "finding.commentary-names": "O comentário diz {said}; na partitura está o {score}.",
    "finding.commentary-names.mend":
    "Escreva {score} no comentário, ou ponha {{{said}}} entre chaves onde não for nome de nota.",
    "finding.sentence-outdated":
    "A música que a sua frase explicava mudou, por isso o texto não é impresso: “{sentence}”",
    "finding.sentence-outdated.mend": "Escreva-o de novo para o que se explica agora, ou tire-o.",
    "finding.untranslated":
    "O livro está em “{language}”, e {left} dos seus {all} textos fixos estão em inglês.",
    "finding.untranslated.mend":
    "Traduza as linhas de “docs/language.md” em “[words]”, ou silencie esta regra se for de propósito.",
    "finding.unused-recording": "A gravação “{file}” de “[tracks]” não substitui nenhuma faixa.",
    "finding.unused-recording.mend":
    "Desta frase não se faz nenhuma demonstração: veja “kinds” e “phrases” em “[tracks]”.",
    "finding.unused-recording.mend.feel":
    "Entre os estilos rítmicos do livro não está o que a própria frase indica.",
    "finding.unused-recording.mend.there":
    "As suas demonstrações estão em {keys}, a {tempos} batidas por minuto.",
    "finding.unused-recording.mend.taken":
    "As suas demonstrações estão em {keys}, a {tempos} batidas por minuto. Cada uma já tem a sua gravação.",
}  # fmt: skip

SAME: frozenset[str] = frozenset()
