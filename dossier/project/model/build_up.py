"""What the shell is made of: materials, layers, frames."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import q
from dossier.project.model.entry import FROM_KEY, NUMBER, Entry, Likely, Needed, Objection, Refers

HeatFlow = Literal["up", "down", "horizontal"]


THICKEST_AIR = 0.3
"""Thickest layer of still air that the standard has a resistance for (m)."""


class Material(Entry):
    """A material beyond the library, with the paper its figures come from."""

    named_as: ClassVar[str] = "material"
    example: ClassVar[str] = "{conductivity: 0.045 W/m/K, density: 160 kg/m3, source: delivery note}"

    name: Annotated[str, FROM_KEY, Field(description="Name of the material")] = ""
    conductivity: Annotated[
        float,
        q("λ", "W/mK", "thermal conductivity", low=0.003, high=500),
        Likely(0.018, 250),
        Needed("the thermal resistance of its layers"),
        Field(description="Thermal conductivity"),
    ]
    density: Annotated[
        float | None,
        q("ρ", "kg/m3", "density", low=0.5, high=25000),
        Likely(8, 12000),
        Field(description="Density"),
    ] = None
    specific_heat: Annotated[
        float | None,
        q("c", "J/kgK", "specific heat", low=50, high=10000),
        Likely(300, 4500),
        Field(description="Specific heat"),
    ] = None
    vapour_factor: Annotated[
        float | None,
        q("μ", "1", "vapour resistance factor", low=1, high=1e7),
        NUMBER,
        Field(description="Vapour resistance factor against still air"),
    ] = None
    fibrous: Annotated[bool | None, Field(description="Takes up moisture on cold plating")] = None
    source: Annotated[str | None, Field(description="Where the figures come from")] = None


class Layer(Entry):
    """One layer, of a material or of still air."""

    example: ClassVar[str] = "{material: mineral_wool, thickness: 50 mm}"

    material: Annotated[
        str | None, Refers(("material",)), Field(description="Name of a material, own or of the library")
    ] = None
    thickness: Annotated[
        float | None,
        q("d", "m", "thickness", low=1e-5, high=2),
        Likely(2e-4, 0.3),
        Field(description="Thickness of the layer"),
    ] = None
    air: Annotated[
        float | None,
        q("d", "m", "thickness of the air layer", low=0, high=2),
        Likely(0.002, 0.3),
        Field(description="Thickness of a layer of still air, instead of material and thickness"),
    ] = None

    def objections(self) -> Iterator[Objection]:
        """A layer is of air or of a material, and the material has a thickness."""
        if self.air is None and self.material is None:
            yield Objection(
                "", "the layer has no material", f"write {self.example} or {{air: 20 mm}}", missing=True
            )
        elif self.air is None and self.thickness is None:
            yield Objection("", "the layer has no thickness", f"write {self.example}", missing=True)
        elif self.air is not None and (self.material is not None or self.thickness is not None):
            yield Objection("air", "the layer is both air and a material", "make two layers of it")
        elif self.air is not None and self.air > THICKEST_AIR:
            most = f"{1000 * THICKEST_AIR:.0f} mm"
            what = f"a layer of air is thicker than the {most} of ISO 6946:2007, table 2"
            yield Objection("air", what, "write the space as a zone of its own that floats, such as a bilge")


class Frames(Entry):
    """Frames or stringers through the insulation."""

    example: ClassVar[str] = "{material: steel, spacing: 500 mm, web: 5 mm, depth: 60 mm, flange: 40 mm}"

    material: Annotated[str | None, Refers(("material",)), Field(description="Material of the frames")] = None
    spacing: Annotated[
        float | None,
        q("s", "m", "spacing of the frames", low=0.02, high=10),
        Likely(0.15, 2),
        Field(description="Distance from frame to frame"),
    ] = None
    web: Annotated[
        float | None,
        q("t", "m", "thickness of the web", low=2e-4, high=0.5),
        Likely(0.002, 0.15),
        Field(description="Thickness of the web"),
    ] = None
    depth: Annotated[
        float | None,
        q("h", "m", "depth of the web", low=0.001, high=2),
        Likely(0.01, 0.4),
        Field(description="Depth of the web, from the plate to the flange"),
    ] = None
    flange: Annotated[
        float | None,
        q("b", "m", "width of the flange", low=0, high=2),
        Likely(0, 0.3),
        Field(description="Width of the flange"),
    ] = None
    flange_thickness: Annotated[
        float | None,
        q("t_f", "m", "thickness of the flange", low=2e-4, high=0.5),
        Likely(0.002, 0.15),
        Field(description="Thickness of the flange; as thick as the web if left out"),
    ] = None
    covered_by: Annotated[
        tuple[Layer, ...] | None, Field(description="Layers over the flange, from the flange inward")
    ] = None


class BuildUp(Entry):
    """Layers of a part of the shell, from outside to inside, with its frames."""

    named_as: ClassVar[str] = "build_up"
    example: ClassVar[str] = (
        "{layers: [{material: steel, thickness: 5 mm}, {material: mineral_wool, thickness: 50 mm}]}"
    )

    name: Annotated[str, FROM_KEY, Field(description="Name of the build-up")] = ""
    vapour_tight: Annotated[bool | None, Field(description="Whether the inner face is vapour-tight")] = None
    heat_flow: Annotated[
        HeatFlow | None, Field(description="Direction of the heat flow: up, down or horizontal (if left out)")
    ] = None
    layers: Annotated[
        tuple[Layer, ...] | None,
        Needed("the transmittance"),
        Field(description="Layers from outside to inside"),
    ] = None
    frames: Annotated[Frames | None, Field(description="Frames through the insulation")] = None
    like: Annotated[
        str | None,
        Refers(("build_up",)),
        Field(description="Short form: another build-up, of which only what is written here differs"),
    ] = None
    plate: Annotated[str | None, Field(description="Short form: material and thickness of the plate")] = None
    insulation: Annotated[
        str | None, Field(description="Short form: material and thickness of the insulation")
    ] = None
    lining: Annotated[str | None, Field(description="Short form: material and thickness of the lining")] = (
        None
    )

    def objections(self) -> Iterator[Objection]:
        """Nothing can be said of a build-up without layers; a short form that fails has its own faults."""
        if not (self.layers or self.like or self.plate or self.insulation or self.lining):
            yield Objection(
                "",
                "the build-up has no layers",
                f"write {self.example} (the transmittance needs it)",
                missing=True,
            )
