"""No command reaches the network."""

import socket
from pathlib import Path

from dossier.cli import main

BOAT = Path(__file__).parents[2] / "projects" / "puddle_wren" / "puddle_wren.yaml"


def test_check_and_build_use_no_socket(tmp_path, monkeypatch):
    def refused(*_given, **_named):
        raise AssertionError("a socket was used")

    for way in ("connect", "connect_ex", "bind", "sendto"):
        monkeypatch.setattr(socket.socket, way, refused)
    monkeypatch.setattr(socket, "getaddrinfo", refused)
    assert main(["check", str(BOAT)]) == 1
    assert main(["build", str(BOAT), "--edition", "yard", "-o", str(tmp_path)]) == 0
    assert list(tmp_path.glob("*.pdf"))
