"""One volume over another: room over expansion, content over contraction."""

from typing import Annotated

from dossier.notation import ARITHMETIC, Real, formula, q


@formula("r = V_1/V_2", ARITHMETIC)
def volume_ratio(
    one: Annotated[Real, q("V_1", "m3", "volume", low=0, high=100)],
    other: Annotated[Real, q("V_2", "m3", "volume it is compared with", low=1e-12, high=100)],
) -> Annotated[Real, q("r", "1", "one over the other")]:
    """One volume over another."""
    return one / other
