"""A phrase read, placed and engraved: one function a job, each of the one value that it is given."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from shedbook.book.ground.chord_style import ChordStyle, in_style
from shedbook.book.ground.paper import GAP_MM, paper_of
from shedbook.book.ground.words import Words, words_of
from shedbook.book.manuscript.settings.whole_book import CONCERT
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.artefacts import Compared, CycleKey, PhraseCard, Picture, PictureFacts, PlacingCard
from shedbook.book.scores.inputs import (
    BetweenInput,
    CardInput,
    ChangesPicture,
    HomeLook,
    HomePicture,
    KeyLook,
    KeyPicture,
    Language,
    Music,
    PictureInput,
    PlacingInput,
    ScalePicture,
    ScoreLook,
)
from shedbook.book.scores.placing import keys_of, placed_in, placing_card
from shedbook.book.scores.signs import signs_of
from shedbook.book.scores.spoken_text import scale_text, score_text
from shedbook.book.scores.study import (
    Studied,
    findings_between,
    findings_of,
    marks_of,
    outline_of,
    progression_words,
    study,
    terms_of,
)
from shedbook.book.scores.written_scales import WrittenScale, written_scales
from shedbook.editions.fingering.tab import Tab
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.reader_keys import ReaderKey
from shedbook.editions.reader_part import ReaderPart
from shedbook.engrave.drawing.empty_staves import draw_empty_staves
from shedbook.engrave.drawing.line_layout import lay_out
from shedbook.engrave.drawing.picture import Drawing
from shedbook.engrave.drawing.scale_staff import ScaleStaff, draw_scales
from shedbook.engrave.drawing.score_drawing import draw, draw_all
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

_LARGE_SHARES = (0.75, 0.5, 0.25, 0.0)
"""How much of what the first score is larger than the others is left, where it does not fit its page."""
_CLOSE_SPACES = (2.0, 1.2)
"""The most white between two systems that stand close, in staff spaces: enough to tell them apart."""
_CLOSEST = 0.88
"""How much lower a score may become by that, at the most."""

Drawn = Picture | ShedbookError
"""A picture, or why it could not be drawn."""


class Reading:
    """One phrase at work: what was read, accounted for and placed is kept for the next job of the phrase.

    A job gives the same with a new `Reading`; this only spares what several jobs need.
    """

    def __init__(self) -> None:
        self._studied: list[tuple[PhraseText, ChordStyle, Studied]] = []
        self._placed: list[tuple[Music, dict[CycleKey, ReaderPart]]] = []

    def study(self, text: PhraseText, style: ChordStyle) -> Studied:
        """Read a phrase, write its chords in a style, and account for it.

        Raises:
            ReadError: if the phrase cannot be read.
        """
        for known, its_style, studied in self._studied:
            if known == text and its_style == style:
                return studied
        found = study(in_style(text.phrase(), style))
        self._studied.append((text, style, found))
        return found

    def place(self, music: Music, keys: Sequence[CycleKey]) -> list[ReaderPart]:
        """Return a phrase in keys as its reader plays it.

        Raises:
            ShedbookError: if in some key no octave lies between A0 and C8.
        """
        there = next((placed for known, placed in self._placed if known is music), None)
        if there is None:
            there = {}
            self._placed.append((music, there))
        missing = [key for key in keys if key not in there]
        if missing:
            studied = self.study(music.text, music.chord_style)
            cycle = [_reader_key(key) for key in music.cycle]
            placed = placed_in(studied, cycle, [_reader_key(key) for key in missing], music.reader)
            there.update(zip(missing, placed, strict=True))
        return [there[key] for key in keys]


def _reader_key(key: CycleKey) -> ReaderKey:
    return ReaderKey(Key.parse(key.concert), Key.parse(key.written))


def _words(language: Language) -> Words:
    return words_of(language.tag, dict(language.own))


# Cards.


def read_card(given: CardInput, reading: Reading) -> PhraseCard:
    """Return what the book must know of a phrase whatever the edition.

    Raises:
        ReadError: if the phrase cannot be read; its place is not known yet.
    """
    studied = reading.study(given.text, given.chord_style)
    phrase = studied.phrase
    keys = keys_of(phrase, given.keys, edition_named(CONCERT))
    links = given.text.fields.get("links", {})
    terms = terms_of(studied)
    return PhraseCard(
        title=phrase.title,
        key=str(phrase.key),
        key_inferred=phrase.key_inferred,
        home=str(keys.home.concert),
        keys=tuple(str(key.concert) for key in keys.wanted),
        metre=str(phrase.metre),
        tempo=phrase.tempo_bpm,
        feel=phrase.feel,
        commentary=phrase.commentary,
        progression=progression_words(studied),
        outline=outline_of(studied),
        links=tuple(links.items()),
        progressions=terms.progressions,
        scale=terms.scale,
        scale_names=terms.scale_names,
        devices=terms.devices,
        level=terms.level,
        scale_shares=terms.scale_shares,
        device_shares=terms.device_shares,
        signs=signs_of(phrase),
        findings=findings_of(studied, given.silenced, given.language.tag, _words(given.language)),
    )


def place_card(given: PlacingInput, reading: Reading) -> PlacingCard:
    """Return what the book must know of a phrase in an edition.

    Raises:
        ShedbookError: if in some key no octave lies between A0 and C8.
    """
    studied = reading.study(given.text, given.chord_style)
    words = _words(given.language)
    return placing_card(
        studied, given.keys, given.edition, given.silenced, words, language=given.language.tag
    )


def compare(given: BetweenInput) -> Compared:
    """Return what is found between phrases.

    Raises:
        ReadError: if one cannot be read.
    """
    studied = {number: study(text.phrase()) for number, text in given.phrases}
    return findings_between(studied, given.silenced, _words(given.language))


# Pictures.


def draw_pictures(
    pictures: Sequence[PictureInput], reading: Reading, *, singly: bool = False
) -> Iterator[tuple[PictureInput, Drawn]]:
    """Draw pictures of one phrase in one edition, each the same whichever others are drawn with it.

    An error in one key comes in the place of its picture. `singly` draws one after the other, as they are
    asked for: after an engraver that ended without a word, the first that is missing is the one to blame.
    """
    for picture in pictures:
        if isinstance(picture, HomePicture):
            yield picture, _home(picture, reading)
    keys = [picture for picture in pictures if isinstance(picture, KeyPicture)]
    for some in [[key] for key in keys] if singly else [keys] if keys else []:
        yield from zip(some, _keys(some, reading), strict=True)
    scales = [picture for picture in pictures if isinstance(picture, ScalePicture)]
    for others in [[scale] for scale in scales] if singly else [scales] if scales else []:
        yield from zip(others, _scales(others, reading), strict=True)
    for picture in pictures:
        if isinstance(picture, ChangesPicture):
            yield picture, _changes(picture, reading)


class _Asked(NamedTuple):
    """A score that is asked for."""

    phrase: Phrase
    tab: Tab | None


def _home(picture: HomePicture, reading: Reading) -> Drawn:
    """Draw a phrase as large as its first page bears, never smaller than in its keys."""
    look, music = picture.look, picture.music
    (placed,) = reading.place(music, [picture.key])
    studied = reading.study(music.text, music.chord_style)
    words = _words(look.score.language)
    marks = marks_of(studied, look.score.marks, words, home=True)
    style = _style(studied, music, look.score, words)
    asked = _Asked(placed.phrase, placed.tab)
    return _told(_large(asked, marks, style, look), asked, words)


def _keys(pictures: Sequence[KeyPicture], reading: Reading) -> list[Drawn]:
    """Draw a phrase in keys that share its music and look."""
    look, music = pictures[0].look, pictures[0].music
    group = [_Asked(one.phrase, one.tab) for one in reading.place(music, [one.key for one in pictures])]
    studied = reading.study(music.text, music.chord_style)
    words = _words(look.score.language)
    marks = marks_of(studied, look.score.marks, words)
    style = replace(_style(studied, music, look.score, words), tempo=look.tempo, quiet=True)
    drawings = _closer(_drawn(group, marks, style), group, marks, style, look)
    return [_told(drawing, one, words) for drawing, one in zip(drawings, group, strict=True)]


def _style(studied: Studied, music: Music, look: ScoreLook, words: Words) -> ScoreStyle:
    return ScoreStyle(
        staff_mm=look.staff_mm,
        width_mm=look.width_mm,
        clef=music.reader.clef,
        fill=True,
        column_mm=look.column_mm,
        signature=look.signature,
        courtesy=look.courtesy,
        feel=words.sentence(words.named("feel", studied.phrase.feel)),
    )


def _told(drawing: Drawing | ShedbookError, one: _Asked, words: Words) -> Drawn:
    if isinstance(drawing, ShedbookError):
        return drawing
    return Picture(drawing.svg, facts_of(drawing, score_text(one.phrase, words, one.tab)))


def _large(one: _Asked, marks: StudyMarks, style: ScoreStyle, look: HomeLook) -> Drawing | ShedbookError:
    """Draw a phrase as large as its first page bears, never smaller than in its keys.

    It takes no more systems than there.
    """
    least = look.score.staff_mm
    fewest = len(lay_out(one.phrase, marks, style).systems)
    most = look.staff_mm / least
    room = paper_of(look.paper, large=look.large_print).home_room_mm(one.phrase.title)
    for share in (1.0, *_LARGE_SHARES):
        staff_mm = round(least * (1 + (most - 1) * share), 2)
        if share and len(lay_out(one.phrase, marks, replace(style, staff_mm=staff_mm)).systems) > fewest:
            continue
        drawing = _drawn_alone(one, marks, replace(style, staff_mm=staff_mm))
        if isinstance(drawing, ShedbookError):
            break
        if drawing.height_mm <= room and not drawing.crowded:
            break
    return drawing


def _closer(
    drawings: Sequence[Drawing | ShedbookError],
    group: Sequence[_Asked],
    marks: StudyMarks,
    style: ScoreStyle,
    look: KeyLook,
) -> Sequence[Drawing | ShedbookError]:
    """Draw keys with their systems closer together, where one key more goes on a page then.

    Each is looked at by itself, so that it is the same whichever keys are drawn with it.
    """
    found = list(drawings)
    rooms = {
        place: room
        for place, drawing in enumerate(drawings)
        if isinstance(drawing, Drawing) and drawing.cuts_mm and (room := _room_near(drawing.height_mm, look))
    }
    for white in _CLOSE_SPACES:
        places = list(rooms)
        closer = _drawn([group[place] for place in places], marks, replace(style, most_white=white))
        for place, drawing in zip(places, closer, strict=True):
            if isinstance(drawing, Drawing) and drawing.height_mm <= rooms[place]:
                found[place] = drawing
                del rooms[place]
    return found


def _room_near(height_mm: float, look: KeyLook) -> float:
    """Return the share of a page for which a score is a little too high; 0 where there is none."""
    for count in range(look.most, 1, -1):
        room = (look.room_mm - GAP_MM * (count - 1)) / count
        if height_mm <= room:
            return 0
        if height_mm <= room / _CLOSEST:
            return room
    return 0


def _drawn(
    group: Sequence[_Asked], marks: StudyMarks, style: ScoreStyle
) -> Sequence[Drawing | ShedbookError]:
    """Draw scores together, or one by one when one of them cannot be drawn."""
    try:
        return draw_all([one.phrase for one in group], marks, style, [one.tab for one in group])
    except ShedbookError:
        return [_drawn_alone(one, marks, style) for one in group]


def _drawn_alone(one: _Asked, marks: StudyMarks, style: ScoreStyle) -> Drawing | ShedbookError:
    try:
        return draw(one.phrase, marks, style, one.tab)
    except ShedbookError as error:
        return error


def _scales(pictures: Sequence[ScalePicture], reading: Reading) -> list[Drawn]:
    """Draw scales of a phrase, all in one home key and with one look.

    All scales of the phrase are drawn, whichever are wanted, for what is on their staves decides how high the
    words of each stand.
    """
    first = pictures[0]
    (placed,) = reading.place(first.music, [first.key])
    studied = reading.study(first.music.text, first.music.chord_style)
    scales = written_scales(studied, placed.phrase, first.music.reader.clef)
    style = ScoreStyle(staff_mm=first.look.staff_mm, clef=first.music.reader.clef, tempo=False)
    words = _words(first.look.language)
    drawings = _scales_drawn(scales, style)
    found: list[Drawn] = []
    for place in (picture.place for picture in pictures):
        drawing = drawings[place]
        if isinstance(drawing, ShedbookError):
            found.append(drawing)
        else:
            found.append(_told_scale(drawing, scales[place], words))
    return found


def _told_scale(drawing: Drawing, scale: WrittenScale, words: Words) -> Picture:
    return Picture(drawing.svg, facts_of(drawing, scale_text(scale.name, scale.chord, scale.pitches, words)))


def _scales_drawn(scales: Sequence[WrittenScale], style: ScoreStyle) -> Sequence[Drawing | ShedbookError]:
    """Draw scales together, or one by one when one of them cannot be drawn."""
    try:
        return draw_scales([ScaleStaff(one.pitches, one.degrees, one.chord) for one in scales], style)
    except ShedbookError as error:
        if len(scales) == 1:
            return [error]
        return [_scales_drawn([scale], style)[0] for scale in scales]


def _changes(picture: ChangesPicture, reading: Reading) -> Picture:
    """Draw empty staves under the changes of a phrase, for a line of the reader's own."""
    look = picture.look
    (placed,) = reading.place(picture.music, [picture.key])
    written = placed.phrase
    clef = picture.music.reader.clef
    drawing = draw_empty_staves(
        written, ScoreStyle(staff_mm=look.staff_mm, width_mm=look.width_mm, clef=clef)
    )
    said = " | ".join(
        " ".join(change.chord.text for change in written.changes if change.bar == bar.number)
        for bar in written.bars
        if bar.number
    )
    return Picture(drawing.svg, facts_of(drawing, _words(look.language)("alt.changes", changes=said)))


def facts_of(drawing: Drawing, alt: str) -> PictureFacts:
    """Return what the page must know of a picture, rounded to a hundredth of a millimetre."""
    return PictureFacts(
        width_mm=round(drawing.width_mm, 2),
        height_mm=round(drawing.height_mm, 2),
        staff_mm=round(drawing.staff_top_mm, 2),
        alt=alt,
        cuts_mm=tuple(round(cut, 2) for cut in drawing.cuts_mm),
    )
