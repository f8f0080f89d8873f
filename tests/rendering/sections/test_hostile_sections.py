"""What users write goes through every section as they wrote it: nothing runs, is lost or overflows."""

import pytest

from dossier.rendering.sections import data_quality, findings, overview, survey, title

LONG = "unbroken" * 10
"""As long as a name may be."""
HOSTILE = "<b>bold</b> & <img src='x'> {{ 7319*7 }} &amp;"
PROJECT = """
format: 1
document: {title: "%(name)s", number: "%(name)s", revision: "%(name)s", date: 2026-01-02,
  prepared_by: "%(name)s", approved_by: "%(name)s", local_rules: ["%(name)s"],
  revisions: [{mark: "%(name)s", date: 2026-01-02, by: "%(name)s", what: "%(name)s"}]}
vessel: {name: "%(name)s", kind: "%(name)s", hull: steel, length: 10 m, heel_angles: [10 deg]}
components:
  B1: {kind: burner, where: "%(name)s", output: {max: 5 kW, min: 5 kW}, exhaust_outlet: 30 mm}
exhaust:
  bore: 30 mm
  lagging: {thickness: 20 mm, conductivity: 0.06 W/m/K, extent: whole}
  route: [[2 m, -1 m, 0.3 m], [2 m, -1 m, 1 m], [1.6 m, -1.6 m, 0.8 m]]
  passes:
    - {bulkhead: "%(short)s", hole: 120 mm, material: plywood, thickness: 18 mm, sleeve: true,
       closing: "%(name)s"}
  hull_fitting: {kind: double wall, material: "%(name)s"}
layout:
  openings: [{name: "%(short)s", kind: hatch, at: [3 m, -1 m, 1.5 m]}]
safety:
  co_alarms: []
  extinguishers: [{at: "%(name)s"}]
  stop: {at: "%(name)s", reach: inside}
limits:
  exhaust.length: {at_most: 1 m, source: "%(name)s"}
deviations:
  - {check: exhaust.length, found: "%(name)s", reason: "%(name)s", instead: "%(name)s", by: "%(name)s",
     date: 2026-01-01, until: 2027-01-01}
inspection: {place: "%(name)s", loading: "%(name)s", present: ["%(name)s"],
  not_examined: [{part: "%(name)s", why: "%(name)s"}]}
"""
SECTIONS = (title, findings, data_quality, overview, survey)
MM = 72 / 25.4


@pytest.mark.parametrize("name", [HOSTILE, LONG, "Ñandú Ω Ж 北京", "a_b/c.d-e"])
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_names_are_printed_as_written_and_stay_in_their_columns(project_of, draft_of, pages_of, name, paper):
    boat = project_of(PROJECT % {"name": name, "short": name})
    edition = "survey" if paper == "A4" else "aboard"
    draft = draft_of(boat, edition, only=[s.__name__.rpartition(".")[2] for s in SECTIONS], paper=paper)
    pages = pages_of(draft, *(s.section for s in SECTIONS if draft.has(s.__name__.rpartition(".")[2])))
    text = "".join("".join(page.text.split()) for page in pages)
    if name.isascii():
        assert "".join(name.split()) in text
    assert "51233" not in text
    for page in pages:
        for word in page.words:
            assert word.left > 4 * MM, word.text
            assert word.right < page.width - 4 * MM, word.text


@pytest.mark.parametrize(
    ("paper", "letters"),
    [("A4", "שלום " * 790), ("A5", "x" * 3990), ("A4", HOSTILE * 60), ("A5", "a🔥 " * 900)],
    ids=["right to left", "no blank", "markup", "signs"],
)
def test_a_text_as_long_as_the_file_may_hold_breaks_no_page(project_of, draft_of, pages_of, paper, letters):
    """It is cut where it would fill a sheet; the whole stands in the project file, which the PDF carries."""
    boat = project_of(PROJECT % {"name": letters, "short": letters[:9].strip()})
    edition = "survey" if paper == "A4" else "aboard"
    names = [s.__name__.rpartition(".")[2] for s in SECTIONS]
    draft = draft_of(boat, edition, only=names, paper=paper)
    pages = pages_of(draft, *(s.section for s, name in zip(SECTIONS, names, strict=True) if draft.has(name)))
    assert len(pages) < 60
    assert "…" in "".join(page.text for page in pages)
    for page in pages:
        assert all(word.right < page.width - 4 * MM for word in page.words)
