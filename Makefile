# The commands of this repository. Each sets up what it needs in .venv on first use,
# and again only when pyproject.toml or constraints-dev.txt has changed.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check --quiet
WANTED := pyproject.toml constraints-dev.txt
DEMO := examples/turnstone-wave-throw
RELEASED := build/demo
DESIGNS := low-water-blanket kelp-square.md petrel-cap.md
TESTS ?=
PROVING = tests/notation tests/working tests/editing tests/outside tests/test_cases.py \
  tests/test_constructs.py
MINUTES ?= 10

.DEFAULT_GOAL := help
.NOTPARALLEL:
.PHONY: help demo test check format lint types coverage bench fuzz docs bundle samebundle constraints clean

help:
	@echo "make demo         check a bundled pattern with a slip in it, put out three designs"
	@echo "make test         run all tests (TESTS='-k wave' runs some of them)"
	@echo "make check        format, lint, types, tests, branch coverage"
	@echo "make bench        reading speed and start-up time, beside the bare interpreter"
	@echo "make fuzz         texts made at random, ten minutes of them"
	@echo "make docs         write the pages in docs/ that are made from something else"
	@echo "make bundle       write the page of the desk into the package (wants Node.js)"
	@echo "make samebundle   see that it is what its sources give"
	@echo "make constraints  renew constraints-dev.txt"
	@echo "make clean        remove everything that make has made"

# A slip is an error, so its check is right to end with status 1. A crash would end so too:
# the same pattern without the slip must end with 0.
demo: $(VENV)/installed
	@$(BIN)/hookwright check --quiet $(DEMO).md || \
	  { echo "$(DEMO).md should be clean." >&2; exit 1; }
	@echo "hookwright check $(DEMO)-slip.md"
	@echo
	@$(BIN)/hookwright check $(DEMO)-slip.md; status=$$?; \
	  if [ $$status -ne 1 ]; then \
	    echo "The planted slip should end the check with status 1, not $$status." >&2; exit 1; \
	  fi
	@echo
	@echo "The slip above is planted: $(DEMO)-slip.md, Top edging, Row 1."
	@echo "examples/README.md names every slip and the right number; without it the pattern is clean."
	@echo
	@echo "Three designs put out into $(RELEASED):"
	@for design in $(DESIGNS); do \
	  echo; echo "hookwright release examples/$$design"; \
	  $(BIN)/hookwright release examples/$$design -o $(RELEASED)/$$(basename $$design .md) \
	    --date 2026-11-25 || exit 1; \
	done
	@echo
	@echo "For a pattern of your own: $(BIN)/hookwright check PATH, then release PATH"

test: $(VENV)/installed-dev
	$(BIN)/python -m pytest -n auto --dist worksteal $(TESTS)

check: format lint types test coverage

format: $(VENV)/installed-dev
	$(BIN)/ruff format --check .

lint: $(VENV)/installed-dev
	$(BIN)/ruff check .

types: $(VENV)/installed-dev
	$(BIN)/mypy

# The two stages that prove counts have a threshold. To watch which lines run takes three
# times as long, so only the tests that are there for these stages are watched.
coverage: $(VENV)/installed-dev
	$(BIN)/python -m pytest -q -n auto --dist worksteal --cov --cov-report= $(PROVING)
	$(BIN)/coverage report --include='src/hookwright/notation/*' --fail-under=95
	$(BIN)/coverage report --include='src/hookwright/working/*' --fail-under=95

# A long job that needs its own library, so it is no part of a check.
fuzz: $(VENV)/installed-dev
	$(PIP) install -e '.[fuzz]'
	$(BIN)/python fuzz/fuzz_check.py -max_total_time=$$(( 60 * $(MINUTES) ))

bench: $(VENV)/installed
	$(BIN)/python benchmarks/bench_check.py
	$(BIN)/python benchmarks/bench_measure.py
	$(BIN)/python benchmarks/bench_yarn.py
	$(BIN)/python benchmarks/bench_fabric.py
	$(BIN)/python benchmarks/bench_chart.py
	$(BIN)/python benchmarks/bench_release.py

# Pages that are told by something else; a test says when one is out of date.
docs: $(VENV)/installed
	$(BIN)/python docs/generate.py

# The page of the desk. Its built files are part of the repository, so that nobody needs
# Node.js to install the program.
bundle: web/node_modules/.package-lock.json
	cd web && npm run --silent build

samebundle: web/node_modules/.package-lock.json
	cd web && npm run --silent types && node build.mjs ../build/page
	cmp build/page/desk.js src/hookwright/desk/page/desk.js
	cmp build/page/desk.css src/hookwright/desk/page/desk.css

web/node_modules/.package-lock.json: web/package-lock.json
	cd web && npm ci --ignore-scripts --no-audit --no-fund
	@touch $@

# Installs the newest versions that pyproject.toml allows and writes down which they were.
constraints: $(VENV)/made
	rm -rf $(VENV)/renewed
	$(PYTHON) -m venv $(VENV)/renewed
	$(VENV)/renewed/bin/python -m pip --disable-pip-version-check --quiet install -e '.[dev]'
	{ echo '# Exact versions for the development environment; `make constraints` renews them.'; \
	  $(VENV)/renewed/bin/python -m pip freeze --exclude-editable; } > $(VENV)/constraints.txt
	mv $(VENV)/constraints.txt constraints-dev.txt
	rm -rf $(VENV)/renewed

clean:
	rm -rf $(VENV) build dist htmlcov .coverage .coverage.* .hypothesis
	rm -rf web/node_modules
	rm -rf fuzz/corpus fuzz/found .mypy_cache .pytest_cache .ruff_cache

$(VENV)/made:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
	  { echo "hookwright needs Python 3.11 or newer: make PYTHON=python3.11" >&2; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || \
	  { echo "Python cannot make environments here: apt-get install python3-venv" >&2; exit 1; }
	$(PYTHON) -m venv $(VENV)
	@touch $@

$(VENV)/installed: $(VENV)/made $(WANTED)
	$(PIP) install -c constraints-dev.txt -e .
	@touch $@

# Holds all that `installed` promises, so a demo after the tests sets nothing up.
$(VENV)/installed-dev: $(VENV)/made $(WANTED)
	$(PIP) install -c constraints-dev.txt -e '.[dev]'
	@touch $(VENV)/installed $@
