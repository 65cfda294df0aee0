"""The words of the student's page in German; row format as in `tables.practice_words`.

The terms are common practice, the sentences our own.
"""

from __future__ import annotations

WORDS: dict[str, str] = {
    "practice.skip": "Zur Übung springen",
    "practice.screens": "Was du tun kannst",
    "practice.close": "Schließen",
    "practice.missing": "{file} fehlt im Ordner dieser Seite. Kopiere den ganzen Ordner.",
    "practice.old":
    "Dieser Browser ist zu alt für diese Seite: {what} fehlt ihm. Browser ab 2023 öffnen sie.",
    "practice.screen.play": "Spielen",
    "practice.screen.ear": "Nach Gehör",
    "practice.screen.why": "Warum es klingt",
    "practice.screen.own": "Deine Linie",
    "practice.choose.phrase": "Welche Phrase?",
    "practice.choose.key": "Welche Tonart?",
    "practice.choose.search": "Ein Wort des Titels oder die Nummer",
    "practice.reader.asked": "Welche Stimme liest du?",
    "practice.reader.instrument": "Du liest",
    "practice.reader.tuning": "Dein Kammerton",
    "practice.reader.tuning.n": "{n} Hz",
    "practice.reader.theme": "Papier",
    "practice.reader.theme.system": "wie das Gerät",
    "practice.reader.theme.light": "hell",
    "practice.reader.theme.dark": "dunkel",
    "practice.play.phrase": "{n} · {title}",
    "practice.play.start": "Los",
    "practice.play.stop": "Halt",
    "practice.play.key.before": "Die Tonart davor",
    "practice.play.key.next": "Die nächste Tonart",
    "practice.play.tempo": "Tempo",
    "practice.play.tempo.value": "{n} in der Minute, {share} %",
    "practice.play.told": "{title}, {key}, {n} Schläge in der Minute",
    "practice.play.more": "Wer spielt, was sich wiederholt, dein Instrument",
    "practice.play.heard": "Du hörst",
    "practice.play.heard.line": "die Linie",
    "practice.play.heard.bass": "den Bass",
    "practice.play.heard.comping": "die Akkorde",
    "practice.play.heard.drums": "das Schlagzeug",
    "practice.play.heard.click": "ein Klicken auf 2 und 4",
    "practice.play.heard.count": "das Einzählen",
    "practice.play.source": "Der Klang kommt von",
    "practice.play.source.page": "dieser Seite",
    "practice.play.source.track": "der Aufnahme: {name}",
    "practice.play.source.says":
    "Eine Aufnahme klingt, wie sie gemacht wurde: "
    "ihre Spieler, ihre Lage und ihre Stimmung bleiben.",
    "practice.play.track.demonstration": "Vorspiel",
    "practice.play.track.play-along": "zum Mitspielen",
    "practice.play.track.line": "die Linie allein",
    "practice.play.track.click": "die Linie mit Klicken",
    "practice.play.track.call-and-answer": "Ruf und Antwort",
    "practice.play.track.no-bass": "ohne Bass",
    "practice.play.track.no-piano": "ohne Klavier",
    "practice.play.track.no-drums": "ohne Schlagzeug",
    "practice.play.track.bass-alone": "der Bass allein",
    "practice.play.track.piano-alone": "das Klavier allein",
    "practice.play.track.drums-alone": "das Schlagzeug allein",
    "practice.play.loop": "Immer wieder",
    "practice.play.loop.whole": "die ganze Phrase",
    "practice.play.loop.bar": "Takt {n}",
    "practice.play.loop.link": "den Übergang von Takt {n} in Takt {m}",
    "practice.play.rounds": "Danach",
    "practice.play.rounds.stay": "in dieser Tonart bleiben, bis ich weitergehe",
    "practice.play.rounds.n": "nach so vielen Runden in die nächste Tonart: {n}",
    "practice.play.faster": "Schneller",
    "practice.play.faster.never": "nur wenn ich es sage",
    "practice.play.faster.n": "um {step} % nach so vielen sauberen Runden: {n}",
    "practice.play.faster.says": "Eine Runde gilt als sauber, wenn du nichts anderes sagst.",
    "practice.play.faster.not": "Die war nicht sauber: eine Stufe langsamer",
    "practice.play.hands":
    "Mit vollen Händen: Pedal vor, Bild ab oder → geht in die nächste Tonart; Pedal zurück, Bild auf oder "
    "← in die davor, oder es heißt „nicht sauber“, solange das Tempo von selbst wächst. ↑ und ↓ ändern das "
    "Tempo, die Leertaste beginnt und hält an, L ist die Linie, C das Klicken.",
    "practice.play.ears":
    "Stell den Kopfhörer so leise, dass du noch hörst, wenn dich jemand anspricht. Ruh in jeder halben "
    "Stunde fünf Minuten aus, und leg das Instrument weg, wenn etwas weh tut; deine Lehrkraft oder ein "
    "Arzt weiß mehr als eine Seite.",
    "practice.ear.says": "Zuerst das Ohr, dann die Stimme, dann das Instrument und zuletzt die Noten.",
    "practice.ear.hear": "Hör sie",
    "practice.ear.hear.says": "Zwei- oder dreimal, ohne zu spielen. Klopf den Puls mit.",
    "practice.ear.hear.bar": "Takt {n} hören",
    "practice.ear.slow": "langsam",
    "practice.ear.chords": "mit den Akkorden",
    "practice.ear.sing": "Sing sie",
    "practice.ear.sing.says":
    "Auswendig, leise, in der Lage, die dir liegt. Hör noch einmal hin, wo sie abreißt.",
    "practice.ear.first": "Gib mir den ersten Ton",
    "practice.ear.find": "Finde sie",
    "practice.ear.find.says": "Auf deinem Instrument, vom ersten Ton an, langsam. Ohne Eile und ohne Druck.",
    "practice.ear.see": "Sieh sie",
    "practice.ear.see.next": "Takt {n} zeigen",
    "practice.ear.see.all": "Alles zeigen",
    "practice.ear.see.none": "Wieder zudecken",
    "practice.ear.listen": "Die Seite zuhören lassen",
    "practice.ear.listen.stop": "Nicht mehr zuhören",
    "practice.ear.listen.says":
    "Das Mikrofon hört einen Ton zur Zeit und nicht immer den richtigen: Nimm es als Hilfe und nicht als "
    "Urteil. Nichts wird aufgenommen, und nichts verlässt dieses Gerät.",
    "practice.ear.listen.none": "Dieser Browser lässt die Seite hier kein Mikrofon benutzen ({why}).",
    "practice.ear.listen.now": "Jetzt: {note}",
    "practice.ear.listen.found": "{n} von {of} Tönen der Reihe nach gehört. Nicht sicher gehört: {missing}.",
    "practice.ear.listen.all": "Alle {of} Töne gehört, der Reihe nach.",
    "practice.ear.listen.nothing": "Noch nichts gehört.",
    "practice.why.says": "Wähl einen Satz: Seine Töne werden markiert, und du hörst sie.",
    "practice.why.home": "In ihrer Grundtonart, {key}.",
    "practice.why.scales": "Die Skalen",
    "practice.why.scale": "{name} über {chord}",
    "practice.why.scale.hear": "Die Skala hören",
    "practice.why.line": "Die Linie hören",
    "practice.own.says":
    "Schreib über dieselben Akkorde. Tipp ins System, um einen Ton zu setzen, und auf einen Ton, um ihn zu "
    "wählen. Tasten: ← → gehen von Platz zu Platz, ↑ ↓ bewegen einen Ton um eine Stufe, mit Umschalt um "
    "einen Halbton; Eingabe setzt einen, Entf nimmt ihn weg.",
    "practice.own.staff": "Deine Linie: ein System mit so vielen Takten: {bars}",
    "practice.own.hear": "Deine Linie hören",
    "practice.own.band": "mit der Band",
    "practice.own.clear": "Neu anfangen",
    "practice.own.clear.sure": "Die ganze Linie wegnehmen?",
    "practice.own.longer": "Länger",
    "practice.own.shorter": "Kürzer",
    "practice.own.up": "Höher",
    "practice.own.down": "Tiefer",
    "practice.own.remove": "Wegnehmen",
    "practice.own.empty": "Takt {bar}, Schlag {beat}: noch nichts.",
    "practice.own.note": "Takt {bar}, Schlag {beat}: {note}, {degree} von {chord}, {kind}{landing}.",
    "practice.own.note.bare": "Takt {bar}, Schlag {beat}: {note}, {kind}{landing}.",
    "practice.own.kind.chord": "ein Akkordton",
    "practice.own.kind.scale": "ein Ton der Skala",
    "practice.own.kind.outside": "weder in Akkord noch Skala",
    "practice.own.landing.still": ", ein Landeton in Ruhe",
    "practice.own.landing.colour": ", ein Landeton mit Farbe",
    "practice.own.landing.outside": ", ein Landeton ohne Halt: Führ ihn um einen Halbton weiter",
    "practice.own.count":
    "Töne: {n}, davon im Akkord {chord}, in der Skala {scale}, außerhalb {outside}; von den Landetönen "
    "({landings}) stehen auf einem Akkordton: {landed}.",
    "practice.own.kept": "Wird mit der Phrase auf diesem Gerät behalten.",
}  # fmt: skip

SAME = frozenset(("practice.reader.tuning.n", "practice.play.tempo"))
