"""Names that users may write: nothing becomes markup, nothing is lost, nothing runs out of its column."""

from dataclasses import replace

import pytest

from dossier.data.shipped import shipped
from dossier.notation import PageFault
from dossier.rendering import fonts
from dossier.rendering.blocks import (
    Answer,
    Bullets,
    Column,
    Figure,
    Finding,
    FindingsTable,
    FormBox,
    FormRow,
    FormulaLine,
    Heading,
    HoldBar,
    KeyFigures,
    Listing,
    Note,
    PackageHead,
    Panel,
    Paragraph,
    Side,
    SideNote,
    SignalWord,
    Steps,
    Table,
)
from dossier.rendering.text import own, strong, text

MM = 72 / 25.4
LONG = "SY_" + "unbroken" * 25
NAMES = [
    "<b>bold</b> & <img src='/etc/passwd'> \"quoted\"",
    "&lt;amp&gt; &copy; %s {{ 7*7 }} {% raw %}",
    LONG,
    "Ñandú Åse Ωmega Ж",
    "\u202eevil\u202c \u200fmark",
    "北京 שלום \U0001f600",
    "tab\tnew\nline\x00\x07",
    "\ud800 alone",
    "   spaced    out   ",
    "",
]


class Plate:
    width = height = 60.0

    def draw(self, canvas, x, y):
        canvas.rect(x, y, 60, 60)


def everything(name):
    return [
        Heading(1, name),
        Answer(name, name),
        Paragraph(name),
        Note(name),
        Bullets([name]),
        Steps([name]),
        Side([KeyFigures(name, [(name, name)]), SideNote(name, name)]),
        Panel(SignalWord.DANGER, name, name, name),
        HoldBar(name, name, name, [name, name]),
        Table([Column(name), Column(name)], [(name, name)], name, notes=name),
        FindingsTable(
            [Finding(name, "danger", "not met", name, name, name, name, name, name, name, name, name)], name
        ),
        Figure(Plate(), name, name),
        FormRow([FormBox(name, name, name)]),
        FormulaLine("U · A", name, name, name, name),
        Listing([name], name),
        PackageHead(name, name, [(name, name)], "package"),
    ]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", ["A4", "A5"])
def test_any_name_stays_inside_the_margins(printed, name, paper):
    for page in printed(*everything(name), paper=paper):
        for word in page.words:
            assert word.left > 8 * MM, word
            assert word.right < page.width - 8 * MM, word


def test_tags_and_entities_are_printed_as_they_were_written(printed):
    (page,) = printed(Paragraph(NAMES[0]), Paragraph(NAMES[1]))
    for said in (
        "<b>bold</b>",
        "<img",
        "src='/etc/passwd'>",
        '"quoted"',
        "&lt;amp&gt;",
        "&copy;",
        "{{",
        "7*7",
    ):
        assert said in page.text


def test_what_the_typeface_lacks_is_shown_by_its_code(printed):
    (page,) = printed(Paragraph(NAMES[5]), Paragraph(NAMES[4]), Paragraph(NAMES[7]))
    for code in ("[U+5317]", "[U+4EAC]", "[U+05E9]", "[U+1F600]", "[U+202E]", "[U+200F]", "[U+D800]"):
        assert code in page.text.replace("\r\n", "")
    assert "evil" in page.text


def test_letters_of_other_alphabets_that_the_typeface_holds_are_printed(printed):
    (page,) = printed(Paragraph(NAMES[3]))
    assert NAMES[3] in page.text


def test_a_word_longer_than_a_line_is_broken_and_none_of_it_lost(printed):
    pages = printed(Table((Column("Name"), Column("Note")), [(LONG, "x")], "Long"))
    letters = "".join(
        w.text for page in pages for w in sorted(page.words, key=lambda w: -w.top) if w.text in LONG
    )
    assert len(letters) >= len(LONG)


def test_a_character_lacking_in_our_own_words_is_a_fault_that_names_it(printed):
    with pytest.raises(PageFault, match=r"'⚠' \(U\+26A0, warning sign\)"):
        printed(Paragraph(own("⚠ take care")))


def test_the_same_character_in_a_users_words_is_not(printed):
    (page,) = printed(Paragraph(text(strong("⚠"), " take care")))
    assert "[U+26A0] take care" in page.text


def test_boat_and_title_with_anything_in_them_reach_head_title_and_metadata(printed, imprint):
    hostile = replace(
        imprint, boat="A&B <i> \U0001f600", title="x" * 300, number="n" * 80, author="()\\ & 北"
    )
    (page,) = printed(Paragraph("Line."), with_imprint=hostile)
    assert "A&B <i>" in page.text
    assert all(word.right < page.width - 8 * MM for word in page.words)


def test_the_four_cuts_hold_the_same_characters_and_have_names_of_their_own():
    fonts.register()
    held = [set(fonts.font(name).face.charToGlyph) for name in fonts.FILES]
    assert all(cut == held[0] for cut in held)
    assert len({fonts.font(name).face.name for name in fonts.FILES}) == len(fonts.FILES)


def test_digits_and_the_minus_sign_are_of_one_width():
    for name in fonts.FILES:
        assert len({round(fonts.width(c, name, 10), 6) for c in "0123456789−\u2007"}) == 1, name


def test_every_character_of_our_templates_is_in_the_typeface():
    for file in sorted(shipped("templates").rglob("*.j2")):
        held = "".join(c for c in file.read_text(encoding="utf-8") if c.isprintable())
        fonts.require(held, str(file))
