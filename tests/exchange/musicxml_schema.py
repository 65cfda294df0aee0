"""The official MusicXML 4.0 schema, from a registry package, with its two imports from another.

`musicxml` carries musicxml_4_0.xsd as published by the W3C Music Notation Community Group; `xmlschema`
carries xml.xsd and xlink.xsd, to which it refers by address.
"""

from __future__ import annotations

import importlib.util
from functools import lru_cache
from pathlib import Path

import pytest
from lxml import etree


def _folder(package: str) -> Path:
    spec = importlib.util.find_spec(package)
    if spec is None or spec.origin is None:
        pytest.skip(f"the package {package} is not installed")
    return Path(spec.origin).parent


@lru_cache(maxsize=1)
def schema() -> etree.XMLSchema:
    text = (_folder("musicxml") / "generate_classes" / "musicxml_4_0.xsd").read_text(encoding="utf-8")
    others = _folder("xmlschema") / "schemas"
    for name, path in (
        ("xml.xsd", others / "XML" / "xml.xsd"),
        ("xlink.xsd", others / "XLINK" / "xlink.xsd"),
    ):
        text = text.replace(f"http://www.musicxml.org/xsd/{name}", path.as_uri())
    return etree.XMLSchema(etree.fromstring(text.encode()))


def assert_valid(score: str | bytes) -> None:
    data = score.encode() if isinstance(score, str) else score
    schema().assertValid(etree.fromstring(data, etree.XMLParser(load_dtd=False, no_network=True)))
