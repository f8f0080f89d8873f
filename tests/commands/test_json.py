"""The JSON of `check` is a contract: format 1, finite SI numbers, five counts, names of the results."""

import json
import math
import re
from pathlib import Path

import pytest

from dossier.cli import main

ROOT = Path(__file__).parents[2]
NAMES = [
    line.strip()
    for line in (ROOT / "tests" / "data" / "known_results.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]
STATUSES = {"met", "not met", "not assessed", "not applicable", "accepted deviation"}


def pattern(name):
    """Regular expression of a result's name: capitals stand for something of the project."""
    parts = [
        r"[\w.]+"
        if part in {"RESULT", "KEY"}
        else r"\w+"
        if re.fullmatch(r"[A-Z_]+", part)
        else re.sub(r"[A-Z]{3,}", r"\\w+", re.escape(part))
        for part in name.split(".")
    ]
    return re.compile(r"\.".join(parts))


PATTERNS = [pattern(name) for name in NAMES]


@pytest.fixture(scope="module")
def cutter():
    import contextlib
    import io

    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        status = main(["check", str(ROOT / "projects" / "lantern_auk" / "lantern_auk.yaml"), "--json"])
    return status, json.loads(printed.getvalue())


def test_a_check_not_met_gives_status_one(cutter):
    status, plain = cutter
    assert any(check["status"] == "not met" for check in plain["checks"])
    assert status == 1


def test_the_head_says_which_project(cutter):
    plain = cutter[1]
    assert plain["format"] == 1
    assert set(plain["project"]) == {"number", "revision", "name", "status", "status_wished"}
    assert plain["project"]["name"] == "Lantern Auk"


def test_every_result_has_a_finite_si_number_unit_label_and_basis(cutter):
    for name, result in cutter[1]["results"].items():
        assert set(result) == {"value", "unit", "label", "basis"}, name
        assert isinstance(result["value"], float), name
        assert math.isfinite(result["value"]), name
        assert result["basis"] in {"measured", "plate", "drawing", "assumed"}, name


def test_every_result_has_a_name_of_the_contract(cutter):
    strange = [name for name in cutter[1]["results"] if not any(p.fullmatch(name) for p in PATTERNS)]
    assert strange == []


def test_how_sure_and_what_else_stand_among_the_results(cutter):
    results = cutter[1]["results"]
    low, high = (results[f"uncertainty.heat_loss.total.{p}"]["value"] for p in ("p10", "p90"))
    assert low < results["heat_loss.total"]["value"] < high
    starts = results["alternative.buffer_120.store.starts_per_hour"]["value"]
    assert starts < results["store.starts_per_hour"]["value"]
    assert results["document.assumed_effect"]["unit"] == "1"


def test_every_check_says_the_same_things(cutter):
    keys = {
        "id", "title", "status", "severity", "value", "limit", "unit", "margin", "limit_basis", "source",
        "advice", "where",
    }  # fmt: skip
    for check in cutter[1]["checks"]:
        assert set(check) == keys
        assert check["status"] in STATUSES
        assert check["severity"] in {"danger", "fault", "attention"}
        assert check["source"]


def test_the_five_counts_add_up(cutter):
    plain = cutter[1]
    assert set(plain["summary"]) == STATUSES
    assert sum(plain["summary"].values()) == len(plain["checks"])


def test_alternatives_are_set_beside_the_project_in_a_table_of_their_own(cutter, run, smallest):
    plain = cutter[1]
    told, results = plain["alternatives"], plain["results"]
    base, *others = told["table"]
    assert base["name"] is None
    assert base["load"] == pytest.approx(results["heat_loss.total"]["value"], rel=1e-12)
    assert sum(base["not_met"].values()) == plain["summary"]["not met"]
    assert {"alternative." + row["name"].replace(" ", "_") for row in others} == {
        ".".join(name.split(".")[:2]) for name in results if name.startswith("alternative.")
    }
    assert told["recommended"] in {None, *(row["name"] for row in others)}
    assert told["reason"]
    assert json.loads(run("check", smallest, "--json").out)["alternatives"] is None


def test_several_files_give_a_list(capsys, tmp_path):
    file = tmp_path / "boat.yaml"
    file.write_text("format: 1\ndocument: {date: 2026-11-22}\n", encoding="utf-8")
    main(["check", str(file), str(file), "--json"])
    assert len(json.loads(capsys.readouterr().out)) == 2


def test_everything_printed_keeps_to_its_schema(cutter, run, smallest):
    import jsonschema

    schema = json.loads(run("schema", "--results").out)
    jsonschema.Draft202012Validator.check_schema(schema)
    judge = jsonschema.Draft202012Validator(schema)
    judge.validate(cutter[1])
    judge.validate([cutter[1]])
    judge.validate(json.loads(run("check", smallest, "--json").out))
    for spoilt in ({"format": 2}, {"summary": {}}, {"more": 1}, {"alternatives": {"table": []}}):
        assert not judge.is_valid({**cutter[1], **spoilt})


def test_results_as_a_table_are_the_same_numbers(run, smallest):
    import csv
    import io

    plain = json.loads(run("check", smallest, "--json").out)["results"]
    rows = list(csv.DictReader(io.StringIO(run("check", smallest, "--csv").out, newline="")))
    assert {row["result"]: float(row["value"]) for row in rows} == {n: r["value"] for n, r in plain.items()}
    assert {row["unit"] for row in rows} >= {"W", "s"}
