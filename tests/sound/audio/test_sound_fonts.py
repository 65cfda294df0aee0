"""SoundFonts: which one is taken, and what is refused."""

from __future__ import annotations

from pathlib import Path

import mido
import pytest

from shedbook.errors import SoundError
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio import sound_fonts as fonts
from shedbook.sound.audio.sound_fonts import SoundFont, find_font, font_seal
from shedbook.sound.audio.tables.sound_fonts import SOUND_FONTS
from shedbook.sound.score.midi_file import smf
from shedbook.sound.tables.drum_keys import BRUSH_KIT, STANDARD_KIT
from shedbook.sound.track import performance_of
from sound.demo_scores import demo
from sound.studio import package_font


def little_font(path: Path, *, version: int = 2, presets: tuple[tuple[int, int], ...] = ((0, 0),)) -> Path:
    """Write a file with the outer form of a SoundFont (SoundFont 2.04, sections 4 and 7): no samples."""
    ifil = b"ifil" + (4).to_bytes(4, "little") + version.to_bytes(2, "little") + (1).to_bytes(2, "little")
    info = b"LIST" + (4 + len(ifil)).to_bytes(4, "little") + b"INFO" + ifil
    rows = b"".join(
        b"preset".ljust(20, b"\0") + program.to_bytes(2, "little") + bank.to_bytes(2, "little") + bytes(14)
        for bank, program in (*presets, (0, 0))
    )
    phdr = b"phdr" + len(rows).to_bytes(4, "little") + rows
    pdta = b"LIST" + (4 + len(phdr)).to_bytes(4, "little") + b"pdta" + phdr
    body = b"sfbk" + info + pdta
    path.write_bytes(b"RIFF" + len(body).to_bytes(4, "little") + body)
    return path


def test_a_font_is_found_without_being_named() -> None:
    """`make` brings one with the system, and the tests' environment has a package that carries another."""
    font = find_font()
    assert font.path.is_file()
    assert font.name in {row.name for row in SOUND_FONTS}
    assert font.licence


def test_the_package_font_is_found_where_the_system_has_none(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = tuple(row._replace(paths=()) for row in SOUND_FONTS)
    monkeypatch.setattr(fonts, "SOUND_FONTS", rows)
    assert find_font() == package_font()


def test_the_author_s_own_font_comes_first(tmp_path: Path) -> None:
    mine = little_font(tmp_path / "mine.sf2")
    assert find_font(mine) == SoundFont("mine", mine)


def test_without_any_font_the_error_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = tuple(row._replace(paths=(), package="") for row in SOUND_FONTS)
    monkeypatch.setattr(fonts, "SOUND_FONTS", rows)
    with pytest.raises(SoundError) as caught:
        find_font()
    assert "apt-get install fluid-soundfont-gm" in caught.value.hint
    assert ", , " not in caught.value.hint


def test_a_font_in_the_home_folder_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder into which `tools/set_up_sound.sh` lays the font where it may not install packages."""
    rows = tuple(row for row in SOUND_FONTS if any(path.startswith("~") for path in row.paths))
    monkeypatch.setattr(fonts, "SOUND_FONTS", rows)
    monkeypatch.setenv("HOME", str(tmp_path))
    folder = tmp_path / ".local/share/soundfonts"
    folder.mkdir(parents=True)
    with pytest.raises(SoundError):
        find_font()
    path = little_font(folder / "FluidR3_GM.sf2")
    assert find_font() == SoundFont("FluidR3 GM", path, "MIT")
    assert path in fonts.font_places()


@pytest.mark.parametrize(
    "content", [b"", b"RIFF", b"RIFF\0\0\0\0WAVEfmt ", b"title = 'x'", b"RIFF\0\0\0\0sfbkLIST"],
    ids=["empty", "cut", "a WAV file", "text", "cut after its name"],
)  # fmt: skip
def test_a_file_that_is_no_font_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "mine.sf2"
    path.write_bytes(content)
    with pytest.raises(SoundError, match="is no SoundFont"):
        find_font(path)


@pytest.mark.parametrize("name", ["missing.sf2", "."])
def test_a_font_that_cannot_be_read_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(SoundError, match="cannot be read"):
        find_font(tmp_path / name)


def test_compressed_fonts_are_known_by_their_version(tmp_path: Path) -> None:
    """Source: the SF3 form that FluidSynth reads has version 3 in "ifil" (from memory)."""
    assert SoundFont("x", little_font(tmp_path / "x.sf3", version=3)).compressed
    assert not SoundFont("y", little_font(tmp_path / "y.sf2")).compressed


def test_presets_are_read() -> None:
    """General MIDI 1: 128 programs in bank 0, a drum kit; banks of kits are numbered 128 by FluidSynth."""
    font = package_font()
    assert all(font.has(0, program) for program in (0, 32, 66, 71, 127))
    assert font.has(128, STANDARD_KIT)
    assert not font.has(127, 0)


def test_the_seal_changes_with_the_file(tmp_path: Path) -> None:
    one = font_seal(little_font(tmp_path / "one.sf2"))
    two = font_seal(little_font(tmp_path / "two.sf2", presets=((0, 1),)))
    assert one != two
    assert one == font_seal(little_font(tmp_path / "three.sf2"))


@pytest.mark.parametrize(
    ("kits", "program"), [(((128, 0), (128, 40)), BRUSH_KIT), (((128, 0),), STANDARD_KIT)]
)
def test_brushes_only_where_the_font_has_them(
    tmp_path: Path, kits: tuple[tuple[int, int], ...], program: int
) -> None:
    font = SoundFont("x", little_font(tmp_path / "x.sf2", presets=kits))
    ballad = next(phrase for phrase in demo() if phrase.feel == "ballad")
    content = smf(performance_of(ballad, Order(), font=font))
    file = tmp_path / "x.mid"
    file.write_bytes(content)
    drums = [
        message.program for track in mido.MidiFile(file).tracks for message in track
        if message.type == "program_change" and message.channel == 9
    ]  # fmt: skip
    assert drums == [program]
