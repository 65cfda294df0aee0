"""Data of the pages: widths of letters, costs of a layout."""
