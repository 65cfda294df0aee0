"""Everything that a teacher points at in one phrase, looked for once."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.account import Account
from shedbook.analysis.devices.frames import (
    Arpeggio,
    Frame,
    LaidTriad,
    arpeggios,
    fourths,
    frames,
    laid_triads,
)
from shedbook.analysis.devices.guide_lines import GuideFall, guide_falls, guide_line
from shedbook.analysis.devices.motifs import (
    AlteredEcho,
    CellInSequence,
    Echo,
    altered_echoes,
    cells_in_sequence,
    echoes,
    staying_note,
)


@dataclass(frozen=True, slots=True)
class Devices:
    """The devices of one account that more than one remark is made of; each as its function gives it."""

    guide_falls: tuple[GuideFall, ...]
    guide_line: tuple[int, ...]
    cells: tuple[CellInSequence, ...]
    echoes: tuple[Echo, ...]
    altered_echoes: tuple[AlteredEcho, ...]
    staying_note: tuple[int, ...]
    arpeggios: tuple[Arpeggio, ...]
    fourths: tuple[Arpeggio, ...]
    frames: tuple[Frame, ...]
    laid_triads: tuple[LaidTriad, ...]


def devices(account: Account) -> Devices:
    """Return the devices of an account with notes."""
    return Devices(
        guide_falls=guide_falls(account),
        guide_line=guide_line(account),
        cells=cells_in_sequence(account),
        echoes=echoes(account),
        altered_echoes=altered_echoes(account),
        staying_note=staying_note(account),
        arpeggios=arpeggios(account),
        fourths=fourths(account),
        frames=frames(account),
        laid_triads=laid_triads(account),
    )
