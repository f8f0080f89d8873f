"""Broken and hostile files: a fault in words, quickly, never a traceback, never a look outside the folder."""

import os
import time

import pytest

from dossier.notation import ProjectFaults
from dossier.project import load

BOMB = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(
    f"{new}: &{new} [{','.join(['*' + old] * 9)}]\n" for old, new in zip("abcdefgh", "bcdefghi", strict=True)
)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "the file is empty"),
        (b"\n# nothing yet\n", "the file is empty"),
        (b"---\n", "the file is empty"),
        (b"- a\n- b\n", "the file is a list, not a mapping of keys"),
        (b"just words\n", "not a mapping of keys"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "the file is not a text"),
        (b"\xff\xfef\x00o\x00r\x00", "the file is encoded as UTF-16"),
        (b"format: 1\nvessel: {name: M\xf6we}\n", "the file is not encoded as UTF-8"),
        (b"format: 1\nvessel: {name: \x07}\n", "the character U+0007 has no place"),
        ("format: 1\nvessel: {name: \u202eab}\n".encode(), "the character U+202E has no place"),
        ("format: 1\nvessel: {name: a\u2028b}\n".encode(), "the character U+2028 has no place"),
        ("format: 1\nvessel: {name: a\u200bb}\n".encode(), "the character U+200B has no place"),
        (b'format: 1\nvessel: {name: "a\\u202eb"}\n', "the character U+202E has no place"),
        (b'format: 1\nvessel: {name: "a\\0b"}\n', "the character U+0000 has no place"),
        (b"format: 1\n---\nformat: 1\n", "the file holds a second document"),
        (b"format: 1\nformat: 1\n", "format stands twice, first in line 1"),
        (b"format: 1\nvessel: {name: a, name: b}\n", "name stands twice, first in line 2"),
        (b"format: 1\nvessel: &v {name: a}\ndocument: {<<: *v}\n", "merge keys (<<) are not read"),
        (b"format: 1\nvessel: {'': a}\n", "a value has no key"),
        (b"format: 1\nmodes: {a b: {}, 'a  b': {}}\n", "a b stands twice, first in line 2"),
        (b"format: 1\n? [a, b]\n: c\n", "a list or mapping stands where a key belongs"),
        (
            b"format: 1\nvessel: {name: !!python/object/apply:os.system ls}\n",
            "the tag tag:yaml.org,2002:python",
        ),
        (b"format: 1\nvessel: {name: !own x}\n", "the tag !own is not read"),
        (b"format: 1\nvessel:\n\tname: a\n", "a tab stands where spaces belong"),
        (b"format: 1\nvessel: {name: 'a}\n", "a quote is opened here and not closed"),
        (b"format: 1\nvessel: {name: a\n", "the { opened here is not closed, or a comma is missing"),
        (b"format: 1\nvessel: a: b\n", "a second ': ' stands where none can"),
        (b"format: 1\nvessel\n", "a key has no ': ' after it"),
        (b"format: 1\nvessel: *gone\n", "*gone points at nothing before it"),
        (b"format: 1\nvessel: &v {name: *v}\n", "*v points at nothing before it"),
        (b"vessel: {name: a}\n", "format is missing"),
        (b"format: 2\n", "format 2 is not known (it is newer than this program)"),
        (b"format: one\n", "format one is not known"),
        (b"format: [1]\n", "format a list is not known"),
    ],
)
def test_a_file_that_cannot_be_used_says_why(desk, content, said):
    faults = desk.faults(content, bare=True)
    assert said in "\n".join(fault.what for fault in faults)
    assert len(faults) == 1


@pytest.mark.parametrize(
    "content",
    [
        BOMB.encode(),
        b"[" * 100_000,
        b"{a: " * 100_000,
        b"- " * 100_000,
        b"? " * 100_000,
        b"a: " + b"x " * 900_000,
        b"format: 1\nvessel: {name: " + b"9" * 1_000_000 + b"}\n",
        b"format: 1\nvessel: {length: " + b"9" * 1_000_000 + b" m}\n",
        b"format: 1\nvessel: {length: 1e999999999 m}\n",
        b"format: 1\nvessel: {name: " + ("a" + "\u0301\u0323" * 400_000).encode() + b"}\n",
        b"".join(b"k%d: 1\n" % n for n in range(20_000)),
        b"format: 1\ncomponents:\n" + b"".join(b"  B%d: {knd: burner}\n" % n for n in range(5_000)),
        b"format: 1\nzones:\n" + b"".join(b"  - {id: z%d, floats: true}\n" % n for n in range(8_000)),
        b"format: 1\nzones:\n"
        + b"".join(
            b"  - {id: z%d, floats: true, sections: [{name: s, u_value: 1 W/m2K, area: 1 m2,"
            b" faces: {zone: y%d}}]}\n" % (n, n)
            for n in range(2_500)
        ),
        b"format: 1\nx: &a {b: 1}\n" + b"".join(b"y%d: *a\n" % n for n in range(2_000)),
        b'"' * 99_999,
        b"&a " * 50_000,
        b"#" * 1_900_000,
        b"\n" * 1_900_000,
        b"x" * 2_100_000,
    ],
    ids=lambda content: repr(content[:12]),
)
def test_what_is_made_to_choke_a_reader_is_refused_quickly(desk, content):
    began = time.process_time()  # not the clock: other work on the machine does not count
    faults = desk.try_to_read(content)
    assert len(faults) <= 201
    assert all(len(fault.what) < 400 for fault in faults)
    assert time.process_time() - began < 6


def test_missing_files_and_folders_are_faults(tmp_path):
    for path, said in [
        (tmp_path / "gone.yaml", "there is no such file"),
        (tmp_path, "this is a folder"),
        (tmp_path / ("x" * 300), "cannot be"),
        (tmp_path / "a\0b", ""),
    ]:
        with pytest.raises(ProjectFaults) as caught:
            load(path)
        assert said in str(caught.value)


def test_a_pipe_is_no_project(tmp_path):
    os.mkfifo(tmp_path / "pipe.yaml")
    with pytest.raises(ProjectFaults, match="no ordinary file"):
        load(tmp_path / "pipe.yaml")


def test_byte_order_mark_and_windows_line_ends_are_taken(desk):
    project = desk.read(b"\xef\xbb\xbfformat: 1\r\nvessel: {name: Marsh Heron}\r\n", bare=True)
    assert project.vessel.name == "Marsh Heron"
    assert project.where("vessel.name").line == 2


def test_letters_are_composed(desk):
    assert desk.read("vessel: {name: Mo\u0308we}\n").vessel.name == "M\u00f6we"


def test_an_alias_repeats_a_value(desk):
    project = desk.read(
        "vessel: {length: &l 13 m, beam: 4 m}\ncircuit: {ring: [{pipe: {size: hose 19, length: *l}}]}\n"
    )
    assert next(project.pipes()).length == 13


@pytest.mark.parametrize(
    "written",
    [
        "../secret.csv",
        "/etc/passwd",
        "a/../../secret.csv",
        "link.csv",
        "deep/link.csv",
        "~/x.csv",
        "C:/x.csv",
        "a\\b.csv",
        "",
    ],
)
def test_no_file_outside_the_folder_is_read(desk, written):
    secret = desk.folder.parent / "secret.csv"
    secret.write_text("month,sea [degC]\n1,5\n")
    (desk.folder / "deep").mkdir()
    (desk.folder / "link.csv").symlink_to(secret)
    (desk.folder / "deep" / "link.csv").symlink_to(secret)
    for text in (
        f"conditions: {{months: {{from: '{written}'}}}}\n",
        f"pictures: [{{file: '{written}'}}]\n",
        f"include: ['{written}']\n",
        f"conditions: {{weather: {{from: '{written}'}}}}\n",
    ):
        assert "file" in desk.fault(text)
    secret.unlink()


def test_a_link_inside_the_folder_is_followed(desk):
    desk.put("months.csv", "month,sea [degC]\n1,5\n")
    (desk.folder / "link.csv").symlink_to(desk.folder / "months.csv")
    assert len(desk.read("conditions: {months: {from: link.csv}}\n").conditions.months) == 1


def test_pictures_are_known_by_their_checksum(desk):
    desk.put("pictures/outlet.jpg", b"\xff\xd8")
    project = desk.read("pictures: [{file: pictures/outlet.jpg, caption: Outlet}]\n")
    picture = project.files[1]
    # of the bytes ff d8, by sha256sum of GNU coreutils
    assert picture.sha256 == "71563ad80061407ede9c6f316836284bd3710a520c5a792b5eda1cb703690815"
    assert picture.content is None
    assert picture.name == "pictures/outlet.jpg"


def test_markup_and_code_stay_text(desk):
    name = "<b>&amp; {{ 7*7 }} ${HOME} `id`"
    assert desk.read(f"vessel: {{name: '{name}'}}\n").vessel.name == name
