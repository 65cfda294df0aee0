"""The words of the student's page in Portuguese; row format as in `tables.practice_words`.

The terms are common practice, the sentences our own.
"""

from __future__ import annotations

WORDS: dict[str, str] = {
    "practice.skip": "Ir ao que se estuda",
    "practice.screens": "O que fazer",
    "practice.close": "Fechar",
    "practice.missing": "Falta {file} na pasta desta página. Copie a pasta inteira.",
    "practice.old":
    "Este navegador é antigo demais para esta página: falta-lhe {what}. Os de 2023 em diante a abrem.",
    "practice.screen.play": "Tocar",
    "practice.screen.ear": "De ouvido",
    "practice.screen.why": "Por que funciona",
    "practice.screen.own": "A sua linha",
    "practice.choose.phrase": "Qual frase?",
    "practice.choose.key": "Qual tom?",
    "practice.choose.search": "Uma palavra do título, ou o número",
    "practice.reader.asked": "Qual parte você lê?",
    "practice.reader.instrument": "Você lê",
    "practice.reader.tuning": "O seu lá está afinado em",
    "practice.reader.tuning.n": "{n} Hz",
    "practice.reader.theme": "Papel",
    "practice.reader.theme.system": "como o aparelho",
    "practice.reader.theme.light": "claro",
    "practice.reader.theme.dark": "escuro",
    "practice.play.phrase": "{n} · {title}",
    "practice.play.start": "Tocar",
    "practice.play.stop": "Parar",
    "practice.play.key.before": "O tom anterior",
    "practice.play.key.next": "O próximo tom",
    "practice.play.tempo": "Andamento",
    "practice.play.tempo.value": "{n} por minuto, {share} %",
    "practice.play.told": "{title}, {key}, {n} tempos por minuto",
    "practice.play.more": "Quem toca, o que se repete, o seu instrumento",
    "practice.play.heard": "Você ouve",
    "practice.play.heard.line": "a linha",
    "practice.play.heard.bass": "o baixo",
    "practice.play.heard.comping": "os acordes",
    "practice.play.heard.drums": "a bateria",
    "practice.play.heard.click": "um clique em 2 e 4",
    "practice.play.heard.count": "a contagem",
    "practice.play.source": "O som vem de",
    "practice.play.source.page": "esta página",
    "practice.play.source.track": "a faixa: {name}",
    "practice.play.source.says":
    "Uma faixa soa como foi feita: "
    "seus músicos, seu registro e sua afinação ficam.",
    "practice.play.track.demonstration": "demonstração",
    "practice.play.track.play-along": "acompanhamento",
    "practice.play.track.line": "a linha sozinha",
    "practice.play.track.click": "a linha com um clique",
    "practice.play.track.call-and-answer": "chamada e resposta",
    "practice.play.track.no-bass": "sem baixo",
    "practice.play.track.no-piano": "sem piano",
    "practice.play.track.no-drums": "sem bateria",
    "practice.play.track.bass-alone": "o baixo sozinho",
    "practice.play.track.piano-alone": "o piano sozinho",
    "practice.play.track.drums-alone": "a bateria sozinha",
    "practice.play.loop": "Sem parar",
    "practice.play.loop.whole": "a frase inteira",
    "practice.play.loop.bar": "o compasso {n}",
    "practice.play.loop.link": "a passagem do compasso {n} para o compasso {m}",
    "practice.play.rounds": "Depois",
    "practice.play.rounds.stay": "ficar neste tom até eu seguir",
    "practice.play.rounds.n": "ir ao próximo tom depois de tantas voltas: {n}",
    "practice.play.faster": "Mais rápido",
    "practice.play.faster.never": "só quando eu disser",
    "practice.play.faster.n": "{step} % depois de tantas voltas limpas: {n}",
    "practice.play.faster.says": "Uma volta conta como limpa se você não disser o contrário.",
    "practice.play.faster.not": "Essa não saiu limpa: um passo mais lento",
    "practice.play.hands":
    "Com as mãos ocupadas: pedal para a frente, Page Down ou → vai ao próximo tom; pedal para trás, Page "
    "Up ou ← ao anterior, ou diz “não saiu limpa” enquanto o andamento cresce sozinho. ↑ e ↓ mudam o "
    "andamento, a barra de espaço começa e para, L é a linha, C o clique.",
    "practice.play.ears":
    "Deixe os fones num volume em que ainda ouça quem falar com você. Descanse cinco minutos a cada meia "
    "hora e largue o instrumento quando algo doer; o seu professor ou um médico sabe mais do que uma "
    "página.",
    "practice.ear.says": "Primeiro o ouvido, depois a voz, depois o instrumento, e a página por último.",
    "practice.ear.hear": "Escute",
    "practice.ear.hear.says": "Duas ou três vezes, sem tocar. Marque o pulso.",
    "practice.ear.hear.bar": "Ouvir o compasso {n}",
    "practice.ear.slow": "devagar",
    "practice.ear.chords": "com os acordes",
    "practice.ear.sing": "Cante",
    "practice.ear.sing.says":
    "De memória, baixinho, na oitava que ficar bem. Ouça de novo onde ela se rompe.",
    "practice.ear.first": "Dê-me a primeira nota",
    "practice.ear.find": "Encontre",
    "practice.ear.find.says": "No seu instrumento, desde a primeira nota, devagar. Sem pressa e sem força.",
    "practice.ear.see": "Veja",
    "practice.ear.see.next": "Mostrar o compasso {n}",
    "practice.ear.see.all": "Mostrar tudo",
    "practice.ear.see.none": "Cobrir de novo",
    "practice.ear.listen": "Deixar a página escutar",
    "practice.ear.listen.stop": "Parar de escutar",
    "practice.ear.listen.says":
    "O microfone ouve uma nota por vez, e nem sempre a certa: tome-o como ajuda, não como juiz. Nada é "
    "gravado, e nada sai deste aparelho.",
    "practice.ear.listen.none": "Este navegador não deixa a página usar um microfone aqui ({why}).",
    "practice.ear.listen.now": "Agora: {note}",
    "practice.ear.listen.found": "{n} de {of} notas ouvidas em ordem. Sem certeza: {missing}.",
    "practice.ear.listen.all": "As {of} notas ouvidas, em ordem.",
    "practice.ear.listen.nothing": "Nada ouvido ainda.",
    "practice.why.says": "Escolha uma frase do texto: as notas dela são marcadas, e você as ouve.",
    "practice.why.home": "No tom de origem, {key}.",
    "practice.why.scales": "As escalas",
    "practice.why.scale": "{name} sobre {chord}",
    "practice.why.scale.hear": "Ouvir a escala",
    "practice.why.line": "Ouvir a linha",
    "practice.own.says":
    "Escreva sobre os mesmos acordes. Toque na pauta para pôr uma nota; toque numa nota para escolhê-la. "
    "Teclas: ← → vão de lugar em lugar, ↑ ↓ movem uma nota de um grau, com Shift de um semitom; Enter põe "
    "uma, Delete a tira.",
    "practice.own.staff": "A sua linha: uma pauta com tantos compassos: {bars}",
    "practice.own.hear": "Ouvir a sua linha",
    "practice.own.band": "com a banda",
    "practice.own.clear": "Começar de novo",
    "practice.own.clear.sure": "Tirar a linha inteira?",
    "practice.own.longer": "Mais longa",
    "practice.own.shorter": "Mais curta",
    "practice.own.up": "Subir",
    "practice.own.down": "Descer",
    "practice.own.remove": "Tirar",
    "practice.own.empty": "Compasso {bar}, tempo {beat}: nada ainda.",
    "practice.own.note": "Compasso {bar}, tempo {beat}: {note}, {degree} de {chord}, {kind}{landing}.",
    "practice.own.note.bare": "Compasso {bar}, tempo {beat}: {note}, {kind}{landing}.",
    "practice.own.kind.chord": "nota do acorde",
    "practice.own.kind.scale": "nota da escala",
    "practice.own.kind.outside": "fora do acorde e da escala",
    "practice.own.landing.still": ", um apoio em repouso",
    "practice.own.landing.colour": ", um apoio numa cor",
    "practice.own.landing.outside": ", um apoio que nada segura: leve-o adiante um semitom",
    "practice.own.count":
    "Notas: {n}, das quais no acorde {chord}, na escala {scale}, fora {outside}; dos apoios ({landings}), "
    "os que caem numa nota do acorde: {landed}.",
    "practice.own.kept": "Fica neste aparelho com a frase.",
}  # fmt: skip

SAME = frozenset(("practice.reader.tuning.n",))
