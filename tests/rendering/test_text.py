"""Markup made by functions, and the same read from tags."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from dossier.rendering.tags import parsed
from dossier.rendering.text import Face, Markup, Refers, Run, formula_text, link, strong, sub, text

texts = st.text(
    st.characters(blacklist_categories=["Cs", "Cc"], blacklist_characters=" \t\r\n"), min_size=1, max_size=20
)
runs = st.one_of(
    st.builds(
        Run,
        texts,
        st.sampled_from(Face),
        st.sampled_from([-1, 0, 1]),
        st.booleans(),
        st.sampled_from(["", "a key", "k&<'\""]),
    ),
    st.builds(lambda key, refers: Run("", own=True, link=key, refers=refers), texts, st.sampled_from(Refers)),
    st.builds(lambda key, said: Run(said, own=True, target=key), texts, texts),
    st.builds(
        lambda what: Run("", own=True, sign=what), st.sampled_from(["status met", "severity danger", "tick"])
    ),
    st.builds(lambda said: Run(said, Face.STRONG, sign=f"boxed {said}"), texts),
)


def merged(runs):
    """Runs of one kind that follow one another, as one."""
    found = []
    for run in runs:
        like = (
            found
            and not (run.sign or run.refers or run.target)
            and replace(found[-1], text="", target="") == replace(run, text="")
        )
        if like and not found[-1].sign:
            found[-1] = replace(found[-1], text=found[-1].text + run.text)
        else:
            found.append(run)
    return found


@given(st.lists(runs, max_size=6))
def test_markup_survives_its_own_tags(made):
    markup = Markup(tuple(made))
    read = parsed(markup.__html__(), "example")
    assert merged(read.runs) == merged(run for run in markup.runs if run.text or run.sign or run.refers)


@given(st.text(max_size=40))
def test_a_plain_string_is_never_markup(said):
    assert [run.text for run in text(said).runs] == ([said] if said else [])
    assert all(run.face is Face.REGULAR and not run.sign and not run.link for run in text(said).runs)


def test_functions_nest():
    (run,) = strong(sub(link("there", "si"))).runs
    assert (run.face, run.rise, run.link, run.text) == (Face.STRONG, -1, "there", "si")


def test_plus_joins_strings_and_markup():
    assert str("U " + strong("1.08") + " W/m²K") == "U 1.08 W/m²K"


def test_indices_and_powers_of_formulas():
    made = [(run.text, run.rise) for run in formula_text("R_si + q_V^2 · x_{a,b} − 10^-3").runs]
    assert made == [
        ("R", 0),
        ("si", -1),
        (" + q", 0),
        ("V", -1),
        ("2", 1),
        (" · x", 0),
        ("a,b", -1),
        (" − 10", 0),
        ("−3", 1),
    ]


def test_nothing_is_false_and_a_sign_is_true():
    assert not text("")
    assert Markup((Run("", sign="tick"),))
