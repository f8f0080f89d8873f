"""Words for crew and yard are filled with figures of the boat; what is not known is a line to write on."""

import pytest

from dossier.data.wording import BLANK, filled, placeholders
from dossier.rendering.draft import Draft
from dossier.rendering.filling import Filling
from dossier.rendering.numbers import Numbers
from dossier.rendering.words import Words
from tests.demonstrations import assessed


@pytest.fixture(scope="module")
def quill():
    return Filling(Draft(assessed("northern_quill"), Words("en"), Numbers(), "full"))


@pytest.fixture(scope="module")
def wren():
    return Filling(Draft(assessed("puddle_wren"), Words("en"), Numbers(), "full"))


def test_every_placeholder_has_a_text_or_none(quill, wren):
    for filling in (quill, wren):
        assert set(filling) == set(placeholders())
        assert all(isinstance(filling[name], str) for name in filling)


def test_figures_of_the_file_are_printed_with_their_unit(quill):
    # 98 °C, 70 s and 0.8 bar stand in the file; 98 °C is 208 °F and 0.8 bar 11.6 psi by definition
    assert quill["overheat_setting"] == "98\u00a0°C (208\u00a0°F)"
    assert quill["start_time"] == "70\u00a0s"
    assert quill["precharge"] == "0.80\u00a0bar (11.6\u00a0psi)"


def test_a_result_fills_its_place(quill):
    result = quill.draft.assessment.results["coolant.volume"]
    assert quill.number("system_volume") == result.value
    assert quill["system_volume"].startswith(quill.draft.said(result.value, "volume"))


def test_the_voltage_of_the_burner_is_that_of_its_own_circuit(quill):
    results = quill.draft.assessment.results
    assert quill.number("start_voltage") == results["electrics.circuit.burner.voltage_start"].value


def test_a_tag_is_printed_with_its_place(quill):
    assert quill["pump"] == "P1 (engine room)"


def test_without_a_makers_figure_the_fallback_of_the_catalogue_counts(quill):
    # 22 V at the burner of a 24 V system: catalogue, common practice, no source
    assert quill.number("lowest_voltage") == 22.0


def test_the_angle_at_which_to_stop_is_never_rounded_up(quill):
    found = quill.number("stop_angle") * 180 / 3.141592653589793
    assert quill["stop_angle"] == f"{int(found)}°"
    assert found % 1 > 0


def test_the_side_of_the_outlet_is_named_where_heel_is_told(quill):
    """The file has y positive to port; the outlet of the barge ends at +2.32 m."""
    assert quill["outlet_side"] == "port"


def test_the_circuit_is_tested_at_a_factor_over_its_final_pressure(quill):
    # EN 14336 (factor 1.3 from memory): 1.3 × 2.5 bar of the vessel
    assert float(quill.number("test_pressure")) == pytest.approx(3.25e5)


def test_what_is_not_known_becomes_a_line(wren):
    assert filled("Shut {fuel_shut_off}.", wren) == f"Shut {BLANK}."
    assert wren.number("test_pressure") is None
