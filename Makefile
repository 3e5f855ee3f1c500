# `make site` and `make test` set up all they need in a fresh clone; the second run is quick.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
# Twice quiet: errors only.
PIP_INSTALL := $(BIN)/python -m pip install -qq --disable-pip-version-check

export NO_MKDOCS_2_WARNING := 1

.PHONY: help site serve test bench browser clean

help:
	@echo "make site   build the demo log into site/, every problem an error"
	@echo "make serve  show the demo log and build it anew as its pages change"
	@echo "make test   run the linters, the type checker and every test"
	@echo "make bench  measure what the plugin costs"
	@echo "make clean  remove what was built; the tools stay in $(VENV)"

# Never with --quiet: MkDocs then drops the warnings that --strict would count.
site: $(VENV)/.site-installed
	$(BIN)/mkdocs build --strict

serve: $(VENV)/.site-installed
	$(BIN)/mkdocs serve

test: $(VENV)/.test-installed browser
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/pytest -n 2 --dist loadgroup

bench: $(VENV)/.site-installed
	@for script in benchmarks/*.py; do \
	    echo "$$script"; $(BIN)/python "$$script" || exit 1; \
	done

# The tests in tests/browser/ drive a Chromium of the system; none is downloaded by Playwright.
browser:
	@for name in chromium chromium-browser; do \
	    if command -v $$name >/dev/null; then exit 0; fi; \
	done; \
	as_root=; \
	if [ "$$(id -u)" != 0 ]; then as_root="sudo -n"; fi; \
	if command -v apt-get >/dev/null && $$as_root true 2>/dev/null; then \
	    echo "installing Debian's chromium for the browser tests"; \
	    $$as_root apt-get update -qq && \
	    $$as_root env DEBIAN_FRONTEND=noninteractive \
	        apt-get install -qq --no-install-recommends chromium >/dev/null; \
	else \
	    echo "There is no chromium on the PATH, which the browser tests drive." >&2; \
	    echo "Install your system's chromium package, then run make test again." >&2; \
	    exit 1; \
	fi

clean:
	rm -rf site build dist *.egg-info .pytest_cache .mypy_cache .ruff_cache .hypothesis \
	    .import_linter_cache
	find benchmarks plugins shoplog data tests -name __pycache__ -type d -prune -exec rm -rf {} +

$(BIN)/python:
	@command -v $(PYTHON) >/dev/null || { \
	    echo "$(PYTHON) is not here; shoplog needs Python 3.11 or newer." >&2; exit 1; }
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
	    echo "shoplog needs Python 3.11 or newer; $(PYTHON) is $$($(PYTHON) -V 2>&1)." >&2; \
	    echo "With a newer one beside it: make PYTHON=python3.12 …" >&2; exit 1; }
	$(PYTHON) -m venv $(VENV) || { rm -rf $(VENV); exit 1; }

$(VENV)/.site-installed: pyproject.toml | $(BIN)/python
	$(PIP_INSTALL) --editable '.[docs]'
	@touch $@

$(VENV)/.test-installed: pyproject.toml | $(BIN)/python
	$(PIP_INSTALL) --editable '.[test]'
	@touch $@ $(VENV)/.site-installed
