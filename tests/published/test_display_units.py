"""Units on the page against NIST Special Publication 811 (2008), appendix B.8; figures from memory.

Each figure is typed with the digits of the publication and holds to half of its last digit.
"""

import pytest

from dossier.data.tables import rows
from dossier.project.units import unit
from dossier.rendering.numbers import Numbers, System, display

FACTORS = {  # kind: SI value of one printed imperial unit
    "power": 2.930711e-1,  # British thermal unit(IT) per hour
    "flow": 6.309020e-5,  # gallon (US) per minute
    "air_flow": 4.719474e-4,  # cubic foot per minute
    "pressure": 6.894757e3,  # pound-force per square inch
    "head": 2.989067e3,  # foot of water, conventional
    "length": 3.048e-1,  # foot
    "length_check": 2.54e-2,  # inch
    "area": 9.290304e-2,  # square foot
    "volume": 3.785412e-3,  # gallon (US)
    "volume_room": 2.831685e-2,  # cubic foot
    "mass": 4.535924e-1,  # pound
    "density": 1.601846e1,  # pound per cubic foot
    "condensate": 3.051517e-1,  # ounce per square foot
    "speed": 3.048e-1,  # foot per second
    "wind": 5.144444e-1,  # knot
    "specific_heat": 4.1868e3,  # British thermal unit(IT) per pound degree Fahrenheit
    "heat_capacity": 1.899101e3,  # British thermal unit(IT) per degree Fahrenheit
    "conductivity": 1.730735,  # British thermal unit(IT) foot per hour square foot degree Fahrenheit
    "resistance": 1.761102e-1,  # degree Fahrenheit hour square foot per British thermal unit(IT)
    "transmittance": 5.678263,  # British thermal unit(IT) per hour square foot degree Fahrenheit
    "heating_value": 2.326e3,  # British thermal unit(IT) per pound
    "temperature_difference": 5.555556e-1,  # degree Fahrenheit interval
}


@pytest.mark.parametrize(("kind", "factor"), FACTORS.items())
def test_a_printed_imperial_unit_is_as_large_as_published(kind, factor):
    assert float(display(kind, System.IMPERIAL).scale) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(("fahrenheit", "kelvin"), [(32, 273.15), (212, 373.15), (-40, 233.15)])
def test_degrees_fahrenheit_are_counted_from_where_they_should(fahrenheit, kelvin):
    assert float(display("temperature", System.IMPERIAL).figure(kelvin)) == pytest.approx(
        fahrenheit, abs=1e-9
    )


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_every_kind_is_printed_in_a_unit_of_its_own_dimension(system):
    for row in rows("display_units"):
        if row[system] and row["si"] != "1":
            assert unit(row[system]).dimension == unit(row["si"]).dimension, row["kind"]


def test_water_at_20_degrees_is_printed_as_one_millipascal_second():
    """IAPWS 2008, viscosity of water at 20 °C: 1.0016 mPa·s."""
    assert Numbers().said(1.0016e-3, "viscosity") == "1.00\u00a0mPa·s"
