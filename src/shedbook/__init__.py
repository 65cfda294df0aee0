"""shedbook: improvisation phrases, each written once, become a study book in all twelve keys.

For those who program, seven names: open_manuscript, read_phrase, account, explain, transpose, draw, build.
docs/python.md shows them. They are loaded when the first of them is used; until then this imports nothing.
The floors and what may import what stand in ARCHITECTURE.md.
"""

from typing import Any

__all__ = ["account", "build", "draw", "explain", "open_manuscript", "read_phrase", "transpose"]


def __getattr__(name: str) -> Any:
    """Load a name of the face when it is used."""
    if name in __all__:
        from shedbook import face  # noqa: PLC0415 - nothing is loaded before it is used

        return getattr(face, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted([*(name for name in globals() if name.startswith("__")), *__all__])
