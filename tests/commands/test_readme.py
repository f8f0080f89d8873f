"""What the README shows works as printed."""

import re
from pathlib import Path

import pytest

from dossier.cli import main
from dossier.cli.parser import COMMANDS

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language):
    return re.findall(rf"```{language}\n(.*?)```", README, flags=re.DOTALL)


def test_shortest_project_file_gives_findings_and_no_fault(tmp_path, capsys):
    (shortest,) = blocks("yaml")
    file = tmp_path / "first.yaml"
    file.write_text(shortest, encoding="utf-8")
    assert main(["check", str(file)]) == 1
    assert capsys.readouterr().err == ""


def test_two_commands_do_all_the_set_up_and_name_files_that_exist():
    builds, tests = blocks("sh")
    assert all(
        command.startswith("python3 -m venv .venv && .venv/bin/pip install") for command in (builds, tests)
    )
    (project,) = re.findall(r"projects/\S+", builds)
    assert (ROOT / project).is_file()
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert re.search(r"python -m pytest.*", tests).group() in ci


def test_every_command_has_a_row_in_the_table():
    rows = re.findall(r"^\| `dossier (\w+)", README, re.MULTILINE)
    assert rows == [command.__name__.rpartition(".")[2] for command in COMMANDS]


@pytest.mark.parametrize("command", [command.__name__.rpartition(".")[2] for command in COMMANDS])
def test_every_option_in_the_table_is_one_of_the_program(command, capsys):
    (row,) = [line for line in README.splitlines() if line.startswith(f"| `dossier {command}")]
    with pytest.raises(SystemExit):
        main([command, "--help"])
    told = capsys.readouterr().out
    for option in re.findall(r"--?[a-z]+\b", row):
        assert re.search(rf"(?<![\w-]){option}\b", told), option


def test_python_example_names_what_the_package_offers():
    import dossier

    (example,) = blocks("python")
    for name in re.search(r"from dossier import (.*)", example).group(1).split(", "):
        assert callable(getattr(dossier, name))


def test_pictures_and_papers_it_points_to_exist():
    for target in re.findall(r"\]\((?!http)([^)]+)\)|`((?:docs|dossier|projects)/[\w./]*)`", README):
        assert (ROOT / (target[0] or target[1])).exists(), target
