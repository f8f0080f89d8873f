"""The JSON Schema of what ``check --json`` prints, format 1: a contract with the programs that read it.

And the same results as a table for a spreadsheet. Knows no paper.
"""

import csv
import io
from collections.abc import Mapping
from typing import Any

from dossier.alternatives import Alternative
from dossier.assessment import FORMAT
from dossier.checking.finding import Status
from dossier.data.catalogue import LimitBasis, Severity
from dossier.notation import Basis, quantities
from dossier.sizing.parts_csv import safe_cell

NUMBER_OR_WORDS = {"type": ["number", "string", "null"]}
TEXT_OR_NOTHING = {"type": ["string", "null"]}
COUNT = {"type": "integer", "minimum": 0}
HEAD = ("result", "value", "unit", "label", "basis")


def results_schema() -> dict[str, Any]:
    """The schema: one project, or a list of them where several files were named."""
    result = _closed(
        {
            "value": {"type": "number", "description": "SI, full precision; K_v in m3/h, starts in 1/h"},
            "unit": {"type": "string", "description": "SI unit; 1 for none"},
            "label": {"type": "string"},
            "basis": {
                "enum": [str(basis) for basis in Basis],
                "description": "The weakest among the inputs that matter for it",
            },
        }
    )
    check = _closed(
        {
            "id": {"type": "string", "examples": ["exhaust.length"]},
            "title": {"type": "string"},
            "status": {"enum": [str(status) for status in Status]},
            "severity": {"enum": [str(severity) for severity in Severity]},
            "value": {**NUMBER_OR_WORDS, "description": "What was found; words where the fact is words"},
            "limit": NUMBER_OR_WORDS,
            "unit": TEXT_OR_NOTHING,
            "margin": {**NUMBER_OR_WORDS, "description": "What is left, positive where good"},
            "limit_basis": {"enum": [str(basis) for basis in LimitBasis]},
            "source": {"type": "string"},
            "advice": {"type": "string"},
            "where": _closed({"line": {"type": ["integer", "null"], "minimum": 1}}),
        }
    )
    names = ("number", "revision", "name", "status", "status_wished")
    project = {
        "format": {"const": FORMAT},
        "project": _closed(dict.fromkeys(names, TEXT_OR_NOTHING)),
        "results": {
            "type": "object",
            "description": "By dotted name; the names are documented and changed only with the changelog",
            "additionalProperties": result,
        },
        "checks": {"type": "array", "items": check},
        "summary": _closed({str(status): COUNT for status in Status}),
        "alternatives": _alternatives(),
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "What dossier check --json prints",
        "$defs": {"project": _closed(project)},
        "anyOf": [
            {"$ref": "#/$defs/project"},
            {"type": "array", "items": {"$ref": "#/$defs/project"}},
        ],
    }


def _alternatives() -> dict[str, Any]:
    """The table of alternatives, the project as it stands first; null where the file has none."""
    figures = {
        name: {"type": ["number", "null"], "description": f"{quantity.label} ({quantity.unit})"}
        for name, quantity in quantities(Alternative).items()
    }
    not_met = _closed({str(severity): COUNT for severity in Severity})
    names = {"type": "array", "items": {"type": "string"}}
    row = _closed(
        {
            "name": {**TEXT_OR_NOTHING, "description": "null for the project as it stands"},
            "note": {"type": "string"},
            "fault": {**TEXT_OR_NOTHING, "description": "Why it could not be calculated"},
            **figures,
            "not_met": {"anyOf": [not_met, {"type": "null"}], "description": "Checks not met, by severity"},
            "dangers_not_assessed": {"type": ["integer", "null"], "minimum": 0},
            "added": {**names, "description": "Components against those of the project"},
            "changed": names,
            "left_out": names,
            "cleared": {**names, "description": "Checks met here and not as it stands"},
            "broken": {**names, "description": "Checks not met here alone"},
            "differs": {**names, "description": "Keys of this row that differ from those of the project"},
        }
    )
    table = _closed(
        {
            "table": {"type": "array", "items": row},
            "recommended": {
                **TEXT_OR_NOTHING,
                "description": "null where nothing is better than as it stands",
            },
            "reason": {"type": "string"},
        }
    )
    return {"anyOf": [table, {"type": "null"}]}


def _closed(properties: Mapping[str, Any]) -> dict[str, Any]:
    """An object of these keys, all of them and no others."""
    return {
        "type": "object",
        "properties": dict(properties),
        "required": list(properties),
        "additionalProperties": False,
    }


def results_csv(plain: Mapping[str, Any]) -> str:
    """Results as comma-separated text: SI numbers in full; no cell can become a formula."""
    written = io.StringIO()
    table = csv.writer(written, lineterminator="\r\n")
    table.writerow(HEAD)
    for name, result in plain["results"].items():
        cells = [safe_cell(str(result[key])) for key in ("unit", "label", "basis")]
        table.writerow([safe_cell(name), repr(result["value"]), *cells])
    return written.getvalue()
