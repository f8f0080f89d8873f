"""Parts list and cut list as text for a terminal. Knows no paper."""

from collections.abc import Iterator

from dossier.notation import NotAssessed
from dossier.rendering.plain_table import aligned
from dossier.sizing.parts import Parts
from dossier.sizing.parts_csv import CUTS_HEAD, PARTS_HEAD, cut_cells, part_cells

SHOWN = ("tag", "item", "size", "to buy", "unit", "remark")
CUT = ("run", "branch", "size", "length [m]", "bends", "from", "joint at from", "to", "joint at to")
NOTHING = "no run is drawn, so there is nothing to cut"


def parts_text(found: Parts) -> str:
    """The parts list, group after group; lengths with their waste, as they are bought."""
    places = [PARTS_HEAD.index(name) for name in SHOWN]
    lines = []
    for group in found.groups:
        rows = [[part_cells(row)[place] for place in places] for row in found.in_group(group)]
        lines += [group, *(f"  {line}" for line in aligned(rows, frozenset({3}))), ""]
    return "\n".join([*lines, *_lacking(found.lacking)]).rstrip() + "\n"


def cut_list_text(found: Parts) -> str:
    """The cut list, one line for each run."""
    places = [CUTS_HEAD.index(name) for name in CUT]
    rows = [[cut_cells(cut)[place] for place in places] for cut in found.cuts]
    lines = list(aligned([CUT, *rows], frozenset({3, 4}))) if rows else [NOTHING]
    return "\n".join([*lines, *_lacking(found.lacking)]).rstrip() + "\n"


def _lacking(lacking: tuple[NotAssessed, ...]) -> Iterator[str]:
    """What could not be counted, and the keys it waits for."""
    needs = dict.fromkeys(key for one in lacking for key in one.needs)
    if needs:
        yield f"not counted for want of: {', '.join(needs)}"
