"""Whatever happens to a project file, the reader says what is wrong with it and nothing breaks."""

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dossier.notation import Fault, ProjectFaults
from dossier.project import load

TEXTS = [
    path.read_text(encoding="utf-8")
    for path in sorted(Path(__file__).parents[2].joinpath("projects").glob("*/*.yaml"))
]
STRANGE = [
    "none",
    "{}",
    "[]",
    "''",
    "~",
    "-",
    "1e309 m",
    "-1 m",
    "{is: 3 m}",
    "{is: {is: 2 m}}",
    "{is: [1, 2], basis: foo}",
    "{from: months.csv}",
    "{from: ../x}",
    "{from: [a]}",
    "[[1 m, 2 m], [3 m]]",
    "[1,2 m, -1,2 m]",
    "*a",
    "&a {b: c}",
    "!!python/object:os.system x",
    "9" * 5000 + " m",
    "3,2 m",
    "{basis: [x]}",
    "{unit: [P1]}",
    "{pipe: x}",
    "{between: x}",
    "{between: [M1, M2], branches: {a: []}}",
    "\u202e",
    "\x07",
    "\ud7ff",
    "2026-13-40",
    "{kind: {is: x}}",
    "every 500 mm",
    "M1 to M2",
    "hose 22, 1.6 m",
    "{like: topsides}",
    "{typical: {a: b}}",
    "1 bar at 3 l/min",
    "1 m aft of x, 1 m port, 2 m above y",
    "{is: 3 m, spread: {a: b}}",
    "{is: 3 m, spread: [1 m, x]}",
    "{insert: [x]}",
]
PLACE = st.floats(0, 1, exclude_max=True)
EDIT = st.tuples(st.integers(0, 6), PLACE, PLACE, st.sampled_from(STRANGE) | st.text(max_size=12))


def edited(text: str, edit: tuple[int, float, float, str]) -> str:
    """A text with one thing done to it."""
    kind, first, second, strange = edit
    at, lines = int(first * len(text)), text.split("\n")
    here, there = int(first * len(lines)), int(second * len(lines))
    if kind == 0:
        return text[:at] + text[at + int(second * 40) :]
    if kind == 1:
        return text[:at] + strange + text[at:]
    if kind == 2:
        lines[here], lines[there] = lines[there], lines[here]
    elif kind == 3:
        del lines[here]
    elif kind == 4:
        lines.insert(there, lines[here])
    else:
        pattern = r": ([^{}\[\],\n#]+)" if kind == 5 else r"[\[{]([^\[\]{}]*)[\]}]"
        found = list(re.finditer(pattern, text))
        if found:
            part = found[int(first * len(found))]
            return text[: part.start(1)] + strange + text[part.end(1) :]
    return "\n".join(lines)


def faults_of(path: Path) -> tuple[Fault, ...]:
    """Faults of a file, none if it can be read."""
    try:
        load(path)
    except ProjectFaults as error:
        return error.faults or (Fault(""),)
    return ()


@settings(max_examples=150, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(TEXTS), st.lists(EDIT, min_size=1, max_size=5))
def test_a_damaged_file_is_read_or_refused_in_words(tmp_path, text, edits):
    for edit in edits:
        text = edited(text, edit)
    path = tmp_path / "boat.yaml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    (tmp_path / "months.csv").write_text("month,outside_air [degC],sea [degC]\n1,2.1,5\n")
    for fault in faults_of(path):
        assert fault.what
        assert fault.file
        assert not re.search(r"None|<class|Traceback|validation error|dossier\.", fault.what)


@settings(max_examples=150, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=200) | st.text(max_size=200).map(str.encode))
def test_any_bytes_at_all_are_refused_in_words(tmp_path, content):
    path = tmp_path / "boat.yaml"
    path.write_bytes(content)
    with pytest.raises(ProjectFaults) as caught:
        load(path)
    assert caught.value.faults
