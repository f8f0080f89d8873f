"""One class for each kind of component; ``Component.kinds`` finds them by the word under ``kind``."""

from dossier.project.model.components.buffer import Buffer
from dossier.project.model.components.burner import Burner, BurnerOutput
from dossier.project.model.components.component import Component, Consumer, HydraulicUnit
from dossier.project.model.components.engine import Engine, Generator
from dossier.project.model.components.fan_coil import FanCoil, FanCoilPoint
from dossier.project.model.components.floor_loop import FloorLoop
from dossier.project.model.components.header_tank import HeaderTank, HeaderVent, MembraneVessel
from dossier.project.model.components.manifold import AirSeparator, Manifold, Strainer
from dossier.project.model.components.placed import Battery, FuelFilter, FuelTank, Isolator
from dossier.project.model.components.pump import Pump
from dossier.project.model.components.radiator import Radiator, RadiatorPoint, TowelRail
from dossier.project.model.components.recovery_exchanger import RecoveryExchanger, RecoveryPoint
from dossier.project.model.components.tap_exchanger import ReliefValve, TapExchanger, TapPoint, WaterHeater
from dossier.project.model.components.valve import (
    BalancingValve,
    BypassValve,
    CheckValve,
    FuelShutOff,
    MotorValve,
    SafetyValve,
    ShutValve,
    ThermostaticValve,
    ThreeWayValve,
    Valve,
)

__all__ = [
    "AirSeparator",
    "BalancingValve",
    "Battery",
    "Buffer",
    "Burner",
    "BurnerOutput",
    "BypassValve",
    "CheckValve",
    "Component",
    "Consumer",
    "Engine",
    "FanCoil",
    "FanCoilPoint",
    "FloorLoop",
    "FuelFilter",
    "FuelShutOff",
    "FuelTank",
    "Generator",
    "HeaderTank",
    "HeaderVent",
    "HydraulicUnit",
    "Isolator",
    "Manifold",
    "MembraneVessel",
    "MotorValve",
    "Pump",
    "Radiator",
    "RadiatorPoint",
    "RecoveryExchanger",
    "RecoveryPoint",
    "ReliefValve",
    "SafetyValve",
    "ShutValve",
    "Strainer",
    "TapExchanger",
    "TapPoint",
    "ThermostaticValve",
    "ThreeWayValve",
    "TowelRail",
    "Valve",
    "WaterHeater",
]
