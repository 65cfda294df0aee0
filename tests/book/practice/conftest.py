"""The fixtures of the page's tests; they stand in `practice_opened`, from which tests import too."""

from practice_opened import chromium, open_practice, practice_book, practice_folder

__all__ = ["chromium", "open_practice", "practice_book", "practice_folder"]
