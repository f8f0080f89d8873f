"""Frozen dataclasses of ours behave as those of the standard library do, which is asked beside them."""

import copy
import dataclasses
import pickle

import pytest

from dossier.notation.records import dataclass


@dataclass(frozen=True)
class Ours:
    """A record."""

    name: str
    flow: float = 0.0
    tags: list[str] = dataclasses.field(default_factory=list)


@dataclasses.dataclass(frozen=True)
class Theirs:
    """The same by the standard library."""

    name: str
    flow: float = 0.0
    tags: list[str] = dataclasses.field(default_factory=list)


@dataclass(frozen=True)
class Further(Ours):
    """A record that adds a field and says itself how it is printed."""

    place: str = ""

    def __repr__(self):
        return f"further {self.name}"


GIVEN = [
    (("a",), {}),
    (("a", 2.0), {}),
    (("a", 2.0, ["x"]), {}),
    ((), {"name": "a"}),
    ((), {"tags": ["x"], "name": "a"}),
    (("a",), {"tags": ["x"]}),
]
REFUSED = [
    ((), {}),
    ((), {"flow": 1.0}),
    (("a", 1.0, [], 4), {}),
    (("a",), {"name": "b"}),
    (("a",), {"colour": "red"}),
    (("a", 1.0), {"colour": "red"}),
    ((), {"name": "a", "flow": 1.0, "colour": "red"}),
]


@pytest.mark.parametrize(("given", "named"), GIVEN)
def test_fields_are_filled_alike(given, named):
    ours, theirs = Ours(*given, **named), Theirs(*given, **named)
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert repr(ours) == repr(theirs).replace("Theirs", "Ours")


@pytest.mark.parametrize(("given", "named"), REFUSED)
def test_what_is_missing_unknown_or_given_twice_is_refused_alike(given, named):
    for cls in (Ours, Theirs):
        with pytest.raises(TypeError):
            cls(*given, **named)


def test_defaults_are_made_anew_for_each():
    assert Ours("a").tags is not Ours("a").tags


def test_equality_and_hash_go_by_class_and_fields():
    assert Ours("a", 1.0) == Ours("a", 1.0)
    assert Ours("a", 1.0) != Ours("a", 2.0)
    assert Ours("a") != Further("a")
    assert Ours("a") != Theirs("a")
    one, other = Ours("a", 1.0, ()), Ours("a", 1.0, ())
    assert hash(one) == hash(other) == hash(Theirs("a", 1.0, ()))


def test_nothing_can_be_set_or_deleted():
    ours = Ours("a")
    with pytest.raises(dataclasses.FrozenInstanceError):
        ours.name = "b"
    with pytest.raises(dataclasses.FrozenInstanceError):
        del ours.name
    with pytest.raises(dataclasses.FrozenInstanceError):
        ours.colour = "red"


def test_copies_of_every_kind_are_equal():
    ours = Further("a", 1.0, ["x"], "locker")
    for same in (copy.copy(ours), copy.deepcopy(ours), pickle.loads(pickle.dumps(ours))):
        assert same == ours
    assert dataclasses.replace(ours, place="bilge") == Further("a", 1.0, ["x"], "bilge")


def test_fields_are_those_declared_and_match_by_place():
    assert [field.name for field in dataclasses.fields(Further)] == ["name", "flow", "tags", "place"]
    match Ours("a", 2.0):
        case Ours(name, flow):
            assert (name, flow) == ("a", 2.0)


def test_what_a_class_says_itself_stays():
    assert repr(Further("a")) == "further a"


def test_what_the_shared_methods_cannot_do_is_refused():
    with pytest.raises(TypeError, match="standard library"):
        dataclass(frozen=False)

    class Checked:
        """A class with something to do once it is filled."""

        name: str

        def __post_init__(self):
            """Look at the name."""

    with pytest.raises(TypeError, match="standard library"):
        dataclass(frozen=True)(Checked)
