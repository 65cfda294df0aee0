"""The English words of the student's page about what to practise now, progress, and a teacher's sheet.

Row format: as in `words`. Rows under "practice." go into the page. `practice.progress.tonics` has the
twelve tonics from C upwards. The source of every row is the trade's usual wording, or our own.
"""

from __future__ import annotations

PLAN: dict[str, str] = {
    "practice.plan.screen": "Today",
    "practice.plan.title": "What to practise now",
    "practice.plan.minutes": "Minutes you have",
    "practice.plan.minutes.n": "{n} min",
    "practice.plan.begin": "Begin",
    "practice.plan.set": "Today’s set",
    "practice.plan.nothing": "Nothing fits into these minutes. Take a few more, or leave it for tomorrow.",
    "practice.plan.part.warm": "warm-up",
    "practice.plan.part.new": "new",
    "practice.plan.part.back": "once more",
    "practice.plan.part.old": "from before",
    "practice.plan.part.rest": "Rest",
    "practice.plan.part.warm.alone": "Long notes",
    "practice.plan.in": "{title} in {key}",
    "practice.plan.at": "♩ = {n}",
    "practice.plan.phrase": "{n} · {title}",
    "practice.plan.hands":
    "Stop when it hurts. Pain, numb fingers, a tired jaw or lip are signs to rest, not to push on; if "
    "they come back, your teacher or a doctor knows more than a page.",
    "practice.plan.ears":
    "Your own instrument is loud too: at 94 decibels, one hour a day is what rules for workplaces allow. "
    "Set the band under your own sound, not over it.",
    "practice.plan.play": "To the music",
    "practice.plan.next": "Go on to the next",
    "practice.plan.pause": "Stop the clock",
    "practice.plan.go on": "Let the clock run",
    "practice.plan.stop": "Enough for today",
    "practice.plan.clock": "{spent} of {whole}",
    "practice.plan.rest.says":
    "Put the instrument down. Let hands, shoulders, jaw and lips go loose, and give your ears some quiet.",
    "practice.plan.rest.left": "{time} left",
    "practice.plan.rest.over": "Rested. Go on when you are ready.",
    "practice.plan.warm.says": "Softly, and slower than you can. Nothing counts yet.",
    "practice.plan.warm.alone.says": "Softly, with your best sound, low before high. Breathe between them.",
    "practice.plan.over": "That was today’s time: {n} min. What is left waits for you.",
    "practice.plan.copy":
    "Since your last copy there is this much new: {n}. Save one: a browser may clear what it keeps.",
    "practice.plan.later": "Later",
    "practice.plan.then": "Then: {what}",
    "practice.plan.went": "How did it go?",
    "practice.plan.went.apart": "It fell apart",
    "practice.plan.went.slips": "It held, with slips",
    "practice.plan.went.clean": "It was clean",
    "practice.plan.went.sang": "It sang",
    "practice.plan.went.kept": "Noted.",
    "practice.progress.screen": "Progress",
    "practice.progress.title": "How far you are",
    "practice.progress.tonics": "C D♭ D E♭ E F F♯ G A♭ A B♭ B",
    "practice.progress.table": "Phrases and keys",
    "practice.progress.legend":
    "The water stands as high as the tempo at which you last played it clean; a full cell is the phrase’s"
    " own tempo. A dotted edge: it is fading, and comes back into the set.",
    "practice.progress.nothing": "Nothing here yet: it fills as you play.",
    "practice.progress.counts": "Keys at their tempo: {there}. On the way: {way}. Still to be met: {none}.",
    "practice.progress.cell": "{key}: {n} of {goal}",
    "practice.progress.cell.fading": "{key}: {n} of {goal}, fading",
    "practice.progress.cell.none": "{key}: not yet",
    "practice.progress.year": "The year",
    "practice.progress.year.month": "Month",
    "practice.progress.year.minutes": "Minutes of music",
    "practice.progress.year.begun": "Keys met so far",
    "practice.progress.year.there": "At their tempo",
    "practice.progress.year.says": "Months without music are left out. A book has time.",
    "practice.progress.copies": "A copy to keep, or for another device",
    "practice.progress.copies.says":
    "What you have played is kept in this browser alone and sent nowhere. Save a copy now and then; on "
    "another phone or computer, open this book’s page and read it there. The two are added up, and "
    "nothing is overwritten.",
    "practice.progress.copy.save": "Save a copy",
    "practice.progress.copy.read": "Read a copy",
    "practice.progress.copy.saved": "The copy is among your downloads.",
    "practice.progress.read": "Read: {n} visits, {new} of them new here.",
    "practice.progress.read.cut":
    "The file ends too early. What came before the end is read; save it once more where it came from, if "
    "you can.",
    "practice.progress.read.bad": "Lines that could not be read: {lines}. All others are read.",
    "practice.progress.read.newer":
    "The file comes from a newer page. What this one does not know is kept, and goes into your copies.",
    "practice.progress.read.gone": "Visits to phrases that this edition does not have: {n}. They are kept.",
    "practice.progress.read.book":
    "This copy belongs to another book, “{title}”. Open it on that book’s page. Nothing was changed.",
    "practice.progress.read.not":
    "This is no copy from a book’s page, or it is damaged from its first line on. Nothing was changed.",
    "practice.progress.read.long": "This file is far longer than any copy. Nothing was changed.",
    "practice.progress.take back": "Take back what was read",
    "practice.progress.taken back": "It is as it was before.",
    "practice.progress.not lasting":
    "This browser keeps nothing here for longer than the page is open, or its memory is full. Save a copy"
    " before you close the page.",
    "practice.teacher.screen": "For a teacher",
    "practice.teacher.title": "A sheet for a student",
    "practice.teacher.says":
    "Choose phrases and keys for the coming days. Your student’s page takes its new work from the sheet, "
    "and goes on with what is known.",
    "practice.teacher.phrases": "Phrases and their keys",
    "practice.teacher.all keys": "all of them",
    "practice.teacher.keys.n": "(chosen: {n})",
    "practice.teacher.week": "When, and a word to go with it",
    "practice.teacher.from": "From",
    "practice.teacher.for": "For",
    "practice.teacher.days.n": "{n} days",
    "practice.teacher.minutes": "Minutes a day",
    "practice.teacher.minutes.free": "as the student likes",
    "practice.teacher.minutes.says": "Your teacher suggests {n} min a day.",
    "practice.teacher.words": "Your words",
    "practice.teacher.made": "The sheet as a code, for a message",
    "practice.teacher.copy": "Copy the code",
    "practice.teacher.copied": "Copied.",
    "practice.teacher.save": "Save as a file",
    "practice.teacher.print": "Print it",
    "practice.teacher.print.phrase": "Phrase",
    "practice.teacher.print.keys": "Keys",
    "practice.teacher.print.tempo": "Its tempo",
    "practice.teacher.print.notes": "Your notes",
    "practice.teacher.row": "{title}: {keys}",
    "practice.teacher.days": "{from} to {to}",
    "practice.teacher.how":
    "Open your book’s page, choose “Today”, and put this whole text under “A sheet from your teacher”.",
    "practice.teacher.have one": "A sheet from your teacher",
    "practice.teacher.code": "Put its code here",
    "practice.teacher.open": "Open it",
    "practice.teacher.open file": "Open its file",
    "practice.teacher.opened": "The sheet is open.",
    "practice.teacher.yours": "From your teacher",
    "practice.teacher.put away": "Put the sheet away",
    "practice.teacher.read.empty": "There is no code yet.",
    "practice.teacher.read.not": "There is no sheet in this text. The code begins with “{mark}”.",
    "practice.teacher.read.damaged":
    "A part of the code is missing or was changed on its way. Copy it whole, or ask for the file.",
    "practice.teacher.read.book": "This sheet belongs to another book, “{title}”.",
    "practice.teacher.read.gone": "Phrases of the sheet that this edition does not have: {n}.",
}  # fmt: skip
"""The rows by their names."""
