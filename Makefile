# What one types. Everything is installed into .venv; a stamp says that this was done for the present requirements.

PYTHON ?= python3
BIN := .venv/bin
REQUIREMENTS := pyproject.toml constraints.txt hatch_build.py

.DEFAULT_GOAL := help
.PHONY: help setup demo test lint bench docs docs-check clean

help:
	@echo "make setup       install Cutaway and its tools into .venv"
	@echo "make demo        check the Whinchat and make its pack"
	@echo "make test        everything that must pass: format, rules, types, layers, documents, tests"
	@echo "make bench       timings, as ratios to a reference in the same run"
	@echo "make docs        write the reference pages again"
	@echo "make docs-check  tell whether a reference page is stale"
	@echo "make clean       remove what was made, .venv too"

.venv/bin/python:
	$(PYTHON) -c 'import sys; sys.exit(0 if sys.version_info >= (3, 11) else "Python 3.11 or later is needed; say make PYTHON=...")'
	$(PYTHON) -m venv .venv

.venv/.installed: .venv/bin/python $(REQUIREMENTS)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e .
	@touch $@

.venv/.installed-for-test: .venv/bin/python $(REQUIREMENTS)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[test]'
	@touch $@ .venv/.installed

setup: .venv/.installed-for-test
	@bash .ci/system-packages.sh

demo: .venv/.installed
	@echo "The first check compiles the solver and tries every assumed value: a minute or two."
	$(BIN)/cutaway check demo/whinchat || [ $$? -eq 1 ]
	$(BIN)/cutaway make demo/whinchat || [ $$? -eq 1 ]
	@echo "The pack of the Whinchat is in demo/whinchat/pack; open demo/whinchat/pack/index.html in a browser."

lint: .venv/.installed-for-test
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

# The tests come last, so that what is printed ends with their summary.
test: setup lint docs-check
	$(BIN)/pytest -n auto --dist loadgroup

bench: .venv/.installed-for-test
	@for script in $(wildcard benchmarks/*.py); do echo "== $$script"; $(BIN)/python "$$script" || exit 1; done

docs: .venv/.installed
	$(BIN)/python docs/build.py

docs-check: .venv/.installed
	$(BIN)/python docs/build.py --check

clean:
	rm -rf .venv build dist demo/*/pack demo/*/handout .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	find src tests -name __pycache__ -type d -prune -exec rm -rf {} +
