"""ARCHITECTURE.md tells the truth: its arrows, its modules, and what stays unimported."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SOURCES = ROOT / "src"
PAGE = (ROOT / "ARCHITECTURE.md").read_text(encoding="utf-8")
PACKAGES_OF_THEIR_OWN = ("notation.motions", "notation.printing", "design.worksheet")
"""Packages inside a part that have a line of their own in the table of arrows."""
ONLY_WHEN_NEEDED = {
    "PIL",
    "coloraide",
    "pypdfium2",
    "rapidfuzz",
    "tomlkit",
    "typst",
    "webvtt",
}
"""Libraries that a module may import inside a function only."""
ARRAYS = {"numpy", "scipy"}
"""Libraries of arrays, which nothing but the shape of a fabric and its pictures need."""
PARTS_OF_ARRAYS = {"shape", "drawing"}

# What reads other kinds of file, and what such work is commonly done with.
HEAVY = {
    "numpy", "scipy", "hookwright.shape", "hookwright.drawing", "typst", "PIL", "lxml", "docx", "bs4", "pypdfium2", "pypdfium2_raw",
    "pymupdf", "fitz", "pypdf", "pdfminer", "xml", "html.parser",
    "hookwright.reading.docx", "hookwright.reading.hypertext", "hookwright.reading.pdf",
    "tomlkit", "hookwright.design.worksheet", "coloraide", "hookwright.colour", "hookwright.yarn",
}  # fmt: skip


def name_of(path: Path) -> str:
    """The dotted name of a module, or of a package for its `__init__.py`."""
    parts = path.relative_to(SOURCES).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {name_of(path): path for path in sorted(SOURCES.rglob("*.py"))}
TREES = {name: ast.parse(path.read_text("utf-8")) for name, path in MODULES.items()}


def imported(tree: ast.AST) -> Iterator[str]:
    """The modules that some code imports, inside functions too."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.module, "relative imports hide an arrow"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
            yield from (name if name in MODULES else node.module for name in names)


USES = {name: set(imported(tree)) & MODULES.keys() for name, tree in TREES.items()}


def part_of(module: str) -> str:
    """The part of the table that a module belongs to."""
    inner = module.removeprefix("hookwright").removeprefix(".")
    for package in PACKAGES_OF_THEIR_OWN:
        if inner == package or inner.startswith(f"{package}."):
            return package
    return inner.partition(".")[0]


def arrows() -> dict[str, set[str]]:
    """The table of the page: what each part may use."""
    rows = PAGE.partition("<!-- arrows -->\n")[2].partition("\n\n")[0].splitlines()[2:]
    cells = [re.findall(r"`([\w.]+)`", row) for row in rows]
    return {part: set(uses) for part, *uses in cells}


def test_every_part_is_in_the_table_of_arrows() -> None:
    assert arrows().keys() == {part_of(module) for module in MODULES} - {""}


def test_arrows_point_up_the_table() -> None:
    above: set[str] = set()
    for part, uses in arrows().items():
        assert uses <= above, f"{part} may use {uses - above}, which stands below it"
        above.add(part)


@pytest.mark.parametrize("part", arrows())
def test_a_part_imports_only_what_it_may_use(part: str) -> None:
    wrong = {
        (module, used)
        for module, found in USES.items()
        for used in found
        if part_of(module) == part and part_of(used) not in {part, "", *arrows()[part]}
    }
    assert wrong == set()


def test_what_a_part_may_use_it_uses() -> None:
    used = {
        part: {
            part_of(other)
            for name in MODULES
            if part_of(name) == part
            for other in USES[name]
        }
        for part in arrows()
    }
    assert {
        part: uses - used[part] for part, uses in arrows().items() if uses - used[part]
    } == {}


def test_no_module_uses_one_that_uses_it() -> None:
    # A cycle raises.
    assert list(TopologicalSorter(USES).static_order())


def test_no_import_is_hidden_from_the_running_program() -> None:
    hidden = [
        name for name, path in MODULES.items() if "TYPE_CHECKING" in path.read_text("utf-8")
    ]
    assert hidden == []


def test_only_light_libraries_stand_at_the_top_of_a_module() -> None:
    known = {"hookwright", *sys.stdlib_module_names}
    for name, tree in TREES.items():
        foreign = {module.partition(".")[0] for module in imported(tree)} - known
        arrays = ARRAYS if part_of(name) in PARTS_OF_ARRAYS else set()
        served = {"starlette", "uvicorn"} if part_of(name) == "desk" else set()
        assert foreign <= ONLY_WHEN_NEEDED | arrays | served | {"click", "msgspec"}, name
        at_top = ast.Module(
            [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)],
            [],
        )
        assert not set(imported(at_top)) & ONLY_WHEN_NEEDED, name
        assert "click" not in foreign or part_of(name) == "cli"


def test_no_pattern_is_compiled_when_its_module_is_imported() -> None:
    made = {
        (name, node.lineno)
        for name, tree in TREES.items()
        for statement in tree.body
        if not isinstance(statement, ast.FunctionDef | ast.ClassDef)
        for node in ast.walk(statement)
        if isinstance(node, ast.Attribute) and ast.unparse(node) == "re.compile"
    }
    assert made == set()


def listed(heading: str) -> list[str]:
    """The modules named in the tables under a heading."""
    behind = PAGE.partition(f"\n### {heading}\n")[2]
    section = re.split(r"^##", behind, maxsplit=1, flags=re.MULTILINE)[0]
    return re.findall(r"^\| `(\w+)\.py` \|", section, re.MULTILINE)


def folders() -> dict[str, set[str]]:
    """The modules of each folder, by the heading that it has on the page."""
    found: dict[str, set[str]] = {}
    for path in MODULES.values():
        folder = path.parent.relative_to(SOURCES / "hookwright").as_posix()
        heading = "The top" if folder == "." else f"`{folder}/`"
        if path.stem != "__init__":
            found.setdefault(heading, set()).add(path.stem)
    return found


@pytest.mark.parametrize("heading", folders())
def test_every_module_has_its_line_on_the_page(heading: str) -> None:
    assert sorted(listed(heading)) == sorted(folders()[heading])


def test_every_module_says_what_it_answers() -> None:
    assert [name for name, tree in TREES.items() if not ast.get_docstring(tree)] == []


PATTERN = (
    "US terms. Ch 1 does not count as a stitch.\n\nCh 9.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. (8 sc)\n"
)


def modules_after_a_check(path: Path) -> set[str]:
    """What `python -m hookwright check` imports of a clean pattern, as Python tells."""
    run = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-X", "importtime", "-m", "hookwright", "check", str(path)],
        capture_output=True, check=True, text=True,
    )  # fmt: skip
    assert "all counts proven" in run.stdout
    return {line.rpartition("|")[2].strip() for line in run.stderr.splitlines()}


@pytest.mark.parametrize("ending", [".txt", ".md"])
def test_the_check_of_a_text_imports_nothing_heavy(ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"knot-strap{ending}"
    path.write_text(PATTERN, encoding="utf-8")
    found = modules_after_a_check(path)
    assert "hookwright.working" in found
    assert not found & HEAVY


def test_the_check_of_a_page_imports_what_reads_pages_and_nothing_else(
    tmp_path: Path,
) -> None:
    path = tmp_path / "knot-strap.html"
    path.write_text("<p>" + PATTERN.replace("\n", "<br>"), encoding="utf-8")
    found = modules_after_a_check(path) & HEAVY
    assert found == {"html.parser", "hookwright.reading.hypertext"}
