"""What a musician does on each system to get what is missing.

Row format: system; what tells it from the others (a program that is there, or the platform as Python names
it); how FluidSynth is got; how a General MIDI SoundFont is got; source.
"""

from __future__ import annotations

from typing import NamedTuple


class SystemRow(NamedTuple):
    """One kind of system; the first whose platform and program fit is this one."""

    name: str
    platform: str
    program: str
    synthesiser: str
    sound_font: str
    source: str


_ANY_FONT = 'name a .sf2 file of your own in manuscript.toml: [tracks] sound_font = "…"'

SYSTEMS: tuple[SystemRow, ...] = (
    SystemRow(
        "Debian or Ubuntu", "linux", "apt-get",
        "sudo apt install libfluidsynth3", "sudo apt install fluid-soundfont-gm",
        "package lists of Debian 13",
    ),
    SystemRow(
        "Fedora", "linux", "dnf",
        "sudo dnf install fluidsynth-libs", "sudo dnf install fluid-soundfont-gm",
        "from memory, not tried",
    ),
    SystemRow(
        "Linux", "linux", "", "install FluidSynth 2 with your system's packages", _ANY_FONT, "common practice"
    ),
    SystemRow(
        "macOS", "darwin", "", "brew install fluid-synth",
        "put FluidR3_GM.sf2 into ~/Library/Audio/Sounds/Banks, or " + _ANY_FONT,
        "from memory, not tried",
    ),
    SystemRow(
        "Windows", "win32", "", "none is needed: the one that came with shedbook plays",
        _ANY_FONT, "from memory, not tried",
    ),
)  # fmt: skip

PARTS: tuple[tuple[str, str, str], ...] = (
    ("verovio", "engraving", "the distributions that pyproject.toml names"),
    ("typst", "laying out pages", "the same"),
    ("font-source-serif-pro", "the letters of the text", "the same"),
    ("font-source-sans-pro", "the letters of headings and chord symbols", "the same"),
    ("segno", "square codes that lead to tracks", "the same"),
    ("markdown-it-py", "emphasis, lists and links in your own texts", "the same"),
    ("pillow", "the size of your pictures", "the same"),
    ("zxing-cpp", "the bars of an ISBN", "the same"),
    ("msgspec", "the store of finished parts", "the same"),
    ("starlette", "the pages of the workbench", "the same"),
    ("uvicorn", "the server of the workbench", "the same"),
    ("watchfiles", "seeing what other programs write while the workbench is open", "the same"),
    ("pypdf", "reading a finished book back", "the same"),
    ("pypdfium2", "proving a bundle, covers and previews", "the same"),
    ("lxml", "proving MusicXML files by their schema", "the same"),
    ("numpy", "the players and the samples", "the same"),
    ("scipy", "measuring loudness", "the same"),
    ("soundfile", "sound files", "the same"),
    ("mido", "MIDI files", "the same"),
    ("midirenderer", "the synthesiser that comes with shedbook", "the same"),
    ("pyfluidsynth", "the way to the system's FluidSynth", "the same"),
)
"""Distributions that a plain installation brings: name, what it is for, source."""
