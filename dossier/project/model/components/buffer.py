"""The store that lengthens the burner's runs."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.entry import NUMBER, Likely


class Buffer(HydraulicUnit):
    """A vessel of coolant in the ring."""

    example: ClassVar[str] = "{kind: buffer, volume: 30 l, metal: 10 kg}"

    kind: Literal["buffer"] = "buffer"
    volume: Annotated[
        float | None,
        q("V", "m3", "volume", low=1e-4, high=20),
        Likely(0.003, 1.5),
        Field(description="Coolant it holds"),
    ] = None
    mixing: Annotated[
        float | None,
        q("", "1", "share that mixes", low=0, high=1),
        NUMBER,
        Likely(0.3, 1),
        Field(description="Share of it that takes part in a cycle, 0 to 1; 0.9 if left out"),
    ] = None
