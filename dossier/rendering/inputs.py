"""Inputs of the project file in words: ``components.B1.mass`` is the dry mass of B1; many alike are one."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any, get_args

from dossier.notation import Quantity
from dossier.project import Project
from dossier.project.model import Component, ProjectFile
from dossier.project.model.entry import is_entry
from dossier.rendering.text import Markup, Text, own, text
from dossier.rendering.words import Words

FEW = 3
"""Owners named one by one; of more only their number is told."""
GAP = "*"
_KIND = re.compile(r"(\w+) \((.+)\)")
"""``components (a header_tank)``: a part that is missing altogether."""


@cache
def _labels(section: str) -> Mapping[str, str]:
    """Keys the model knows in one section of the file, at any depth, each with its quantity's label."""
    found: dict[str, str] = {}
    pending: list[Any] = [ProjectFile.model_fields[section].annotation]
    seen = set[int]()
    while pending:
        kind = pending.pop()
        pending.extend(get_args(kind))
        if id(kind) in seen or not is_entry(kind):
            continue
        seen.add(id(kind))
        if kind is Component:
            pending.extend(Component.kinds.values())
        for name, held in kind.model_fields.items():
            label = next((mark.label for mark in held.metadata if isinstance(mark, Quantity)), "")
            found[held.alias or name] = found.get(held.alias or name) or label
            pending.append(held.annotation)
    return found


@dataclass(slots=True)
class _Alike:
    """Inputs that differ in their owner only."""

    section: str
    name: str
    phrase: Text
    keys: list[str] = field(default_factory=list)
    owners: list[str] = field(default_factory=list)


class InputWords:
    """Says which inputs are meant, in the words of one language."""

    def __init__(self, words: Words, project: Project) -> None:
        self.words, self.project = words, project

    def phrase(self, key: str) -> Markup:
        """One input and whose it is: ``dry mass of B1``."""
        return self._said(self._alike([key])[0])

    def listed(self, keys: Iterable[str], most: int | None = None, *, with_keys: bool = True) -> Markup:
        """Inputs one after another, each with its line, those of many owners as one.

        ``most`` leaves the others to "and 4 more"; ``with_keys`` adds how they are written in the file.
        """
        every = self._alike(keys)
        shown = every if most is None else every[:most]
        parts: list[Text] = []
        for alike in shown:
            if parts:
                parts.append(own(", "))
            parts.append(self._said(alike))
            where = self._where(alike, with_keys=with_keys)
            if where:
                parts += [own(" "), self.words("inputs.in_brackets", keys=where)]
        more = sum(len(alike.keys) for alike in every[len(shown) :])
        if more:
            parts += [own(" "), self.words("answers.and_more", more=str(more))]
        return text(*parts)

    def lines(self, keys: Sequence[str]) -> Markup:
        """Lines of the file where some keys stand, or belong; nothing where it has no place for them."""
        found = [self.project.where(key) for key in keys]
        numbers = sorted({line.line for line in found if line.key and line.line})
        if not numbers:
            return Markup()
        if len(numbers) == 1:
            return self.words("inputs.line", line=str(numbers[0]))
        return self.words("inputs.lines", lines=f"{numbers[0]}–{numbers[-1]}")

    def _alike(self, keys: Iterable[str]) -> list[_Alike]:
        """Keys by what they mean, in the order of the first of each."""
        found: dict[str, _Alike] = {}
        for key in keys:
            section, name, owner = self._parts(key)
            alike = found.setdefault(f"{section} {name}", _Alike(section, name, self._named(section, name)))
            alike.keys.append(key)
            if owner:
                alike.owners.append(owner)
        return list(found.values())

    def _parts(self, key: str) -> tuple[str, str, str]:
        """Section of the file, name of the input in it, and whose it is."""
        kind = _KIND.fullmatch(key)
        if kind:
            return kind[2].replace("_", " "), "", ""
        section, *rest = key.split(".")
        if not rest or section not in ProjectFile.model_fields:
            return section, "", ""
        known = _labels(section)
        name = next((part for part in reversed(rest) if self._has(section, part) or part in known), rest[-1])
        owners = [part for part in rest if part not in known and part != name]
        return section, name, ", ".join(owner.replace("_", " ") for owner in owners[-2:])

    def _has(self, section: str, name: str) -> bool:
        return self.words.has(f"inputs.input_{section}_{name}")

    def _named(self, section: str, name: str) -> Text:
        """An input without its owner: our own words, else the label of its quantity, else its name."""
        block = f"input_{section}_{name}" if name else f"input_{section}"
        if self.words.has(f"inputs.{block}"):
            return self.words(f"inputs.{block}")
        label = _labels(section).get(name, "") if section in ProjectFile.model_fields else ""
        if label:
            return own(self.words.told(label))
        return self.words("inputs.bare", name=(name or section).replace("_", " "))

    def _said(self, alike: _Alike) -> Markup:
        owners = list(dict.fromkeys(alike.owners))
        words, phrase = self.words, alike.phrase
        if not owners:
            whole = f"inputs.whole_{alike.section}_{alike.name}"
            return words(whole) if words.has(whole) else text(phrase)
        if len(owners) > FEW:
            whose = words(f"inputs.{self._kind('all', alike.section)}", count=len(owners))
        else:
            named = [self._owner(alike.section, owner) for owner in owners]
            before = text(*(piece for owner in named[:-1] for piece in (owner, ", "))).runs[:-1]
            both = words("numerals.list_of_two", first=Markup(before), last=named[-1]) if before else named[0]
            whose = words(f"inputs.{self._kind('few', alike.section)}", count=len(owners), owner=both)
        if str(phrase).partition(" ")[0] in str(words("inputs.question_words")).split():
            return words("inputs.asked", phrase=phrase, owner=whose)
        preposition = words(f"inputs.{self._kind('preposition', alike.section)}")
        return words("inputs.said", phrase=phrase, owner=whose, preposition=preposition)

    def _kind(self, block: str, section: str) -> str:
        """The words of a section where it has its own."""
        return f"{block}_{section if self.words.has(f'inputs.{block}_{section}') else 'other'}"

    def _owner(self, section: str, owner: str) -> Text:
        """A name, or of what is not aboard its kind."""
        of_a_kind = section == "components" and owner.replace(" ", "_") in Component.kinds
        return self.words("inputs.kind_of_part", owner=self.words.told(owner)) if of_a_kind else owner

    def _where(self, alike: _Alike, *, with_keys: bool) -> Text:
        """Key and line; of many keys what they have in common."""
        lines = self.lines(alike.keys)
        if not with_keys:
            return lines
        key = _same_parts(alike.keys)
        return text(key, own(", "), lines) if lines else key


def _same_parts(keys: Sequence[str]) -> str:
    """What keys of many owners share, a star in the place of the rest.

    >>> _same_parts(["components.B1.mass", "components.P1.mass"])
    'components.*.mass'
    """
    split = [key.split(".") for key in dict.fromkeys(keys)]
    first, shortest = split[0], min(len(parts) for parts in split)
    if len(split) == 1:
        return keys[0]
    head = next((n for n in range(shortest) if len({parts[n] for parts in split}) > 1), shortest)
    tail = next(
        (n for n in range(shortest - head) if len({parts[-1 - n] for parts in split}) > 1), shortest - head
    )
    return ".".join([*first[:head], GAP, *first[len(first) - tail :]])
