"""Follows every reference, and finds what the parts of a file say against each other."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain

from dossier.notation import Fault, slug
from dossier.project import known
from dossier.project.model.circuit import Circuit, Connection
from dossier.project.model.entry import Refers
from dossier.project.model.envelope import Beyond, Section, Zone
from dossier.project.nearest import listed, nearest
from dossier.project.nodes import shortened
from dossier.project.record import MOST_FAULTS, REFERENCE, Given, Record, Reference

SPOKEN = {
    "build_up": "build-up",
    "pipe_size": "size of pipe",
    "unit": "unit of the circuit",
    "check": "check",
    "component": "component",
}
SAME_AREA = 0.05
MOST_WALLS = 50
MOST_SUGGESTED = 50


@dataclass
class Names:
    """All names of a file and of the tables, by what they name."""

    given: dict[str, dict[str, Given]] = field(default_factory=dict)
    materials: frozenset[str] = frozenset()
    unsure: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, records: Iterable[Record]) -> "Names":
        """Names the sections of a file give."""
        names = cls()
        for record in records:
            names.unsure |= record.unsure
            for of, given in record.names.items():
                names.given.setdefault(of, {}).update(given)
        names.materials = known.materials() | names.given.get("material", {}).keys()
        return names

    def listed(self, of: str) -> Mapping[str, object] | frozenset[str]:
        """Known names of one kind."""
        if of == "material":
            return self.materials
        if of == "pipe_size":
            return known.pipe_sizes()
        if of == "check":
            return known.checks()
        return self.given.get(of, {})


def _looks_like_tag(name: str) -> bool:
    return 1 < len(name) <= 6 and name[0].isupper() and name[-1].isdigit() and name.isalnum()  # noqa: PLR2004 - V20


def _an(word: str) -> str:
    return f"an {word}" if word[:1] in "aeiou" else f"a {word}"


def _spoken(refers: Refers) -> str:
    return " or ".join(SPOKEN.get(of, of.replace("_", " ")) for of in refers.to)


def _follow(reference: Reference, names: Names, *, suggest: bool) -> tuple[str, str] | None:
    """What is wrong with a reference, and what would be right (looking for it takes time)."""
    refers, name = reference.refers, reference.name
    if name in refers.words or (refers.tags_only and not _looks_like_tag(name)):
        return None
    lists = [names.listed(of) for of in refers.to]
    for of, found in zip(refers.to, lists, strict=True):
        if name in found:
            given = names.given.get(of, {}).get(name)
            kind = given.kind if given else ""
            if of != "component" or not refers.kinds or not kind or kind in refers.kinds:
                return None
            asked = " or ".join(word.replace("_", " ") for word in refers.kinds[:3])
            return (
                f"{reference.label}: {shortened(name)} is {_an(kind.replace('_', ' '))}, not {_an(asked)}",
                _right_kind(names, refers),
            )
    if names.unsure.intersection(refers.to):
        return None
    if "unit" in refers.to and name in names.given.get("component", {}):
        what = f"{reference.label}: {shortened(name)} stands nowhere in the circuit"
        there = listed(chain(*lists))
        instead = "list it in the ring or a branch"
        return what, f"{instead}, or name what is there: {there}" if there else instead
    near = nearest(name, chain(refers.words, *lists)) if suggest else ""
    every = list(chain(refers.words, *lists))
    instead = (
        f"write {near}"
        if near
        else f"known: {listed(sorted(every, key=lambda other: other[:1] != name[:1]))}"
        if every
        else "there is none in the file: add it"
    )
    return f"{reference.label}: no {_spoken(refers)} is called '{shortened(name)}'", instead


def _right_kind(names: Names, refers: Refers) -> str:
    fitting = [tag for tag, given in names.given.get("component", {}).items() if given.kind in refers.kinds]
    return f"write {listed(fitting)}" if fitting else f"add a component of kind {refers.kinds[0]}"


def reference_faults(records: Iterable[Record], names: Names) -> Iterator[Fault]:
    """Faults of all references that lead nowhere."""
    told = 0
    for reference in chain.from_iterable(record.references for record in records):
        wrong = _follow(reference, names, suggest=told < MOST_SUGGESTED) if told < MOST_FAULTS else None
        if wrong:
            told += 1
            spot = reference.spot
            yield Fault(wrong[0], wrong[1], spot.file, spot.line, spot.column, REFERENCE)


def _at(record: Record, key: str, what: str, instead: str) -> Fault:
    """A fault at the line of a key."""
    line = record.lines.get(key)
    if line is None:
        return Fault(what, instead, rank=REFERENCE)
    return Fault(what, instead, line.file, line.line or 0, line.column or 0, REFERENCE)


def _wall(section: Section) -> str:
    return section.faces.zone or "" if isinstance(section.faces, Beyond) else ""


def wall_faults(zones: Iterable[Zone], record: Record) -> Iterator[Fault]:
    """Walls that face their own zone."""
    for zone in zones:
        for section in zone.sections or ():
            if zone.id and _wall(section) == zone.id:
                what = f"section {shortened(section.name or '')} of {shortened(zone.id)} faces its own zone"
                yield _at(record, f"{section.key}.faces.zone", what, "name the zone beyond it")


def wall_doubts(zones: Iterable[Zone], record: Record) -> Iterator[Fault]:
    """Inner walls that seem to be entered from both sides."""
    seen: dict[tuple[str, str], list[Section]] = {}
    for zone in zones:
        for section in zone.sections or ():
            beyond, area = _wall(section), section.area
            if not beyond or not area:
                continue
            others = seen.get((beyond, zone.id), [])[:MOST_WALLS]
            twin = next((other for other in others if abs(area - other.area) <= SAME_AREA * other.area), None)
            if twin:
                what = (
                    f"the wall between {shortened(zone.id)} and {shortened(beyond)} seems to be entered "
                    f"twice, as {shortened(section.name)} and as {shortened(twin.name)}"
                )
                yield _at(record, section.key, what, "enter an inner wall once, in either zone")
            seen.setdefault((zone.id, beyond), []).append(section)


def circuit_faults(circuit: Circuit, record: Record, names: Names) -> Iterator[Fault]:
    """Names of pipes that are tags; a header that is none."""
    tags = {slug(tag): tag for tag in names.given.get("component", {})}
    for pipe, given in names.given.get("pipe", {}).items():
        if slug(pipe) in tags:
            spot = given.spot
            what = f"pipe '{shortened(pipe)}' and component '{tags[slug(pipe)]}' become one in the results"
            yield Fault(what, "give the pipe another id", spot.file, spot.line, spot.column, REFERENCE)
    header = circuit.header
    if isinstance(header, Connection) and header.unit:
        kinds = names.given.get("component", {}).get(header.unit)
        if kinds and kinds.kind == "membrane_vessel":
            what = "header: a membrane vessel is no header tank"
            yield _at(record, "circuit.header.unit", what, "write expansion: {unit: …}")
