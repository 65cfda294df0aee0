"""Every fixed word of a book and of an explanation, in Portuguese.

The reader is addressed in the form of "você", whose imperative ("toque", "cante") is understood and polite on
both sides of the Atlantic; the pronoun itself is left out. Words are those that both countries use; where the
spelling divides ("harmônica", "harmónica"), it is the Brazilian one. Notes are dó ré mi in small letters,
chord symbols stay international. A note stands behind an article ("o lá", "do sol ao lá"). Names of degrees
stand without an article, in apposition, their second form with it: all of them are feminine. Scales are
named as adjectives of "escala" in sentences, and as the mode in the labels over a staff. Numbers in words
count phrases and keys, both feminine. Bars have their article; their second form has the preposition that
melts into it ("no compasso 2").
Source: the names are common practice of Portuguese-speaking teachers; the sentences are our own.
"""

from __future__ import annotations

_SIGNED = ("b", "#", "bb", "##")
_NAMES = tuple(f"{letter}{sign}" for sign in _SIGNED for letter in "CDEFGAB")
_NOTES = {"C": "dó", "D": "ré", "E": "mi", "F": "fá", "G": "sol", "A": "lá", "B": "si"}
_OWN_DEGREES = {
    "1": "fundamental", "3": "terça", "b3": "terça", "4": "quarta", "5": "quinta", "b5": "quinta",
    "#5": "quinta", "6": "sexta", "b7": "sétima", "7": "sétima", "bb7": "sétima",
}  # fmt: skip
_DEGREES = {
    "1": "fundamental", "3": "terça maior", "b3": "terça menor", "4": "quarta", "5": "quinta justa",
    "b5": "quinta diminuta", "#5": "quinta aumentada", "6": "sexta", "b7": "sétima menor",
    "7": "sétima maior", "bb7": "sétima diminuta", "b9": "nona menor", "9": "nona", "#9": "nona aumentada",
    "11": "décima primeira", "#11": "décima primeira aumentada", "b13": "décima terceira menor",
    "13": "décima terceira",
}  # fmt: skip
_SIZES = (
    "um uníssono", "meio tom", "um tom", "uma terça menor", "uma terça maior", "uma quarta", "um trítono",
    "uma quinta", "uma sexta menor", "uma sexta maior", "uma sétima menor", "uma sétima maior", "uma oitava",
)  # fmt: skip
_LABELS = {
    "ionian": "jônio", "dorian": "dórico", "phrygian": "frígio", "lydian": "lídio",
    "mixolydian": "mixolídio", "aeolian": "eólio", "locrian": "lócrio",
    "melodic minor": "menor melódica", "dorian b2": "dórico ♭2", "lydian augmented": "lídio aumentado",
    "lydian dominant": "lídio dominante", "mixolydian b6": "mixolídio ♭6",
    "locrian natural 2": "lócrio com 2 maior", "altered": "alterada", "harmonic minor": "menor harmônica",
    "locrian natural 6": "lócrio com 6 maior", "ionian augmented": "jônio aumentado",
    "dorian #4": "dórico ♯4", "phrygian dominant": "frígio dominante", "lydian #2": "lídio ♯2",
    "altered bb7": "alterada ♭♭7", "harmonic major": "maior harmônica", "dorian b5": "dórico ♭5",
    "phrygian b4": "frígio ♭4", "lydian b3": "lídio ♭3", "mixolydian b2": "mixolídio ♭2",
    "lydian augmented #2": "lídio aumentado ♯2", "locrian bb7": "lócrio ♭♭7",
    "half-whole diminished": "diminuta semitom-tom", "whole-half diminished": "diminuta tom-semitom",
    "whole tone": "tons inteiros", "augmented": "aumentada", "bebop dominant": "bebop dominante",
    "bebop major": "bebop maior", "bebop dorian": "bebop dórico",
    "bebop melodic minor": "bebop menor melódica", "major pentatonic": "pentatônica maior",
    "minor pentatonic": "pentatônica menor", "blues": "blues", "major blues": "blues maior",
    "chromatic": "cromática",
}  # fmt: skip
_SAID = {
    "ionian": "jônia", "dorian": "dórica", "phrygian": "frígia", "lydian": "lídia",
    "mixolydian": "mixolídia", "aeolian": "eólia", "locrian": "lócria",
    "melodic minor": "menor melódica", "dorian b2": "dórica ♭2", "lydian augmented": "lídia aumentada",
    "lydian dominant": "lídia dominante", "mixolydian b6": "mixolídia ♭6",
    "locrian natural 2": "lócria com segunda maior", "altered": "alterada",
    "harmonic minor": "menor harmônica", "locrian natural 6": "lócria com sexta maior",
    "ionian augmented": "jônia aumentada", "dorian #4": "dórica ♯4",
    "phrygian dominant": "frígia dominante", "lydian #2": "lídia ♯2", "altered bb7": "alterada ♭♭7",
    "harmonic major": "maior harmônica", "dorian b5": "dórica ♭5", "phrygian b4": "frígia ♭4",
    "lydian b3": "lídia ♭3", "mixolydian b2": "mixolídia ♭2", "lydian augmented #2": "lídia aumentada ♯2",
    "locrian bb7": "lócria ♭♭7", "half-whole diminished": "semitom-tom",
    "whole-half diminished": "tom-semitom", "whole tone": "de tons inteiros", "augmented": "aumentada",
    "bebop dominant": "bebop dominante", "bebop major": "bebop maior", "bebop dorian": "bebop dórica",
    "bebop melodic minor": "bebop menor melódica", "major pentatonic": "pentatônica maior",
    "minor pentatonic": "pentatônica menor", "blues": "de blues", "major blues": "de blues maior",
    "chromatic": "cromática",
}  # fmt: skip
_NUMERALS = (
    "ii–V–I", "ii–V", "V–I", "iii–VI–ii–V", "iii–vi–ii–V", "I–VI–ii–V", "I–vi–ii–V", "I–#i°–ii–#ii°",
    "I–#i°–ii–V", "I–biii°–ii–V", "iii–biii°–ii–V", "iii–bIII–ii–bII", "iii–VI–ii–bII", "I–VI–ii–bII",
    "I–bIII–ii–bII", "I–bIII–bVI–bII",
)  # fmt: skip
"""Progressions whose name is numerals alone, the same in every language."""

_PROGRESSIONS = {
    "descending line in minor": "linha descendente em menor",
    "rising line in minor": "linha ascendente em menor",
    "minor ii–V–i": "ii–V–i menor", "minor ii–V": "ii–V menor", "minor V–i": "V–i menor",
    "minor i–viø–iiø–V": "i–viø–iiø–V menor", "minor i–bVI–iiø–V": "i–bVI–iiø–V menor",
    "minor iiiø–VI–iiø–V": "iiiø–VI–iiø–V menor",
    "tritone substitute ii–bII–I": "ii–bII–I com substituto tritonal",
    "minor tritone substitute iiø–bII–i": "iiø–bII–i menor com substituto tritonal",
    "tritone substitute ii–bII": "ii–bII com substituto tritonal",
    "minor tritone substitute iiø–bII": "iiø–bII menor com substituto tritonal",
    "tritone substitute bII–I": "substituto tritonal bII–I",
    "tritone substitute bvi–bII–I": "bvi–bII–I com substituto tritonal",
    "minor tritone substitute bII–i": "substituto tritonal bII–i menor",
    "backdoor ii–V": "ii–V pela porta dos fundos", "backdoor bVII–I": "bVII–I pela porta dos fundos",
    "cycle of dominants": "ciclo de dominantes", "cycle of three dominants": "ciclo de três dominantes",
    "secondary dominant II–V–I": "II–V–I com dominante secundário",
    "iiø–V–I borrowed from minor": "iiø–V–I emprestado do modo menor",
    "blues I–IV–I": "I–IV–I de blues", "blues IV–I–IV": "IV–I–IV de blues",
    "blues V–IV–I": "V–IV–I de blues", "blues V–I": "V–I de blues",
    "cycle of major thirds": "ciclo de terças maiores",
    "half a cycle of major thirds": "meio ciclo de terças maiores",
    "major chords in falling major thirds": "acordes maiores por terças maiores descendentes",
    "major chords in rising minor thirds": "acordes maiores por terças menores ascendentes",
    "dominants in rising minor thirds": "dominantes por terças menores ascendentes",
    "side-slip into ii–V": "ii–V com entrada por semitom",
    "side-slip out of ii–V": "ii–V com saída por semitom",
    "major blues": "blues maior", "minor blues": "blues menor",
}  # fmt: skip

WORDS: dict[str, str] = {
    # Names of notes, with words and with signs.
    **{f"note.{letter}": name for letter, name in _NOTES.items()},
    "note.flat": "{letter} bemol",
    "note.sharp": "{letter} sustenido",
    "note.double flat": "{letter} duplo bemol",
    "note.double sharp": "{letter} duplo sustenido",
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
    "chord.none": "nenhum acorde",
    "chord.silent": "{symbol}",
    "voice.chord": "{root} {kind}",
    "voice.flat": " bemol {n}",
    "voice.sharp": " sustenido {n}",
    "voice.slash": "{chord} com baixo em {bass}",
    # Degrees, all feminine: without an article, and with it where a sentence asks for the second form.
    **{f"own degree.{degree}": f"{name} | a {name}" for degree, name in _OWN_DEGREES.items()},
    **{f"degree.{degree}": f"{name} | a {name}" for degree, name in _DEGREES.items()},
    **{f"bare own degree.{degree}": name for degree, name in _OWN_DEGREES.items()},
    **{f"bare degree.{degree}": name for degree, name in _DEGREES.items()},
    "degree.over no chord": "sem acorde",
    "degree.of chord": "{degree} de {chord}",
    # Scales: labels, and adjectives of "escala".
    **{f"scale.{name}": label for name, label in _LABELS.items()},
    **{f"short scale.{name}": said for name, said in _SAID.items()},
    "scale.on": "{scale} de {root}",
    # Sizes, numbers, lists.
    **{f"size.{semitones}": name for semitones, name in enumerate(_SIZES)},
    "size.more": "mais de uma oitava",
    "numbers.small": "zero um dois três quatro cinco seis sete oito nove dez onze doze",
    "list.two": "{first} e {last}",
    "list.more": "{first}, {next}",
    "list.last": "{first} e {last}",
    "sentence": "{Text}",
    # Places. Where a preposition would melt into the article, a sentence asks for the second form.
    "beat.half": "contratempo do {n}",
    "beat.other": "tempo {n}",
    "beat.on": "no {beat}",
    "bar": "o compasso {n} | no compasso {n}",
    "bar.pick-up": "a anacruse | na anacruse",
    "bars.two": "os compassos {first} e {last} | nos compassos {first} e {last}",
    "bars.many": "os compassos {first} a {last} | nos compassos {first} a {last}",
    "placed": "{bar 2}, {text}",
    "way.up": "para cima", "way.down": "para baixo",
    "way.compared up": "acima", "way.compared down": "abaixo",
    "move": "do {a} ao {b}",
    "no notes": "A frase ainda não tem notas.",
    # Guide tones.
    "tell.falls.each": "A cada mudança de acorde, uma sétima desce para a terça seguinte: {pairs}.",
    "tell.falls.both": "Nas duas mudanças de acorde, a sétima desce para a terça seguinte: {pairs}.",
    "tell.falls.twice": "Duas vezes uma sétima desce para a terça do acorde seguinte: {pairs}.",
    "tell.falls.some": "Em {times} das mudanças de acorde, uma sétima desce para a terça seguinte: {pairs}.",
    "tell.falls.many":
    "Em {times} mudanças de acorde, uma sétima desce para a terça seguinte; nas primeiras vezes, {pairs}.",
    "tell.fall.half": "O {guide}, {of}, desce meio tom para o {goal}, {goal_of}.",
    "tell.fall.whole": "O {guide}, {of}, desce um tom para o {goal}, {goal_of}.",
    "tell.fall.through": "O {guide}, {of}, escorrega pelo {between} até o {goal}, {goal_of}.",
    "tell.fall.late": "O {guide}, {of}, resolve uma nota mais tarde no {goal}, {goal_of}.",
    "tell.guide line.whole":
    "Por baixo da frase inteira corre uma só linha, uma terça ou uma sétima por acorde: {notes}.",
    "tell.guide line.part":
    "Desde {first} até {last} corre por baixo uma só linha, uma terça ou uma sétima por acorde: {notes}.",
    "tell.steps": "Em cada acorde novo a linha entra por grau conjunto: {pairs}.",
    # Cells, bars and notes that come back.
    "tell.cell.twice": "a célula {notes} volta logo em seguida, {size} {way}.",
    "tell.cell.shape": "o desenho {notes} volta logo em seguida, a partir do {second}.",
    "tell.cell.steady": "a célula {notes} soa {times} vezes, cada vez {size} {way}.",
    "tell.cell.often": "o desenho {notes} soa {times} vezes, a partir de {starts}.",
    "tell.cell.across":
    "o desenho {notes} soa {times} vezes e dura um tempo e meio, por isso começa sempre em outro ponto do "
    "compasso.",
    "tell.staying note":
    "O {note} fica durante {times} acordes e em cada um significa outra coisa: {meanings}.",
    "tell.echo.one": "{later} começa como {earlier}, {size} {way}.",
    "tell.echo.whole one": "{later} repete {earlier}, {size} {way}.",
    "tell.echo.same one": "{later} começa com as mesmas notas que {earlier}, agora sobre {chord}.",
    "tell.echo.whole same one": "{later} repete {earlier} nota por nota, agora sobre {chord}.",
    "tell.echo.altered":
    "{later} repete {earlier} com {new} em lugar de {old}: assim se ouve a mudança para {chord}.",
    # The chords that a line hangs on.
    "tell.frame.diminished":
    "Os tempos fortes levam a linha {way} por um acorde de sétima diminuta: {notes}; as outras notas "
    "preenchem o espaço entre elas.",
    "tell.frame.own":
    "Os tempos fortes levam a linha {way} pelas notas de {chord}: {notes}; as outras fazem a ligação.",
    "tell.arpeggio.up": "{chord} abre para cima desde o {first}, {degree 2}, até o {last}, {last_degree 2}.",
    "tell.arpeggio.down":
    "A linha desce pelas notas de {chord} desde o {first}, {degree 2}, até o {last}, {last_degree 2}.",
    "tell.arpeggio.thirds up":
    "A partir do {first}, {degree} de {chord}, suba em terças até o {last}, {last_degree 2}.",
    "tell.arpeggio.thirds down":
    "A partir do {first}, {degree} de {chord}, desça em terças até o {last}, {last_degree 2}.",
    "tell.arpeggio.start up":
    "Comece no {first}, {degree} de {chord}, e suba pelo acorde até o {last}, {last_degree 2}.",
    "tell.arpeggio.start down":
    "Comece no {first}, {degree} de {chord}, e desça pelo acorde até o {last}, {last_degree 2}.",
    "tell.arpeggio.start thirds up":
    "Comece no {first}, {degree} de {chord}, e suba em terças até o {last}, {last_degree 2}.",
    "tell.arpeggio.start thirds down":
    "Comece no {first}, {degree} de {chord}, e desça em terças até o {last}, {last_degree 2}.",
    "tell.arpeggio.octave up":
    "A partir do {first}, {degree} de {chord}, suba pelo acorde até o {last} da oitava de cima.",
    "tell.arpeggio.octave down":
    "A partir do {first}, {degree} de {chord}, desça pelo acorde até o {last} da oitava de baixo.",
    "tell.arpeggio.start octave up":
    "Comece no {first}, {degree} de {chord}, e suba pelo acorde até o {last} da oitava de cima.",
    "tell.arpeggio.start octave down":
    "Comece no {first}, {degree} de {chord}, e desça pelo acorde até o {last} da oitava de baixo.",
    "tell.fourths.up":
    "A partir do {first}, {degree} de {chord}, suba em quartas até o {last}, {last_degree 2}.",
    "tell.fourths.down":
    "A partir do {first}, {degree} de {chord}, desça em quartas até o {last}, {last_degree 2}.",
    "tell.triad.major": "Sobre {chord} soa a tríade de {root} maior: {notes} ({meanings}).",
    "tell.triad.minor": "Sobre {chord} soa a tríade de {root} menor: {notes} ({meanings}).",
    "tell.triad.outside major": "Sobre {chord} soa uma tríade que vem de fora, a de {root} maior: {notes}.",
    "tell.triad.outside minor": "Sobre {chord} soa uma tríade que vem de fora, a de {root} menor: {notes}.",
    # Scales, colours, tension.
    "tell.whole.bar": "{bar} reúne todas as notas da escala {scale}.",
    "tell.whole.chord": "A linha percorre todas as notas da escala {scale}.",
    "tell.telling.place":
    "Sobre {chord}, ouça o {note}, {degree 2}: é a nota que distingue a escala {scale}; a escala {other} "
    "teria ali o {tone}.",
    "tell.telling.only":
    "Sobre {chord}, ouça o {note}, {degree 2}: é uma nota da escala {scale}, não da escala {other}.",
    "tell.colours": "As cores sobre {chord} são as notas {notes}: {degrees}.",
    "tell.colour": "Apoie-se no {note}, {of}: é aí que está a cor.",
    "tell.only the chord": "Sobre {chord}, a linha toca só notas do acorde.",
    "tell.tension":
    "As notas {notes} ({degrees}) põem tensão em {chord}; o {goal}, {of}, resolve essa tensão.",
    # Crossings, enclosures, runs.
    "tell.suspended": "O {note} fica preso sobre {chord} e depois desce para o {goal}, {degree 2}.",
    "tell.early": "O {note} vem antecipado: já soa como {of}.",
    "tell.led": "O {note} resolve meio tom {way}, no {goal}, {of}.",
    "tell.step.half": "O {before} anda meio tom {way}, até o {goal}, {of}.",
    "tell.step.whole": "O {before} anda um tom {way}, até o {goal}, {of}.",
    "tell.kept": "O {note} fica quando o acorde muda: primeiro soa como {of} e depois como {goal_of}.",
    "tell.enclosure.half": "As notas {notes} cercam o {goal}, {of}, a meio tom de cada lado.",
    "tell.enclosure.whole": "As notas {notes} cercam o {goal}, {of}, a um tom de cada lado.",
    "tell.enclosure.any": "As notas {notes} cercam o {goal}, {of}.",
    "tell.run.step up": "A partir do {first}, a linha sobe por graus conjuntos até o {last}, {of}.",
    "tell.run.step down": "A partir do {first}, a linha desce por graus conjuntos até o {last}, {of}.",
    "tell.run.half steps up": "A partir do {first}, a linha sobe por semitons até o {last}, {of}.",
    "tell.run.half steps down": "A partir do {first}, a linha escorrega por semitons até o {last}, {of}.",
    # Single notes.
    "tell.outside.passing note.one": "O {note} está fora da escala e só de passagem, do {before} ao {goal}.",
    "tell.outside.passing note.many":
    "As notas {notes} estão fora da escala e só de passagem: toque-as com leveza.",
    "tell.outside.passing note.same":
    "Sempre que aparece, o {note} está fora da escala e só de passagem: toque-o com leveza.",
    "tell.outside.approach note.same":
    "Sempre que aparece, o {note} está fora da escala e resolve por semitom na nota seguinte.",
    "tell.outside.neighbour.same":
    "Sempre que aparece, o {note} está fora da escala: é uma bordadura, e a linha volta à nota de onde "
    "saiu.",
    "tell.outside.approach note.one":
    "O {note} está fora da escala e resolve meio tom {way}, no {goal}, {of}.",
    "tell.outside.approach whole.one": "O {note} está fora da escala e resolve {way}, no {goal}, {of}.",
    "tell.outside.approach note.many":
    "As notas {notes} estão fora da escala, e cada uma resolve por semitom na seguinte.",
    "tell.outside.neighbour.one":
    "O {note} está fora da escala: é uma bordadura, a linha sai do {before} e volta a ele.",
    "tell.outside.neighbour.many":
    "As notas {notes} estão fora da escala: são bordaduras, a meio tom da nota a que voltam.",
    "tell.leaning":
    "O {note} é uma apojatura de fora da escala: cai no tempo e resolve no {goal}, {of}.",
    "tell.extra note":
    "O {note} é a nota acrescentada da escala {scale}; graças a ela, as notas de {chord} caem no tempo: "
    "{notes}.",
    "tell.blue.note": "O {note} é uma nota de blues, {degree} sobre {chord}.",
    "tell.blue.seventh of the minor":
    "O {note}, sétima maior sobre {chord}, é uma pincelada de menor melódica.",
    "tell.blue.bent third": "O {note}, terça maior sobre {chord}, brinca com a terça menor, como no blues.",
    "tell.pedal": "O {note} fica como pedal, fora de {chord}.",
    "tell.leap.back":
    "Ouça o salto {way}, do {before} ao {after}: é {size}; depois a linha volta por grau conjunto.",
    "tell.leap.open": "Ouça o salto {way}, do {before} ao {after}, {of}: é {size}.",
    "tell.leap.octave": "O {before} salta uma oitava {way} e soa como {of}.",
    "tell.top": "A linha chega ao ponto mais alto no {note}, {of}.",
    "tell.end": "A linha termina no {note}, {of}, e fica em aberto.",
    # Rhythm.
    "tell.late": "A linha espera e entra {when}.",
    "tell.off beats.all": "Todas as notas caem no contratempo.",
    "tell.off beats.some": "do {first} ao {last}, todas as notas caem no contratempo.",
    "tell.breath.one": "Depois do {note}, {bar 2}, a linha respira; dê à pausa toda a sua duração.",
    "tell.breath.many": "A respiração mais longa vem depois do {note}, {bar 2}; dê a ela toda a sua duração.",
    # What to practise.
    "tell.practice.frame":
    "Toque primeiro só as notas {notes}, cada uma no seu tempo forte, e depois preencha o resto.",
    "tell.practice.frame told": "Toque primeiro só o acorde dos tempos fortes, e depois preencha o resto.",
    "tell.practice.guide line":
    "Cante primeiro sobre os acordes a linha {notes}, e depois ouça essa linha dentro da frase.",
    "tell.practice.guide line told":
    "Cante primeiro sobre os acordes só essa linha, e depois ouça como ela soa dentro da frase.",
    "tell.practice.guides": "Toque primeiro só os pares, {pairs}, e depois acrescente o resto.",
    "tell.practice.guides told":
    "Toque primeiro só essas sétimas e terças, a tempo, e depois acrescente o resto.",
    "tell.practice.echo": "Aprenda primeiro {earlier}: {later} começam igual, {size} {way}.",
    "tell.practice.echo whole": "Aprenda primeiro {earlier}: {later} repetem tudo, {size} {way}.",
    "tell.practice.echo same": "Aprenda primeiro {earlier}: {later} começam com as mesmas notas.",
    "tell.practice.echo same whole": "Aprenda primeiro {earlier}: {later} repetem tudo nota por nota.",
    "tell.practice.cell": "Leve a célula {notes} por toda a escala, começando em cada um dos graus.",
    "tell.practice.cell told": "Leve a célula por toda a escala, começando em cada um dos graus.",
    "tell.practice.skeleton":
    "Toque primeiro só as notas {notes}, nos tempos em que caem: é delas que depende todo o resto.",
    "tell.practice.crossing":
    "Repita o trecho {notes} atravessando a barra de compasso, até que o {goal} caia sem pressa {when}.",
    "tell.practice.crossing inside": "Repita o trecho {notes} até que o {goal} chegue sem pressa.",
    "tell.practice.change": "Repita muitas vezes a passagem para {chord}: do {before} ao {goal}, {degree 2}.",
    "tell.practice.change told":
    "Repita muitas vezes a passagem para {chord}, desde um tempo antes até um tempo depois.",
    "tell.practice.leap": "Cante o {before} e o {after} antes de tocar o salto entre os dois.",
    "tell.practice.octave":
    "Estude à parte a oitava que começa no {before}, até o segundo {after} sair sem pensar.",
    "tell.practice.arpeggio": "Antes de tocar a linha, toque subindo e descendo as notas {notes}.",
    "tell.practice.push":
    "{bar 2}, toque primeiro o {note} bem {when}; depois antecipe a nota, como está escrito.",
    "tell.practice.aim": "Vá em direção ao {note}, {of}, e deixe que o resto leve até ele.",
    "tell.practice.line": "Comece no {first}, {of}, e vá em direção ao {last}, {last_of}.",
    "tell.practice.line alone": "Cante o {first} e o {last} antes de tocar.",
    "tell.practice.one note": "Cante o {first} sobre {chord} antes de tocar.",
    "tell.practice.one note alone": "Cante o {first} antes de tocar.",
    # Where else it fits.
    "tell.home.tritone substitute":
    "O que se toca sobre {chord} serve também sobre {other}, o seu substituto tritonal: ali o {third} é a "
    "terça.",
    "tell.home.tritone substitute with seventh":
    "O que se toca sobre {chord} serve também sobre {other}, o seu substituto tritonal: ali o {third} é a "
    "terça e o {seventh}, a sétima.",
    "tell.home.minor a fifth up":
    "O que se toca sobre {chord} serve também sobre {other}, o acorde menor que está uma quinta acima: o "
    "{third} é a sua terça.",
    "tell.home.minor a fifth up with seventh":
    "O que se toca sobre {chord} serve também sobre {other}, o acorde menor que está uma quinta acima: o "
    "{third} é a sua terça.",
    "tell.home.same diminished scale":
    "O que se toca sobre {chord} serve também sobre {others}: todos têm em comum a escala diminuta.",
    # Names of keys, progressions and feels.
    "mode.major": "maior",
    "mode.minor": "menor",
    "key": "{tonic} {mode}",
    "tonic.minor": "{tonic}",
    "key.concert": "soa em {tonic}",
    "key.progression": "{progression} em {key}",
    **{f"progression.{name}": name for name in _NUMERALS},
    **{f"progression.{name}": text for name, text in _PROGRESSIONS.items()},
    "feel.swing": "swing", "feel.fast swing": "swing rápido", "feel.shuffle": "shuffle",
    "feel.straight": "colcheias iguais", "feel.ballad": "balada", "feel.bossa": "bossa nova",
    "feel.samba": "samba", "feel.latin": "ritmo latino", "feel.waltz": "valsa", "feel.funk": "funk",
    "feel.free": "andamento livre",
    "inside": "{lower text}",
    # Numbers, as they count phrases and keys.
    "numbers":
    "zero uma duas três quatro cinco seis sete oito nove dez onze doze treze quatorze quinze dezesseis "
    "dezessete dezoito dezenove",
    "tens": "- - vinte trinta quarenta cinquenta sessenta setenta oitenta noventa",
    "tens and ones": "{tens} e {ones}",
    # Title page and imprint.
    "phrase": "frase", "phrases": "frases", "phrases.few": "frases",
    "plural.one": "1", "plural.few": "-",
    "phrase.untitled": "Frase {n}",
    "in all keys": "{count} {phrases} nas {keys} tonalidades",
    "in keys": "{count} {phrases} em {keys} tonalidades",
    "in one key": "{count} {phrases} numa tonalidade",
    "edition.title": "Edição para {name}",
    "edition.concert": "Escrita como soa, para instrumentos em dó",
    "edition.name.concert": "instrumentos em dó", "edition.name.bflat": "instrumentos em si♭",
    "edition.name.eflat": "instrumentos em mi♭", "edition.name.bass": "instrumentos em clave de fá",
    "edition.name.f": "instrumentos em fá",
    "edition.name.flute": "flauta", "edition.name.clarinet": "clarinete",
    "edition.name.bass clarinet": "clarinete baixo", "edition.name.soprano saxophone": "saxofone soprano",
    "edition.name.alto saxophone": "saxofone alto", "edition.name.tenor saxophone": "saxofone tenor",
    "edition.name.baritone saxophone": "saxofone barítono", "edition.name.trumpet": "trompete",
    "edition.name.flugelhorn": "fliscorne", "edition.name.trombone": "trombone",
    "edition.name.horn in f": "trompa em fá", "edition.name.violin": "violino", "edition.name.viola": "viola",
    "edition.name.cello": "violoncelo", "edition.name.guitar": "guitarra",
    "edition.name.double bass": "contrabaixo", "edition.name.electric bass": "baixo elétrico",
    "edition.name.piano": "piano", "edition.name.vibraphone": "vibrafone",
    "edition.name.soprano voice": "voz de soprano",
    "edition.name.mezzo-soprano voice": "voz de mezzo-soprano",
    "edition.name.alto voice": "voz de contralto", "edition.name.tenor voice": "voz de tenor",
    "edition.name.baritone voice": "voz de barítono", "edition.name.bass voice": "voz de baixo",
    "edition.as it sounds": "Escrita como soa",
    "edition.above": "Escrita {interval} acima do som real",
    "edition.below": "Escrita {interval} abaixo do som real",
    "interval.1.1": "uma segunda menor", "interval.1.2": "uma segunda maior",
    "interval.2.3": "uma terça menor", "interval.2.4": "uma terça maior", "interval.3.5": "uma quarta",
    "interval.3.6": "uma quarta aumentada", "interval.4.6": "uma quinta diminuta",
    "interval.4.7": "uma quinta", "interval.4.8": "uma quinta aumentada", "interval.5.8": "uma sexta menor",
    "interval.5.9": "uma sexta maior", "interval.6.10": "uma sétima menor",
    "interval.6.11": "uma sétima maior",
    "interval.octave": "uma oitava", "interval.octaves": "duas oitavas", "interval.and": "{octaves} e {rest}",
    "clef.G2": "clave de sol", "clef.G2-8": "clave de sol oitavada", "clef.F4": "clave de fá",
    "clef.F4-8": "clave de fá oitavada", "clef.C3": "clave de dó na terceira linha",
    "clef.C4": "clave de dó na quarta linha",
    "words name concert": "Este texto nomeia os sons reais.",
    "edition.large": "Letra e música grandes",
    "edition.sample": "Amostra gratuita",
    "keywords": "jazz, improvisação, estudo, doze tonalidades",
    "imprint": "Sobre este livro",
    "imprint.music": "Texto e música de {author}.",
    "imprint.sizes": "Pauta de {staff} mm, texto de {text} pt.",
    "licensee": "Este exemplar pertence a {name}",
    "proof": "prova",
    "published": "Publicado: {date}.",
    # Heads.
    "contents": "Sumário",
    "how to use": "Como usar este livro",
    "on the web": "Na internet",
    "why it works": "Por que funciona",
    "scale": "A escala",
    "scales": "As escalas",
    "tempo": "O andamento",
    "your own": "A sua própria linha sobre estes acordes",
    "listen": "Para ouvir e ver",
    "indexes": "Índices",
    "index.progression": "Por progressão",
    "index.scale": "Por escala",
    "index.device": "Por recurso",
    "index.difficulty": "Por nível",
    "checklist": "Tonalidade por tonalidade",
    "checklist.says":
    "Marque uma tonalidade quando tiver tocado nela a frase três vezes seguidas, de cor e a tempo.",
    "part": "Parte {n}",
    "part.none": "Outras progressões",
    "part.no scale": "Sem escala indicada",
    # Drills: what each pattern is called after the name of its scale, and how it is practised.
    # What to practise now.
    "practice.plan.screen": "Hoje",
    "practice.plan.title": "O que estudar agora",
    "practice.plan.minutes": "Minutos disponíveis",
    "practice.plan.minutes.n": "{n} minutos",
    "practice.plan.begin": "Começar",
    "practice.plan.set": "O repertório de hoje",
    "practice.plan.nothing": "Nada cabe nestes minutos. Reserve mais alguns ou deixe para amanhã.",
    "practice.plan.part.warm": "aquecimento",
    "practice.plan.part.new": "novo",
    "practice.plan.part.back": "mais uma vez",
    "practice.plan.part.old": "de antes",
    "practice.plan.part.rest": "Descanso",
    "practice.plan.part.warm.alone": "Notas longas",
    "practice.plan.in": "{title} em {key}",
    "practice.plan.at": "♩ = {n}",
    "practice.plan.phrase": "{n} · {title}",
    "practice.plan.hands":
    "Pare se doer. Dor, dedos dormentes, mandíbula ou lábios cansados pedem descanso, não esforço; se "
    "voltarem, um professor ou médico sabe mais do que uma página.",
    "practice.plan.ears":
    "O seu instrumento também é forte: a 94 decibéis, as normas de trabalho admitem uma hora por dia. "
    "Deixe a banda abaixo do seu som, não acima.",
    "practice.plan.play": "À partitura",
    "practice.plan.next": "Passar ao seguinte",
    "practice.plan.pause": "Parar o relógio",
    "practice.plan.go on": "Pôr o relógio a andar",
    "practice.plan.stop": "Chega por hoje",
    "practice.plan.clock": "{spent} de {whole}",
    "practice.plan.rest.says":
    "Pouse o instrumento. Solte mãos, ombros, mandíbula e lábios, e dê silêncio aos ouvidos.",
    "practice.plan.rest.left": "faltam {time}",
    "practice.plan.rest.over": "O descanso acabou. Continue quando quiser.",
    "practice.plan.warm.says": "Suave, e mais devagar do que consegue. Nada conta ainda.",
    "practice.plan.warm.alone.says":
    "Suave, com o seu melhor som, o grave antes do agudo. Respire entre uma e outra.",
    "practice.plan.over": "Esse foi o tempo de hoje (minutos: {n}). O resto espera.",
    "practice.plan.copy":
    "Isto é o que há de novo desde a última cópia: {n}. Guarde uma: um navegador pode apagar o que "
    "conserva.",
    "practice.plan.later": "Mais tarde",
    "practice.plan.then": "Depois: {what}",
    "practice.plan.went": "Como foi?",
    "practice.plan.went.apart": "Desmanchou-se",
    "practice.plan.went.slips": "Aguentou, com tropeços",
    "practice.plan.went.clean": "Saiu limpo",
    "practice.plan.went.sang": "Cantou",
    "practice.plan.went.kept": "Anotado.",
    "practice.progress.screen": "Como vai",
    "practice.progress.title": "Até onde chegou",
    "practice.progress.tonics": "dó ré♭ ré mi♭ mi fá fá♯ sol lá♭ lá si♭ si",
    "practice.progress.table": "Frases e tonalidades",
    "practice.progress.legend":
    "A água chega até o andamento em que saiu limpo pela última vez; uma casa cheia é o andamento da "
    "frase. Uma borda pontilhada: está se apagando, e volta ao repertório.",
    "practice.progress.nothing": "Ainda não há nada aqui: vai se enchendo enquanto você toca.",
    "practice.progress.counts":
    "Tonalidades no seu andamento: {there}. A caminho: {way}. Por conhecer: {none}.",
    "practice.progress.cell": "{key}: {n} de {goal}",
    "practice.progress.cell.fading": "{key}: {n} de {goal}, está se apagando",
    "practice.progress.cell.none": "{key}: ainda não",
    "practice.progress.year": "O ano",
    "practice.progress.year.month": "Mês",
    "practice.progress.year.minutes": "Minutos de música",
    "practice.progress.year.begun": "Tonalidades vistas",
    "practice.progress.year.there": "No andamento",
    "practice.progress.year.says": "Os meses sem música não aparecem. Um livro tem tempo.",
    "practice.progress.copies": "Uma cópia para guardar ou para outro aparelho",
    "practice.progress.copies.says":
    "O que você tocou fica só neste navegador e não é enviado a lugar nenhum. Guarde uma cópia de vez em "
    "quando; em outro telefone ou computador, abra a página deste livro e leia-a ali. As duas se somam, e"
    " nada é sobrescrito.",
    "practice.progress.copy.save": "Guardar uma cópia",
    "practice.progress.copy.read": "Ler uma cópia",
    "practice.progress.copy.saved": "A cópia está entre os arquivos transferidos.",
    "practice.progress.read": "Lidos: {n} registros, novos aqui {new}.",
    "practice.progress.read.cut":
    "O arquivo termina cedo demais. O que vinha antes foi lido; guarde-o de novo onde ele foi feito, se "
    "puder.",
    "practice.progress.read.bad": "Linhas que não puderam ser lidas: {lines}. Todas as outras foram lidas.",
    "practice.progress.read.newer":
    "O arquivo vem de uma página mais nova. O que esta não conhece fica guardado e vai para as suas "
    "cópias.",
    "practice.progress.read.gone": "Registros de frases que esta edição não tem: {n}. Ficam guardados.",
    "practice.progress.read.book":
    "Esta cópia é de outro livro, “{title}”. Abra-a na página desse livro. Nada mudou.",
    "practice.progress.read.not":
    "Isto não é uma cópia da página de um livro, ou está danificada desde a primeira linha. Nada mudou.",
    "practice.progress.read.long": "Este arquivo é muito mais longo que qualquer cópia. Nada mudou.",
    "practice.progress.take back": "Retirar o que foi lido",
    "practice.progress.taken back": "Está tudo como antes.",
    "practice.progress.not lasting":
    "Este navegador não guarda nada aqui depois de fechar a página, ou a memória está cheia. Guarde uma "
    "cópia antes de fechá-la.",
    "practice.teacher.screen": "Para o professor",
    "practice.teacher.title": "Uma folha para um aluno",
    "practice.teacher.says":
    "Escolha frases e tonalidades para os próximos dias. A página do aluno tira da folha o trabalho novo "
    "e continua com o que já conhece.",
    "practice.teacher.phrases": "Frases e as suas tonalidades",
    "practice.teacher.all keys": "todas",
    "practice.teacher.keys.n": "(escolhidas: {n})",
    "practice.teacher.week": "Quando, e umas palavras",
    "practice.teacher.from": "A partir de",
    "practice.teacher.for": "Durante",
    "practice.teacher.days.n": "{n} dias",
    "practice.teacher.minutes": "Minutos por dia",
    "practice.teacher.minutes.free": "à escolha do aluno",
    "practice.teacher.minutes.says": "O professor sugere {n} minutos por dia.",
    "practice.teacher.words": "As suas palavras",
    "practice.teacher.made": "A folha como código, para uma mensagem",
    "practice.teacher.copy": "Copiar o código",
    "practice.teacher.copied": "Copiado.",
    "practice.teacher.save": "Guardar como arquivo",
    "practice.teacher.print": "Imprimir",
    "practice.teacher.print.phrase": "Frase",
    "practice.teacher.print.keys": "Tonalidades",
    "practice.teacher.print.tempo": "O seu andamento",
    "practice.teacher.print.notes": "As suas notas",
    "practice.teacher.row": "{title}: {keys}",
    "practice.teacher.days": "de {from} a {to}",
    "practice.teacher.how":
    "Abra a página do seu livro, escolha “Hoje” e cole este texto inteiro em “Uma folha do professor”.",
    "practice.teacher.have one": "Uma folha do professor",
    "practice.teacher.code": "Cole aqui o código",
    "practice.teacher.open": "Abrir",
    "practice.teacher.open file": "Abrir o arquivo",
    "practice.teacher.opened": "A folha está aberta.",
    "practice.teacher.yours": "Do professor",
    "practice.teacher.put away": "Pôr a folha de lado",
    "practice.teacher.read.empty": "Ainda não há código.",
    "practice.teacher.read.not": "Não há nenhuma folha neste texto. O código começa com “{mark}”.",
    "practice.teacher.read.damaged":
    "Falta uma parte do código ou ela mudou no caminho. Copie-o inteiro ou peça o arquivo.",
    "practice.teacher.read.book": "Esta folha é de outro livro, “{title}”.",
    "practice.teacher.read.gone": "Frases da folha que esta edição não tem: {n}.",
    "drills": "Exercícios",
    "drill.title": "{scale} {pattern}",
    "drill.through": "{pattern} sobre {progression}",
    "drill.through.says":
    "Um grupo por acorde, a partir da fundamental; se o acorde se prolonga, o grupo volta a descer. Diga "
    "o acorde ao começar o grupo.",
    "drill.own cell": "com a célula {cell}",
    "drill.own cell.says": "A célula {cell} a partir de cada grau, subindo; na descida ela se inverte.",
    "drill.up and down": "subindo e descendo",
    "drill.up and down.says": "Todas as notas da escala, até o alto e de volta. Respire na virada.",
    "drill.in thirds": "em terças",
    "drill.in thirds.says":
    "Salte uma nota e volte um grau: todas as terças da escala, primeiro subindo e depois descendo.",
    "drill.in fourths": "em quartas",
    "drill.in fourths.says":
    "Todas as quartas da escala. Ouça qual é mais larga ou mais estreita do que as outras.",
    "drill.in fifths": "em quintas",
    "drill.in fifths.says": "Todas as quintas da escala, regulares; deixe a nota grave soar no ouvido.",
    "drill.in sixths": "em sextas",
    "drill.in sixths.says": "Todas as sextas da escala. Ouça por dentro a nota aguda antes de tocar.",
    "drill.in sevenths": "em sétimas",
    "drill.in sevenths.says": "Todas as sétimas da escala, devagar: a nota aguda tão cheia como a grave.",
    "drill.in triads": "em tríades",
    "drill.in triads.says":
    "A tríade de cada grau, em tercinas. Diga maior, menor ou diminuta à medida que passam.",
    "drill.in seventh chords": "em acordes de sétima",
    "drill.in seventh chords.says":
    "O acorde de sétima de cada grau, subindo; depois cada um desde a nota mais aguda, descendo.",
    "drill.in groups of three": "em grupos de três",
    "drill.in groups of three.says":
    "Três notas a partir de cada grau, em tercinas. Apoie a primeira de cada grupo.",
    "drill.in groups of four": "em grupos de quatro",
    "drill.in groups of four.says":
    "Quatro notas a partir de cada grau, subindo; depois quatro a partir de cada grau, descendo.",
    "drill.in groups of five": "em grupos de cinco",
    "drill.in groups of five.says":
    "Cinco notas a partir de cada grau, em colcheias: cada grupo começa em outro lugar do compasso.",
    "drill.1 2 3 5": "com a célula 1 2 3 5",
    "drill.1 2 3 5.says":
    "Primeira, segunda, terça e quinta a partir de cada grau; na descida a célula se inverte.",
    "drill.enclosed": "com notas que cercam",
    "drill.enclosed.says": "Antes de cada nota, a de cima na escala e o meio tom de baixo. Pouse no tempo.",
    "drill.from below": "a partir do meio tom de baixo",
    "drill.from below.says": "Um meio tom leva a cada nota. A nota a que ele leva é a que conta.",
    "drill.symmetric cells": "com a célula que se repete",
    "drill.symmetric cells.says": "A escala se repete e a célula também: aprenda-a uma vez e desloque a mão.",
    "drill.grouped in three": "de três em três contra o pulso",
    "drill.grouped in three.says":
    "Colcheias seguidas com um acento a cada três notas; mantenha o pé no pulso.",
    "drill.grouped in five": "de cinco em cinco contra o pulso",
    "drill.grouped in five.says":
    "Colcheias seguidas com um acento a cada cinco notas; mantenha o pé no pulso.",
    "drill.grouped in seven": "de sete em sete contra o pulso",
    "drill.grouped in seven.says":
    "Colcheias seguidas com um acento a cada sete notas; antes, conte o pulso em voz alta.",
    "drill.off the beat": "com os acentos no contratempo",
    "drill.off the beat.says":
    "Colcheias seguidas: acentue a segunda de cada par e ataque-a com a língua ou a palheta.",
    "all in": "Todas as frases em {tonic}",
    "proof sheet": "Folha de provas",
    "proof sheet.says": "Compare cada partitura com o manuscrito e marque-a.",
    "sample": "Isto é uma amostra",
    "sample.says":
    "Esta amostra traz {n} de {all} frases. O livro completo traz todas, feitas da mesma maneira.",
    # Tempo.
    "tempo.slow": "lento", "tempo.medium": "médio", "tempo.goal": "meta", "tempo.step": "passo",
    "tempo.fact": "{n} pulsos por minuto, {feel}",
    "tempo.fact.free": "{feel}",
    # Devices.
    "device.enclosure": "notas que cercam",
    "device.passing note": "nota de passagem",
    "device.neighbour": "bordadura",
    "device.approach note": "nota de aproximação",
    "device.anticipation": "antecipação",
    "device.suspension": "retardo",
    "device.leaning note": "apojatura",
    "device.escape note": "escapada",
    "device.blue note": "nota de blues",
    "device.pedal": "pedal",
    "device.arpeggio": "arpejo",
    "device.run": "graus conjuntos",
    "device.sequence": "sequência",
    "device.delayed resolution": "resolução adiada",
    "level.1": "nível 1, fácil", "level.2": "nível 2", "level.3": "nível 3", "level.4": "nível 4",
    "level.5": "nível 5, difícil",
    # Alternative text of a score, for those who hear the page.
    "alt.title": "{title} em {key}, {metre}, {tempo}.",
    "alt.bar": "Compasso {n}, {chords}: {notes}.",
    "alt.pickup": "Anacruse: {notes}.",
    "alt.rest": "pausa",
    "alt.note": "{note} {octave}",
    "alt.valued": "{value} de {note}",
    "alt.next": "{first}, {next}",
    "alt.tie": "{value} ligada",
    "alt.1": "semibreve", "alt.2": "mínima", "alt.4": "semínima", "alt.8": "colcheia",
    "alt.16": "semicolcheia", "alt.32": "fusa",
    "alt.dotted": "{value} pontuada", "alt.triplet": "{value} de tercina",
    "alt.tuplet": "{value}, {actual} no tempo de {normal},",
    "alt.stop": "na corda {string}, traste {fret}",
    "alt.scale": "{scale} sobre {chord}: {notes}.",
    "alt.changes": "Pautas vazias sob os acordes: {changes}.",
    "alt.code": "Código QR do endereço {name}",
    "alt.page": "página",
    # How to use this book.
    "advice.edition": "A edição",
    "advice.edition.concert":
    "Esta é a edição em som real: cada nota está escrita como soa, para piano, guitarra, flauta, violino, "
    "vibrafone e quem mais lê em dó. Onde uma tonalidade ficar incômoda no seu instrumento, mude a linha "
    "inteira de oitava e conserve o desenho.",
    "advice.edition.reader": "Esta é a {lower title}, em {clef}. Cada nota está {says}.",
    "advice.edition.octave": "Alguns dos instrumentos que a leem soam ainda uma oitava abaixo.",
    "advice.edition.keys":
    "As tonalidades têm o nome que se lê nesta edição. O nome pequeno ao lado é a tonalidade em som real: é "
    "essa que se diz ao pianista e ao baixista.",
    "advice.edition.register":
    "Em cada tonalidade, a linha está na oitava que fica melhor para o instrumento.",
    "advice.edition.tablature":
    "Sob cada pauta está a sua tablatura: uma linha por corda, a corda 1 em cima, e sobre ela o traste, 0 "
    "para a corda solta. Um traste entre parênteses vem ligado do compasso anterior. A afinação, a partir "
    "da corda 1 e tal como soa, é {strings}. Os trastes foram escolhidos para que a mão ande o menos "
    "possível; se outros forem mais cômodos, anote-os.",
    "advice.edition.author":
    "As notas, os acordes e as tonalidades mencionados nos textos de autor estão em som real.",
    "advice.phrase": "Uma frase por semana",
    "advice.phrase.says":
    "Cada frase começa numa página própria, na sua tonalidade de origem. Leia primeiro os acordes. "
    "Toque-os, ou toque ao menos as terças e as sétimas, até ouvi-los sem instrumento; depois cante a linha "
    "por cima, devagar; e só então toque. O que não consegue cantar, ainda não ouve.\n\n"
    "Uma frase que se sabe de cor em todas as tonalidades vale mais do que dez que se conseguem ler.",
    "advice.keys": "As tonalidades",
    "advice.keys.one": "A frase inteira aparece numa só tonalidade, com o nome ao lado da pauta.",
    "advice.keys.many":
    "Depois do texto vem a frase inteira em {keys} tonalidades, cada uma com o seu nome ao lado da pauta.",
    "advice.keys.by key":
    "As primeiras páginas estão juntas; depois vem, tonalidade por tonalidade, cada uma com todas as frases.",
    "advice.accidentals":
    "Não há armadura de clave: cada nota que precisa de um acidente o traz consigo, e ele vale até o fim do "
    "compasso.",
    "advice.signature":
    "Cada tonalidade tem a sua armadura de clave no começo de cada linha; um acidente ocorrente vale até o "
    "fim do compasso.",
    "advice.method":
    "Aprenda a frase pelo que cada nota é sobre o acorde, não pelo nome: terça, quinta, nona menor. Assim, "
    "uma tonalidade nova é a mesma frase com outro sotaque. Estude três ou quatro tonalidades por dia e "
    "recomece amanhã de onde parou. Cubra a página assim que puder; ela está aí para conferir, não para se "
    "apoiar nela. Se uma tonalidade continuar difícil, é a próxima a estudar.",
    "order.fourths":
    "Elas seguem o ciclo das quartas, de modo que a tônica de cada uma é o quinto grau da seguinte.",
    "order.fifths": "Elas seguem o ciclo das quintas.",
    "order.chromatic": "Elas sobem por semitons.",
    "order.chromatic down": "Elas descem por semitons.",
    "order.whole steps": "Elas sobem por tons, primeiro seis tonalidades e depois as outras seis.",
    "order.whole steps down": "Elas descem por tons, primeiro seis tonalidades e depois as outras seis.",
    "order.minor thirds": "Elas sobem por terças menores, de quatro em quatro tonalidades.",
    "order.major thirds": "Elas sobem por terças maiores, de três em três tonalidades.",
    "advice.signs": "Os sinais",
    "signs.degrees":
    "Os algarismos pequenos sob as notas dizem o que cada nota é sobre o acorde: 1, 3, 5 e 7 são o próprio "
    "acorde; 9, 11 e 13, as tensões, com bemóis (menor, diminuta) e sustenidos (aumentada) quando estão "
    "alteradas. Onde um grau pediria um duplo bemol ou um nome que trava a leitura, como a nona menor de "
    "D♭, a nota simples está escrita por cima do algarismo.",
    "signs.sparse": "Os algarismos estão onde a linha pousa e onde o texto fala da nota.",
    "signs.landings":
    "Na primeira página, uma pequena cunha sob um algarismo marca um ponto de chegada: um tempo forte ou a "
    "primeira nota sobre um acorde novo. Um colchete fino sob a pauta une as duas notas que atravessam uma "
    "barra de compasso ou levam a um acorde novo.",
    "signs.scales":
    "O nome sobre um acorde é a escala em que a linha pensa; ele aparece onde a escala muda.",
    "signs.ghost": "Uma nota entre parênteses é uma nota fantasma: mais sentida do que ouvida.",
    "advice.time": "O tempo",
    "advice.time.says":
    "Comece pelo primeiro andamento da escada, ou mais devagar, e conte um compasso em voz alta antes de "
    "tocar. Quando quatro repetições seguidas saírem regulares e relaxadas, suba quatro pulsos por minuto; "
    "quando uma não sair, desça oito. Quando a linha estiver firme, deixe o metrônomo soar no dois e no "
    "quatro, depois só no quatro, depois uma vez a cada dois compassos. O swing vem de onde as notas são "
    "postas, não da pressa: grave o que toca e ouça no dia seguinte.",
    "advice.yours": "Torne-a sua",
    "advice.yours.says":
    "Tire a primeira nota. Comece uma colcheia mais tarde. Mantenha o ritmo e mude as notas, mantenha as "
    "notas e mude o ritmo. Use o que encontrar num tema na mesma noite, saia como sair.",
    "advice.yours.staves":
    "Escreva o que quiser nas pautas vazias que estão sob a frase, com os mesmos acordes.",
    "advice.body": "Mãos, mandíbula, ouvidos",
    "advice.body.says":
    "Descanse cinco minutos a cada meia hora e pare antes do cansaço, não depois. Ombros baixos, pulsos "
    "retos, mandíbula e respiração soltas. Dor, dormência e formigamento nunca fazem parte do estudo: "
    "largue o instrumento e, se voltarem, fale com quem lhe ensina sobre a postura e com um médico sobre o "
    "resto. Com fones de ouvido, mantenha um volume em que ainda poderia ouvir alguém falar ao seu lado; se "
    "os ouvidos zumbem, estava alto demais por tempo demais.",
}  # fmt: skip
"""Every row."""

SAME: frozenset[str] = frozenset({
    *(f"progression.{name}" for name in _NUMERALS),
    "feel.swing", "feel.shuffle", "feel.samba", "feel.funk", "scale.blues", "device.pedal", "isbn",
})  # fmt: skip
"""Rows that are the same in English."""

PENDING: dict[str, str] = {
    "scale.short.half-whole diminished": "semitom-tom",
    "scale.short.whole-half diminished": "tom-semitom",
    "scale.short.melodic minor": "menor mel.", "scale.short.harmonic minor": "menor harm.",
    "scale.short.harmonic major": "maior harm.", "scale.short.lydian dominant": "lídio domin.",
    "scale.short.phrygian dominant": "frígio domin.", "scale.short.mixolydian": "mixolíd.",
    "scale.short.lydian augmented": "lídio aum.", "scale.short.locrian natural 2": "lócrio 2 maior",
    "scale.short.locrian natural 6": "lócrio 6 maior", "scale.short.ionian augmented": "jônio aum.",
    "scale.short.mixolydian b6": "mixolíd. ♭6", "scale.short.mixolydian b2": "mixolíd. ♭2",
    "scale.short.bebop melodic minor": "bebop menor mel.", "scale.short.bebop dominant": "bebop domin.",
    "scale.short.major pentatonic": "pent. maior", "scale.short.minor pentatonic": "pent. menor",
    "date": "{day} de {month} de {year}",
    "months": "janeiro fevereiro março abril maio junho julho agosto setembro outubro novembro dezembro",
    "isbn": "ISBN {number}",
    "tracks": "Faixas",
    "preface": "Prefácio",
    "acknowledgements": "Agradecimentos",
    "about the author": "Quem escreveu este livro",
    "cover": "Capa", "logo": "Marca da editora",
    "index.key": "Por tonalidade",
    "signs.symbols":
    "Os acordes são cifrados com as letras internacionais: C é dó, D ré, E mi, F fá, G sol, A lá e B si. Um "
    "m ou um traço é menor; maj7 ou um triângulo, sétima maior; um círculo pequeno, diminuto, e um círculo "
    "cortado, meio-diminuto. As alterações vão sobrescritas.",
    "signs.chords":
    "Os acordes são cifrados com as letras internacionais: C é dó, D ré, E mi, F fá, G sol, A lá e B si. "
    "Além disso, {signs}.",
    "signs.next": "{first}, {next}",
    "signs.chord.m": "m é menor", "signs.chord.dash": "um traço é menor",
    "signs.chord.maj": "maj é sétima maior", "signs.chord.triangle": "um triângulo é sétima maior",
    "signs.chord.ring": "um círculo pequeno é diminuto",
    "signs.chord.struck ring": "um círculo cortado é meio-diminuto",
    "signs.chord.plus": "o sinal de mais é aumentado",
    "signs.chord.alt": "alt é um dominante com todas as tensões alteradas",
    "signs.chord.sus": "sus tem a quarta em lugar da terça",
    "signs.chord.raised": "o que é alterado ou acrescentado vai sobrescrito, entre parênteses",
    "signs.chord.bass": "a letra depois da barra é o baixo",
    "signs.courtesy": "Um acidente entre parênteses só lembra: valeria mesmo sem ele.",
    "signs.grace":
    "Uma nota pequena é tocada depressa, antes do seu tempo ou nele, e não ocupa um tempo próprio.",
    "signs.fall": "Uma linha curva que sai de uma nota para baixo deixa o som cair até se perder.",
    "signs.scoop": "Uma linha curva que sobe até uma nota chega a ela por baixo.",
    "signs.accent": "Uma cunha deitada sobre uma nota é um acento.",
    "signs.staccato": "Um ponto por cima ou por baixo de uma nota a torna curta.",
    "signs.tenuto": "Um traço por cima ou por baixo de uma nota lhe deixa toda a duração.",
    "signs.slur": "Uma ligadura une notas que se atacam uma só vez, com língua, arco ou palheta.",
}  # fmt: skip
"""Rows that are used as soon as the English table has them."""
