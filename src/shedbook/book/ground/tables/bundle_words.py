"""The words of a bundle: what the student reads first, the listing of a shop, the page of changes.

Row format: language; the name by which the program asks for a word; the word, as in `tables.words`.
The source of every row is the trade's usual wording, or our own.
"""

from __future__ import annotations

_EN = {
    "bundle.version": "Version {number}",
    "bundle.read me": "Read me first",
    "bundle.unpack":
    "Unpack the zip file before you open anything in it: with a double click on a computer, with the app for "
    "files on a telephone or tablet.",
    "bundle.pdf": "the book, for screen and paper. Opens with whatever shows PDF files.",
    "bundle.tracks":
    "the tracks, a folder for each key. Open with any music player. A track that goes through several keys "
    "has a chapter for each.",
    "bundle.midi":
    "every phrase in every key as MIDI. Opens with a sequencer, a notation program or a keyboard.",
    "bundle.musicxml":
    "every phrase in every key as MusicXML. Opens with a notation program, to hear, change and print it.",
    "bundle.practice": "the practice page. Opens with a web browser, without a connection.",
    "bundle.licence": "what you may do with these files.",
    "bundle.changes": "what has changed since the version before.",
    "bundle.manifest": "the list of all files with their sizes and checksums, for programs.",
    "bundle.sounds":
    "The book and the folders name keys as you read them; the titles of tracks name them as they sound.",
    "bundle.care":
    "Practise in short spells and rest often. Keep hands, jaw and shoulders loose and headphones low. When "
    "something aches, stop, and ask your teacher or a doctor.",
    "listing.level": "Level {low} of five.", "listing.levels": "Levels {low} to {high} of five.",
    "listing.changes": "Changes: {names}.", "listing.scales": "Scales: {names}.",
    "listing.lines": "In the lines: {names}.", "listing.editions": "Editions: {names}.",
    "listing.pages": "Pages: {number}.", "listing.tracks": "Tracks: {number}, {minutes} minutes.",
    "listing.files": "Files: {names}.",
    "listing.notes":
    "Of every note the book knows what it is over its chord and what it does in the line, and says why the "
    "phrase works.",
    "errata.title": "What has changed", "errata.between": "From version {old} to version {new}",
    "errata.none": "Nothing has changed.", "errata.phrase": "{number}. {title}",
    "errata.new": "new", "errata.gone": "no longer in the book", "errata.moved": "number {number} before",
    "errata.changed": "{what} {was} is now {now}",
    "errata.place": "Bar {bar}, beat {beat}", "errata.nothing": "nothing",
    "errata.note": "note", "errata.chord": "chord", "errata.scale": "scale", "errata.rhythm": "rhythm",
    "errata.slurs and grace notes": "slurs and grace notes", "errata.title of": "title",
    "errata.commentary": "words", "errata.tempo": "tempo", "errata.feel": "feel", "errata.metre": "metre",
    "errata.key": "key", "errata.other": "setting",
    "errata.keys": "In the keys: {names}", "errata.pages": "{edition}: pages {pages}",
    "errata.download": "To download again",
    "errata.keep": "Ticks and notes of your practice go on: phrases keep their names in the new version.",
    "errata.settings": "Settings of the book: {names}.",
}  # fmt: skip
_DE = {
    "bundle.version": "Fassung {number}",
    "bundle.read me": "Zuerst lesen",
    "bundle.unpack":
    "Entpacke die Zip-Datei, bevor du etwas darin öffnest: am Rechner mit einem Doppelklick, auf Telefon "
    "oder "
    "Tablet mit der App für Dateien.",
    "bundle.pdf": "das Buch, für Bildschirm und Papier. Öffnet sich mit allem, was PDF zeigt.",
    "bundle.tracks":
    "die Aufnahmen, ein Ordner für jede Tonart. Öffnen sich mit jedem Musikspieler. Eine Aufnahme durch "
    "mehrere Tonarten hat für jede ein Kapitel.",
    "bundle.midi":
    "jede Phrase in jeder Tonart als MIDI. Öffnet sich mit einem Sequenzer, einem Notensatzprogramm oder "
    "einem Keyboard.",
    "bundle.musicxml":
    "jede Phrase in jeder Tonart als MusicXML. Öffnet sich mit einem Notensatzprogramm: zum Hören, Ändern "
    "und Drucken.",
    "bundle.practice": "die Übeseite. Öffnet sich mit einem Webbrowser, ohne Verbindung.",
    "bundle.licence": "was du mit diesen Dateien tun darfst.",
    "bundle.changes": "was sich seit der vorigen Fassung geändert hat.",
    "bundle.manifest": "die Liste aller Dateien mit Größen und Prüfsummen, für Programme.",
    "bundle.sounds":
    "Buch und Ordner nennen Tonarten, wie du sie liest; die Titel der Aufnahmen nennen sie, wie sie klingen.",
    "bundle.care":
    "Übe in kurzen Abschnitten und mach oft Pause. Halte Hände, Kiefer und Schultern locker und den "
    "Kopfhörer "
    "leise. Wenn etwas wehtut, hör auf und frag deine Lehrerin, deinen Lehrer oder eine Ärztin.",
    "listing.level": "Stufe {low} von fünf.", "listing.levels": "Stufen {low} bis {high} von fünf.",
    "listing.changes": "Harmoniefolgen: {names}.", "listing.scales": "Skalen: {names}.",
    "listing.lines": "In den Linien: {names}.", "listing.editions": "Ausgaben: {names}.",
    "listing.pages": "Seiten: {number}.", "listing.tracks": "Aufnahmen: {number}, {minutes} Minuten.",
    "listing.files": "Dateien: {names}.",
    "listing.notes":
    "Von jeder Note weiß das Buch, was sie über ihrem Akkord ist und was sie in der Linie tut, und es sagt, "
    "warum die Phrase trägt.",
    "errata.title": "Was sich geändert hat", "errata.between": "Von Fassung {old} zu Fassung {new}",
    "errata.none": "Nichts hat sich geändert.", "errata.phrase": "{number}. {title}",
    "errata.new": "neu", "errata.gone": "nicht mehr im Buch", "errata.moved": "vorher Nummer {number}",
    "errata.changed": "{what} {was} ist jetzt {now}",
    "errata.place": "Takt {bar}, Schlag {beat}", "errata.nothing": "nichts",
    "errata.note": "Note", "errata.chord": "Akkord", "errata.scale": "Skala", "errata.rhythm": "Rhythmus",
    "errata.slurs and grace notes": "Bögen und Vorschläge", "errata.title of": "Titel",
    "errata.commentary": "Worte", "errata.tempo": "Tempo", "errata.feel": "Spielart",
    "errata.metre": "Taktart", "errata.key": "Tonart", "errata.other": "Einstellung",
    "errata.keys": "In den Tonarten: {names}", "errata.pages": "{edition}: Seiten {pages}",
    "errata.download": "Neu herunterzuladen",
    "errata.keep":
    "Haken und Notizen deines Übens gehen weiter: Die Phrasen behalten in der neuen Fassung ihre Namen.",
    "errata.settings": "Einstellungen des Buchs: {names}.",
}  # fmt: skip
_FR = {
    "bundle.version": "Version {number}",
    "bundle.read me": "À lire d’abord",
    "bundle.unpack":
    "Décompresse le fichier zip avant d’en ouvrir le contenu : d’un double clic sur un ordinateur, avec "
    "l’application des fichiers sur un téléphone ou une tablette.",
    "bundle.pdf": "le livre, pour l’écran et le papier. S’ouvre avec tout ce qui affiche du PDF.",
    "bundle.tracks":
    "les pistes, un dossier par tonalité. S’ouvrent avec tout lecteur de musique. Une piste qui traverse "
    "plusieurs tonalités a un chapitre pour chacune.",
    "bundle.midi":
    "chaque phrase dans chaque tonalité en MIDI. S’ouvre avec un séquenceur, un logiciel de notation ou un "
    "clavier.",
    "bundle.musicxml":
    "chaque phrase dans chaque tonalité en MusicXML. S’ouvre avec un logiciel de notation, pour l’écouter, "
    "la modifier et l’imprimer.",
    "bundle.practice": "la page de travail. S’ouvre avec un navigateur, sans connexion.",
    "bundle.licence": "ce que tu as le droit de faire de ces fichiers.",
    "bundle.changes": "ce qui a changé depuis la version précédente.",
    "bundle.manifest":
    "la liste de tous les fichiers avec tailles et sommes de contrôle, pour les programmes.",
    "bundle.sounds":
    "Le livre et les dossiers nomment les tonalités comme tu les lis ; les titres des pistes, comme elles "
    "sonnent.",
    "bundle.care":
    "Travaille par courtes séances et repose-toi souvent. Garde mains, mâchoire et épaules souples et le "
    "casque à bas volume. Si quelque chose fait mal, arrête et demande à ton professeur ou à un médecin.",
    "listing.level": "Niveau {low} sur cinq.", "listing.levels": "Niveaux {low} à {high} sur cinq.",
    "listing.changes": "Grilles : {names}.", "listing.scales": "Gammes : {names}.",
    "listing.lines": "Dans les lignes : {names}.", "listing.editions": "Éditions : {names}.",
    "listing.pages": "Pages : {number}.", "listing.tracks": "Pistes : {number}, {minutes} minutes.",
    "listing.files": "Fichiers : {names}.",
    "listing.notes":
    "De chaque note, le livre sait ce qu’elle est sur son accord et ce qu’elle fait dans la ligne, et il dit "
    "pourquoi la phrase fonctionne.",
    "errata.title": "Ce qui a changé", "errata.between": "De la version {old} à la version {new}",
    "errata.none": "Rien n’a changé.", "errata.phrase": "{number}. {title}",
    "errata.new": "nouvelle", "errata.gone": "n’est plus dans le livre",
    "errata.moved": "auparavant numéro {number}",
    "errata.changed": "{what} {was} devient {now}",
    "errata.place": "Mesure {bar}, temps {beat}", "errata.nothing": "rien",
    "errata.note": "note", "errata.chord": "accord", "errata.scale": "gamme", "errata.rhythm": "rythme",
    "errata.slurs and grace notes": "liaisons et appoggiatures", "errata.title of": "titre",
    "errata.commentary": "texte", "errata.tempo": "tempo", "errata.feel": "style de jeu",
    "errata.metre": "mesure", "errata.key": "tonalité", "errata.other": "réglage",
    "errata.keys": "Dans les tonalités : {names}", "errata.pages": "{edition} : pages {pages}",
    "errata.download": "À télécharger de nouveau",
    "errata.keep":
    "Les cases cochées et les notes de ton travail restent : les phrases gardent leur nom dans la nouvelle "
    "version.",
    "errata.settings": "Réglages du livre : {names}.",
}  # fmt: skip
_ES = {
    "bundle.version": "Versión {number}",
    "bundle.read me": "Para leer primero",
    "bundle.unpack":
    "Descomprime el archivo zip antes de abrir lo que contiene: con un doble clic en un ordenador, con la "
    "aplicación de archivos en un teléfono o una tableta.",
    "bundle.pdf": "el libro, para pantalla y papel. Se abre con cualquier programa que muestre PDF.",
    "bundle.tracks":
    "las pistas, una carpeta por tonalidad. Se abren con cualquier reproductor de música. Una pista que "
    "recorre varias tonalidades tiene un capítulo para cada una.",
    "bundle.midi":
    "cada frase en cada tonalidad en MIDI. Se abre con un secuenciador, un programa de notación o un "
    "teclado.",
    "bundle.musicxml":
    "cada frase en cada tonalidad en MusicXML. Se abre con un programa de notación, para oírla, cambiarla e "
    "imprimirla.",
    "bundle.practice": "la página de estudio. Se abre con un navegador, sin conexión.",
    "bundle.licence": "lo que puedes hacer con estos archivos.",
    "bundle.changes": "lo que ha cambiado desde la versión anterior.",
    "bundle.manifest":
    "la lista de todos los archivos con tamaños y sumas de comprobación, para programas.",
    "bundle.sounds":
    "El libro y las carpetas nombran las tonalidades como las lees; los títulos de las pistas, como suenan.",
    "bundle.care":
    "Estudia en ratos cortos y descansa a menudo. Mantén sueltas las manos, la mandíbula y los hombros, "
    "y los "
    "auriculares bajos. Si algo duele, para y pregunta a tu profesor o a un médico.",
    "listing.level": "Nivel {low} de cinco.", "listing.levels": "Niveles {low} a {high} de cinco.",
    "listing.changes": "Progresiones: {names}.", "listing.scales": "Escalas: {names}.",
    "listing.lines": "En las líneas: {names}.", "listing.editions": "Ediciones: {names}.",
    "listing.pages": "Páginas: {number}.", "listing.tracks": "Pistas: {number}, {minutes} minutos.",
    "listing.files": "Archivos: {names}.",
    "listing.notes":
    "De cada nota el libro sabe qué es sobre su acorde y qué hace en la línea, y dice por qué funciona la "
    "frase.",
    "errata.title": "Lo que ha cambiado", "errata.between": "De la versión {old} a la versión {new}",
    "errata.none": "Nada ha cambiado.", "errata.phrase": "{number}. {title}",
    "errata.new": "nueva", "errata.gone": "ya no está en el libro",
    "errata.moved": "antes número {number}",
    "errata.changed": "{what} {was} ahora es {now}",
    "errata.place": "Compás {bar}, tiempo {beat}", "errata.nothing": "nada",
    "errata.note": "nota", "errata.chord": "acorde", "errata.scale": "escala", "errata.rhythm": "ritmo",
    "errata.slurs and grace notes": "ligaduras y notas de adorno", "errata.title of": "título",
    "errata.commentary": "texto", "errata.tempo": "tempo", "errata.feel": "estilo de ritmo",
    "errata.metre": "compás", "errata.key": "tonalidad", "errata.other": "ajuste",
    "errata.keys": "En las tonalidades: {names}", "errata.pages": "{edition}: páginas {pages}",
    "errata.download": "Para descargar de nuevo",
    "errata.keep":
    "Las marcas y notas de tu estudio siguen: las frases conservan su nombre en la nueva versión.",
    "errata.settings": "Ajustes del libro: {names}.",
}  # fmt: skip
_PT = {
    "bundle.version": "Versão {number}",
    "bundle.read me": "Leia primeiro",
    "bundle.unpack":
    "Descompacte o arquivo zip antes de abrir o que está nele: com um clique duplo no computador, com o "
    "aplicativo de arquivos no telefone ou no tablet.",
    "bundle.pdf": "o livro, para tela e papel. Abre com qualquer programa que mostre PDF.",
    "bundle.tracks":
    "as faixas, uma pasta para cada tonalidade. Abrem com qualquer tocador de música. Uma faixa que "
    "passa por "
    "várias tonalidades tem um capítulo para cada uma.",
    "bundle.midi":
    "cada frase em cada tonalidade em MIDI. Abre com um sequenciador, um programa de notação ou um teclado.",
    "bundle.musicxml":
    "cada frase em cada tonalidade em MusicXML. Abre com um programa de notação, para ouvir, mudar e "
    "imprimir.",
    "bundle.practice": "a página de estudo. Abre com um navegador, sem conexão.",
    "bundle.licence": "o que você pode fazer com estes arquivos.",
    "bundle.changes": "o que mudou desde a versão anterior.",
    "bundle.manifest":
    "a lista de todos os arquivos com tamanhos e somas de verificação, para programas.",
    "bundle.sounds":
    "O livro e as pastas dão às tonalidades o nome que você lê; os títulos das faixas, o que soa.",
    "bundle.care":
    "Estude em períodos curtos e descanse muitas vezes. Mantenha mãos, maxilar e ombros soltos e os fones "
    "baixos. Se algo doer, pare e pergunte ao seu professor ou a um médico.",
    "listing.level": "Nível {low} de cinco.", "listing.levels": "Níveis {low} a {high} de cinco.",
    "listing.changes": "Progressões: {names}.", "listing.scales": "Escalas: {names}.",
    "listing.lines": "Nas linhas: {names}.", "listing.editions": "Edições: {names}.",
    "listing.pages": "Páginas: {number}.", "listing.tracks": "Faixas: {number}, {minutes} minutos.",
    "listing.files": "Arquivos: {names}.",
    "listing.notes":
    "De cada nota o livro sabe o que ela é sobre o acorde e o que faz na linha, e diz por que a frase "
    "funciona.",
    "errata.title": "O que mudou", "errata.between": "Da versão {old} à versão {new}",
    "errata.none": "Nada mudou.", "errata.phrase": "{number}. {title}",
    "errata.new": "nova", "errata.gone": "não está mais no livro",
    "errata.moved": "antes número {number}",
    "errata.changed": "{what} {was} agora é {now}",
    "errata.place": "Compasso {bar}, tempo {beat}", "errata.nothing": "nada",
    "errata.note": "nota", "errata.chord": "acorde", "errata.scale": "escala", "errata.rhythm": "ritmo",
    "errata.slurs and grace notes": "ligaduras e notas de adorno", "errata.title of": "título",
    "errata.commentary": "texto", "errata.tempo": "andamento", "errata.feel": "estilo rítmico",
    "errata.metre": "fórmula de compasso", "errata.key": "tonalidade", "errata.other": "ajuste",
    "errata.keys": "Nas tonalidades: {names}", "errata.pages": "{edition}: páginas {pages}",
    "errata.download": "Para baixar de novo",
    "errata.keep":
    "As marcas e notas do seu estudo continuam: as frases mantêm o nome na nova versão.",
    "errata.settings": "Ajustes do livro: {names}.",
}  # fmt: skip

BUNDLE: dict[str, dict[str, str]] = {"en": _EN, "de": _DE, "fr": _FR, "es": _ES, "pt": _PT}
"""The rows of each language."""
