"""How much work is left: counted, so that the same problem ends at the same place."""

from dataclasses import replace
from time import perf_counter

from halfpail.application.ports import SeasonEffort, SeasonProgress


class Stopped(Exception):
    """The clock or the caller ended a long count in the middle."""


class Pace:
    """Counts work in units of about a millisecond, and listens for the clock and for a stop."""

    def __init__(self, effort: SeasonEffort, allowance: float) -> None:
        self.effort = effort
        self.left = allowance * effort.work
        self.began = perf_counter()
        self.proven: float | None = None
        self.proves = True

    def share(self, part: float) -> "Pace":
        """A pace with this part of the work and of the time left; it shares the clock.

        It serves a search of another problem on the way: what that proves is not told.
        """
        seconds = self.seconds_left
        until = None if seconds is None else self.seconds + part * seconds
        pace = Pace(replace(self.effort, work=1.0, seconds=until), part * self.left)
        pace.began, pace.proven, pace.proves = self.began, self.proven, False
        return pace

    @property
    def seconds(self) -> float:
        """Seconds gone."""
        return perf_counter() - self.began

    @property
    def seconds_left(self) -> float | None:
        """Seconds left, None when no limit of time is set."""
        limit = self.effort.seconds
        return None if limit is None else max(0.0, limit - self.seconds)

    def spend(self, units: float) -> None:
        """Count work done."""
        self.left -= units

    def stopped(self) -> bool:
        """Whether the clock or the caller ends the search now."""
        late = self.effort.seconds is not None and self.seconds >= self.effort.seconds
        return late or (self.effort.should_stop is not None and self.effort.should_stop())

    def go_on(self) -> None:
        """To be asked within a long count.

        Raises:
            Stopped: the clock or the caller ends the search now.
        """
        if self.stopped():
            raise Stopped

    def over(self) -> bool:
        """Whether the work is spent or the search is stopped."""
        return self.left <= 0 or self.stopped()

    def tell(self, value: float | None, bound: float | None) -> None:
        """Tell the caller of news; a bound once proven stays."""
        if self.proves and bound is not None:
            self.proven = bound if self.proven is None else max(self.proven, bound)
        if self.effort.on_progress is not None:
            self.effort.on_progress(
                SeasonProgress(value=value, bound=self.proven, seconds=self.seconds)
            )
