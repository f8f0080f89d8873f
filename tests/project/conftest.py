"""Writes project files into an empty folder and reads them."""

from pathlib import Path
from textwrap import dedent

import pytest

from dossier.notation import Fault, ProjectFaults
from dossier.project import Project, load


class Desk:
    """A folder in which project files are written and read."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def put(self, name: str, content: str | bytes) -> Path:
        """Write a file beside the project."""
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else dedent(content).encode())
        return path

    def read(self, text: str | bytes, *, bare: bool = False) -> Project:
        """Read a project; ``format: 1`` is put before it unless it is ``bare``."""
        content = text if isinstance(text, bytes) else dedent(text).lstrip("\n").encode()
        return load(self.put("boat.yaml", content if bare else b"format: 1\n" + content))

    def faults(self, text: str | bytes, *, bare: bool = False) -> tuple[Fault, ...]:
        """Faults of a project that cannot be read."""
        with pytest.raises(ProjectFaults) as caught:
            self.read(text, bare=bare)
        return caught.value.faults

    def try_to_read(self, content: bytes) -> tuple[Fault, ...]:
        """Faults of a file, none if it can be read."""
        try:
            self.read(content, bare=True)
        except ProjectFaults as error:
            return error.faults
        return ()

    def fault(self, text: str | bytes, *, bare: bool = False) -> str:
        """The only fault of a project, as what is wrong and what to write."""
        faults = self.faults(text, bare=bare)
        assert len(faults) == 1, [str(fault) for fault in faults]
        return f"{faults[0].what}; {faults[0].instead}"

    def area(self, written: str) -> float:
        """An area as written, read in the section of a zone."""
        zones = self.read(zone(area=written)).zones
        assert zones
        assert zones[0].sections
        return zones[0].sections[0].area

    def area_fault(self, written: str) -> str:
        """What is wrong with an area as written."""
        return self.fault(zone(area=written))


def zone(**keys: str) -> str:
    """A zone with one section, some of whose keys are given."""
    stated = {"name": "Side", "u_value": "2 W/m2K", "area": "6.4 m2", "faces": "air"} | keys
    inside = "\n".join(
        f"      - {key}: {text}" if key == "name" else f"        {key}: {text}"
        for key, text in stated.items()
    )
    return f"zones:\n  - id: cabin\n    target: 20 degC\n    sections:\n{inside}\n"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path)
