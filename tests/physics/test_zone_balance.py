"""Unsolvable zones are named, samples are solved at once, a found temperature tells its working."""

import numpy as np
import pytest

from dossier.notation import DossierError, Line, Traced, lines_behind, origin_of
from dossier.physics.zones import Path, zone_balance


def test_a_floating_zone_without_a_path_is_named():
    with pytest.raises(DossierError, match="forepeak cannot be found"):
        zone_balance({"saloon": 293.15, "forepeak": None}, [Path("saloon", 263.15, 30.0)])


def test_floating_zones_that_touch_only_each_other_are_named():
    with pytest.raises(DossierError, match="forepeak, locker cannot be found"):
        zone_balance({"forepeak": None, "locker": None}, [Path("forepeak", "locker", 3.0)])


def test_a_path_that_conducts_nothing_is_none():
    with pytest.raises(DossierError, match="forepeak"):
        zone_balance({"forepeak": None}, [Path("forepeak", 263.15, 0.0)])


@pytest.mark.parametrize(
    ("paths", "gains", "message"),
    [
        ([Path("saloon", "galley", 1.0)], {}, "zone galley, which is not"),
        ([Path("galley", 263.15, 1.0)], {}, "zone galley, which is not"),
        ([Path("saloon", "saloon", 1.0)], {}, "saloon to itself"),
        ([Path("saloon", 263.15, -1.0)], {}, "negative conductance"),
        ([Path("saloon", 263.15, 1.0)], {"galley": 10.0}, "put into the zone galley"),
    ],
)
def test_paths_that_make_no_sense_are_refused(paths, gains, message):
    with pytest.raises(DossierError, match=message):
        zone_balance({"saloon": 293.15}, paths, gains)


def test_a_path_may_be_written_by_either_zone():
    here = [Path("saloon", "engine_room", 6.0), Path("engine_room", 275.15, 90.0)]
    there = [Path("engine_room", "saloon", 6.0), Path("engine_room", 275.15, 90.0)]
    zones = {"saloon": 293.15, "engine_room": None}
    first, second = zone_balance(zones, here), zone_balance(zones, there)
    assert first.temperatures["engine_room"] == pytest.approx(second.temperatures["engine_room"])
    assert first.loads["saloon"] == pytest.approx(second.loads["saloon"])


def test_a_warm_neighbour_lends_heat():
    balance = zone_balance(
        {"saloon": 293.15, "engine_room": None},
        [Path("saloon", 263.15, 50.0), Path("saloon", "engine_room", 6.0), Path("engine_room", 275.15, 20.0)],
        {"engine_room": 3000.0},
    )
    assert balance.temperatures["engine_room"] > 293.15
    assert balance.neighbours["saloon"] < 0
    assert balance.loads["saloon"] < balance.outward["saloon"]


def test_heat_put_into_a_held_zone_lowers_its_load():
    paths = [Path("saloon", 263.15, 50.0)]
    assert zone_balance({"saloon": 293.15}, paths).loads["saloon"] == pytest.approx(1500.0)
    assert zone_balance({"saloon": 293.15}, paths, {"saloon": 400.0}).loads["saloon"] == pytest.approx(1100.0)


def test_samples_are_solved_as_if_one_by_one():
    rng = np.random.default_rng(7)
    conductances, outside = rng.uniform(1, 50, (4, 200)), rng.uniform(250, 280, 200)
    zones = {"a": 293.15, "b": None, "c": None}

    def paths(h, air):
        return [Path("a", air, h[0]), Path("a", "b", h[1]), Path("b", "c", h[2]), Path("c", air, h[3])]

    at_once = zone_balance(zones, paths(conductances, outside), {"b": 120.0})
    assert at_once.residual < 1e-9
    for k in (0, 57, 199):
        one = zone_balance(zones, paths(conductances[:, k], float(outside[k])), {"b": 120.0})
        assert at_once.temperatures["c"][k] == pytest.approx(one.temperatures["c"])
        assert at_once.loads["a"][k] == pytest.approx(one.loads["a"])


def test_a_found_temperature_leads_back_to_what_was_written():
    outside = Traced(263.15, Line("conditions.outside_air", "-10 degC"))
    balance = zone_balance(
        {"saloon": 293.15, "forepeak": None},
        [Path("saloon", "forepeak", 3.0), Path("forepeak", outside, 40.0)],
    )
    assert origin_of(balance.temperatures["forepeak"]) is not None
    assert [line.key for line in lines_behind(balance.loads["saloon"])] == ["conditions.outside_air"]


def test_without_floating_zones_nothing_is_left_over():
    balance = zone_balance({"saloon": 293.15}, [Path("saloon", 263.15, 50.0)])
    assert balance.residual == 0
    assert balance.outward["saloon"] == pytest.approx(1500.0)
    assert balance.neighbours["saloon"] == 0
