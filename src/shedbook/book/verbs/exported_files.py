"""Which files of a folder an export wrote, byte for byte: what somebody has changed since is left alone.

The record lies in the folder's store: for each name the SHA-256 of what was written, and, while files are
being written, of what is about to be.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

from shedbook.book.ground.writing import put
from shedbook.book.workshop.output_folder import STORE
from shedbook.errors import OutputError

RECORD = "exported.json"
_MOST_NAMED = 6

Record = dict[str, list[str]]


def put_files(out: Path, files: Mapping[str, bytes]) -> None:
    """Write files into a folder that is ours, each whole or not at all.

    Raises:
        OutputError: if a file of one of their names is there that is not as an export wrote it; nothing is
            written then.
        OSError: if the disk refuses.
    """
    known = _read(out)
    there = {name: _digest((out / name).read_bytes()) for name in files if (out / name).exists()}
    new = {name: _digest(content) for name, content in files.items()}
    changed = [name for name, digest in there.items() if digest not in (*known.get(name, ()), new[name])]
    if changed:
        listed = ", ".join(changed[:_MOST_NAMED]) + (" …" if len(changed) > _MOST_NAMED else "")
        raise OutputError(
            f"{out} holds files that were changed since they were exported: {listed}; nothing was written.",
            hint="Move them elsewhere, or name another folder with --out.",
        )
    before = {name: [digest] for name, digest in there.items()}
    _write(out, {**known, **{name: [*before.get(name, ()), digest] for name, digest in new.items()}})
    for name, content in files.items():
        put(out / name, content, out / STORE / "unfinished", lasting=True)
    _write(out, {**known, **{name: [digest] for name, digest in new.items()}})


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _read(out: Path) -> Record:
    """Return the record; an empty one where there is none that can be read."""
    try:
        found = json.loads((out / STORE / RECORD).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    rows = found.items() if isinstance(found, dict) else ()
    return {str(name): [str(one) for one in digests] for name, digests in rows if isinstance(digests, list)}


def _write(out: Path, record: Record) -> None:
    text = json.dumps(dict(sorted(record.items())), ensure_ascii=False, indent=0) + "\n"
    put(out / STORE / RECORD, text.encode(), out / STORE / "unfinished", lasting=True)
