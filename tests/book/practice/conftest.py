"""The fixtures of the page's tests; those of the whole page stand in `practice_opened`."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from book.practice.plan_page import Pages
from practice_opened import browser, open_practice, practice_book, practice_folder

__all__ = ["browser", "open_practice", "practice_book", "practice_folder"]


@pytest.fixture(scope="module")
def plan_pages(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Pages:
    """The plan, progress and teacher's sheet on a page of their own, for the tests of a file."""
    return Pages(browser, tmp_path_factory.mktemp("pages"))


@pytest.fixture
def pages(plan_pages: Pages) -> Iterator[Pages]:
    """The same for one test; a fault in any page fails it."""
    yield plan_pages
    plan_pages.done()
