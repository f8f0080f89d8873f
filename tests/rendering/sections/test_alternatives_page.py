"""Section 6.19 sets the alternatives side by side, as they were calculated, and says which misses least."""

import pytest

from dossier.alternatives import alternatives
from dossier.rendering.blocks import Answer, Note, Table
from dossier.rendering.sections import alternatives as page

WARM = """
format: 1
document: {number: T-1, revision: A, date: 2026-11-20}
conditions: {outside_air: -10 degC}
zones:
  - {id: cabin, target: 20 degC, volume: 20 m3, air_changes: 1 1/h, people: 0,
     sections: [{name: Deck, u_value: 2 W/m2K, area: 40 m2, faces: air}]}
components:
  B1: {kind: burner, output: {max: 5 kW, min: 5 kW}, efficiency: 80 %}
  T2: {kind: header_tank, volume: 5 l}
alternatives:
  insulated:
    note: foam under the deck
    zones:
      - {id: cabin, target: 20 degC, volume: 20 m3, air_changes: 1 1/h, people: 0,
         sections: [{name: Deck, u_value: 0.8 W/m2K, area: 40 m2, faces: air}]}
  larger: {components: {B1: {output: {max: 9 kW, min: 9 kW}}, T2: none, T3: {kind: header_tank, volume: 8 l}}}
"""


@pytest.fixture(scope="module")
def warm(draft_of, tmp_path_factory):
    from dossier.assessment import assess
    from dossier.project import load

    file = tmp_path_factory.mktemp("warm") / "boat.yaml"
    file.write_text(WARM, encoding="utf-8")
    return draft_of(assess(load(file)))


@pytest.fixture(scope="module")
def blocks(warm):
    return list(page.section(warm))


def rows(blocks, key):
    (table,) = (block for block in blocks if isinstance(block, Table) and block.key == key)
    return [[str(cell) for cell in row] for row in table.rows]


def test_load_and_reserve_by_hand(blocks):
    """U·A·30 K and 20 m³/h of air at 0.34 Wh/m³K: 2,604 W as it stands, 1,164 W insulated."""
    stands, insulated, larger = rows(blocks, "table_alternatives")
    assert [row[1] for row in (stands, insulated, larger)] == ["2,600", "1,160", "2,600"]
    assert [float(row[2]) for row in (stands, insulated, larger)] == pytest.approx(
        [5000 / 2604, 5000 / 1164, 9000 / 2604], abs=0.01
    )


def test_parts_added_changed_and_left_out_are_named(blocks):
    stands, insulated, larger = (row[-1] for row in rows(blocks, "table_alternatives"))
    assert (stands, insulated) == ("—", "—")
    assert "T3 header tank 8" in larger
    assert "without T2" in larger
    assert "B1 burner 9" in larger


def test_each_is_told_in_its_authors_words(blocks):
    assert [row[:2] for row in rows(blocks, "table_alternative_checks")] == [
        ["insulated", "foam under the deck"],
        ["larger", "—"],
    ]


def test_the_answer_is_the_recommendation(warm, blocks):
    (answer,) = (block for block in blocks if isinstance(block, Answer))
    recommended = alternatives(warm.assessment).recommended
    assert (recommended or "None of 2 alternatives") in str(answer.strong)


def test_a_project_without_alternatives_says_so(draft):
    (note,) = (block for block in page.section(draft("puddle_wren")) if isinstance(block, Note))
    assert "alternatives" in str(note.text)
