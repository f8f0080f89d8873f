"""The boat."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import COUNT, Entry, Likely, No

Hull = Literal["steel", "aluminium", "wood", "grp", "concrete"]
Angle = Annotated[float, q("φ", "rad", "angle", low=0, high=1.5533), Likely(0, 0.7854)]


class Vessel(Entry):
    """The boat: what she is, how large, how far she heels."""

    example: ClassVar[str] = "{name: Marsh Heron, kind: steel ex-pilot cutter, hull: steel, length: 13.6 m}"

    name: Annotated[str | None, Field(description="Name of the boat")] = None
    kind: Annotated[str | None, Field(description="Kind of boat, in words")] = None
    built: Annotated[
        float | None, q("", "1", "year built", low=1700, high=2200), COUNT, Field(description="Year built")
    ] = None
    registration: Annotated[str | No | None, Field(description="Registration, or none")] = None
    hull: Annotated[Hull | None, Field(description="Material of the hull")] = None
    length: Annotated[
        float | None,
        q("L", "m", "length of the boat", low=0.001, high=500),
        Likely(4, 60),
        Field(description="Length over all"),
    ] = None
    beam: Annotated[
        float | None,
        q("B", "m", "beam", low=0.001, high=100),
        Likely(1.2, 12),
        Field(description="Largest beam"),
    ] = None
    draught: Annotated[
        float | None,
        q("T", "m", "draught", low=0.001, high=30),
        Likely(0.2, 5),
        Field(description="Draught, loaded"),
    ] = None
    heel_angles: Annotated[
        tuple[Angle, ...] | No | None,
        Field(description="Angles of heel to check at; none with a note saying why she cannot list"),
    ] = None
    trim_angles: Annotated[
        tuple[Angle, ...] | No | None, Field(description="Angles of trim to check at, or none")
    ] = None
    goes_to_sea: Annotated[bool | None, Field(description="Whether she meets waves")] = None
    moment_per_degree: Annotated[
        float | None,
        q("M_φ", "N*m", "moment to list one degree", low=1, high=1e8),
        Likely(50, 1e6),
        Field(description="Moment that lists the boat by one degree"),
    ] = None
    moment_per_cm_trim: Annotated[
        float | None,
        q("M_t", "N*m", "moment to trim one centimetre", low=1, high=1e8),
        Likely(50, 1e6),
        Field(description="Moment that trims the boat by one centimetre over her length"),
    ] = None
