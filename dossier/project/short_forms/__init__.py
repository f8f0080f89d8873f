"""Short forms, for people with a tape measure: each is written out to the long form before it is read.

So a short form is read, traced and refused as the long form is, and what it was written out to can be shown.
Read in this order: ``making`` (nodes made from nodes), then a module for each short form.
"""

from dossier.notation import Fault
from dossier.project.nodes import List, Map, Pair
from dossier.project.short_forms.build_ups import expanded_build_ups
from dossier.project.short_forms.parts import expanded_components
from dossier.project.short_forms.rings import expanded_circuit
from dossier.project.short_forms.rooms import expanded_zone

__all__ = ["written_out"]


def written_out(root: Map) -> tuple[Map, list[Fault]]:
    """The project with all short forms written out, and what is wrong with them; the root is not changed."""
    faults: list[Fault] = []
    pairs = dict(root.pairs)
    zones, build_ups = root.get("zones"), root.get("build_ups")
    components, circuit = root.get("components"), root.get("circuit")
    if isinstance(zones, List):
        items = [expanded_zone(zone, faults) if isinstance(zone, Map) else zone for zone in zones.items]
        pairs["zones"] = Pair(pairs["zones"].spot, List(items, zones.spot, zones.layer))
    if isinstance(build_ups, Map):
        pairs["build_ups"] = Pair(pairs["build_ups"].spot, expanded_build_ups(build_ups, faults))
    if isinstance(components, Map):
        pairs["components"] = Pair(pairs["components"].spot, expanded_components(components, faults))
    if isinstance(circuit, Map):
        pairs["circuit"] = Pair(pairs["circuit"].spot, expanded_circuit(circuit, faults))
    return Map(pairs, root.spot, root.layer), faults
