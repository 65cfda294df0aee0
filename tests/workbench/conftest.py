"""The fixtures of the workbench's tests; they stand in `workbench_served`, from which tests import too."""

from workbench_served import bench, browser, open_page, phrase_page, served

__all__ = ["bench", "browser", "open_page", "phrase_page", "served"]
