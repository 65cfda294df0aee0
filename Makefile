# `make book` builds the demo book, `make test` runs every test; both set up what they need first.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP_PINNED := 26.2

PYINSTALLER_PINNED := 6.22.3

.PHONY: app book test lint types floors check bench clean
.DELETE_ON_ERROR:

book: $(VENV)/.ready
	$(BIN)/shedbook build examples/tidewater --out build/tidewater
	@$(BIN)/shedbook setup | grep -A 1 SoundFont

test: $(VENV)/.browser
	$(BIN)/python -m pytest -q -n 3 --dist loadfile --no-loadscope-reorder

lint: $(VENV)/.ready
	$(BIN)/ruff format --check src tests benchmarks tools
	$(BIN)/ruff check src tests benchmarks tools

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

$(VENV)/.browser: tools/set_up_browser.sh | $(VENV)/.ready
	sh tools/set_up_browser.sh
	touch $@

# A folder that runs shedbook without Python on a machine of this kind.
app:
	$(PYTHON) -m venv build/app-env
	build/app-env/bin/python -m pip install --quiet --constraint constraints.txt . "pyinstaller==$(PYINSTALLER_PINNED)"
	build/app-env/bin/python tools/make_app.py build/app

clean:
	rm -rf $(VENV) build
