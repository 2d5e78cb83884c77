# Everything runs in an environment of its own, .venv, made on first use from Python >= 3.11.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin

.PHONY: demo test lint bench clean compiled

# The demo catalogue goes where the command looks: your data folder, or BOREBOOK_CATALOGUE.
demo: $(VENV)/installed compiled
	$(BIN)/borebook demo

test: $(VENV)/tested compiled lint
	$(BIN)/python -m pytest

lint: $(VENV)/tested
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy

bench: $(VENV)/tested compiled
	$(BIN)/python -m tests.bench

# A check starts in half the time, also where the environment forbids writing bytecode on the way.
compiled: $(BIN)/python
	@$(BIN)/python -m compileall -q schema fitcheck catalogue seed_data

clean:
	rm -rf $(VENV) build dist .mypy_cache .ruff_cache .hypothesis

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo "borebook needs Python 3.11 or newer; name one with: make PYTHON=/path/to/python3.12"; exit 1; }
	$(PYTHON) -m venv $(VENV)

$(VENV)/installed: $(BIN)/python pyproject.toml
	$(BIN)/python -m pip install --quiet --editable .
	@touch $@

$(VENV)/tested: $(BIN)/python pyproject.toml
	$(BIN)/python -m pip install --quiet --editable '.[dev]'
	@touch $@
