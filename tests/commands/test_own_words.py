"""A yard's own words: one text of a folder stands before ours, the rest is ours."""

import pypdf


def test_one_text_of_a_yard_stands_in_every_dossier(run, smallest, tmp_path):
    own = tmp_path / "ours" / "en"
    own.mkdir(parents=True)
    said = "{% block owner_only %}Read it aloud to somebody who knows the boat.{% endblock %}"
    (own / "proof.j2").write_text(said, encoding="utf-8")
    done = run("build", smallest, "-o", tmp_path / "out.pdf", "--edition", "proof", "--words", own.parent)
    assert done.status == 0
    first = pypdf.PdfReader(tmp_path / "out.pdf").pages[0].extract_text()
    assert "Read it aloud to somebody who knows the boat." in first
    assert "Totals against common sense" in first


def test_a_folder_without_languages_is_refused(run, smallest, tmp_path):
    for folder in (tmp_path / "nowhere", tmp_path):
        done = run("build", smallest, "-o", tmp_path / "out.pdf", "--words", folder)
        assert (done.status, done.out) == (2, "")
        assert f"{folder}: no folder of words; it holds a folder for each language" in done.err
    assert not (tmp_path / "out.pdf").exists()


def test_a_text_that_cannot_be_read_is_refused_by_its_line(run, smallest, tmp_path):
    own = tmp_path / "ours" / "en"
    own.mkdir(parents=True)
    (own / "proof.j2").write_text("\n{% block owner_only %}Read {{ %}{% endblock %}", encoding="utf-8")
    done = run("build", smallest, "-o", tmp_path / "out.pdf", "--edition", "proof", "--words", own.parent)
    assert done.status == 2
    assert "template proof.j2, line 2" in done.err
