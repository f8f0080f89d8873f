"""Words from templates: safe, strict, and a yard's own before ours."""

import pytest

from dossier.data.shipped import shipped
from dossier.notation import Basis, PageFault
from dossier.rendering.fonts import shown
from dossier.rendering.text import Face, strong
from dossier.rendering.words import LONGEST, Words


@pytest.fixture
def yard(tmp_path):
    folder = tmp_path / "house"
    (folder / "en").mkdir(parents=True)

    def template(name, content):
        (folder / "en" / f"{name}.j2").write_text(content, encoding="utf-8")
        return Words("en", folder)

    return template


def test_a_text_is_found_by_section_and_name():
    assert str(Words("en")("pages.table_name", number="14")) == "Table 14"


def test_what_is_filled_in_is_never_markup(yard):
    words = yard("x", "{% block t %}<b>Room</b> {{ name }}{% endblock %}")
    runs = words("x.t", name="<i>A&B</i>").runs
    assert [(run.text, run.face, run.own) for run in runs] == [
        ("Room", Face.STRONG, True),
        (" ", Face.REGULAR, True),
        ("<i>A&B</i>", Face.REGULAR, False),
    ]


def test_markup_that_is_filled_in_stays_markup(yard):
    runs = yard("x", "{% block t %}is {{ name }}{% endblock %}")("x.t", name=strong("K")).runs
    assert runs[-1].face is Face.STRONG
    assert runs[-1].text == "K"


def test_a_users_words_may_hold_any_character_but_ours_may_not(yard):
    words = yard("x", "{% block t %}{{ name }}{% endblock %}{% block u %}⚠{% endblock %}")
    assert str(words("x.t", name="⚠ 北")) == "⚠ 北"
    with pytest.raises(PageFault, match=r"'x\.u'.*U\+26A0"):
        words("x.u")


def test_joined_words_of_users_stay_theirs(yard):
    words = yard("x", "{% block t %}{{ names|join(', ') }}{% endblock %}")
    assert str(words("x.t", names=["<b>", "北"])) == "<b>, 北"


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("{% block t %}{{ missing }}{% endblock %}", "'missing' is undefined"),
        ("{% block t %}{{ absent }}{% endblock %}", "None is no text"),
        ("{% block t %}{{ number }}{% endblock %}", "numbers are made texts"),
        ("{% block t %}{{ ''.__class__.__mro__ }}{% endblock %}", "unsafe|undefined"),
        ("{% block t %}{{ name.upper.__globals__ }}{% endblock %}", "unsafe|no attribute"),
        ("{% block t %}<img src='file:///etc/passwd'>{% endblock %}", "<img> is no tag"),
        ("{% block t %}<a href='http://example.org'>x</a>{% endblock %}", "a link leads to a key"),
        ("{% block t %}<b>open{% endblock %}", "<b> is not closed"),
        ("{% block t %}x</b>{% endblock %}", "</b> closes nothing"),
        ("{% block t %}<!-- remark -->{% endblock %}", "a remark"),
        ("{% block t %}{% if %}{% endblock %}", "line 1"),
    ],
)
def test_a_template_that_goes_wrong_says_where_and_why(yard, content, says):
    with pytest.raises(PageFault, match=says):
        yard("x", content)("x.t", absent=None, number=1.5, name="n")


def test_a_yards_text_replaces_ours_and_the_others_stay(yard):
    words = yard("pages", "{% block table_name %}Tab. {{ number }}{% endblock %}")
    assert str(words("pages.table_name", number="1")) == "Tab. 1"
    assert str(words("pages.figure_name", number="1")) == "Figure 1"


def test_a_text_nobody_wrote_and_a_language_nobody_speaks_are_faults():
    with pytest.raises(PageFault, match=r"no text 'pages\.nothing' in 'en'"):
        Words("en")("pages.nothing")
    with pytest.raises(PageFault, match="no words in 'xx'; there are in de, en"):
        Words("xx")


@pytest.mark.parametrize("language", ["../..", "/etc", "en/../..", "", "EN", "."])
def test_a_language_is_no_path(language):
    with pytest.raises(PageFault, match="is no language"):
        Words(language)


def test_lines_come_one_by_one_and_a_user_cannot_add_one(yard):
    words = yard("x", "{% block t %}\nOne {{ name }}.\n\nTwo.\n{% endblock %}")
    assert [str(line) for line in words.lines("x.t", name="a\nb")] == ["One a b.", "Two."]


def test_white_space_shrinks_but_a_hard_blank_stays(yard):
    words = yard("x", "{% block t %}\n  15.4&nbsp;l/min\n  and   more\n{% endblock %}")
    assert str(words("x.t")) == "15.4\u00a0l/min and more"


def test_an_enumeration_is_said_by_its_word(yard):
    assert str(yard("x", "{% block t %}{{ basis }}{% endblock %}")("x.t", basis=Basis.MEASURED)) == "measured"


def test_all_templates_of_ours_can_be_read():
    words = Words("en")
    for file in sorted(shipped("templates").rglob("*.j2")):
        for block in words._environments[0].get_template(file.name).blocks:
            assert words.has(f"{file.stem}.{block}")


def test_a_users_text_is_cut_where_it_is_longer_than_people_read(yard):
    """A letter the typeface lacks is shown by its code and counts with all its letters."""
    words = yard("x", "{% block t %}{{ name }}.{% endblock %}")
    assert str(words("x.t", name="y" * LONGEST)) == "y" * LONGEST + "."
    assert str(words("x.t", name="y" * (LONGEST + 1))) == "y" * LONGEST + "…."
    hebrew = str(words("x.t", name="ש" * LONGEST))
    assert len(shown(hebrew)) <= LONGEST + len("….")


def test_a_text_that_stands_alone_is_the_same_as_one_that_is_filled(yard):
    """Texts that nothing is filled into are not compiled: what was parsed is what is printed."""
    text = "  Less <b>than</b>\n   2 &lt; 3 lines"
    alone = f"{{% block alone %}}\n{text}\n{{% endblock %}}"
    words = yard("x", f"{alone}{{% block filled %}}\n{text}{{{{ no }}}}{{% endblock %}}")
    assert str(words("x.alone")) == str(words("x.filled", no=""))
    assert [*map(str, words.lines("x.alone"))] == [*map(str, words.lines("x.filled", no=""))]


def test_a_text_of_a_yard_may_hold_another(yard):
    words = yard(
        "x", "{% block who %}the maker{% endblock %}{% block ask %}Ask {{ self.who() }}.{% endblock %}"
    )
    assert str(words("x.ask")) == "Ask the maker."
