"""What spares are carried aboard? The list of the trade, with the sizes and ratings of this boat."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from dossier.data.procedures import Spare, spares
from dossier.data.wording import filled, wanted
from dossier.notation.records import dataclass
from dossier.project.model.entry import Answer
from dossier.sizing.needs_aboard import needs_met
from dossier.sizing.part_rows import written
from dossier.sizing.parts import Parts
from dossier.sizing.runs import HOSE

if TYPE_CHECKING:
    from dossier.project import Project

OF_EACH_SIZE, OF_EACH_RATING = " of each size", " of each rating"
BORE = "bore of the exhaust"
OUTLET = "bore of the outlet"


@dataclass(frozen=True)
class SpareAboard:
    """A spare of this boat: item, how many, of which size, for what, and what the advice rests on."""

    item: str
    number: str
    size: str
    fits: str
    basis: str
    source: str


def spares_aboard(project: "Project", found: Parts) -> tuple[SpareAboard, ...]:
    """Spares for what is aboard; hose, clamps and joiners by the sizes in use, fuses by their ratings."""
    met = needs_met(project)
    filling = _filling(project)
    return tuple(
        SpareAboard(row.item, number, filled(size, filling), filled(row.fits, filling), row.basis, row.source)
        for row in spares()
        if wanted(row.needs, met)
        for number, size in _each(project, found, row)
    )


def _each(project: "Project", found: Parts, row: Spare) -> Iterator[tuple[str, str]]:
    """Number and size of a spare, once for each size or rating in use."""
    if OF_EACH_SIZE in row.number:
        number = row.number.replace(OF_EACH_SIZE, "")
        for size in sorted({cut.size for cut in found.cuts if cut.material == HOSE}):
            yield number, size
    elif OF_EACH_RATING in row.number:
        number = row.number.replace(OF_EACH_RATING, "")
        ratings = {part.size for part in found.rows if part.item == "fuse"}
        for rating in sorted(ratings):
            yield number, rating
    else:
        yield row.number, _bore(project, row.size)


def _bore(project: "Project", size: str) -> str:
    """A size with the bore of this boat's exhaust or outlet in its place."""
    exhaust = project.exhaust
    if exhaust is None or size not in {BORE, OUTLET}:
        return size
    fitting: Any = exhaust.hull_fitting
    outlet = fitting.bore if fitting and not isinstance(fitting, Answer) else None
    held = outlet if size == OUTLET and outlet is not None else exhaust.bore
    return size if held is None else f"bore {written(held)}"


def _filling(project: "Project") -> dict[str, str]:
    """Words of this boat for the places in the list; what is not known stays out."""
    components = project.components or {}
    found = {"pump": ", ".join(tag for tag, part in components.items() if part.kind == "pump")}
    mix = project.circuit.coolant if project.circuit else None
    if mix is not None and mix.share is not None:
        found["coolant_share"] = " ".join(word for word in (written(mix.share), mix.base) if word)
    alarms: Any = project.safety.co_alarms if project.safety else None
    found["alarm_places"] = ", ".join(alarm.at or "" for alarm in alarms or ())
    return {name: words for name, words in found.items() if words}
