"""Data as scripts. Oracles: zlib, base64 and json of the standard library, the wrong way round."""

import base64
import json
import re
import zlib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.practice.packing import bytes_script, compact_json, packed_script

JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**50), 2**50) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
)


def unpacked(script: str) -> Any:
    found = re.fullmatch(r'practice\.put\("([^"]*)","([A-Za-z0-9+/=]*)"\);\n', script)
    assert found is not None
    return json.loads(zlib.decompress(base64.b64decode(found[2]), -15))


@given(JSON)
def test_what_is_packed_comes_out_again(value: Any) -> None:
    assert unpacked(packed_script("scores/concert/one", value)) == value


@given(JSON)
def test_no_text_ends_a_script(value: Any) -> None:
    """`</script` and U+2028 would end a script or a line of it (HTML, ECMAScript 2018)."""
    text = compact_json([value, "</script>", "\u2028"])
    assert "</" not in text
    assert "\u2028" not in text
    assert json.loads(text) == [value, "</script>", "\u2028"]


def test_bytes_stay_as_they_are() -> None:
    content = bytes(range(256))
    text = bytes_script("sounds/piano", content)
    assert base64.b64decode(text.split('"')[3]) == content
    assert text.endswith(",true);\n")
