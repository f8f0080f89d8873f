"""What is handed out: the wheel holds what it needs and nothing else, is the same bytes each time, and runs.

Wheel: PEP 427; licence files: PEP 639. Both are read here with the standard library alone.
"""

import os
import re
import subprocess
import sys
import tarfile
import zipfile
from base64 import urlsafe_b64encode
from email.parser import HeaderParser
from hashlib import sha256
from pathlib import Path

import pytest
from hatchling.builders.sdist import SdistBuilder
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parents[2]
PASSED_OVER = {"__pycache__", ".gitkeep"}


def made(builder, root, folder):
    return Path(next(builder(str(root)).build(directory=str(folder), versions=["standard"])))


@pytest.fixture(scope="module")
def sdist(tmp_path_factory):
    return made(SdistBuilder, ROOT, tmp_path_factory.mktemp("sdist"))


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    return made(WheelBuilder, ROOT, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def held(wheel):
    with zipfile.ZipFile(wheel) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def files_under(folder):
    return {
        path.relative_to(ROOT / folder).as_posix(): path.read_bytes()
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and not PASSED_OVER & {*path.parts} and path.suffix != ".pyc"
    }


@pytest.mark.parametrize(
    ("folder", "inside"),
    [
        ("dossier", "dossier"),
        ("templates", "dossier/shipped/templates"),
        ("projects", "dossier/shipped/projects"),
    ],
)
def test_the_wheel_holds_the_folder_byte_for_byte(held, folder, inside):
    ours = {
        name.removeprefix(f"{inside}/"): content
        for name, content in held.items()
        if name.startswith(f"{inside}/") and not name.endswith(".gitkeep")
    }
    if folder == "dossier":
        ours = {name: content for name, content in ours.items() if not name.startswith("shipped/")}
    found = files_under(folder)
    assert ours.keys() == found.keys()
    assert [name for name, content in found.items() if ours[name] != content] == []
    assert len(found) > 5


def test_the_wheel_holds_nothing_else(held):
    tops = {name.split("/")[0] for name in held}
    (described,) = (top for top in tops if top.endswith(".dist-info"))
    assert tops == {"dossier", described}


def test_licences_go_with_code_and_fonts(held):
    metadata = next(content for name, content in held.items() if name.endswith("/METADATA"))
    said = HeaderParser().parsestr(metadata.decode())
    assert said["License-Expression"] == "MIT"
    named = said.get_all("License-File")
    inside = {name.partition("/licenses/")[2] for name in held if "/licenses/" in name}
    assert inside == set(named) == {"LICENSE", "dossier/rendering/fonts/OFL.md"}
    fonts = [name for name in held if name.endswith((".ttf", ".otf"))]
    assert {name.rpartition("/")[0] for name in fonts} == {"dossier/rendering/fonts"}
    assert b"SIL Open Font License, Version 1.1" in held["dossier/rendering/fonts/OFL.md"]


def test_a_record_of_every_file_is_true(held):
    """Each file with its checksum, as PEP 427 has it."""
    name, record = next((n, c.decode()) for n, c in held.items() if n.endswith("/RECORD"))
    told = dict(line.rsplit(",", 2)[:2] for line in record.splitlines())
    assert told.pop(name) == ""
    for file, content in held.items():
        if file != name:
            digest = urlsafe_b64encode(sha256(content).digest()).rstrip(b"=").decode()
            assert told.pop(file) == f"sha256={digest}", file
    assert told == {}


def test_the_source_holds_tests_and_papers_but_no_leavings(sdist):
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    tops = {name.split("/")[0] for name in names}
    assert {"dossier", "templates", "projects", "tests", "docs", "LICENSE", "README.md"} <= tops
    assert {"DEVELOPERS.md", "CHANGELOG.md", "pyproject.toml"} <= tops
    assert not tops & {"out", "dist", "build", ".ci", ".venv", ".git"}
    assert not [name for name in names if re.search(r"__pycache__|\.pyc$|\.hypothesis|_cache/", name)]
    assert "tests/packaging/test_wheel.py" in names


def test_a_wheel_made_elsewhere_from_the_source_is_the_same_bytes(sdist, wheel, tmp_path, monkeypatch):
    """Another folder, other times on the files, another umask, time zone and order of hashes."""
    with tarfile.open(sdist) as archive:
        archive.extractall(tmp_path / "elsewhere", filter="data")
    (root,) = (tmp_path / "elsewhere").iterdir()
    for path in root.rglob("*"):
        os.utime(path, (1_700_000_000, 1_700_000_000))
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    before = os.umask(0o077)
    try:
        again = made(WheelBuilder, root, tmp_path / "again")
    finally:
        os.umask(before)
    assert again.name == wheel.name
    assert again.read_bytes() == wheel.read_bytes()


def test_the_source_is_the_same_bytes_again(sdist, tmp_path):
    assert made(SdistBuilder, ROOT, tmp_path).read_bytes() == sdist.read_bytes()


def test_unpacked_in_an_empty_folder_it_writes_a_project_and_builds_it(wheel, tmp_path):
    """A wheel of plain Python runs as it is unpacked; the checkout is out of reach."""
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "site")  # noqa: S202 - made here
    program = (
        f"import sys; sys.path.insert(0, {str(tmp_path / 'site')!r})\n"
        "import dossier; from dossier.cli import main\n"
        "assert main(['new', 'boat', '--from', 'puddle_wren']) == 0\n"
        "assert main(['build', 'boat/puddle_wren.yaml', '-o', 'out.pdf', '--edition', 'aboard']) == 0\n"
        "print(dossier.__file__)\n"
    )
    world = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=tmp_path, env=world, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[-1].startswith(str(tmp_path / "site"))
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF")
