"""Published figures that a take's own are printed beside. They describe; nobody has to play so."""

from __future__ import annotations

from typing import NamedTuple


class PublishedRow(NamedTuple):
    """What was measured, between two tempos in quarters a minute, and who measured it."""

    low_qpm: int
    high_qpm: int
    says: str
    source: str


SWING: tuple[PublishedRow, ...] = (
    PublishedRow(
        0, 999, "soloists: 1.3 : 1 on average over 456 solos, near 2 : 1 only now and then",
        "Corcoran & Frieler 2021, Music Perception 38(4):372–385 (abstract)",
    ),
    PublishedRow(
        0, 150, "drummers' ride cymbals: up to 3.5 : 1 near 120",
        "Friberg & Sundström 1997, TMH-QPSR 4 (abstract)",
    ),
    PublishedRow(
        250, 999, "drummers' ride cymbals: towards 1 : 1 when fast",
        "Friberg & Sundström 1997, TMH-QPSR 4 (abstract)",
    ),
)  # fmt: skip

LAG: tuple[PublishedRow, ...] = (
    PublishedRow(
        100, 140, "soloists: 50 ms behind (median)",
        "computed from the Weimar Jazz Database, after Nelias et al. 2022, Communications Physics",
    ),
    PublishedRow(180, 220, "soloists: 26 ms behind (median)", "the same"),
    PublishedRow(260, 320, "soloists: 6 ms behind (median)", "the same"),
    PublishedRow(
        0, 999, "beats about 30 ms late with off-beats in time are heard as more swinging",
        "Nelias et al. 2022, Communications Physics",
    ),
)  # fmt: skip
