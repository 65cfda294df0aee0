"""What each feel is made of, on a sheet that a person can read: tests/sound/golden/feels.txt.

First the patterns, each once: every way to play a cell of each length, and how often it is drawn; then the
feels: how they swing, which patterns they play, on what, how often out of a hundred times. A stroke of a drum
is its place and its velocity where it is not the voice's own. UPDATE_GOLDEN=1 writes the sheet anew; read it
before it is kept. Source: common practice, as the tables say feel by feel; the figures are our own.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

from shedbook.sound.feels.feel import Feel
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.feels.patterns import BassWay, CompingWay, DrumVoice, Strokes, WeightedFill
from shedbook.sound.feels.shared_patterns import PEDAL_BASS, TWO_IN_A_BAR_BASS

GOLDEN = Path(__file__).parents[1] / "golden" / "feels.txt"


def share(weight: int, all_weights: Sequence[int]) -> str:
    """Return how often a way is drawn; where there is one alone, its weight says nothing."""
    return str(Fraction(weight, sum(all_weights)))


def struck(hits: Strokes) -> str:
    return " ".join(f"{at}@{velocity}" if velocity else f"{at}" for at, velocity in hits) or "nothing"


def way_text(way: Any) -> str:
    if isinstance(way, BassWay):
        return " ".join(f"{at}:{length}" + f":{wish}" * bool(wish) for at, length, wish in way.notes)
    if isinstance(way, CompingWay):
        return (
            " ".join(
                f"{hit.at}:{hit.quarters}" + f":{hit.shape}" * bool(hit.shape) + "^" * hit.ahead
                for hit in way.hits
            )
            or "nothing"
        )
    return struck(way.hits)


def ways_text(ways: Mapping[Fraction, Sequence[Any]]) -> str:
    """Return the ways of each length of cell; lengths that are played alike stand together."""
    said: dict[str, list[str]] = {}
    for length in sorted(ways):
        weights = [way.weight for way in ways[length]]
        row = " | ".join(f"{share(way.weight, weights)} {way_text(way)}" for way in ways[length])
        said.setdefault(row, []).append(str(length))
    return "\n".join(f"  {' '.join(lengths)}: {row}" for row, lengths in said.items())


def patterns() -> dict[str, str]:
    """Return the text of each pattern, and the name of the feel that has it first."""
    found: dict[str, str] = {}

    def add(text: str, name: str) -> None:
        again = sum(re.sub(r" \(\d\)$", "", one) == name for one in found.values())
        found.setdefault(text, f"{name} ({again + 1})" if again else name)

    for feel in FEELS.values():
        add(ways_text(feel.bass.ways), f"bass of {feel.name}")
        add(ways_text(feel.comping.ways), f"comping of {feel.name}")
        for voice in (*feel.drums.voices, *feel.drums.without_brushes):
            add(ways_text(voice.cells), f"{voice.key} of {feel.name}")
        add(fills_text(feel.drums.fills), f"fills of {feel.name}")
    add(ways_text(TWO_IN_A_BAR_BASS), "bass of a first round in two")
    add(ways_text(PEDAL_BASS), "bass of empty bars on a pedal")
    return found


def halves(two_bars: Mapping[Fraction, Any]) -> str:
    said = []
    for length, sides in two_bars.items():
        rows = [struck(side) if side and isinstance(side[0][0], Fraction) else "" for side in sides]
        if not any(rows):
            rows = [", ".join(way_text(way) for way in side) for side in sides]
        said.append(f"{length}: {rows[0]} / {rows[1]}")
    return "; ".join(said)


def fills_text(fills: Sequence[WeightedFill]) -> str:
    weights = [weight for weight, _ in fills]
    return "\n".join(
        f"  {share(weight, weights)} "
        + " ".join(f"{stroke.key}@{stroke.velocity} {stroke.before} ahead" for stroke in hits)
        for weight, hits in fills
    )


def voice_text(voice: DrumVoice, named: Mapping[str, str]) -> str:
    more = ["comps"] * voice.free + ["backbeat"] * voice.back
    more += [f"strokes {voice.hand_ms} ms apart"] if voice.hand_ms else []
    more += [f"two bars {halves(voice.two_bars)}"] if voice.two_bars else []
    own = named[ways_text(voice.cells)]
    return f"{voice.key}@{voice.velocity} as {own}" + "".join(f", {one}" for one in more)


def sheet(feel: Feel, named: Mapping[str, str]) -> Iterator[str]:
    bass, comping, drums = feel.bass, feel.comping, feel.drums
    ratio = "by the tempo" if feel.swing.ratio is None else f"{feel.swing.ratio} to 1"
    yield f"# {feel.name}: {ratio}, {feel.swing.lag} of the lag"
    yield (
        f"  {bass.instrument}: {named[ways_text(bass.ways)]}; of a hundred in two {bass.in_two_percent}, "
        f"pedal {bass.pedal_percent}, groove {bass.groove_percent}; {halves(bass.two_bars)}"
    )
    yield (
        f"  {comping.instrument}{', held' * comping.held}: {named[ways_text(comping.ways)]}; "
        f"{halves(comping.two_bars)}"
    )
    for voice in drums.voices:
        yield f"  {voice_text(voice, named)}"
    for voice in drums.without_brushes:
        yield f"  without brushes {voice_text(voice, named)}"
    yield f"  {named[fills_text(drums.fills)]}; level {drums.level_db}"
    last = ", ".join(f"{key}@{velocity}" for key, velocity in feel.ending.strokes)
    yield f"  ends held {feel.ending.held_percent} of a hundred times, {last}"


def test_what_each_feel_is_made_of() -> None:
    named = patterns()
    rows = [f"# {name}\n{text}" for text, name in named.items()]
    found = "\n".join((*rows, "", *(row for feel in FEELS.values() for row in sheet(feel, named)), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
