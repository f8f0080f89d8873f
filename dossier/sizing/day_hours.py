"""How does the burner run, hour by hour of the simulated day?"""

from typing import Annotated

from dossier.notation import Real, q
from dossier.notation.records import dataclass
from dossier.sizing.day_record import DayRecord

HOUR = 3600.0
HOURS = 24


@dataclass(frozen=True)
class BurnerHour:
    """One hour of the day: how long the flame burns in it, and how often it lights."""

    hour: int
    burning: Annotated[Real, q("t", "s", "time the flame burns")]
    starts: int


def burner_hours(record: DayRecord) -> tuple[BurnerHour, ...]:
    """The twenty-four hours of a day."""
    burning, starts = [0.0] * HOURS, [0] * HOURS
    for begin, length in record.runs():
        first = min(int(begin // HOUR), HOURS - 1)
        if begin > 0:
            starts[first] += 1
        for hour in range(first, HOURS):
            low, high = max(begin, hour * HOUR), min(begin + length, (hour + 1) * HOUR)
            if high <= low:
                break
            burning[hour] += high - low
    return tuple(BurnerHour(hour, burning[hour], starts[hour]) for hour in range(HOURS))
