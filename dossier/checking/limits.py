"""Limits that count for one project: the catalogue's, or the maker's and local rules it states."""

from collections.abc import Mapping
from dataclasses import replace

from dossier.checking.finding import Limit
from dossier.data.catalogue import CatalogueRow, CheckKind, LimitBasis


def of_catalogue(row: CatalogueRow) -> Limit:
    """The catalogue's own limit."""
    return Limit(row, row.limit, row.upper_limit, row.basis, row.source)


def overridden(limit: Limit, at_most: float | None, at_least: float | None, source: str) -> Limit:
    """The limit with the project's own figures; says whether they are laxer than the catalogue's."""
    if limit.row.kind is CheckKind.RANGE:
        value = limit.value if at_least is None else at_least
        upper = limit.upper if at_most is None else at_most
        laxer = _under(at_least, limit.value) or _under(limit.upper, at_most)
    elif limit.row.kind is CheckKind.MAXIMUM:
        value, upper, laxer = at_most, limit.upper, _under(limit.value, at_most)
    else:
        value, upper, laxer = at_least, limit.upper, _under(at_least, limit.value)
    if value is None and upper is None:
        return limit
    basis = LimitBasis.LOCAL_RULE if _names_authority(source) else LimitBasis.MAKER
    return replace(limit, value=value, upper=upper, basis=basis, source=source, overridden=True, laxer=laxer)


def _under(lower: float | None, higher: float | None) -> bool:
    return lower is not None and higher is not None and float(lower) < float(higher)


def _names_authority(source: str) -> bool:
    words = source.casefold()
    return any(word in words for word in ("rule", "authority", "insurer", "harbour", "flag", "law", "survey"))


def limits_of(
    rows: Mapping[str, CatalogueRow], stated: Mapping[str, tuple[float | None, float | None, str]]
) -> dict[str, Limit]:
    """Limit of each check; ``stated`` holds (at most, at least, source) by the name of the check."""
    limits = {name: of_catalogue(row) for name, row in rows.items()}
    for name, (at_most, at_least, source) in stated.items():
        if name in limits:
            limits[name] = overridden(limits[name], at_most, at_least, source)
    return limits
