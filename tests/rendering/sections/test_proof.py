"""The proof fits three pages, each for the owner alone, and marks every guess."""

import pytest

from dossier.rendering.blocks import Answer, Table
from dossier.rendering.sections import proof

MM = 72 / 25.4
BOATS = ("lantern_auk", "northern_quill", "barley_moth_a", "puddle_wren", "starter")


def table(blocks, key):
    return next(b for b in blocks if isinstance(b, Table) and b.key == key)


@pytest.mark.parametrize("boat", BOATS)
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_two_or_three_pages_each_for_the_owner_alone(draft, pages_of, boat, paper):
    pages = pages_of(draft(boat, "proof", paper=paper), proof.section)
    assert 2 <= len(pages) <= 4 if paper == "letter" else 2 <= len(pages) <= 3
    assert all("for the owner alone" in page.text for page in pages)


def test_an_edition_for_the_owner_needs_no_title_page(draft):
    printed = draft("starter", "proof")
    assert [name for name in printed.extents if printed.has(name)] == ["proof"]


def test_the_circuit_stands_in_the_order_in_which_it_was_entered(draft):
    rows = table(proof.section(draft("starter", "proof")), "table_proof_circuit").rows
    first = [str(row[0]).strip("\u00a0 ") for row in rows]
    assert first[:4] == ["P1 pump", "B1 burner", "ring_1", "M1 manifold"]
    assert first.index("branch saloon") < first.index("saloon_1") < first.index("branch fore cabin")


def test_every_guess_is_named(draft):
    printed = draft("puddle_wren", "proof")
    guesses = table(proof.section(printed), "table_proof_guesses")
    named = " ".join([*(str(row[0]) for row in guesses.rows), str(guesses.notes)])
    assert all(line.key in named for line in printed.project.inputs())  # all of its numbers are guesses


def test_a_burner_far_above_the_load_asks_for_a_second_look(draft):
    blocks = list(proof.section(draft("puddle_wren", "proof")))
    burner = next(
        row for row in table(blocks, "table_proof_totals").rows if row[0] == "Full output of the burner"
    )
    assert "look again" in str(burner[-1])
    answer = next(b for b in blocks if isinstance(b, Answer))
    assert "1 total asks" in str(answer.rest)


HOSTILE = """
format: 1
document: {date: 2026-01-02, title: "%(name)s"}
vessel: {name: "%(name)s", length: 10 m, beam: 3 m}
zones:
  - {id: cabin, target: 20 degC, volume: 20 m3,
     sections: [{name: "%(name)s", u_value: 1 W/m2K, area: 2 m2, faces: air, basis: assumed}]}
components:
  B1: {kind: burner, where: "%(name)s", output: {max: 5 kW, min: 5 kW}}
"""


@pytest.mark.parametrize("name", ["<b>bold</b> & {{ 7319*7 }}", "unbroken" * 10, "a_b/c.d-e 北京"])
def test_names_stay_as_written_and_on_the_sheet(project_of, draft_of, pages_of, name):
    pages = pages_of(draft_of(project_of(HOSTILE % {"name": name}), "proof"), proof.section)
    if name.isascii():
        assert "".join(name.split()) in "".join("".join(page.text.split()) for page in pages)
    for page in pages:
        for word in page.words:
            assert 4 * MM < word.left < word.right < page.width - 4 * MM, word.text
