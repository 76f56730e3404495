# Two commands matter: `make demo` and `make test`. Both set up what they need.
# The rest is for those who work on the house; `make help` lists it.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
PIP    := $(BIN)/python -m pip --disable-pip-version-check --quiet
OUT    := out

.DEFAULT_GOAL := help
.PHONY: help demo test format check types layers unit browser reference bench lock clean

help: ## this list
	@sed -n 's/^\([a-z]*\):.*## \(.*\)/  make \1 \t\2/p' $(MAKEFILE_LIST) | expand -t 18

$(BIN)/python:
	$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Counterproof needs Python 3.11 or newer: set PYTHON=python3.12, say")'
	$(PYTHON) -m venv $(VENV)

$(VENV)/.run: requirements/run.lock pyproject.toml | $(BIN)/python
	$(PIP) install --require-hashes -r requirements/run.lock
	$(PIP) install --no-deps --no-build-isolation --editable .
	@touch $@

$(VENV)/.dev: requirements/dev.lock $(VENV)/.run
	$(PIP) install --require-hashes -r requirements/dev.lock
	@touch $@

demo: $(VENV)/.run ## evaluate the demo season and say where its pages are
	@$(BIN)/python -m counterproof.demo $(OUT)

test: check types layers unit ## everything: format, lint, types, layers, tests, browser

format: $(VENV)/.dev ## put the code into the house's format
	$(BIN)/ruff format .
	$(BIN)/ruff check --fix .

check: $(VENV)/.dev
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .

types: $(VENV)/.dev
	$(BIN)/mypy

layers: $(VENV)/.dev
	$(BIN)/lint-imports

unit: $(VENV)/.dev
	$(BIN)/pytest -n auto -m "not reference"

browser: $(VENV)/.dev ## the pages in a real browser only
	$(BIN)/pytest -m browser

reference: $(VENV)-reference/.ready ## hold the matrices against a general LCA engine (large download)
	$(VENV)-reference/bin/pytest -m reference

$(VENV)-reference/.ready: requirements/reference.lock pyproject.toml
	$(PYTHON) -m venv $(VENV)-reference
	$(VENV)-reference/bin/python -m pip --disable-pip-version-check --quiet install --require-hashes -r requirements/reference.lock
	$(VENV)-reference/bin/python -m pip --disable-pip-version-check --quiet install --no-deps --no-build-isolation --editable .
	@touch $@

bench: $(VENV)/.dev ## measure speeds and write them down
	$(BIN)/python benchmarks/speed.py

lock: $(VENV)/.dev ## resolve the pins anew (hashes, no addresses)
	$(PIP) install "uv>=0.5,<1"
	$(BIN)/uv pip compile -q pyproject.toml --group build $(LOCK) -o requirements/run.lock
	$(BIN)/uv pip compile -q pyproject.toml --group build --group dev $(LOCK) -o requirements/dev.lock
	$(BIN)/uv pip compile -q pyproject.toml --group build --group dev --group reference $(LOCK) -o requirements/reference.lock

LOCK := --universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header --no-annotate

clean: ## remove environments and outputs
	rm -rf $(VENV) $(VENV)-reference $(OUT)
