"""`check --explain` prints the page of a rule; every rule has one, and it goes along."""

from __future__ import annotations

import ast
import runpy
import tomllib
from collections.abc import Iterator
from pathlib import Path

from click.testing import CliRunner, Result

from hookwright.checking import check
from hookwright.cli import main
from hookwright.commands.explain import page_told, pages_by_rule
from hookwright.reading import read_draft
from hookwright.terminal import Ink

ROOT = Path(__file__).parents[2]
PAGES = ROOT / "docs" / "findings"
TREES = {
    path: ast.parse(path.read_text("utf-8"))
    for path in sorted((ROOT / "src" / "hookwright").rglob("*.py"))
}
MAKES_A_FINDING = {"Finding", "Problem", "Trouble", "trouble"}
TAKEN_FROM_ELSEWHERE = {"problem.rule", "trouble.rule", "rule"}
"""How a rule is named where it comes from a value made elsewhere."""


def explained(rule: str) -> Result:
    return CliRunner().invoke(main, ["check", "--explain", rule])


def test_the_page_of_a_rule_is_printed_without_a_path() -> None:
    result = explained("row-labels")
    assert result.exit_code == 0
    assert result.stdout == (PAGES / "row-labels.md").read_text("utf-8").rstrip("\n") + "\n"
    assert explained("Row-Labels").stdout == result.stdout


def test_an_unknown_rule_is_told_with_the_likeliest_and_all_others() -> None:
    result = explained("row-label")
    assert (result.exit_code, result.stdout) == (2, "")
    first, second = result.stderr.splitlines()
    assert first == 'There is no rule "row-label". Is "row-labels" meant?'
    assert all(rule in second for rule in pages_by_rule())


def test_no_page_is_reached_by_a_path() -> None:
    for name in ("../constructs", "README", "", "/etc/hostname"):
        assert explained(name).exit_code == 2


def test_headings_are_strong_on_a_terminal_only() -> None:
    page = "# side\n\nWords # here.\n\n## Why\n"
    assert page_told(page, Ink()) == page.rstrip()
    assert page_told(page, Ink(on=True)) == (
        "\x1b[1m# side\x1b[0m\n\nWords # here.\n\n\x1b[1m## Why\x1b[0m"
    )


def test_the_pages_go_along_to_where_the_program_looks_for_them() -> None:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    wheel = settings["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["force-include"] == {"docs/findings": "hookwright/pages"}
    assert PAGES.is_dir()
    source = (ROOT / "src" / "hookwright" / "commands" / "explain.py").read_text("utf-8")
    assert 'Path(__file__).parents[1] / "pages"' in source


def test_the_list_of_pages_is_what_the_pages_give() -> None:
    generate = runpy.run_path(str(ROOT / "docs" / "generate.py"))
    told = (PAGES / "README.md").read_text("utf-8")
    assert generate["findings_index"]() == told, "docs/findings/README.md: make docs"
    told = (ROOT / "docs" / "worksheet.md").read_text("utf-8")
    assert generate["worksheet_page"]() == told, "docs/worksheet.md: make docs"
    told = (ROOT / "docs" / "usual-sizes.md").read_text("utf-8")
    assert generate["sizes_page"]() == told, "docs/usual-sizes.md: make docs"


def rules_named() -> Iterator[tuple[str, str]]:
    """Every rule that a finding is made with, and where, as far as the code names it."""
    constants = dict(constants_named())
    for path, tree in TREES.items():
        for node in ast.walk(tree):
            for rule in rule_arguments(node):
                where = f"{path.name}:{rule.lineno}"
                if isinstance(rule, ast.Constant) and isinstance(rule.value, str):
                    yield rule.value, where
                elif isinstance(rule, ast.Name) and rule.id in constants:
                    yield constants[rule.id], where
                elif ast.unparse(rule) not in TAKEN_FROM_ELSEWHERE:
                    yield f"? {ast.unparse(rule)}", where


def constants_named() -> Iterator[tuple[str, str]]:
    """Names like RULE that stand for a rule at the top of a module."""
    for tree in TREES.values():
        for node in tree.body:
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant):
                name = node.targets[0]
                if isinstance(name, ast.Name) and "RULE" in name.id:
                    yield name.id, str(node.value.value)


def rule_arguments(node: ast.AST) -> Iterator[ast.expr]:
    """What a call gives as the rule of a finding."""
    if isinstance(node, ast.Call):
        called = node.func.attr if isinstance(node.func, ast.Attribute) else node.func
        name = called.id if isinstance(called, ast.Name) else called
        is_span = bool(node.args) and "pan" in ast.unparse(node.args[0])
        if name in MAKES_A_FINDING and not is_span:
            yield from node.args[:1]
            yield from (word.value for word in node.keywords if word.arg == "rule")
        if name in {"append", "extend"} and ".problems" in ast.unparse(node.func):
            yield from (one.elts[0] for one in node.args if isinstance(one, ast.Tuple))
    if isinstance(node, ast.AugAssign) and ".problems" in ast.unparse(node.target):
        yield from (
            one.elts[0] for one in ast.walk(node.value) if isinstance(one, ast.Tuple)
        )


def test_every_rule_has_a_page() -> None:
    missing: dict[str, str] = {}
    for rule, where in rules_named():
        if rule not in pages_by_rule():
            missing.setdefault(rule, where)
    told = "; ".join(f"{rule} ({where})" for rule, where in sorted(missing.items()))
    assert not missing, f"no page in docs/findings/ for: {told}"


def test_every_page_is_of_a_rule() -> None:
    assert pages_by_rule().keys() - {rule for rule, _ in rules_named()} == set()


def test_the_rules_that_are_told_are_those_that_the_code_names() -> None:
    named = {rule for rule, _ in rules_named()}
    for path in sorted((ROOT / "examples").glob("*-slip.md")):
        assert {finding.rule for finding in check(read_draft(path)).findings} <= named
