"""Installs the wheel in an empty environment and builds a demonstration outside the clone.

python tests/packaging/installed.py                  the newest versions that the index has
python tests/packaging/installed.py --oldest         the lowest that pyproject.toml allows
python tests/packaging/installed.py --python python3.13

Asks the package index, so it is a command and no test.
"""

import argparse
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
OLDEST = Path(__file__).with_name("oldest.txt")


def main() -> int:
    """Exit status: 0 where the demonstration was built."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--oldest", action="store_true", help="the lowest versions allowed")
    parser.add_argument("--python", default=sys.executable, help="interpreter of the environment")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        bin_of = place / "venv" / "bin"
        limits = ["-c", str(OLDEST)] if asked.oldest else []
        quiet = ["--quiet", "--disable-pip-version-check"]
        for command in (
            [asked.python, "-m", "venv", str(place / "venv")],
            [bin_of / "pip", "wheel", *quiet, "--no-deps", "-w", place / "wheel", str(ROOT)],
            [
                bin_of / "pip",
                "install",
                *quiet,
                *limits,
                "boat-heating-dossier",
                "--find-links",
                place / "wheel",
            ],
            [bin_of / "dossier", "new", "boat", "--from", "lantern_auk"],
            [bin_of / "dossier", "build", "boat/lantern_auk.yaml", "-o", "out.pdf"],
            [bin_of / "pip", "freeze", "--disable-pip-version-check"],
        ):
            done = subprocess.run([str(part) for part in command], cwd=place, check=False)
            if done.returncode:
                return done.returncode
        built = (place / "out.pdf").stat().st_size
    print(f"built: {built} bytes of PDF")  # noqa: T201 - a command's answer
    return 0


if __name__ == "__main__":
    sys.exit(main())
