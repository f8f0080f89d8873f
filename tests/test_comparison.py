"""Three planted changes of the smallest boat are explained by hand, each alone and together.

Φ = (ΣU·A + ρc·n·V)·Δθ with U 1.8 W/m²K on 26 m², 5.8 W/m²K on 2.4 m², ρc 1224 J/m³K (EN 12831, from memory)
and one change of the 16 m³ an hour (assumed), 24 K: an identity, so the shares are exact.
"""

from pathlib import Path

import pytest

from dossier import assess, load
from dossier.comparison import OTHERWISE, _results, compare, counted_otherwise
from dossier.notation import OutOfRange

AREA, OUTSIDE, VOLUME = "zones.cabin.sections.Shell.area", "conditions.outside_air", "zones.cabin.volume"
AIR = 1224.0 / 3600.0
PLANTED = (("area: 26 m2", "area: 30 m2"), ("-6 degC", "-9 degC"), ("volume: 16 m3", "volume: 20 m3"))


@pytest.fixture(scope="module")
def boats(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wren")
    text = (Path(__file__).parents[1] / "projects" / "puddle_wren" / "puddle_wren.yaml").read_text("utf-8")

    def boat(*changes):
        new = text
        for old, changed in changes:
            assert old in new
            new = new.replace(old, changed, 1)
        file = folder / "wren.yaml"
        file.write_text(new, encoding="utf-8")
        return assess(load(file))

    return boat


@pytest.fixture(scope="module")
def planted(boats):
    return compare(boats(), boats(*PLANTED))


def test_all_three_changes_are_named_and_nothing_else(planted):
    assert [(each.key, each.is_figure) for each in planted.inputs] == [
        (OUTSIDE, True),
        (VOLUME, True),
        (AREA, True),
    ]


def test_each_share_is_what_the_change_moves_alone(planted):
    shares = {share.change: share.move for share in planted.why("heat_loss.total").shares}
    assert shares == pytest.approx(
        {
            AREA: 1.8 * 4.0 * 24.0,
            OUTSIDE: (1.8 * 26.0 + 5.8 * 2.4 + AIR * 16.0) * 3.0,
            VOLUME: AIR * 4.0 * 24.0,
        }
    )


def test_what_the_changes_do_together_is_named_as_residual(planted):
    why = planted.why("heat_loss.total")
    assert why.residual == pytest.approx((1.8 * 4.0 + AIR * 4.0) * 3.0)
    assert why.total == pytest.approx(1.8 * 4 * 27 + (46.8 + 13.92 + AIR * 16) * 3 + AIR * 4 * 27)
    assert sum(share.move for share in why.shares) + why.residual == pytest.approx(why.total)


def test_nothing_moves_a_result_that_did_not_move(planted):
    with pytest.raises(KeyError):
        planted.why("exhaust.length")


def test_the_same_boat_written_otherwise_is_the_same(boats):
    found = compare(boats(), boats(("volume: 16 m3", "volume: 16000 l")))
    assert (found.inputs, found.results, found.findings) == ((), (), ())


def test_words_and_new_parts_are_tried_as_one(boats):
    new_part = ("  B1: {kind: burner", "  P1: {kind: pump, mass: 2 kg}\n  B1: {kind: burner, mass: 9 kg")
    found = compare(boats(), boats(new_part, ("faces: air}      # 4, 5", "faces: sea}      # 4, 5")))
    assert {each.key for each in found.inputs if not each.is_figure} >= {
        "components.P1",
        "zones.cabin.sections.Shell.faces",
    }
    assert set(found.trials) == {OTHERWISE}


def test_a_better_basis_is_a_change_though_nothing_moves(boats):
    found = compare(boats(), boats(("volume: 16 m3", "volume: {is: 16 m3, basis: measured}")))
    (changed,) = found.inputs
    assert (changed.key, changed.is_value, str(changed.after.basis)) == (VOLUME, False, "measured")
    assert {each.name for each in found.results} <= {"uncertainty.share_assumed", "document.share_assumed"}


def test_a_check_that_turns_is_named(boats):
    found = compare(boats(), boats(("max: 5 kW", "max: 1 kW")))
    turned = {each.after.check: (str(each.before.status), str(each.after.status)) for each in found.findings}
    assert turned["heat.source_reserve"] == ("met", "not met")


def test_a_change_that_cannot_be_calculated_alone_says_so(boats):
    found = compare(boats(), boats(("volume: 16 m3", "volume: 17 m3")))
    first = found.before.project
    numbers = {VOLUME: type(first.numbers()[VOLUME])(-1.0, first.numbers()[VOLUME].origin)}
    assert isinstance(_results(found.before, numbers), OutOfRange)


def test_results_counted_otherwise_by_another_version_are_named(boats):
    assessment = boats()
    plain = {name: {"value": float(f"{result.value:.7g}")} for name, result in assessment.results.items()}
    assert counted_otherwise(assessment, {"results": plain}) == ()
    plain["heat_loss.total"]["value"] *= 1.001
    assert counted_otherwise(assessment, {"results": plain}) == ("heat_loss.total",)
    assert counted_otherwise(assessment, {"results": ["nonsense"]}) == ()
