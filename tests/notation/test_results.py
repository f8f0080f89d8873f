"""Results are found by their dotted names from the declarations of their classes."""

from dataclasses import dataclass
from typing import Annotated

from dossier.notation import NotAssessed, Real, named_results, q, slug


@dataclass(frozen=True)
class Part:
    zone: str
    loss: Annotated[Real, q("Φ", "W", "loss", name="loss.{zone}")]
    silent: Annotated[Real | None, q("Φ", "W", "silent", name="silent.{zone}")] = None


@dataclass(frozen=True)
class Whole:
    parts: tuple[Part, ...]
    by_name: dict[str, Part]
    open: NotAssessed
    inner: Annotated[Real, q("x", "1", "no result of its own")]


def test_every_declared_result_is_named_once_in_order_and_silence_is_left_out():
    whole = Whole(
        (Part("fore cabin", 1.0), Part("heads", 2.0)),
        {"a": Part("wheel-house", 3.0)},
        NotAssessed("?", ()),
        9.0,
    )
    assert [(r.name, r.value) for r in named_results(whole)] == [
        ("loss.fore_cabin", 1.0),
        ("loss.heads", 2.0),
        ("loss.wheel_house", 3.0),
    ]


def test_letters_beyond_ascii_stay_in_a_name():
    assert slug("Mädchen 2/3") == "Mädchen_2_3"


@dataclass(frozen=True)
class Way:
    name: str
    part: Part
    length: Annotated[Real, q("L", "m", "length", name="way.length")]

    def result_name(self, name: str) -> str:
        return f"way.{self.name}.{name.removeprefix('way.')}" if self.name else name


def test_several_of_one_class_stand_side_by_side_under_names_of_their_own():
    ways = (Way("", Part("saloon", 1.0), 2.0), Way("aft", Part("saloon", 3.0), 4.0))
    assert [(r.name, r.value) for r in named_results(ways)] == [
        ("loss.saloon", 1.0),
        ("way.length", 2.0),
        ("way.aft.loss.saloon", 3.0),
        ("way.aft.length", 4.0),
    ]
