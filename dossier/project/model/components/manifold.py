"""Fittings the coolant passes: manifold, air separator, strainer."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.components.component import HydraulicUnit
from dossier.project.model.components.valve import KV
from dossier.project.model.entry import COUNT, Likely


class Manifold(HydraulicUnit):
    """A manifold: branches leave from it or come together in it."""

    example: ClassVar[str] = "{kind: manifold, outlets: 5}"

    kind: Literal["manifold"] = "manifold"
    outlets: Annotated[
        float | None,
        q("", "1", "outlets", low=1, high=100),
        COUNT,
        Likely(2, 24),
        Field(description="Number of its outlets"),
    ] = None


class AirSeparator(HydraulicUnit):
    """A separator that takes fine bubbles out of the stream."""

    example: ClassVar[str] = "{kind: air_separator, kv: 6 m3/h}"

    kind: Literal["air_separator"] = "air_separator"
    kv: KV = None


class Strainer(HydraulicUnit):
    """A strainer."""

    example: ClassVar[str] = "{kind: strainer, kv: 5 m3/h}"

    kind: Literal["strainer"] = "strainer"
    kv: KV = None
