"""One system's notes with all that belongs to each; what belongs to nothing is a fault."""

from read_back.printed import hard_phrase, printed
from shedbook.read_back.ink import Dot, Glyph
from shedbook.read_back.staves import System, systems_of
from shedbook.read_back.svg_ink import ink_of_svg
from shedbook.read_back.written_notes import written_system

_SIZE = 0.004


def _system(title: str) -> System:
    return systems_of(ink_of_svg(printed(hard_phrase(title)).svg))[0]


def test_a_dotted_rest_has_its_dot() -> None:
    """Found by reading back: the dots of rests were once left out of the drawing."""
    rests = [note for note in written_system(_system("compound")).notes if note.step is None]
    assert [(rest.part, rest.dots) for rest in rests] == [(4, 1), (8, 0), (8, 0)]


def test_grace_notes_are_small_and_keep_their_signs() -> None:
    small = [note for note in written_system(_system("grace notes")).notes if note.small]
    assert [(note.step, note.sign) for note in small] == [(31, 1), (34, -1)]


def test_the_metre_is_read_after_the_clef() -> None:
    assert written_system(_system("compound")).metre == (6, 8)


def test_lost_signs_dots_and_heads_are_faults() -> None:
    system = _system("compound")
    assert written_system(system).faults == []
    last = max(glyph.x for glyph in system.glyphs)
    system.glyphs.append(Glyph("music", "E262", last - 6.0, 1.75, _SIZE))
    system.glyphs.append(Glyph("music", "E0A4", last + 3.0, 1.25, _SIZE))
    system.dots.append(Dot(2.0, 9.0))
    says = {fault.says for fault in written_system(system).faults}
    assert says == {
        "an accidental belongs to no note",
        "a head that needs a stem has none",
        "a head stands neither on a line nor between two",
        "a dot belongs to no note",
    }
