"""The reference of every key of the project file, written from the model so that it cannot drift.

``python -m dossier.project.reference > docs/reference.md`` writes it anew; a test says when that is due.
"""

import sys
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from dossier.notation import Basis
from dossier.project.describe import example_of, range_of, unit_of
from dossier.project.fields import (
    Items,
    Key,
    Kind,
    Many,
    Named,
    Num,
    One,
    Pair,
    Plain,
    Plan,
    Row,
    Words,
    keys_of,
)
from dossier.project.model.circuit import Group, Pipe, Unit
from dossier.project.model.components import Component
from dossier.project.model.conditions import Weather
from dossier.project.model.entry import Entry, Mark
from dossier.project.model.file import ProjectFile
from dossier.project.model.values import Date

HEAD = """\
# Every key of the project file

Made from the program's own model by `python -m dossier.project.reference`; do not edit it by hand.
`dossier schema` gives the same to an editor.

Units are always written, in any unit of the kind: `2.4 m`, `7 ft 10 in`, `-10 degC`, `19 l/min`. A rated pair
is `8 kPa at 25 l/min`; an area or a volume may be worked out of measures, `3.2 m x 1.4 m - 0.4 m2`. Any value
may bear its basis: `{is: 2.4 m, basis: measured, note: "tape", spread: 5 %}`; the basis is `measured`,
`plate`, `drawing` or `assumed`, and `basis:` may stand in any mapping for all its values. What is left out is
*not assessed*; where `none` is offered it is an answer. *Needed* keys must be there once their entry is.
"""
ROWS = "| key | what it is | how it is written |\n|---|---|---|"


def reference() -> str:
    """The whole reference as Markdown; the same for the same version of the program."""
    return "\n\n".join([HEAD.rstrip(), *_Chapters().all()]) + "\n"


class _Chapters:
    """A chapter for each class of entries, named after the place it is first met."""

    def __init__(self) -> None:
        self.places: dict[type[Entry], str] = {}
        self.waiting: list[type[Entry]] = []

    def all(self) -> Iterator[str]:
        """The top level first, then each class as it was met."""
        yield self.chapter("Top level", ProjectFile, keys_of(ProjectFile))
        while self.waiting:
            cls, *later = self.waiting
            self.waiting = []
            place = self.places[cls]
            if cls is Component:
                yield from self._components(place)
            else:
                yield self.chapter(f"`{place}`", cls, keys_of(cls), place)
            self.waiting += later

    def _components(self, place: str) -> Iterator[str]:
        """What all components share, then the keys each kind has beyond."""
        shared = keys_of(Component)
        yield self.chapter(f"`{place}`: all kinds", Component, shared, place)
        for kind, cls in sorted(Component.kinds.items()):
            own = {name: key for name, key in keys_of(cls).items() if name not in shared}
            yield self.chapter(f"`{place}`: kind `{kind}`", cls, own, place)

    def chapter(self, title: str, cls: type[Entry], keys: Mapping[str, Key], place: str = "") -> str:
        """One table: key, what it is, how it is written."""
        said = " ".join((cls.__doc__ or "").split("\n\n")[0].split())
        example = f"\n\n    {cls.example}" if cls.example else ""
        if not keys:
            return f"## {title}\n\n{said}{example}\n\nIt has no keys of its own."
        rows = [self._row(cls, name, key, place) for name, key in keys.items()]
        return f"## {title}\n\n{said}{example}\n\n{ROWS}\n" + "\n".join(rows)

    def _row(self, cls: type[Entry], name: str, key: Key, place: str) -> str:
        said = cls.model_fields[key.attribute].description or ""
        needed = f". *Needed by {key.needed_by}.*" if key.needed_by else ". *Needed.*" if key.required else ""
        inner = f"{place}.{name}" if place else name
        ways = self._ways(key.plan, inner)
        return f"| `{name}` | {_cell(said)}{needed} | {_cell(ways)} |"

    def _ways(self, plan: Plan, place: str, *, table: bool = True) -> str:
        """How a value is written; what may stand there besides."""
        ways = [self._way(kind, plan, place) for kind in plan.kinds]
        if table and Mark.TABLE in plan.marks:
            ways.append("a table: `{from: file.csv}`")
        if plan.answers_none:
            ways.append("`none`")
        return "; or ".join(dict.fromkeys(filter(None, ways)))

    def _way(self, kind: Kind, plan: Plan, place: str) -> str:
        tellers: Mapping[type, Callable[[Any], str]] = {
            Num: _figure,
            Pair: lambda pair: f"a rated pair, as `{example_of(pair.rated)} at {example_of(pair.at)}`",
            Words: lambda words: ", ".join(f"`{choice}`" for choice in words.choices),
            One: lambda one: self._entry(one.cls, place),
            Many: lambda many: "a list: " + self._ways(many.item, f"{place}[]", table=False),
            Named: lambda named: "by name: " + self._ways(named.held, f"{place}.NAME", table=False),
            Row: lambda row: f"[{', '.join(name for name, _ in row.fields)}], {_figure(row.fields[0][1])}",
            Items: lambda _: self._items(place),
            Plain: lambda plain: _plain(plain, plan),
        }
        return tellers[type(kind)](kind)

    def _items(self, place: str) -> str:
        """Items of the circuit, long and short."""
        long = ", ".join(
            self._entry(cls, f"{place}[]: {cls.__name__.lower()}") for cls in (Unit, Pipe, Group)
        )
        return f"a list in flow order: {long}; or short: `P1`, `hose 22, 1.6 m, 2 bends`, `M1 to M2`"

    def _entry(self, cls: type[Entry], place: str) -> str:
        if cls not in self.places:
            self.places[cls] = place
            self.waiting.append(cls)
        return f"keys of `{self.places[cls]}`"


def _figure(num: Num) -> str:
    example = f", as `{example_of(num)}`" if example_of(num) else ""
    bounds = f", {range_of(num)}" if range_of(num) else ""
    return f"{unit_of(num)}{bounds}{example}"


def _plain(kind: Plain, plan: Plan) -> str:
    named = plan.refers.to if plan.refers else ()
    words = {
        bool: "`true` or `false`",
        Date: "a day or a month, as `2026-11-20` or `2033-06`",
        Basis: ", ".join(f"`{basis}`" for basis in Basis),
    }
    if kind.type is Weather:
        return "`{from: weather.epw}`"
    if Mark.FILE in plan.marks:
        return "a file in the project's folder"
    if named:
        also = "".join(f", or `{word}`" for word in (plan.refers.words if plan.refers else ()))
        return "the name of a " + " or ".join(name.replace("_", " ") for name in named) + also
    return words.get(kind.type, "a text")


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


if __name__ == "__main__":
    sys.stdout.write(reference())
