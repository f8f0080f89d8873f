"""How high does each part of the ring lie over the waterline?

A unit counts at half its height, a pipe along its route. Where neither is known, the height goes on from the
neighbour; a ring of which nothing is known is level.
"""

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING, Annotated, Any

from dossier.notation import ARITHMETIC, Real, formula, q
from dossier.physics.network_topology import Groups
from dossier.sizing.circuit import Circuit

if TYPE_CHECKING:
    from dossier.project import Project


@formula("z_s = z + a·h", ARITHMETIC)
def level_in_tank(
    bottom: Annotated[Real, q("z", "m", "bottom of the tank", low=-50, high=100)],
    share: Annotated[Real, q("a", "1", "share of its height", low=0, high=1)],
    depth: Annotated[Real, q("h", "m", "height of the tank", low=0, high=10)],
) -> Annotated[Real, q("z_s", "m", "height over the waterline")]:
    """Height over the waterline of a level in a box."""
    return bottom + share * depth


def places_of(project: "Project") -> Mapping[str, Any]:
    """Places of the layout by tag; none where there is no layout."""
    layout: Any = project.layout
    return (layout.places or {}) if layout else {}


def heights_of(project: "Project", circuit: Circuit) -> dict[str, Real]:
    """Heights of all parts of the ring that the layout or a route gives (m over the waterline).

    A pipe counts where its route begins.
    """
    places = places_of(project)
    found: dict[str, Real] = {}
    for tag, part in circuit.places.items():
        place = places.get(tag)
        if place is not None and place.at is not None:
            found[tag] = level_in_tank(place.at.z, 0.5, place.size.high if place.size is not None else 0.0)
        elif part.pipe is not None and part.pipe.route:
            found[tag] = part.pipe.route[0].z
    return found


def rises_of(project: "Project", circuit: Circuit, flat: Collection[str]) -> dict[str, float]:
    """Rise of every part from its inlet to its outlet (m); round every loop they add up to nothing.

    Each node lies at the mean of what the parts beside it say, or as high as the nearest node that is known.
    Parts named in ``flat`` have no rise: what they are told of their height counts for both their ends.
    """
    heights = heights_of(project, circuit)
    if not heights:
        return {}
    groups = Groups(circuit.nodes)
    for tag in flat:
        groups.join(circuit.places[tag].start, circuit.places[tag].end)
    told: list[list[float]] = [[] for _ in range(circuit.nodes)]
    for tag, place in circuit.places.items():
        if tag not in heights:
            continue
        last = place.pipe.route[-1].z if place.pipe is not None and place.pipe.route else heights[tag]
        told[groups.of(place.start)].append(float(heights[tag]))
        told[groups.of(place.end)].append(float(last))
    level = [sum(each) / len(each) if each else None for each in told]
    beside: list[list[int]] = [[] for _ in level]
    for place in circuit.places.values():
        start, end = groups.of(place.start), groups.of(place.end)
        beside[start].append(end)
        beside[end].append(start)
    reached = [node for node, z in enumerate(level) if z is not None]
    for node in reached:
        for other in beside[node]:
            if level[other] is None:
                level[other] = level[node]
                reached.append(other)
    return {
        tag: (level[groups.of(place.end)] or 0.0) - (level[groups.of(place.start)] or 0.0)
        for tag, place in circuit.places.items()
    }
