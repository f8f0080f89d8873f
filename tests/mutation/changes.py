"""Small faults put into formulas and rules: what can be changed in a module, and a module with all of it in.

Every change becomes a choice that is taken while the program runs: ``a < b`` is compiled as
``(a <= b) if __mutant__(17) else (a < b)``. So one import serves all of them, and a run that takes none shows
which tests reach which. Changed are comparisons, arithmetic, ``and``/``or``, conditions, numbers, a module's
named numbers, and ``min``/``max``, in bodies of functions; annotations, defaults, texts and messages stay.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

COMPARED = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
RECKONED = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Div,
    ast.Mod: ast.FloorDiv,
}
SWAPPED = {"min": "max", "max": "min", "minimum": "maximum", "maximum": "minimum", "any": "all", "all": "any"}
LEFT_ALONE = (ast.JoinedStr, ast.Raise, ast.Assert, ast.Import, ast.ImportFrom, ast.AnnAssign, ast.match_case)


@dataclass(frozen=True)
class Change:
    """One change: its number, where it stands and what it does."""

    number: int
    module: str
    line: int
    kind: str
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.module}:{self.line} [{self.kind}] {self.before}  ->  {self.after}"


def _is_number(node: ast.AST) -> bool:
    return (
        isinstance(node, ast.Constant)
        and isinstance(node.value, int | float)
        and not isinstance(node.value, bool)
    )


def _named_numbers(tree: ast.Module) -> set[str]:
    """Names of the module that stand for a number written at its top."""
    found: set[str] = set()
    for part in tree.body:
        if isinstance(part, ast.Assign) and all(isinstance(t, ast.Name) for t in part.targets):
            reckoned = [
                n for n in ast.walk(part.value) if isinstance(n, ast.operator | ast.unaryop | ast.expr)
            ]
            plain = (ast.Constant, ast.BinOp, ast.UnaryOp, ast.operator, ast.unaryop)
            if reckoned and all(isinstance(n, plain) for n in reckoned) and any(map(_is_number, reckoned)):
                found |= {t.id for t in part.targets if isinstance(t, ast.Name)}
    return found


def _other(node: ast.expr, named: set[str]) -> tuple[str, ast.expr] | None:  # noqa: C901, PLR0911, PLR0912 - kinds
    """What an expression could have been by a slip, and what kind of slip that is."""
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        op = COMPARED.get(type(node.ops[0]))
        return ("comparison", ast.Compare(node.left, [op()], node.comparators)) if op else None
    if isinstance(node, ast.Compare):
        first = COMPARED.get(type(node.ops[0]))
        return (
            ("comparison", ast.Compare(node.left, [first(), *node.ops[1:]], node.comparators))
            if first
            else None
        )
    if isinstance(node, ast.BinOp) and type(node.op) in RECKONED:
        if isinstance(node.left, ast.Constant) and isinstance(node.left.value, str):
            return None
        return "arithmetic", ast.BinOp(node.left, RECKONED[type(node.op)](), node.right)
    if isinstance(node, ast.BoolOp):
        return "logic", ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        return "logic", node.operand
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub) and not _is_number(node.operand):
        return "sign", node.operand
    if _is_number(node) and isinstance(node, ast.Constant):
        moved = node.value + 1 if isinstance(node.value, int) else (node.value * 1.1 or 0.1)
        return "number", ast.Constant(moved)
    if isinstance(node, ast.Name) and node.id in named:
        return "named number", ast.BinOp(node, ast.Mult(), ast.Constant(1.1))
    if isinstance(node, ast.Call):
        name = node.func
        word = name.id if isinstance(name, ast.Name) else name.attr if isinstance(name, ast.Attribute) else ""
        if word in SWAPPED:
            swapped: ast.expr
            if isinstance(name, ast.Name):
                swapped = ast.Name(SWAPPED[word], ast.Load())
            else:
                swapped = ast.Attribute(name.value, SWAPPED[word], ast.Load())  # type: ignore[attr-defined]
            return "extreme", ast.Call(swapped, node.args, node.keywords)
    return None


class _Choices(ast.NodeTransformer):
    """Puts a choice in the place of every expression that can be changed."""

    def __init__(self, module: str, named: set[str], first: int, wanted: set[int] | None) -> None:
        self.module, self.named, self.next, self.wanted = module, named, first, wanted
        self.changes: list[Change] = []
        self.inside = 0

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.FunctionDef:
        self.inside += 1
        body = node.body
        written = isinstance(body[0], ast.Expr) and isinstance(body[0].value, ast.Constant)
        node.body = [*body[:written], *(self.visit(part) for part in body[written:])]
        self.inside -= 1
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.ClassDef:
        node.body = [self.visit(part) if isinstance(part, ast.FunctionDef) else part for part in node.body]
        return node

    def visit_Subscript(self, node: ast.Subscript) -> ast.Subscript:
        if isinstance(node.ctx, ast.Load):
            self.generic_visit(node)
        return node

    def visit_keyword(self, node: ast.keyword) -> ast.keyword:
        if node.arg not in {"strict", "axis", "dtype"}:
            self.generic_visit(node)
        return node

    def generic_visit(self, node: ast.AST) -> Any:
        if isinstance(node, LEFT_ALONE):
            return node
        other = None
        if self.inside and isinstance(node, ast.expr):
            other = _other(node, self.named)
        said = (ast.unparse(node), ast.unparse(other[1])) if other else ("", "")
        line = getattr(node, "lineno", 0)
        super().generic_visit(node)
        if other is None or not isinstance(node, ast.expr):
            return node
        kind, changed = other
        number, self.next = self.next, self.next + 1
        self.changes.append(Change(number, self.module, line, kind, *said))
        if self.wanted is not None and number not in self.wanted:
            return node
        asked = ast.Call(ast.Name("__mutant__", ast.Load()), [ast.Constant(number)], [])
        return ast.IfExp(asked, _fresh(changed), node)


def _fresh(node: ast.expr) -> ast.expr:
    """A copy, since a node may stand in one place alone."""
    return ast.parse(ast.unparse(ast.fix_missing_locations(node)), mode="eval").body


def with_choices(
    source: str, module: str, first: int, wanted: set[int] | None = None
) -> tuple[ast.Module, list[Change]]:
    """A module with its changes (or the wanted ones) in it, and all it could have, from number ``first``."""
    tree = ast.parse(source)
    made = _Choices(module, _named_numbers(tree), first, wanted)
    for place, part in enumerate(tree.body):
        if isinstance(part, ast.FunctionDef | ast.ClassDef):
            tree.body[place] = made.visit(part)
    return ast.fix_missing_locations(tree), made.changes


def sites(sources: dict[str, str]) -> Iterator[Change]:
    """All changes of some modules by name."""
    first = 0
    for module, source in sources.items():
        _, changes = with_choices(source, module, first, set())
        first += len(changes)
        yield from changes
