# The loop of Halfpail. `make` alone lists it.
PYTHON ?= python3
BROWSER ?= optional
LIST ?=

BIN := .venv/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet
BENCHMARKS = $(shell grep -ls __main__ benchmarks/*.py)
BROWSER_TESTS := $(wildcard tests/browser/test_*.py)

.DEFAULT_GOAL := help
.PHONY: help demo serve check test paper pictures bench examples sources lock style types imports fast whole browser

help: ## list what can be made
	@grep -hE '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

demo: .venv/run.made ## plan the sample garden
	@$(BIN)/halfpail demo

serve: .venv/run.made ## open the pages in your browser, on this machine only
	@$(BIN)/halfpail serve

check: style types imports fast ## format, lint, types, imports and the fast tests, in about a minute

test: style types imports whole browser ## everything; BROWSER=required makes a missing Chromium a failure

paper: .venv/run.made ## print every document of the sample garden into build/paper
	@$(BIN)/halfpail paper --to build/paper $(SAMPLE_YEAR) --remember build/sample-found.json

pictures: .venv/test.made ## print them all, the shop's too (the first time takes minutes), draw them and the web pages
	@$(BIN)/halfpail paper --shop --to build/paper $(SAMPLE_YEAR) --remember build/sample-found.json
	@$(BIN)/python tests/documents/draw_pages.py build/paper docs/pictures
	@if command -v chromium >/dev/null; then $(MAKE) --no-print-directory pictures-of-pages; \
	else echo "No picture of a page: Chromium not installed"; fi

.PHONY: pictures-of-pages
pictures-of-pages: .venv/browser.made
	@$(BIN)/python -m tests.browser.take_pictures docs/pictures

# An invented year, so that the same garden gives the same paper.
SAMPLE_YEAR := --dated 2027-04-01 --last-frost 2027-05-10 --first-frost 2027-10-01 \
	--address http://127.0.0.1:8765/mixes

bench: .venv/test.made ## run every benchmark on the problems that come with it
	@for script in $(BENCHMARKS); do echo "== $$script"; PYTHONPATH=. $(BIN)/python $$script || exit 1; done

examples: .venv/test.made ## run every published case, and tell how many agree, by source
	@$(BIN)/python tools/examples.py

sources: .venv/run.made ## count the shipped figures by mark; LIST=memory lists those of one mark
	@$(BIN)/python tools/sources.py $(LIST)

lock: .venv/run.made ## resolve the three hash locks again, without host names
	@test -x $(BIN)/uv || $(PIP) install uv
	$(call compile,run,pyproject.toml --group build)
	$(call compile,test,--group test -c requirements/run.lock)
	$(call compile,browser,--group browser -c requirements/run.lock -c requirements/test.lock)

compile = $(BIN)/uv pip compile --no-config --quiet --upgrade --universal --python-version 3.11 \
	--fork-strategy fewest --generate-hashes --no-header $(2) -o requirements/$(1).lock

# ---- the parts of check and test

style: .venv/test.made
	@$(BIN)/ruff format --check --quiet . || { echo "To mend: $(BIN)/ruff format ."; exit 1; }
	@$(BIN)/ruff check --quiet .

types: .venv/test.made
	@$(BIN)/mypy

imports: .venv/test.made
	@$(BIN)/lint-imports --no-logo

fast: .venv/test.made
	@$(BIN)/pytest -q -m "not slow" --ignore=tests/browser --ignore=tests/properties -n auto --dist worksteal

whole: .venv/test.made
	@$(BIN)/pytest -q --ignore=tests/browser

browser: .venv/test.made
	@if command -v chromium >/dev/null; then $(MAKE) --no-print-directory run-browser; \
	elif [ "$(BROWSER)" = required ]; then echo "Chromium is required and not installed."; exit 1; \
	else echo "0 browser tests: Chromium not installed"; fi

.PHONY: run-browser
ifeq ($(BROWSER_TESTS),)
run-browser:
	@echo "0 browser tests: there is no page yet"
else
run-browser: .venv/browser.made
	@$(BIN)/pytest -q tests/browser
endif

# ---- the environment: each stamp is made once, and again only when its lock changes

.venv/pip.made:
	@command -v $(PYTHON) >/dev/null && $(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	|| { echo "Halfpail needs Python 3.11 or newer; type: make PYTHON=python3.11 (or the path of a newer one)"; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null \
	|| { echo "Python cannot make an environment here; on Debian or Ubuntu type: sudo apt install python3-venv"; exit 1; }
	@echo "Setting up .venv (once; this asks the package index)"
	@$(PYTHON) -m venv .venv
	@touch $@

.venv/run.made: .venv/pip.made requirements/run.lock pyproject.toml
	@$(PIP) install --require-hashes -r requirements/run.lock
	@$(PIP) install --no-build-isolation --no-deps -e .
	@touch $@

.venv/test.made: .venv/run.made requirements/test.lock
	@$(PIP) install --require-hashes -r requirements/test.lock
	@touch $@

.venv/browser.made: .venv/test.made requirements/browser.lock
	@$(PIP) install --require-hashes -r requirements/browser.lock
	@touch $@
