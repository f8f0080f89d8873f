"""Names are the trade's, spelled out; modules hold one idea; commands are short."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULES = {
    str(folder.relative_to(ROOT)): sorted(folder.glob("*.py"))
    for folder in [ROOT / "dossier", *sorted((ROOT / "dossier").rglob("*"))]
    if folder.is_dir() and any(folder.glob("*.py"))
}
PACKAGES = sorted(MODULES)
FORBIDDEN = {
    "data", "info", "obj", "thing", "temp", "tmp", "util", "utils", "helper", "helpers", "common", "misc",
    "core", "manager", "handler", "processor", "process", "handle", "flag", "params", "config",
}  # fmt: skip
OURS = {"data_set", "model_config", "_handle"}
"""A set of fluid data, a name that pydantic asks for, and the handle of a valve."""
LONGEST = 300
COMMAND = 25


def names_in(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name
            if not isinstance(node, ast.ClassDef):
                yield from (a.arg for a in (*node.args.args, *node.args.kwonlyargs))
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            yield node.id


@pytest.mark.parametrize("package", PACKAGES)
def test_no_name_says_nothing(package):
    said = []
    for path in MODULES[package]:
        for name in names_in(ast.parse(path.read_text(encoding="utf-8"))):
            words = name.strip("_").casefold().split("_")
            if {words[0], words[-1]} & FORBIDDEN and name not in OURS:
                said.append(f"{path.name}: {name}")
    assert said == []


@pytest.mark.parametrize("package", PACKAGES)
def test_a_module_holds_one_idea(package):
    lengths = {path.name: len(path.read_text(encoding="utf-8").splitlines()) for path in MODULES[package]}
    assert {name: length for name, length in lengths.items() if length > LONGEST} == {}


def test_each_command_is_short():
    for path in (ROOT / "dossier" / "cli").glob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                assert node.end_lineno - node.lineno < COMMAND, f"{path.name}: {node.name}"
