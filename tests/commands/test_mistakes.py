"""What owners get wrong, and what is said to them, as it stands in ``mistakes/messages.txt``.

Read the messages aloud: each says what is wrong, of what, and what would be right, without the file at hand.
After a change of words renew them, and read them again:

    python tests/commands/test_mistakes.py
"""

import io
import re
import tempfile
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

import pytest
import yaml

from dossier.cli import main

HERE = Path(__file__).parent / "mistakes"
GOLDEN = HERE / "messages.txt"
BOAT = (HERE / "boat.yaml").read_text(encoding="utf-8")
MISTAKES = yaml.safe_load((HERE / "mistakes.yaml").read_text(encoding="utf-8"))
PLACE = re.compile(r"[a-z]+\.(yaml|csv):\d+(:\d+)?: ")
CODE = re.compile(r"Traceback|Error|None\b|NoneType|<class|\bnan\b|\{\}|__|\bpydantic|\bstr\b|\bdict\b")


def with_mistake(mistake):
    """The boat's file with a mistake in it."""
    if "file" in mistake:
        return mistake["file"]
    text = BOAT
    for right, wrong in mistake["change"]:
        assert right in text, f"{mistake['what']}: {right!r} stands nowhere"
        text = text.replace(right, wrong, 1)
    return text


def said_to(mistake, folder):
    """Exit status and what is printed for a file with a mistake."""
    file = Path(folder) / "boat.yaml"
    file.write_bytes(with_mistake(mistake).encode("utf-8"))
    if "table" in mistake:
        (Path(folder) / "sections.csv").write_bytes(mistake["table"].encode("utf-8"))
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = main(["check", str(file)])
    return status, out.getvalue(), err.getvalue()


def all_messages():
    """The golden file as it would be written now."""
    parts = []
    for mistake in MISTAKES:
        with tempfile.TemporaryDirectory() as folder:
            parts.append(f"## {mistake['what']}\n\n{said_to(mistake, folder)[2]}")
    return "\n".join(parts)


@pytest.fixture(scope="module")
def golden():
    """What is said to each, by what was done wrong."""
    parts = re.split(r"^## (.+)\n\n", GOLDEN.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return {what: said.rstrip("\n") for what, said in zip(parts[1::2], parts[2::2], strict=True)}


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake["what"])
def test_what_is_said_to_a_mistake(mistake, golden, tmp_path):
    status, out, err = said_to(mistake, tmp_path)
    assert (status, out) == (2, "")
    assert err.rstrip("\n") == golden[mistake["what"]]


def test_no_message_without_its_mistake_and_twenty_at_least(golden):
    assert list(golden) == [mistake["what"] for mistake in MISTAKES]
    assert len(golden) >= 20


def test_every_message_says_where_what_is_wrong_and_what_would_be_right(golden):
    for what, said in golden.items():
        first = said.splitlines()[0]
        assert PLACE.match(first) or re.match(r"boat\.yaml: the file is ", first), what
        assert len(first.partition("; ")[2]) > 3, what
        assert not CODE.search(said), (what, CODE.search(said))


def test_the_mark_stands_under_the_place_that_is_named(golden):
    for what, said in golden.items():
        lines = said.splitlines()
        for number, line in enumerate(lines):
            if line.strip() == "^":
                place = int(PLACE.match(lines[number - 2])[0].split(":")[2])
                shown = lines[number - 1]
                assert len(line) - 1 < len(shown) + 1, what
                if "…" not in shown[:6]:
                    assert len(line) == place + 4, what


def test_the_boat_itself_has_no_fault(tmp_path):
    status, out, err = said_to({"change": []}, tmp_path)
    assert status in {0, 1}
    assert out
    assert not err


if __name__ == "__main__":
    GOLDEN.write_text(all_messages(), encoding="utf-8")
