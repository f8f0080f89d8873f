"""Section 9: each package bears its cautions before the act, and work stops where somebody must look."""

import re

import pytest

from dossier.data.commissioning import work_packages
from dossier.data.procedures import cautions
from dossier.rendering.blocks import (
    DrawingSheet,
    Heading,
    HoldBar,
    PackageHead,
    Panel,
    SignalWord,
    Steps,
    StopRule,
    Table,
    Tick,
)
from dossier.rendering.layout.numbering import walk
from dossier.rendering.ranges import ranges
from dossier.rendering.sections import drawings, records, yard
from dossier.rendering.sections.yard_package import drawings_of

MM = 72 / 25.4
AUK_PIPES = (1600, 800, 3200, 3400, 4800, 5000, 9600, 9900, 4000, 4200, 2000)  # mm, from its project file


def package_of(blocks, number):
    """Blocks of one package, from its head to the next, each followed by those within it."""
    blocks = list(walk(blocks))
    heads = [n for n, block in enumerate(blocks) if isinstance(block, PackageHead)]
    first = next(n for n in heads if blocks[n].key == f"package {number}")
    return blocks[first : min((n for n in heads if n > first), default=len(blocks))]


def table(blocks, key):
    return next(block for block in blocks if isinstance(block, Table) and block.key == key)


def steps_of(blocks):
    return [str(item) for block in blocks if isinstance(block, Steps) for item in block.items]


def place(blocks, wanted):
    """Where in a package something stands first."""
    return next(n for n, block in enumerate(blocks) if wanted(block))


def acts(words):
    return lambda block: isinstance(block, Steps) and any(words in str(item) for item in block.items)


@pytest.fixture(scope="module")
def auk(draft):
    return draft("lantern_auk", "yard")


@pytest.fixture(scope="module")
def auk_blocks(auk):
    return list(yard.section(auk))


def test_every_package_of_what_is_aboard_has_sheets_of_its_own(auk_blocks):
    heads = [block.key for block in auk_blocks if isinstance(block, PackageHead)]
    assert heads == [f"package {n}" for n in (1, 2, 3, 4, 5, 6, 7, 9, 10, 11, 12)]  # no engine exchanger


def test_every_caution_of_a_package_stands_on_it_before_the_act_it_is_about(auk_blocks):
    for package in work_packages():
        if package.number == 8:
            continue
        blocks = package_of(auk_blocks, package.number)
        printed = [str(block.hazard) for block in blocks if isinstance(block, Panel)]
        for name in package.cautions:
            caution = cautions()[name]
            if caution.needs not in {"sealed_ring", "membrane_vessel"}:
                assert printed.count(caution.hazard) == 1, (package.number, name)
        for n, block in enumerate(blocks):
            if isinstance(block, Panel) and block.embedded:
                assert isinstance(blocks[n + 1], Steps | Panel)


def test_the_gas_that_kills_comes_first_wherever_somebody_could_breathe_it(auk_blocks):
    for number in (3, 10, 11):
        panel = next(block for block in package_of(auk_blocks, number) if isinstance(block, Panel))
        assert panel.word is SignalWord.DANGER


def test_no_hole_is_cut_before_hold_1_and_nothing_is_lagged_before_hold_2(auk_blocks):
    blocks = package_of(auk_blocks, 3)
    first = place(blocks, lambda b: isinstance(b, HoldBar) and b.key == "hold 1")
    second = place(blocks, lambda b: isinstance(b, HoldBar) and b.key == "hold 2")
    assert first < place(blocks, acts("Cut the holes")) < second < place(blocks, acts("Lag the pipe"))


def test_the_burner_is_not_fired_before_the_ring_is_filled_and_signed(auk_blocks):
    blocks = package_of(auk_blocks, 11)
    filled = place(blocks, lambda b: isinstance(b, HoldBar) and b.key == "hold 6")
    assert place(blocks, acts("Test 6")) < filled < place(blocks, acts("fire for the first time"))


def test_a_hold_point_is_signed_on_one_sheet_only(auk_blocks):
    keys = [block.key for block in auk_blocks if isinstance(block, HoldBar)]
    assert sorted(keys) == [f"hold {n}" for n in range(1, 9)]


def test_a_signature_in_the_file_stands_on_the_bar(draft):
    bars = [block for block in yard.section(draft("northern_quill", "yard")) if isinstance(block, HoldBar)]
    assert all("Signed, no name given." in str(bar.seen) and not bar.signatures for bar in bars)


def test_steps_count_through_and_fill_in_what_is_known(auk_blocks):
    for package in work_packages():
        if package.number != 8:
            numbers = [
                block.start + n
                for block in package_of(auk_blocks, package.number)
                if isinstance(block, Steps)
                for n in range(len(block.items))
            ]
            assert numbers == list(range(1, len(numbers) + 1))
    # 46 °C stands in the project file
    assert any("46\u00a0°C" in step for step in steps_of(package_of(auk_blocks, 7)))


def test_what_nobody_knows_is_a_line_to_write_on(draft):
    blocks = package_of(yard.section(draft("puddle_wren", "yard")), 2)
    assert any("opening of ____" in step for step in steps_of(blocks))


def test_the_cut_list_cuts_what_the_file_lists(auk_blocks):
    cuts = table(package_of(auk_blocks, 5), "table_cuts")
    lengths = [int(str(row[2]).replace(",", "")) for row in cuts.rows]
    assert sorted(lengths) == sorted(AUK_PIPES)
    assert all(isinstance(row[-1], Tick) for row in cuts.rows)


def test_the_cable_of_the_schedule_is_never_thinner_in_gauge(auk_blocks):
    # SAE J1127/J1128, from memory: 10 AWG is sold down to 4.73 mm², so 6 mm² asks for 8 AWG; 2.5 mm²: 12 AWG
    rows = table(package_of(auk_blocks, 9), "table_cables").rows
    assert [(str(row[2]), str(row[4])) for row in rows] == [("6.0", "8"), ("2.5", "12")]


def test_a_plan_that_misses_a_danger_says_do_not_build_it(draft):
    blocks = package_of(yard.section(draft("barley_moth_a", "yard")), 3)
    first = place(blocks, lambda block: isinstance(block, StopRule))
    assert "Do not build it so" in str(blocks[first].text)
    assert first < place(blocks, lambda block: isinstance(block, Panel))
    mended = package_of(yard.section(draft("barley_moth_b", "yard")), 3)
    assert not any("Do not build" in str(b.text) for b in mended if isinstance(b, StopRule))


def test_a_package_names_no_drawing_that_the_document_lacks(auk):
    drawn = {str(b.kind).split(",")[0] for b in drawings.section(auk) if isinstance(b, DrawingSheet)}
    named = {f"Drawing {n}" for package in work_packages() for n in drawings_of(auk, package)}
    assert named
    assert named <= drawn


def test_the_survey_edition_has_hold_points_only(draft):
    blocks = list(yard.section(draft("lantern_auk", "survey")))
    assert [b.key for b in blocks if isinstance(b, Table)] == ["table_holds"]
    assert not any(isinstance(b, PackageHead) for b in blocks)
    assert [b.number for b in blocks if isinstance(b, Heading)] == ["9"]


def test_numbers_of_checks_are_drawn_together():
    assert ranges([9, 1, 2, 3, 5, 6]) == "1–3, 5, 6, 9"
    assert ranges([]) == ""


HOSTILE = """
format: 1
document: {date: 2026-01-02}
vessel: {name: Hostile}
yard: {W3: {by: "%(name)s", scope: "%(name)s", excludes: ["%(name)s"]}, W4: {by: "%(name)s"}}
components:
  B1: {kind: burner, where: "%(name)s", output: {max: 5 kW, min: 5 kW}, exhaust_outlet: 30 mm}
exhaust:
  bore: 30 mm
  route: [[2 m, -1 m, 0.3 m], [2 m, -1 m, 1 m], [1.6 m, -1.6 m, 0.8 m]]
  passes: [{bulkhead: "%(name)s", hole: 120 mm, material: plywood, thickness: 18 mm, closing: "%(name)s"}]
  drains: [{led_to: "%(name)s"}]
  hull_fitting: {kind: double wall, material: "%(name)s"}
electrics:
  system: 12 V
  circuits: [{name: "%(name)s", feeds: [B1], length: 3 m, section: 4 mm2, fuse: 20 A, cut_out: "%(name)s"}]
safety:
  stop: {at: "%(name)s"}
commissioning:
  date: 2026-01-02
  exhaust_leak: {cold: "%(name)s"}
  heights: {loading: "%(name)s"}
  signed: {H1: {by: ["%(name)s"], date: 2026-01-02}}
records: {service: [{date: 2026-01-02, by: "%(name)s", what: "%(name)s"}]}
"""


@pytest.mark.parametrize("name", ["<b>bold</b> & {{ 7319*7 }} &amp;", "unbroken" * 10, "a_b/c.d-e 北京"])
def test_what_users_write_is_printed_as_written_and_stays_on_the_sheet(project_of, draft_of, pages_of, name):
    draft = draft_of(project_of(HOSTILE % {"name": name}), "yard", only=["yard", "records"])
    pages = pages_of(draft, yard.section, records.section)
    text = "".join("".join(page.text.split()) for page in pages)
    if name.isascii():
        assert "".join(name.split()) in re.sub("\ufffe", "", text)
    assert "53560" + "441" not in text
    for page in pages:
        for word in page.words:
            assert 4 * MM < word.left < word.right < page.width - 4 * MM, word.text
