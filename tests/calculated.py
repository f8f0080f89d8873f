"""What is calculated for a project, each part when a test first asks for it.

The names are those of ``dossier.sizing.study.Study``, which calculates everything at once.
"""

from dataclasses import fields
from functools import cached_property

from dossier.notation import NotAssessed
from dossier.sizing.circuit import circuit
from dossier.sizing.cold_start import cold_start
from dossier.sizing.coolant import coolant_study
from dossier.sizing.expansion import expansion
from dossier.sizing.expansion_ways import expansion_ways
from dossier.sizing.header_margins import header_margins
from dossier.sizing.heat_loss import heat_loss
from dossier.sizing.heat_recovery import recovery_study
from dossier.sizing.held import held_rooms
from dossier.sizing.moisture import moisture_study
from dossier.sizing.pressures import pressures
from dossier.sizing.ring import ring_study
from dossier.sizing.route_points import route_points
from dossier.sizing.store import store_study
from dossier.sizing.study import Study
from dossier.sizing.tap_water import tap_water_study


class Calculated:
    """A project with what follows from it; ``parts`` stand in place of what would be calculated."""

    def __init__(self, project, **parts):
        self.project = project
        vars(self).update(parts)

    def but(self, **parts):
        """The same with some parts put in their place."""
        return Calculated(**{**vars(self), **parts})

    @cached_property
    def heat_loss(self):
        return heat_loss(self.project)

    @cached_property
    def circuit(self):
        return circuit(self.project)

    @cached_property
    def coolant(self):
        return coolant_study(self.project, self.circuit)

    @cached_property
    def ring(self):
        return ring_study(self.project, self.circuit, self.heat_loss, self.coolant)

    @property
    def operations(self):
        return {} if isinstance(self.ring, NotAssessed) else self.ring.operations

    @cached_property
    def pressures(self):
        return pressures(self.project, self.ring, self.coolant)

    @cached_property
    def expansion(self):
        return expansion(self.project, self.ring, self.coolant, self.pressures)

    @cached_property
    def expansion_ways(self):
        return expansion_ways(self.project, self.circuit)

    @cached_property
    def route_points(self):
        return route_points(self.circuit)

    @cached_property
    def header_margins(self):
        return header_margins(self.project)

    @cached_property
    def held(self):
        return held_rooms(self.heat_loss, self.ring)

    @cached_property
    def cold_start(self):
        return cold_start(self.project, self.coolant, self.ring)

    @cached_property
    def store(self):
        return store_study(self.project, self.ring, self.coolant, self.heat_loss)

    @cached_property
    def capacity(self):
        return None if isinstance(self.store, NotAssessed) else self.store.heat_capacity

    @cached_property
    def tap_water(self):
        return tap_water_study(self.project, self.ring, self.coolant, self.capacity)

    @cached_property
    def recovery(self):
        return recovery_study(self.project, self.ring, self.coolant, self.heat_loss)

    @cached_property
    def moisture(self):
        return moisture_study(self.project, self.heat_loss)


class Partly(Study):
    """A study of which some parts are made, each when it is first asked for; the others are left out.

    ``makers`` gives for a name of ``Study`` the function that makes it of this study.
    """

    def __init__(self, project, makers=None, **parts):
        vars(self).update(parts, project=project, _makers=makers or {})

    def __getattr__(self, name):
        if name in self._makers:
            vars(self)[name] = self._makers[name](self)
        elif name in NAMES:
            vars(self)[name] = NotAssessed("not asked here", ())
        else:
            raise AttributeError(name)
        return vars(self)[name]


NAMES = frozenset(field.name for field in fields(Study))
