"""Numbers that a solver has found already, told as the formula that gives them.

A solver iterates on the bare functions; evaluating the formula again on its answer would only cost time. The
working is the same, and whoever asks can find the number again from it.
"""

from typing import Any

from dossier.notation import Formula, Given, Traced, Working


def told(formula: "Formula[Any, Any]", found: float, *given: Any) -> Traced:
    """The number as the formula gives it from its inputs, which were within its range."""
    pairs = tuple(map(Given, formula.inputs, given))
    return Traced(found, Working(formula.statement, pairs, found))
