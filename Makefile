# Every command a user or a developer needs. `make` alone lists them.
SHELL := /bin/bash
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory
.NOTPARALLEL: # two set-ups at once would write to the same .venv

# The interpreter that makes .venv; by default the first of python3.13 … python3 that is >= 3.11.
PYTHON ?=
export PYTHON

BIN := .venv/bin
CODE := src tests $(wildcard bench)

# An environment that was moved here from another folder has to be made anew.
HOME_OF_VENV := $(shell test -x $(BIN)/python && cat .venv/.home 2>/dev/null)
ifneq ($(HOME_OF_VENV),$(CURDIR))
.venv/.ready-run .venv/.ready-dev: FORCE
endif

.PHONY: help
help: ## list these commands
	@echo "shedlight: usage make COMMAND"
	@sed -n 's/^\([a-z-]*\):.* ## /\1	/p' $(MAKEFILE_LIST) | sort | \
		while IFS=$$'\t' read -r name what; do printf '  %-12s %s\n' "$$name" "$$what"; done

.PHONY: demo
demo: .venv/.ready-run ## check, draw and report the example bushings into out/
	@scripts/demo.sh

.PHONY: test
test: check-code ## everything that must hold: style, types, tests
	@echo "==> Running the tests"
	@$(BIN)/python -m pytest -n 2

.PHONY: check-code
check-code: .venv/.ready-dev ## lint, layout and types, without the tests
	@echo "==> Linting (ruff check)"
	@$(BIN)/ruff check $(CODE)
	@echo "==> Checking the layout (ruff format --check)"
	@$(BIN)/ruff format --check $(CODE)
	@echo "==> Checking the types (mypy --strict)"
	@$(BIN)/mypy

.PHONY: format
format: .venv/.ready-dev ## lay out the code and mend what ruff can mend
	@echo "==> Mending and laying out the code"
	@$(BIN)/ruff check --fix $(CODE)
	@$(BIN)/ruff format $(CODE)

.PHONY: docs
docs: .venv/.ready-run ## write what docs/ holds that is made from the code
	@echo "==> Writing docs/"
	@$(BIN)/python scripts/docs.py

COUNT ?= 20000
SEED ?= 1

.PHONY: fuzz
fuzz: .venv/.ready-dev ## check COUNT=20000 random and broken descriptions from SEED=1
	@echo "==> Checking $(COUNT) random and broken descriptions (seed $(SEED); faults into out/fuzz)"
	@PYTHONPATH=tests $(BIN)/python -m fuzz.long $(COUNT) $(SEED) out/fuzz

.PHONY: fuzz-field
fuzz-field: COUNT = 300
fuzz-field: .venv/.ready-dev ## solve the field of COUNT=300 random bushings from SEED=1
	@echo "==> Solving the fields of $(COUNT) random bushings (seed $(SEED); faults into out/fuzz)"
	@PYTHONPATH=tests $(BIN)/python -m fuzz.fields $(COUNT) $(SEED) out/fuzz

.PHONY: bench
bench: .venv/.ready-dev ## time the work; by hand only, on a quiet machine
	@shopt -s nullglob; files=(bench/*.py); \
	if (( $${#files[@]} == 0 )); then echo "No benchmark in bench/ yet."; fi; \
	for file in "$${files[@]}"; do echo "==> $$file"; $(BIN)/python "$$file" || exit; done

.PHONY: lock
lock: ## renew requirements/*.txt after a change of dependencies
	@scripts/lock.sh

.PHONY: clean
clean: ## remove .venv, out/ and all caches
	@echo "==> Removing .venv, out/ and caches"
	@rm -rf .venv out dist .mypy_cache .ruff_cache .pytest_cache .hypothesis
	@find src tests -name __pycache__ -type d -prune -exec rm -rf {} +

.venv/.ready-run: pyproject.toml requirements/run.txt scripts/setup.sh
	@scripts/setup.sh run

.venv/.ready-dev: pyproject.toml requirements/dev.txt scripts/setup.sh
	@scripts/setup.sh dev

.PHONY: FORCE
FORCE:
