"""Names of artefacts: each the hash of the one frozen value from which it is made, and of the versions.

A job is a function that sees nothing but one frozen value. Its artefact is named by the function's name, by
that whole value as JSON, and by the versions of everything that takes part: a field that is added to a value
is in its name at once, and nothing has to be picked. A name never depends on what an earlier job gave, unless
that stands in the value too; so a build in which nothing has changed knows every name without reading a note.
"""

from __future__ import annotations

import hashlib

from shedbook.book.ground.json_values import to_json


def name_of(job: str, given: object, versions: str) -> str:
    """Return the name of what a job makes from a value: 40 hexadecimal digits of a SHA-256.

    Args:
        job: the name of the function.
        given: all that it sees, a frozen value or a tuple of them; equal values give equal names.
        versions: what besides decides the outcome, as `versions.fingerprint` gives it.
    """
    return digest(job, type(given).__name__, versions, to_json(given))


def digest(*parts: str | bytes) -> str:
    """Return the name that stands for these parts; no part can run into the next."""
    found = hashlib.sha256()
    for part in parts:
        encoded = part.encode() if isinstance(part, str) else part
        found.update(b"%d:" % len(encoded))
        found.update(encoded)
    return found.hexdigest()[:40]


def content_hash(content: bytes) -> str:
    """Return the SHA-256 of a file's bytes."""
    return hashlib.sha256(content).hexdigest()
