"""What the YAML parser stumbles over, in words for people, at the place where a person must mend it."""

from collections.abc import Sequence
from typing import Any

import yaml

DEEPEST = 30
"""How deep lists and mappings may be nested in a project file."""

Told = tuple[str, str, int, int]
"""What is wrong, what would be right, line and column (0 where there is no place)."""

TAB = ("a tab stands where spaces belong", "indent with spaces")
SECOND_COLON = ("a second ': ' stands where none can", "put text that holds ': ' in quotes")
DEEPER = (
    "this line stands deeper than the one before, which has its value already",
    "align it with the keys it belongs to",
)
PLAIN_WORDS = (
    ("nesting depth", f"the file is nested more than {DEEPEST} deep", "no project needs that"),
    (
        "sequence entries are not allowed",
        "a list begins on the line of its key",
        "begin it on the next line, with - ",
    ),
    ("node content", "a bracket or sign stands where a value belongs", "quote the text"),
    (
        "<document start>",
        "the file goes on where it should have ended",
        "check the quotes and brackets before",
    ),
    ("mapping values are not allowed", *SECOND_COLON),
    ("cannot start any token", "a value begins with a sign that is reserved", "put the text in quotes"),
    ("found a tab", *TAB),
    ("block mapping", "the indentation does not fit the lines before", "align the keys that belong together"),
    (
        "block collection",
        "the indentation does not fit the lines before",
        "align the dashes that belong together",
    ),
    ("escape", "an escape in double quotes is not known", "use single quotes"),
    ("anchor", "an & or * begins a value", "quote the text"),
    ("alias", "an & or * begins a value", "quote the text"),
    ("directive", "a line that begins with % is not read", "take it out"),
    ("tag", "a ! begins a value", "quote the text"),
)
OPENED = (
    ("while scanning a quoted scalar", "a quote is opened here and not closed", "close it"),
    (
        "flow mapping",
        "the { opened here is not closed, or a comma is missing",
        "write {key: value, key: value}",
    ),
    ("flow sequence", "the [ opened here is not closed, or a comma is missing", "write [one, two]"),
    ("simple key", "a key has no ': ' after it", "write key: value, with a space after the colon"),
)
"""Where the parser notices late: the place to mend is where the thing begins."""


def broken(error: yaml.YAMLError, text: str) -> Told:
    """What is wrong with a text that cannot be parsed, and where to mend it."""
    problem, context = _place(error, "problem_mark"), _place(error, "context_mark")
    line, column = problem or context or (0, 0)
    said = " ".join(
        str(part) for part in (getattr(error, "context", ""), getattr(error, "problem", "")) if part
    )
    said = said or str(error).replace("\n", " ")
    lines = text.split("\n")
    by_sign = _by_sign(lines, line, column, said if not context or context[0] == line else "")
    if by_sign:
        return (*by_sign, line, column)
    if context:
        for sign, what, instead in OPENED:
            if sign in said:
                late = f" (noticed in line {line})" if line > context[0] and "simple key" not in sign else ""
                return (what + late, instead, *context)
    for sign, what, instead in PLAIN_WORDS:
        if sign in said:
            return (what, instead, line, column)
    return ("the file cannot be read from here on", "compare with an example", line, column)


def _place(error: yaml.YAMLError, name: str) -> tuple[int, int] | None:
    mark: Any = getattr(error, name, None)
    return (mark.line + 1, mark.column + 1) if mark else None


def _by_sign(lines: Sequence[str], line: int, column: int, said: str) -> tuple[str, str] | None:
    """What the sign tells that the parser stopped at; None where it tells nothing."""
    written = lines[line - 1] if 0 < line <= len(lines) else ""
    sign, before = written[column - 1 : column], written[: max(column - 1, 0)]
    if sign == "\t" and not before.strip():
        return TAB
    if "mapping values are not allowed" in said and ": " not in before:
        return DEEPER if not before.strip().startswith("- ") else None
    if sign == ":" and "flow" in said:
        return SECOND_COLON
    if "did not find expected key" in said and sign and before.strip():
        if sign in "]}":
            return f"a {sign} closes what was never opened", "take it out, or open it before"
        if '"' in before or "'" in before:
            return (
                "the text goes on after its closing quote",
                "put it whole in quotes of the other kind, or check the quotes before",
            )
    return None
