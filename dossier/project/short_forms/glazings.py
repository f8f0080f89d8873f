"""Glazing in words: ``single 8 mm``, ``double acrylic 6 mm``."""

import re

from dossier.project.nodes import Map, Text
from dossier.project.short_forms.making import mapping

_GLAZING = re.compile(
    r"(?P<panes>single|double|triple)(?P<material>(?:\s+[A-Za-z_]+)*?)(?:\s+(?P<thickness>[0-9.½¼¾].*))?",
    re.IGNORECASE,
)


def glazing_of(node: Text) -> Map | None:
    """Mapping of a glazing in words, None where it is none."""
    found = _GLAZING.fullmatch(" ".join(node.text.split()))
    if not found:
        return None
    material = found["material"].strip().replace(" ", "_") or None
    return mapping(node, panes=found["panes"].lower(), material=material, thickness=found["thickness"])
