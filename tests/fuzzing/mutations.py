"""What can be done to a project file, knowing its structure: one edit at the place of one node."""

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass

import yaml

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
FACTORS = ("0", "-1", "1e-9", "1e-3", "0.1", "0.5", "0.9", "1.1", "2", "10", "1e3", "1e6", "1e12")
WORDS = (
    "none",
    "yes",
    "no",
    "0",
    "-1",
    "''",
    "[]",
    "{}",
    "~",
    "x",
    "1e400 m",
    "nan",
    "inf",
    "0 m",
    "-3 m",
    "1 K",
    "100 kPa",
    "5 l/min",
    "3 kW",
    "20 degC",
    "[0 m, 0 m, 0 m]",
    "[1 m]",
    "M1",
    "*a",
    "2026-02-30",
    "{is: 1 m}",
    "{is: 1 m, basis: measured}",
    "{is: none, basis: drawing}",
    "\u202e",
    "é" * 300,
    "<b>&</b>",
    "{{ 7 * 7 }}",
    "=1+1",
    "../../etc/passwd",
    "http://example.org/x",
    "%s %n {0}",
    "9" * 400,
)


@dataclass(frozen=True)
class Span:
    """A stretch of the text that one node, or a key with its value, covers."""

    start: int
    end: int
    text: str
    scalar: bool


def spans(text: str) -> tuple[list[Span], list[Span], list[Span]]:
    """The values of a project file, its keys with their values, and the items of its lists."""
    values: list[Span] = []
    entries: list[Span] = []
    items: list[Span] = []

    def cut(first: yaml.Node, last: yaml.Node) -> Span:
        start, end = first.start_mark.index, last.end_mark.index
        return Span(start, end, text[start:end], first is last and isinstance(first, yaml.ScalarNode))

    def walk(node: yaml.Node) -> None:
        values.append(cut(node, node))
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                entries.append(cut(key, value))
                walk(value)
        elif isinstance(node, yaml.SequenceNode):
            for value in node.value:
                items.append(cut(value, value))
                walk(value)

    node = yaml.compose(text, yaml.SafeLoader)
    if node is not None:
        walk(node)
    return values, entries, items


def _scaled(chance: random.Random, words: str) -> str:
    """The words with one of their numbers multiplied."""
    found = list(NUMBER.finditer(words))
    if not found:
        return chance.choice(WORDS)
    number = chance.choice(found)
    factor = float(chance.choice(FACTORS))
    return f"{words[: number.start()]}{float(number.group()) * factor:.6g}{words[number.end() :]}"


def mutated(chance: random.Random, text: str, others: str) -> str:
    """A text with one edit, chosen by chance; ``others`` is another project whose values may be borrowed."""
    values, entries, items = spans(text)
    leaves = [span for span in values if span.scalar]
    kind = chance.randrange(9)
    if kind <= 3 and leaves:
        span = chance.choice(leaves)
        return text[: span.start] + _scaled(chance, span.text) + text[span.end :]
    if kind == 4:
        span = chance.choice(values)
        return text[: span.start] + chance.choice(WORDS) + text[span.end :]
    if kind == 5 and entries:
        span = chance.choice(entries)
        line = text.rfind("\n", 0, span.start) + 1
        whole = text[line : span.start].strip() == "" and text[span.end : span.end + 1] in {"\n", ""}
        return (
            text[:line] + text[span.end + 1 :]
            if whole
            else text[: span.start] + text[span.end :].lstrip(", ")
        )
    if kind == 6 and items:
        span = chance.choice(items)
        return text[: span.end] + ", " + span.text + text[span.end :]
    if kind == 7:
        span, other = chance.choice(values), chance.choice(spans(others)[0])
        return text[: span.start] + other.text + text[span.end :]
    first, second = sorted(chance.sample(leaves, 2), key=lambda span: span.start)
    between = text[first.end : second.start]
    return text[: first.start] + second.text + between + first.text + text[second.end :]


def cases(seed: int, texts: list[str]) -> Iterator[str]:
    """Project files without end, each one to three edits away from one of the texts."""
    chance = random.Random(seed)  # noqa: S311 - edits, not secrets
    while True:
        text = chance.choice(texts)
        for _ in range(chance.choice((1, 1, 1, 2, 3))):
            try:
                text = mutated(chance, text, chance.choice(texts))
            except (yaml.YAMLError, ValueError):
                break
        yield text
