"""The SoundFonts that are looked for, the best first, when the author names none.

A plain installation brings none: no small font was found in a Python package under a licence that lets an
MIT program carry it. The last row is used where the author has installed its package for themselves.

Row format: name; where it lies (full paths, or from the home folder with "~"); the Python package
that carries it and the file inside; licence; what to do to get it; source. A path or a package that is not
there is passed over.
"""

from __future__ import annotations

from typing import NamedTuple


class FontRow(NamedTuple):
    """One SoundFont."""

    name: str
    paths: tuple[str, ...]
    package: str
    file: str
    licence: str
    install: str
    source: str


SOUND_FONTS: tuple[FontRow, ...] = (
    FontRow(
        "FluidR3 GM",
        (
            "/usr/share/sounds/sf2/FluidR3_GM.sf2",
            "/usr/share/soundfonts/FluidR3_GM.sf2",
            "/usr/local/share/soundfonts/FluidR3_GM.sf2",
            "/opt/homebrew/share/soundfonts/FluidR3_GM.sf2",
        ),
        "", "", "MIT", "apt-get install fluid-soundfont-gm",
        "file list of Debian's fluid-soundfont-gm 3.1; the other folders from memory",
    ),
    FontRow(
        "FluidR3 GM",
        ("/usr/share/soundfonts/FluidR3_GM2-2.sf2", "/usr/share/soundfonts/default.sf2"),
        "", "", "MIT", "dnf install fluid-soundfont-gm",
        "folders of other Linux distributions, from memory",
    ),
    FontRow(
        "FluidR3 GM",
        ("~/.local/share/soundfonts/FluidR3_GM.sf2", "~/Library/Audio/Sounds/Banks/FluidR3_GM.sf2"),
        "", "", "MIT", "",
        "where tools/set_up_sound.sh puts it; the folder of macOS from memory",
    ),
    FontRow(
        "TimGM6mb", ("/usr/share/sounds/sf2/TimGM6mb.sf2",),
        "pretty_midi", "TimGM6mb.sf2", "GPL-2.0", "pip install pretty-midi (a small font under the GPL)",
        "file list of the package pretty-midi 0.2.11",
    ),
)  # fmt: skip
