"""A project as read: the model of its file, where everything stands in it, and its alternatives."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import PrivateAttr

from dossier.notation import Fault, Line, Traced
from dossier.project.model.circuit import Group, Item, Pipe, Unit
from dossier.project.model.components import Component
from dossier.project.model.entry import Entry
from dossier.project.model.envelope import Zone
from dossier.project.model.file import ProjectFile
from dossier.project.nearest import listed, nearest
from dossier.project.source_file import LARGEST_PICTURE, Folder, SourceFile, refusal


def _replaced(held: Any, numbers: Mapping[str, Any]) -> Any:
    """A value with other numbers in it; the same object where none is in it."""
    if isinstance(held, Traced):
        return numbers.get(held.origin.key, held) if isinstance(held.origin, Line) else held
    if isinstance(held, Entry):
        old = {name: getattr(held, name) for name in type(held).model_fields}
        new = {name: made for name, held in old.items() if (made := _replaced(held, numbers)) is not held}
        return held.model_copy(update=new) if new else held
    if isinstance(held, dict):
        inner = {name: _replaced(held, numbers) for name, held in held.items()}
        return inner if any(inner[name] is not held[name] for name in held) else held
    if isinstance(held, tuple):
        parts = [_replaced(held, numbers) for held in held]
        if all(part is held for part, held in zip(parts, held, strict=True)):
            return held
        return type(held)(*parts) if hasattr(held, "_fields") else tuple(parts)
    return held


def _numbers(held: Any) -> Iterator[Traced]:
    """All traced numbers under a value."""
    if isinstance(held, Traced):
        yield held
    elif isinstance(held, Entry):
        for name in type(held).model_fields:
            yield from _numbers(getattr(held, name))
    elif isinstance(held, dict):
        for inner in held.values():
            yield from _numbers(inner)
    elif isinstance(held, tuple):
        for inner in held:
            yield from _numbers(inner)


C = TypeVar("C", bound=Component)


class Project(ProjectFile):
    """A project file that has been read and checked against itself; its top-level keys are attributes.

    Frozen, and can be pickled. Numbers are SI floats traced to their line.
    """

    _folder: Path = PrivateAttr(default_factory=Path)
    _files: tuple[SourceFile, ...] = PrivateAttr(())
    _warnings: tuple[Fault, ...] = PrivateAttr(())
    _lines: dict[str, Line] = PrivateAttr(default_factory=dict)
    _inputs: tuple[Line, ...] = PrivateAttr(())
    _alternatives: dict[str, "Project"] = PrivateAttr(default_factory=dict)

    @property
    def folder(self) -> Path:
        """Folder of the project file, in which its pictures lie."""
        return self._folder

    @property
    def files(self) -> tuple[SourceFile, ...]:
        """Files the project was read from, in the order of reading; the project file is the first."""
        return self._files

    def content(self, file: SourceFile) -> bytes:
        """Bytes of one of the files; a picture is read again from the folder.

        Raises ProjectFaults if a picture is gone or is no longer the one that was read.
        """
        if file.content is not None:
            return file.content
        folder = Folder(self._folder, [])
        again = folder.read(file.name, LARGEST_PICTURE)
        if again.sha256 != file.sha256 or again.content is None:
            raise refusal(file.name, "the picture changed while the dossier was made", "build again")
        return again.content

    @property
    def warnings(self) -> tuple[Fault, ...]:
        """What is odd but possible, in the order of the file."""
        return self._warnings

    def inputs(self) -> Iterator[Line]:
        """Lines of all numbers read, in the order of reading."""
        return iter(self._inputs)

    def where(self, key: str) -> Line:
        """Line of a key, or of the nearest mapping round it that the file has.

        ``components.burner.flow_min`` names a kind: it leads to the component of that kind which lacks the
        key, or to the first.
        """
        if key in self._lines:
            return self._lines[key]
        asked = self._by_kind(key)
        while asked:
            if asked in self._lines:
                return self._lines[asked]
            asked = asked.rpartition(".")[0]
        return Line("", "", file=self._files[0].name if self._files else "", line=1)

    def _by_kind(self, key: str) -> str:
        """Key with a tag for a kind of component."""
        head, _, rest = key.partition(".")
        kind, _, tail = rest.partition(".")
        if head != "components" or kind not in Component.kinds:
            return key
        tags = [tag for tag, component in (self.components or {}).items() if component.kind == kind]
        lacking = [tag for tag in tags if f"components.{tag}.{tail}" not in self._lines]
        chosen = lacking or tags
        return f"components.{chosen[0]}.{tail}" if chosen else "components"

    def under(self, key: str) -> Iterator[Line]:
        """Lines of a key and of all keys below it, in the order of reading, short forms written out."""
        return (
            line
            for known, line in self._lines.items()
            if not key or known == key or known.startswith(f"{key}.")
        )

    def written_keys(self) -> Iterator[str]:
        """Paths of all keys that were read, in the order of reading."""
        return iter(self._lines)

    def numbers(self) -> Mapping[str, Traced]:
        """All numbers that were read, by their key; SI."""
        return {number.origin.key: number for number in _numbers(self) if isinstance(number.origin, Line)}

    def with_numbers(self, numbers: Mapping[str, Any]) -> "Project":
        """The project with other numbers (or arrays of samples) under some keys; its lines stay."""
        changed = _replaced(self, numbers)
        return changed if isinstance(changed, Project) else self

    def alternative(self, name: str) -> "Project":
        """The project with a named overlay; raises KeyError with the nearest name."""
        try:
            return self._alternatives[name]
        except KeyError:
            near = nearest(name, self._alternatives)
            hint = f"did you mean {near!r}?" if near else f"known: {listed(self._alternatives) or 'none'}"
            raise KeyError(f"no alternative is called {name!r}; {hint}") from None

    def of_kind(self, cls: type[C]) -> tuple[C, ...]:
        """Components of a class, in the order of the file."""
        return tuple(part for part in (self.components or {}).values() if isinstance(part, cls))

    def zone(self, name: str) -> Zone | None:
        """Zone of a name."""
        return next((zone for zone in self.zones or () if zone.id == name), None)

    def branches(self) -> Mapping[str, tuple[Item, ...]]:
        """All branches of the circuit by name, outer before inner."""
        found: dict[str, tuple[Item, ...]] = {}

        def gather(items: tuple[Item, ...]) -> None:
            for item in items:
                if isinstance(item, Group):
                    for name, branch in item.branches.items():
                        found[name] = branch
                        gather(branch)

        gather((self.circuit.ring or ()) if self.circuit else ())
        return found

    def pipes(self) -> Iterator[Pipe]:
        """All pipes of the circuit: ring, branches, links."""
        if self.circuit:
            for items in ((self.circuit.ring or ()), *self.branches().values()):
                yield from (item for item in items if isinstance(item, Pipe))
            yield from (link.pipe for link in self.circuit.links or ())

    def units(self) -> Iterator[str]:
        """Tags of all units in the circuit, ends of groups included, in flow order."""

        def gather(items: tuple[Item, ...]) -> Iterator[str]:
            for item in items:
                if isinstance(item, Unit):
                    yield item.unit
                elif isinstance(item, Group):
                    yield item.between[0]
                    for branch in item.branches.values():
                        yield from gather(branch)
                    yield item.between[1]

        return gather((self.circuit.ring or ()) if self.circuit else ())
