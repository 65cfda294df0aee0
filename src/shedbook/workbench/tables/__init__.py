"""Tables of the workbench: the words of its screens. Data only."""
