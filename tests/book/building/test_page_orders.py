"""What is asked of the layout. The pages themselves are tested in tests/book/pages."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.building import page_orders


@pytest.mark.parametrize(
    ("paper", "press", "told"),
    [
        # A cover goes three millimetres beyond the edge above, below and outside (common practice).
        ("a4", True, [("a.png", 213.0, 303.0)]),
        ("letter", True, [("a.png", pytest.approx(218.9), pytest.approx(285.4))]),
        ("a4", False, []),
    ],
)
def test_a_cover_is_looked_at_in_the_size_in_which_it_is_cut(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, paper: str, press: bool, told: list[Any]
) -> None:
    asked: list[Any] = []

    def sharp(picture: object, name: str, wide: float, high: float) -> str:
        asked.append((name, wide, high))
        return "not quite"

    monkeypatch.setattr(page_orders, "shop_picture", lambda root, name, store: name)
    monkeypatch.setattr(page_orders, "check_sharp", sharp)
    shop = SimpleNamespace(**dict.fromkeys(page_orders._PICTURES, ""))
    shop.cover, shop.logo = "a.png", "b.png"
    settings = SimpleNamespace(page_size=paper, shop=shop, press=SimpleNamespace(wanted=press))
    manuscript: Any = SimpleNamespace(root=tmp_path, settings=settings)
    store: Any = None
    found, warnings = page_orders.shop_pictures(manuscript, store)
    pictures: Any = found
    assert pictures == {"cover": "a.png", "logo": "b.png"}
    assert asked == told
    assert warnings == [("not quite", "")] * len(told)
