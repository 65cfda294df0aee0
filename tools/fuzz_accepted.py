"""Fuzz the readers with files that obey their grammar, so that most are accepted.

    python tools/fuzz_accepted.py --count 100000
    python tools/fuzz_accepted.py --count 2000 --seed 7 --reader midi
    python tools/fuzz_accepted.py --count 2000 --minutes 5 --reader written-midi --resume totals.json

Files are drawn, not only spoilt: MusicXML bars with notes, rests, chords, tuplets, ties, repeats and
directions in odd mixtures, MIDI tracks with overlapping notes and odd tempos, and our own text token by
token. Of every six, three are read so; two are changed by their grammar first (an element, an event or
a token is doubled, left out, moved, or gets another value); one has a few bytes spoilt. MIDI files are
read with and without changes, which searches their tempo; those of `written-midi` stand on plain
places. With --resume the totals of earlier runs go on. An input that makes a reader do anything but
read or raise a `ShedbookError`, that takes longer than five seconds of processor time, or with which
the process grows beyond 300 MB, is written to the working folder, and the script ends with status 1.
The last line gives the figures that docs/exchange-figures.md keeps a running total of.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import FrameType

from shedbook.errors import ShedbookError
from shedbook.exchange.midi.reader import read_midi
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.phrase.fields import phrase_from_fields

_SLOWEST_S, _MOST_MB = 5, 300
_CHORDS = ("C7", "Dm7", "G7b9", "Cmaj7", "F#m7b5", "Bb6", "Ebdim7", "A7#5", "N.C.", "Gsus4", "Am7/G")
_KINDS = (
    "dominant",
    "minor-seventh",
    "major",
    "half-diminished",
    "none",
    "suspended-fourth",
    "other",
    "Tristan",
)
_METRES = ("4/4", "3/4", "6/8", "5/4", "7/8", "2/2", "12/8")

Dice = random.Random


def musicxml_file(dice: Dice) -> bytes:
    """Return a score of one part."""
    divisions = dice.choice((1, 2, 3, 4, 6, 8, 12, 24, 480))
    bars = [_bar(dice, divisions, number) for number in range(1, dice.randint(2, 9))]
    head = dice.choice(
        ("", "<movement-title>Odd tide</movement-title>", "<work><work-title>T</work-title></work>")
    )
    return (
        f'<score-partwise version="{dice.choice(("2.0", "3.1", "4.0"))}">{head}<part-list>'
        '<score-part id="P1">'
        f'<part-name>Line</part-name></score-part></part-list><part id="P1">{"".join(bars)}</part>'
        "</score-partwise>"
    ).encode()


def _bar(dice: Dice, divisions: int, number: int) -> str:
    beats, unit = dice.choice(_METRES).split("/")
    inside = [] if number > 1 and dice.random() < 0.9 else [_attributes(dice, divisions, beats, unit)]
    left = dice.choice((4, 4, 4, 3, 1)) * divisions
    while left > 0 and len(inside) < 40:
        if dice.random() < 0.25:
            inside.append(_harmony(dice))
        if dice.random() < 0.1:
            inside.append(_direction(dice))
        length = min(
            left,
            max(1, dice.choice((divisions // 4, divisions // 3, divisions // 2, divisions, 2 * divisions))),
        )
        inside.append(_note(dice, length))
        left -= 0 if "<grace" in inside[-1] or "<chord" in inside[-1] else length
    if dice.random() < 0.15:
        inside.append(_barline(dice))
    more = dice.choice(("", "", " implicit='yes'", " width='80'"))
    return f'<measure number="{number}"{more}>{"".join(inside)}</measure>'


def _attributes(dice: Dice, divisions: int, beats: str, unit: str) -> str:
    time_of = (
        f"<time><beats>{beats}</beats><beat-type>{unit}</beat-type></time>" if dice.random() < 0.9 else ""
    )
    moved = (
        "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"
        if dice.random() < 0.1
        else ""
    )
    return (
        f"<attributes><divisions>{divisions}</divisions><key><fifths>{dice.randint(-7, 7)}</fifths></key>"
        f"{time_of}{moved}</attributes>"
    )


def _note(dice: Dice, length: int) -> str:
    alter = dice.choice((0, 0, 0, 1, -1, 2, -2))
    step, octave = dice.choice("ABCDEFG"), dice.randint(2, 7)
    pitch = f"<pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>"
    kind = dice.random()
    if kind < 0.12:
        hidden = dice.choice(("", " print-object='no'"))
        return f"<note{hidden}><rest/><duration>{length}</duration></note>"
    if kind < 0.17:
        return f"<note><grace/>{pitch}<type>eighth</type></note>"
    if kind < 0.22:
        return f"<note><chord/>{pitch}<duration>{length}</duration></note>"
    tie = dice.choice(("", "", "", '<tie type="start"/>', '<tie type="stop"/>'))
    slur = dice.choice(
        (
            "",
            "",
            '<notations><slur type="start" number="1"/></notations>',
            '<notations><slur type="stop" number="1"/><articulations><accent/></articulations></notations>',
        )
    )
    return f"<note>{pitch}<duration>{length}</duration>{tie}<voice>{dice.choice('1112')}</voice>{slur}</note>"


def _harmony(dice: Dice) -> str:
    offset = f"<offset>{dice.randint(-2, 4)}</offset>" if dice.random() < 0.2 else ""
    text = dice.choice(("", ' text="7"', ' text="m7"', ' text="odd"'))
    moved = dice.choice(("", f" relative-x='{dice.randint(0, 90)}'"))
    root = f"<root><root-step>{dice.choice('ABCDEFG')}</root-step></root>"
    return f"<harmony{moved}>{root}<kind{text}>{dice.choice(_KINDS)}</kind>{offset}</harmony>"


def _direction(dice: Dice) -> str:
    inside = dice.choice(
        (
            f"<words>{dice.choice((*_CHORDS, 'swing', 'D.C. al Fine', 'Fine', 'softly'))}</words>",
            "<metronome><beat-unit>quarter</beat-unit>"
            f"<per-minute>{dice.randint(1, 400)}</per-minute></metronome>",
            f"<rehearsal>{dice.choice('ABC')}</rehearsal>",
            "<segno/>",
            "<coda/>",
        )
    )
    return f"<direction><direction-type>{inside}</direction-type></direction>"


def _barline(dice: Dice) -> str:
    return dice.choice(
        (
            '<barline location="right"><bar-style>light-light</bar-style></barline>',
            '<barline location="right"><repeat direction="backward"/></barline>',
            '<barline location="left"><repeat direction="forward"/></barline>',
            f'<barline location="left"><ending number="{dice.choice(("1", "2", "1, 2"))}" type="start"/>'
            "</barline>",
            '<barline location="right"><ending number="1" type="stop"/>'
            '<repeat direction="backward"/></barline>',
        )
    )


def written_midi_bytes(dice: Dice) -> bytes:
    """Return a MIDI file of one or two tracks whose notes begin on plain places."""
    return midi_bytes(dice, jitters=(0,))


def midi_bytes(dice: Dice, *, jitters: tuple[int, ...] = (0, 0, 1)) -> bytes:
    """Return a MIDI file of one or two tracks; notes are uneven by a share of a 24th of a quarter."""
    division = dice.choice((24, 96, 120, 480, 960))
    tracks = [_track(dice, division, jitters) for _ in range(dice.choice((1, 1, 2)))]
    form = 0 if len(tracks) == 1 else 1
    head = (
        b"MThd\0\0\0\6"
        + form.to_bytes(2, "big")
        + len(tracks).to_bytes(2, "big")
        + division.to_bytes(2, "big")
    )
    return head + b"".join(b"MTrk" + len(one).to_bytes(4, "big") + one for one in tracks)


def _track(dice: Dice, division: int, jitters: tuple[int, ...]) -> bytes:
    out = b""
    jitter = dice.choice(jitters) * (division // 24 + 1)
    for _ in range(dice.randint(4, 40)):
        wait = max(
            0, dice.choice((0, division // 2, division // 3, division, 0)) + dice.randint(-jitter, jitter)
        )
        kind = dice.random()
        if kind < 0.06:
            out += _number(wait) + b"\xff\x51\x03" + dice.randint(150_000, 1_500_000).to_bytes(3, "big")
        elif kind < 0.1:
            out += _number(wait) + b"\xff\x58\x04" + bytes((dice.randint(2, 7), dice.choice((2, 3)), 24, 8))
        elif kind < 0.2:
            text = dice.choice(_CHORDS).encode()
            out += _number(wait) + bytes((0xFF, dice.choice((1, 5, 6)))) + _number(len(text)) + text
        else:
            key = dice.randint(48, 84)
            length = max(
                1, dice.choice((division // 2, division // 3, division)) - dice.randint(0, division // 6)
            )
            out += _number(wait) + bytes((0x90, key, 80)) + _number(length) + bytes((0x80, key, 0))
    return out + b"\0\xff\x2f\0"


def _number(value: int) -> bytes:
    parts = [value & 0x7F]
    while value := value >> 7:
        parts.append(value & 0x7F | 0x80)
    return bytes(reversed(parts))


def text_fields(dice: Dice) -> bytes:
    """Return changes and a line in our own text, divided by a line break."""
    bars = dice.randint(1, 4)
    changes = " | ".join(dice.choice(_CHORDS) for _ in range(bars))
    return f"{changes}\n{' | '.join(_text_bar(dice, at) for at in range(bars))}".encode()


def _text_bar(dice: Dice, at: int) -> str:
    value, many = dice.choice((("1/4", 4), ("1/8", 8), ("1/2", 2), ("1/8t", 12), ("1/16", 16), ("1/1", 1)))
    names = [
        dice.choice(("c", "d", "eb", "f#", "g", "a", "bb", "-", "b.accent", "e.ghost")) for _ in range(many)
    ]
    names[0] = f"{dice.choice('cdefgab')}{dice.randint(3, 5)}"
    return f"{value} {' '.join(names)}"


def read_midi_somehow(data: bytes, name: str) -> object:
    """Read a MIDI file, every other one with changes, so that its tempo is searched."""
    blues = "F7 | Bb7 | F7 | % | Bb7 | % | F7 | D7alt | Gm7 | C7 | F7 D7 | Gm7 C7"
    ways = ("", "Dm7 | G7 | Cmaj7 | %", "", "F7 | %", blues, "Bm7b5 E7b9 | Am6")
    return read_midi(data, name, changes=ways[len(data) % len(ways)])


def read_text(data: bytes, _: str) -> object:
    """Read what `text_fields` draws."""
    changes, _, line = data.decode("utf-8", "replace").partition("\n")
    return phrase_from_fields({"title": "fuzzed", "changes": changes, "line": line})


_ELEMENT = re.compile(rb"<([a-z-]+)[^<>]*>[^<>]*</\1>|<[a-z-]+[^<>]*/>")
_TOKEN = re.compile(rb"[^\s|]+")
_ODD = (
    b"0", b"-1", b"1", b"3", b"7", b"999", b"1e9", b"NaN", b"", b"1/3", b"b", b"C7", b"start", b"stop",
    b"yes", "\u202e\u0007é".encode(), b"2147483648", b"0.333333", b"sharp",
)  # fmt: skip


def changed(reader: str, data: bytes, dice: Dice) -> bytes:
    """Return a file of which one or two elements, events or tokens are doubled, left out or changed."""
    for _ in range(dice.randint(1, 2)):
        if reader.endswith("midi"):
            data = _event_changed(data, dice)
            continue
        pieces = list((_ELEMENT if reader == "musicxml" else _TOKEN).finditer(data))
        if not pieces:
            break
        one, other = dice.choice(pieces), dice.choice(pieces)
        begin, end, text = one.start(), one.end(), one.group()
        kind = dice.randrange(4)
        if kind == 0:
            middle = text + (b"" if reader == "musicxml" else b" ") + text
        elif kind == 1:
            middle = other.group()
        elif kind == 2:
            middle = b""
        else:
            middle = re.sub(rb">[^<>]*<", lambda _: b">" + dice.choice(_ODD) + b"<", text, count=1)
            middle = dice.choice(_ODD) if reader == "text" else middle
        data = data[:begin] + middle + data[end:]
    return data


def _event_changed(data: bytes, dice: Dice) -> bytes:
    """Return a MIDI file in which the bytes of one event are others that may stand there too."""
    at = dice.randrange(22, len(data))
    low = data[at] < 0x80
    byte = dice.randrange(0x80) if low else dice.choice((0x80, 0x90, 0x91, 0xB0, 0xC0, 0xE0, 0xFF))
    return data[:at] + bytes((byte,)) + data[at + 1 :]


def spoilt(data: bytes, dice: Dice) -> bytes:
    """Return a file with one short stretch changed, doubled or left out."""
    at, length = dice.randrange(len(data)), dice.randint(1, 6)
    middle = dice.choice((b"", data[at : at + length] * 2, dice.randbytes(length), b"0", b"9", b"-"))
    return data[:at] + middle + data[at + length :]


READERS: dict[str, tuple[Callable[[Dice], bytes], Callable[[bytes, str], object]]] = {
    "musicxml": (musicxml_file, read_musicxml),
    "midi": (midi_bytes, read_midi_somehow),
    "written-midi": (written_midi_bytes, read_midi),
    "text": (text_fields, read_text),
}


class SlowError(Exception):
    """A reader took longer than it may."""


def _slow(_: int, __: FrameType | None) -> None:
    raise SlowError


def one(reader: str, dice: Dice, told: Counter[str], work: Path) -> None:
    """Draw one input, read it, and count what came of it."""
    draw, read = READERS[reader]
    data = draw(dice)
    way = dice.randrange(6)
    if way == 0:
        data = spoilt(data, dice)
    elif way < 3:
        data = changed(reader, data, dice)
    began = time.process_time()
    signal.setitimer(signal.ITIMER_VIRTUAL, _SLOWEST_S)
    try:
        read(data, "fuzzed")
        told[f"{reader} accepted"] += 1
    except ShedbookError as error:
        told["without a message"] += not error.message
    except BaseException as error:  # whatever comes is what is looked for
        if isinstance(error, KeyboardInterrupt):
            raise
        told["hangs" if isinstance(error, SlowError) else "tracebacks"] += 1
        number = told["hangs"] + told["tracebacks"]
        (work / f"{reader}-{number}").write_bytes(data)
        if number < 6:
            traceback.print_exc()
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    told[reader] += 1
    told["slowest ms"] = max(told["slowest ms"], round(1000 * (time.process_time() - began)))


def _totals(path: Path | None) -> Counter[str]:
    """Return the totals of the runs before this one."""
    if path is None or not path.exists():
        return Counter()
    return Counter(json.loads(path.read_text(encoding="utf-8")))


def main() -> int:
    """Fuzz, and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--count", type=int, default=10_000)
    parser.add_argument("--minutes", type=float, default=0.0, help="stop after so many; 0 for no limit")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--reader", choices=sorted(READERS), default="")
    parser.add_argument("--resume", type=Path, default=None, help="a file of running totals, to go on from")
    options = parser.parse_args()
    signal.signal(signal.SIGVTALRM, _slow)
    work = Path(tempfile.mkdtemp(prefix="fuzz-"))
    told, began = _totals(options.resume), time.monotonic()
    dice = random.Random(f"{options.seed} {sum(told[name] for name in READERS)}")
    names = [options.reader] if options.reader else list(READERS)
    # A MIDI line takes a hundred times as long as a line of text.
    weights = [{"musicxml": 5, "midi": 1, "written-midi": 2, "text": 4}[name] for name in names]
    for done in range(options.count):
        if options.minutes and time.monotonic() - began > 60 * options.minutes:
            break
        one(dice.choices(names, weights)[0], dice, told, work)
        if done % 5000 == 4999:
            print(f"{done + 1} of {options.count}, {time.monotonic() - began:.0f} s", file=sys.stderr)
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    told["most MB"] = max(told["most MB"], round(peak_mb))
    if options.resume is not None:
        options.resume.write_text(json.dumps(told, indent=1), encoding="utf-8")
    shares = ", ".join(f"{name} {told[f'{name} accepted']} of {told[name]}" for name in READERS if told[name])
    print(
        f"{sum(told[name] for name in READERS)} inputs, accepted: {shares}; "
        f"tracebacks {told['tracebacks']}, hangs {told['hangs']}, "
        f"errors without a message {told['without a message']}, at most {told['most MB']} MB, "
        f"the slowest {told['slowest ms'] / 1000:.1f} s"
    )
    failed = told["tracebacks"] + told["hangs"] + told["without a message"] or peak_mb > _MOST_MB
    if failed:
        print(f"what failed is in {work}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
