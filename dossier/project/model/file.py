"""The whole project file."""

from collections.abc import Mapping
from typing import Annotated

from pydantic import Field

from dossier.notation import q
from dossier.project.model.build_up import BuildUp, Material
from dossier.project.model.circuit import Circuit
from dossier.project.model.commissioning import Commissioning, Records
from dossier.project.model.components import Component
from dossier.project.model.conditions import Conditions
from dossier.project.model.document import Defaults, Document
from dossier.project.model.electrics import Electrics
from dossier.project.model.entry import COUNT, TABLE, Entry, No
from dossier.project.model.envelope import Zone
from dossier.project.model.exhaust import CombustionAir, Exhaust
from dossier.project.model.fuel import Fuel
from dossier.project.model.layout import Clearances, Layout, Marking
from dossier.project.model.modes import Mode
from dossier.project.model.papers import (
    CHECK,
    Alternative,
    Controls,
    Deviation,
    Inspection,
    Limit,
    Package,
    Picture,
    WorkPackage,
)
from dossier.project.model.safety import Safety
from dossier.project.model.tap_water import TapWater
from dossier.project.model.vessel import Vessel


class ProjectFile(Entry):
    """Everything a project file may say, by its top-level keys."""

    format: Annotated[
        float,
        q("", "1", "format of the file", low=1, high=1),
        COUNT,
        Field(description="Format of the file: 1"),
    ]
    include: Annotated[
        tuple[str, ...] | None, Field(description="Files whose materials and components are added")
    ] = None
    document: Annotated[Document | None, Field(description="Identification of the document")] = None
    defaults: Annotated[Defaults | None, Field(description="What holds for the whole file")] = None
    vessel: Annotated[Vessel | None, Field(description="The boat")] = None
    conditions: Annotated[Conditions | None, Field(description="Design conditions")] = None
    materials: Annotated[
        Mapping[str, Material] | None, Field(description="Materials beyond the library, by name")
    ] = None
    build_ups: Annotated[
        Mapping[str, BuildUp] | None, Field(description="Build-ups of the shell, by name")
    ] = None
    zones: Annotated[
        tuple[Zone, ...] | None, TABLE, Field(description="Cabins and compartments; a list or a CSV file")
    ] = None
    components: Annotated[
        Mapping[str, Component] | None, TABLE, Field(description="Parts by tag; a mapping or a CSV file")
    ] = None
    circuit: Annotated[Circuit | None, Field(description="The heating circuit")] = None
    modes: Annotated[
        Mapping[str, Mode] | None, Field(description="Modes of use; heating is the design mode")
    ] = None
    tap_water: Annotated[TapWater | No | None, Field(description="Hot tap water, or none")] = None
    recovery: Annotated[
        No | None, Field(description="none where no heat is taken from an engine and no circuit is written")
    ] = None
    exhaust: Annotated[Exhaust | None, Field(description="The exhaust")] = None
    combustion_air: Annotated[CombustionAir | None, Field(description="The burner's air")] = None
    fuel: Annotated[Fuel | None, Field(description="Tank, line, shut-offs")] = None
    electrics: Annotated[Electrics | None, Field(description="Battery, cables, fuses")] = None
    layout: Annotated[Layout | None, Field(description="Where things are")] = None
    marks: Annotated[
        Mapping[str, Marking] | None, Field(description="Marks aboard that places are given from")
    ] = None
    clearances: Annotated[Clearances | None, Field(description="Distances of hot parts")] = None
    safety: Annotated[Safety | None, Field(description="Alarms, stop, extinguishers, signs")] = None
    limits: Annotated[
        Mapping[Annotated[str, CHECK], Limit] | None,
        Field(description="Other limits than the catalogue's, by check"),
    ] = None
    alternatives: Annotated[
        Mapping[str, Alternative] | None, Field(description="Named overlays, computed side by side")
    ] = None
    deviations: Annotated[tuple[Deviation, ...] | None, Field(description="Accepted deviations")] = None
    pictures: Annotated[tuple[Picture, ...] | None, Field(description="Photographs")] = None
    commissioning: Annotated[Commissioning | None, Field(description="Results of the tests")] = None
    records: Annotated[Records | None, Field(description="Readings after hand-over")] = None
    inspection: Annotated[Inspection | None, Field(description="How the boat was looked at")] = None
    controls: Annotated[Controls | None, Field(description="How it is started and stopped")] = None
    yard: Annotated[Mapping[Package, WorkPackage] | None, Field(description="Work packages W1 to W12")] = None
