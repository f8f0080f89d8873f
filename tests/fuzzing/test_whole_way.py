"""A short run of mutated project files; ``whole_way.py`` runs as many as one likes."""

from tests.fuzzing.whole_way import run


def test_mutated_project_files_end_in_an_assessment_or_a_fault_in_words(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run(20, seed=7, every_render=0) == 0
