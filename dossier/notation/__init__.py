"""The words everybody speaks: quantities, origins, workings, sources, faults.

Read in this order: ``quantity`` (what a number is), ``origin`` (where it comes from), ``source`` (who says
so), ``working`` (formulas, and what they leave behind), ``missing`` (what could not be done), ``faults``
(what can go wrong). Nothing here knows the trade, and nothing here imports anything else of ours.
"""

from dossier.notation.faults import DossierError, Fault, NotConverged, OutOfRange, PageFault, ProjectFaults
from dossier.notation.influence import Influence, weakest
from dossier.notation.missing import NotAssessed
from dossier.notation.origin import Basis, Line, Origin, Row, Traced, origin_of
from dossier.notation.quantity import Quantity, Real, q
from dossier.notation.results import Result, named_results, quantities, slug
from dossier.notation.source import ARITHMETIC, PRACTICE, Source, Standing
from dossier.notation.working import (
    Formula,
    Given,
    Statement,
    Working,
    chosen,
    formula,
    lines_behind,
    origins_behind,
    solved,
    workings_behind,
)

__all__ = [
    "ARITHMETIC",
    "PRACTICE",
    "Basis",
    "DossierError",
    "Fault",
    "Formula",
    "Given",
    "Influence",
    "Line",
    "NotAssessed",
    "NotConverged",
    "Origin",
    "OutOfRange",
    "PageFault",
    "ProjectFaults",
    "Quantity",
    "Real",
    "Result",
    "Row",
    "Source",
    "Standing",
    "Statement",
    "Traced",
    "Working",
    "chosen",
    "formula",
    "lines_behind",
    "named_results",
    "origin_of",
    "origins_behind",
    "q",
    "quantities",
    "slug",
    "solved",
    "weakest",
    "workings_behind",
]
