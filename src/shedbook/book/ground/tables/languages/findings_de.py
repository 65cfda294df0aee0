"""What the proof-reader says in German; row format as in `analysis.naming.tables.findings`.

A note stands behind its article ("Das H", "zum Es"). What has to be typed stands in quotation marks, as it is
typed. The author is "du". The terms are common practice, the sentences our own.
"""

from __future__ import annotations

_INSTEAD = "Besser zur Linie passt das {meant}"
_MEANT = "{odds}, dass es gemeint war"

WORDS: dict[str, str] = {
    "finding.name": "{name}", "finding.typed": "„{typed}“", "finding.quoted": "„{text}“",
    "finding.or": "{first} oder {next}",
    "finding.beats": "{n} Schlag", "finding.beats.many": "{n} Schläge",
    "finding.beats.many.few": "{n} Schläge",
    "finding.odds.even": "Die Chancen stehen etwa 50 zu 50",
    "finding.odds.to one": "Die Chancen stehen etwa {n} zu 1",
    "finding.odds.one in": "Die Wahrscheinlichkeit liegt bei etwa 1/{n}",
    "finding.reader": "die {title} | die {title} | der {title}",
    # How a phrase is written.
    "finding.bar-does-not-fill.long": "Takt {bar} ist {beats} zu lang.",
    "finding.bar-does-not-fill.short": "Takt {bar} ist {beats} zu kurz.",
    "finding.bar-does-not-fill.mend": "Nimm weg, was zu viel ist, oder ergänze, was fehlt.",
    "finding.tie-to-another-pitch.rest": "Ein Haltebogen führt von einer Pause zum {to}.",
    "finding.tie-to-another-pitch.note": "Ein Haltebogen führt vom {start} zum {to}.",
    "finding.tie-to-another-pitch.mend":
    "Führ den Haltebogen zum selben Ton, oder mach einen Bindebogen daraus.",
    "finding.long-phrase": "Die Phrase hat {n} Takte.",
    "finding.long-phrase.mend": "Teil sie in mehrere Phrasen auf, mit je einer Sache zum Üben.",
    "finding.misread-accidental.name": "Beim {note} verliest man sich leicht.",
    "finding.misread-accidental.two ways": "Das {note} steht im selben Takt auch als {other}.",
    "finding.misread-accidental.mend": "Schreib den einfachen Namen.",
    "finding.misread-accidental.mend.plain": "Schreib {plain}.",
    "finding.misread-accidental.mend.alike": "Schreib beide gleich.",
    # Slips of the pen.
    **{
        f"finding.octave-slip.one {way}":
        f"Das {{note}} liegt gegenüber den Tönen ringsum eine Oktave zu {said}: {{odds}}, dass die Oktavzahl "
        "ein Versehen ist."
        for way, said in (("low", "tief"), ("high", "hoch"))
    },
    **{
        f"finding.octave-slip.many {way}":
        f"{{n}} Töne, vom {{first}} bis zum {{last}}, liegen eine Oktave zu {said}: {{odds}}, dass die "
        "Oktavzahl ein Versehen ist."
        for way, said in (("low", "tief"), ("high", "hoch"))
    },
    "finding.octave-slip.mend": "Prüf die Oktavzahl: Sie gilt bis zur nächsten.",
    "finding.octave-slip.mend.here": "Schreib {typed}.",
    "finding.octave-slip.mend.back":
    "Schreib {typed} und dort, wo die Linie in die alte Lage zurückkehrt, {after}.",
    **{
        f"finding.{rule}.over":
        f"Das {{note}} ist {{degree}} über {{chord}}. {_INSTEAD}, {{would}}: {_MEANT}."
        for rule in ("accidental-slip", "letter-slip")
    },
    **{
        f"finding.{rule}.alone": f"Zur Linie passt das {{meant}} besser als das {{note}}: {_MEANT}."
        for rule in ("accidental-slip", "letter-slip")
    },
    "finding.accidental-slip.mend": "Prüf das Versetzungszeichen.",
    "finding.accidental-slip.mend.meant": "Prüf das Versetzungszeichen: Ist {meant} gemeint?",
    "finding.accidental-slip.mend.carried":
    "Prüf das Versetzungszeichen: Ist {meant} gemeint? Jedes Versetzungszeichen gilt nur für seine eigene "
    "Note.",
    "finding.letter-slip.mend": "Prüf den Buchstaben.",
    "finding.letter-slip.mend.meant": "Prüf den Buchstaben: Ist {meant} gemeint?",
    "finding.doubled-note":
    "Das {note} steht zweimal hintereinander, wo die Linie eher zum {meant} weiterginge: {odds}, dass du es "
    "doppelt getippt hast.",
    "finding.doubled-note.mend": "Schreib beim zweiten Mal die Note, die gemeint war.",
    "finding.doubled-note.mend.meant": "Ist beim zweiten Mal {meant} gemeint?",
    "finding.chord-quality-slip.notes":
    "Die Linie bringt {heard} über {chord}: {odds}, dass {meant} gemeint war.",
    "finding.chord-quality-slip.notes and none":
    "Die Linie bringt {heard} über {chord}, aber nicht {lacking}: {odds}, dass {meant} gemeint war.",
    "finding.chord-quality-slip.chords":
    "Die Akkorde um {chord} herum lassen {meant} erwarten: {odds}, dass das gemeint war.",
    "finding.chord-quality-slip.mend": "Prüf das Akkordsymbol.",
    "finding.chord-quality-slip.mend.meant": "Prüf das Akkordsymbol: Ist {typed} gemeint?",
    "finding.changes-shifted.late":
    "Gemessen an der Linie kommen die Akkorde wohl einen Takt zu spät: {odds}.",
    "finding.changes-shifted.early":
    "Gemessen an der Linie kommen die Akkorde wohl einen Takt zu früh: {odds}.",
    "finding.changes-shifted.mend": "Prüf, in welchem Takt die Akkorde beginnen.",
    "finding.changes-shifted.mend.late": "Die Akkorde einen Takt früher schreiben?",
    "finding.changes-shifted.mend.early": "Die Akkorde einen Takt später schreiben?",
    # Held notes.
    "finding.chord-contradicted.held": "Das {note} wird über {chord} gehalten, ist dort aber {heard}.",
    "finding.chord-contradicted.into":
    "Das {note} wird bis in {chord} hinein gehalten; dort ist es {heard} und leiterfremd.",
    "finding.chord-contradicted.mend": "Ändere den Ton oder das Akkordsymbol.",
    "finding.chord-contradicted.mend.held": "Ändere das {note} oder das Symbol {typed}.",
    "finding.outside-held": "Das {note}, {degree} über {chord}, ist leiterfremd und wird trotzdem gehalten.",
    "finding.outside-held.mend":
    "Schreib einen Akkord- oder Skalenton, oder löse den Ton schrittweise auf.",
    # Scales and harmony.
    "finding.pass-through-held":
    "Das {note}, {degree} über {chord}, wird gehalten, liegt aber einen Halbton über dem {below}.",
    "finding.pass-through-held.mend":
    "Nimm den Ton nur als Durchgang, oder löse ihn einen Schritt nach unten auf.",
    "finding.pass-through-held.mend.below": "Nimm den Ton nur als Durchgang, oder löse ihn ins {below} auf.",
    "finding.scale-does-not-fit.one":
    "Das {notes} gehört über {chord} nicht zur Skala {scale}; {better} würde mehr von der Linie abdecken.",
    "finding.scale-does-not-fit.many":
    "Die Töne {notes} gehören über {chord} nicht zur Skala {scale}; {better} würde mehr von der Linie "
    "abdecken.",
    "finding.scale-does-not-fit.mend": "Gib die andere Skala an, oder ändere die Töne.",
    "finding.scale-does-not-fit.mend.better": "Gib zu {typed} die Skala {scale} an, oder ändere die Töne.",
    "finding.scale-contradicts-chord": "In {scale} gibt es kein {tones} von {chord}.",
    "finding.scale-contradicts-chord.tone": "{note}, {degree 2}",
    "finding.scale-contradicts-chord.and": "{first}, und kein {next}",
    "finding.scale-contradicts-chord.mend":
    "Gib eine Skala an, die den Ton enthält, oder ändere das Akkordsymbol.",
    "finding.scale-contradicts-chord.mend.fitting":
    "Gib eine Skala an, die zu {chord} passt (deiner am nächsten: {scales}), oder ändere das Akkordsymbol.",
    "finding.key-contradicted": "Als Tonart ist {stated} angegeben, die Akkorde sprechen aber für {heard}.",
    "finding.key-contradicted.mend":
    "Gib die Tonart an, für die die Akkorde sprechen, oder lass die Angabe weg.",
    "finding.key-contradicted.mend.heard": "Gib {typed} als Tonart an, oder lass die Angabe weg.",
    # The shape of the line.
    "finding.range.extreme": "Das {note} liegt in einer extremen Lage.",
    "finding.range.wide": "Die Linie umfasst {n} Halbtöne, vom {low} bis zum {high}.",
    "finding.range.mend": "Versetz die Phrase oder einen Teil davon um eine Oktave.",
    # Between the phrases of a book, and what is silenced.
    "finding.duplicate-phrase.alike": "Das ist dieselbe Phrase wie „{title}“ (Nummer {n}).",
    "finding.duplicate-phrase.moved":
    "Das ist dieselbe Phrase wie „{title}“ (Nummer {n}), nur in einer anderen Tonart.",
    "finding.duplicate-phrase.mend": "Lass eine der beiden weg.",
    "finding.shifted-phrase":
    "Das ist dieselbe Linie wie in „{title}“ (Nummer {n}), nur über anderen Akkorden oder ab einer anderen "
    "Zählzeit.",
    "finding.shifted-phrase.mend":
    "Sag im Kommentar, dass es Absicht ist, oder lass eine der beiden Phrasen weg.",
    "finding.silence-names-no-rule": "Es gibt keine Regel namens „{rule}“.",
    "finding.silence-names-no-rule.mend": "Schreib den Namen der Regel so, wie er in der Liste steht.",
    "finding.silence-names-no-rule.mend.near": "Meinst du {names}?",
    # Editions.
    "finding.place": "In {key}", "finding.place.concert": "In {key} (klingend {concert})",
    "finding.band": "{low} bis {high}",
    "finding.out-of-range.one":
    "{place}: Auch in der besten Oktave liegt in {reader 3} ein Ton außerhalb des vollen Tonumfangs "
    "(notiert {band}).",
    "finding.out-of-range.many":
    "{place}: Auch in der besten Oktave liegen in {reader 3} {n} Töne außerhalb des vollen Tonumfangs "
    "(notiert {band}).",
    "finding.out-of-reach.one":
    "{place}: Auch in der besten Oktave ist in {reader 3} ein Ton nicht zu erreichen; spielbar ist nur "
    "{band} (notiert).",
    "finding.out-of-reach.many":
    "{place}: Auch in der besten Oktave sind in {reader 3} {n} Töne nicht zu erreichen; spielbar ist nur "
    "{band} (notiert).",
    **{
        f"finding.{rule}.mend":
        "Erlaub einen Oktavwechsel („fold = true“), lass die Tonart weg oder rück die äußersten Töne näher "
        "zusammen."
        for rule in ("out-of-range", "out-of-reach")
    },
    **{
        f"finding.{rule}.mend.no fold":
        "Auch ein Oktavwechsel in einer Pause oder beim größten Sprung hilft nicht: Lass die Tonart weg, "
        "oder rück die äußersten Töne näher zusammen."
        for rule in ("out-of-range", "out-of-reach")
    },
    "finding.folded.higher":
    "{place} geht die Linie in {reader 3} ab Takt {bar}, Zählzeit {beat}, eine Oktave höher weiter.",
    "finding.folded.lower":
    "{place} geht die Linie in {reader 3} ab Takt {bar}, Zählzeit {beat}, eine Oktave tiefer weiter.",
    "finding.folded.mend": "Willst du den Oktavwechsel nicht, nimm „fold = true“ heraus.",
    "finding.off-fingerboard.one":
    "{place} liegt in {reader 3} ein Ton nicht auf dem Griffbrett (Stimmung {tuning}, {frets} Bünde): Die "
    "Tabulatur bleibt dort leer.",
    "finding.off-fingerboard.many":
    "{place} liegen in {reader 3} {n} Töne nicht auf dem Griffbrett (Stimmung {tuning}, {frets} Bünde): Die "
    "Tabulatur bleibt dort leer.",
    "finding.off-fingerboard.mend":
    "Rück die Töne näher zusammen, lass die Tonart weg oder gib eine andere Stimmung an.",
    "finding.no-tablature.one":
    "Ohne Tabulatur bleibt: {editions}. Tabulatur gibt es nur für Instrumente mit Bünden.",
    "finding.no-tablature.many":
    "Ohne Tabulatur bleiben: {editions}. Tabulatur gibt es nur für Instrumente mit Bünden.",
    "finding.no-tablature.not made":
    "Für {name} ist Tabulatur verlangt, doch diese Ausgabe wird nicht erstellt.",
    "finding.no-tablature.mend":
    "Nenn die Ausgaben, die Tabulatur bekommen sollen: „tablature = [\"guitar\"]“.",
    # The author's own names, sentences and recordings.
    "finding.stumbling-name":
    "Das {written} wird so gedruckt, wie du es getippt hast; beim Lesen erwartet man hier eher ein "
    "{better}.",
    "finding.stumbling-name.mend": "Schreib {better}, oder lass es stehen, wenn du {written} meinst.",
    "finding.commentary-names": "Im Kommentar steht {said}, in den Noten {score}.",
    "finding.commentary-names.mend":
    "Schreib im Kommentar {score}, oder {{{said}}} in geschweiften Klammern, wenn es kein Notenname ist.",
    "finding.sentence-outdated":
    "Die Musik zu deinem Satz hat sich geändert, darum wird er nicht gedruckt: „{sentence}“",
    "finding.sentence-outdated.mend":
    "Schreib ihn passend zur jetzigen Erklärung neu, oder streich ihn.",
    "finding.untranslated":
    "Die Sprache des Buchs ist „{language}“, aber {left} seiner {all} vorgegebenen Texte sind noch englisch.",
    "finding.untranslated.mend":
    "Trag unter „[words]“ Übersetzungen für die Zeilen aus „docs/language.md“ ein, oder schalte die Regel "
    "ab, wenn Englisch gewollt ist.",
    "finding.unused-recording": "Die Aufnahme „{file}“ unter „[tracks]“ ersetzt kein Hörbeispiel.",
    "finding.unused-recording.mend":
    "Zu dieser Phrase entsteht kein Hörbeispiel: Sieh bei „kinds“ und „phrases“ unter „[tracks]“ nach.",
    "finding.unused-recording.mend.feel":
    "Unter den Feels des Buchs fehlt das Feel, das die Phrase selbst nennt.",
    "finding.unused-recording.mend.there":
    "Die Hörbeispiele der Phrase stehen in {keys}, bei {tempos} Schlägen pro Minute.",
    "finding.unused-recording.mend.taken":
    "Die Hörbeispiele der Phrase stehen in {keys}, bei {tempos} Schlägen pro Minute. Jedes hat schon seine "
    "Aufnahme.",
}  # fmt: skip

SAME: frozenset[str] = frozenset(("finding.place",))
