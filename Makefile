# `make book` builds the demo book, `make test` runs every test; both set up what they need first.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP_PINNED := 26.2

.PHONY: book test lint types floors check bench clean
.DELETE_ON_ERROR:

book: $(VENV)/.ready
	$(BIN)/shedbook build examples/tidewater --out build/tidewater

test: $(VENV)/.ready
	$(BIN)/python -m pytest -q -n 2

lint: $(VENV)/.ready
	$(BIN)/ruff format --check src tests benchmarks
	$(BIN)/ruff check src tests benchmarks

types: $(VENV)/.ready
	$(BIN)/mypy

floors: $(VENV)/.ready
	$(BIN)/lint-imports

check: lint types floors test

bench: $(VENV)/.ready
	$(BIN)/python -m benchmarks

$(VENV)/.ready: pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet "pip==$(PIP_PINNED)"
	$(BIN)/python -m pip install --quiet --constraint constraints.txt --editable . --group dev
	sh tools/set_up_sound.sh $(BIN)/python
	touch $@

clean:
	rm -rf $(VENV) build
