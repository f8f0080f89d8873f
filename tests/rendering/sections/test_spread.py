"""Section 6.18 shows the percentiles as sampled, and bars for what moves the load."""

import re

import pytest

from dossier.data.check_numbers import number_of
from dossier.rendering.blocks import Answer, Figure, Note, SideNote, Table
from dossier.rendering.sections import data_quality, spread
from dossier.rendering.sections.measure_next import wanted

SAMPLED = """
format: 1
document: {date: 2026-01-02}
defaults: {basis: measured}
conditions: {outside_air: -10 degC}
zones:
  - {id: saloon, target: 20 degC, volume: 20 m3, air_changes: 1 1/h, people: 0, sections:
     [{name: Shell, u_value: {is: 2 W/m2K%s}, area: 30 m2, faces: air}]}
"""
ASSUMED = ", basis: assumed, spread: [1.6 W/m2K, 2.4 W/m2K]"


def one(blocks, walk, kind):
    return [block for block in walk(blocks) if isinstance(block, kind)]


def test_every_result_studied_has_a_row_in_rising_order(assessed, walk, blocks_of):
    boat = assessed("starter")
    (table,) = one(blocks_of(spread, boat), walk, Table)
    assert len(table.rows) == len(boat.study.uncertainty.spreads)
    for row in table.rows:
        low, middle, high = (float(str(cell).replace(",", "").replace("−", "-")) for cell in row[3:6])
        assert low <= middle <= high


def test_the_load_lies_between_its_percentiles_in_closed_form(project_of, walk, draft_of):
    """Triangle of U from 1.6 to 2.4 W/m²K at 30 m² and 30 K: P10 lies w·√(0.1/2) above the low end."""
    draft = draft_of(project_of(SAMPLED % ASSUMED))
    blocks = list(spread.section(draft))
    air, reach = 0.34 * 20 * 30, 720 * (0.1 / 2) ** 0.5
    low, high = 30 * 30 * 1.6 + air + reach, 30 * 30 * 2.4 + air - reach
    (answer,) = one(blocks, walk, Answer)
    said = [float(n.replace(",", "")) for n in re.findall(r"([\d,]+)\u00a0W", str(answer.strong))]
    assert said == pytest.approx([2004, low, high], abs=6)
    (figure,) = one(blocks, walk, Figure)
    (swing,) = figure.drawing.swings
    assert (swing.low, swing.high) == pytest.approx((1440 + air, 2160 + air))
    assert swing.name == "zones.saloon.sections.Shell.u_value"


def test_where_nothing_is_assumed_no_bar_is_drawn(project_of, walk, draft_of):
    blocks = list(spread.section(draft_of(project_of(SAMPLED % ", basis: measured"))))
    assert one(blocks, walk, Figure) == []
    (answer,) = one(blocks, walk, Answer)
    assert "no assumed figure moves it" in str(answer.strong)


def test_without_a_load_the_inputs_it_needs_are_named(project_of, walk, draft_of):
    blocks = list(spread.section(draft_of(project_of("format: 1\ndocument: {date: 2026-01-02}\n"))))
    (note,) = one(blocks, walk, Note)
    assert "zones" in str(note.text)


def test_a_convention_bears_its_figure_and_what_can_be_measured_its_key(assessed, walk, blocks_of):
    blocks = blocks_of(spread, assessed("starter"))
    load = one(blocks, walk, Figure)[0].drawing.swings
    assert load[0].name == "air per person, 4 l/s"
    assert "build_ups.hull.layers.2.thickness" in {swing.name for swing in load}
    (answer,) = one(blocks, walk, Answer)
    assert "convention" in str(answer.rest)


def test_two_checks_are_fed(assessed, walk, blocks_of):
    fed = str(one(blocks_of(spread, assessed("starter")), walk, SideNote)[0].text)
    numbers = sorted(number_of(check) for check in ("heat.load_spread", "document.assumed"))
    assert fed.startswith(f"Checks {numbers[0]}, {numbers[1]}.")


def test_what_to_measure_next_follows_the_index_of_influence(assessed, draft_of, walk, blocks_of):
    boat = assessed("puddle_wren")
    listed = [each for each in wanted(draft_of(boat))[0] if not each.findings]
    effects = [each.share for each in listed]
    assert effects == sorted(effects, reverse=True)
    first = boat.study.uncertainty.measure_next[0]
    assert (listed[0].key, listed[0].share) == (first.unknown.key, first.effect)
    assert listed[0].spread == "± 25\u00a0%, usual"  # of its kind: a transmittance
    (note,) = (
        b.notes for b in walk(blocks_of(data_quality, boat)) if getattr(b, "key", "") == "table_measure_next"
    )
    assert "usual one of its kind" in str(note)


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_the_pages_hold_what_is_drawn(assessed, draft_of, pages_of, paper):
    pages = pages_of(draft_of(assessed("puddle_wren"), paper=paper), spread.section)
    text = " ".join(page.text for page in pages)
    assert "P90" in text
    assert "zones.cabin.sections.Shell.u_value" in text
    assert len(pages) <= 2
