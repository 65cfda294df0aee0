"""The bundled editor is the one that its sources make, and its licence is there."""

import hashlib
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
BUILT = ROOT / "src" / "shedbook" / "workbench" / "static" / "vendor" / "editor.js"


def test_the_bundle_was_made_from_these_sources() -> None:
    """Made anew by `npm ci && npm run build` in tools/editor."""
    found = hashlib.sha256()
    for name in ("bar_editor.js", "package-lock.json"):
        found.update((ROOT / "tools" / "editor" / name).read_bytes())
    said = re.search(r"Made by tools/editor from ([0-9a-f]{32})", BUILT.read_text(encoding="utf-8"))
    assert said is not None
    assert said[1] == found.hexdigest()[:32]


def test_no_page_or_script_loads_anything_from_elsewhere() -> None:
    folder = BUILT.parents[2]
    for path in (*folder.rglob("*.js"), *folder.rglob("*.html"), *folder.rglob("*.css")):
        text = path.read_text(encoding="utf-8")
        loads = re.findall(
            r"""(?:src|href)=["'](?:https?:)?//|import\(["']https?:|from ["']https?:|url\(["']?https?:""",
            text,
        )
        assert loads == [], path


def test_the_lock_names_no_registry() -> None:
    assert "resolved" not in (ROOT / "tools" / "editor" / "package-lock.json").read_text(encoding="utf-8")
    assert "MIT" in (ROOT / "licences" / "CodeMirror-MIT.txt").read_text(encoding="utf-8")
