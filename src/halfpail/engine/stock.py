"""What one basket and the shed hold, and what it is worth at some prices."""

from dataclasses import dataclass, replace

import numpy as np

from halfpail.engine.figures import Figures, Floats, Wholes


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Whole scoops there are of each bag, what one more is charged, and the money that is fixed."""

    scoops: Wholes
    scoop_price: Floats
    fixed: float


def stock_of(figures: Figures, basket: Wholes, worth: Floats) -> Stock:
    """A basket where rounds are whole: what is only ever mixed is then taken exactly.

    Its price is none but what the shed asks for it; bags that may go straight keep their worth.
    """
    straights = np.zeros(figures.bags, dtype=bool)
    straights[[bag for bags in figures.straight for bag in bags]] = True
    asked = np.where(straights, worth, np.minimum(worth, figures.shed_price))
    scoop_kg = figures.measure_kg / figures.measure
    there = (basket * figures.bag_kg + figures.shed_kg) / scoop_kg
    return Stock(
        scoops=np.floor(there + 1e-9).astype(np.int64),
        scoop_price=asked * scoop_kg,
        fixed=fixed_part(figures, basket, asked),
    )


def fixed_part(figures: Figures, basket: Wholes, worth: Floats) -> float:
    """Money for the basket, less what can be used of its bags at these prices."""
    f = figures
    idle = idle_kg(f, basket)
    from_shed = np.where(basket > 0, 0.0, idle)
    shed = np.minimum(0.0, f.shed_price - worth) * (f.shed_kg - from_shed)
    bought = basket * f.price - worth * (basket * f.bag_kg - (idle - from_shed))
    return float(bought.sum() + shed.sum())


def idle_kg(figures: Figures, basket: Wholes) -> Floats:
    """What a basket leaves of each bag that is only ever mixed, in whole scoops."""
    straights = {bag for bags in figures.straight for bag in bags}
    scoop_kg = figures.measure_kg / figures.measure
    there = basket * figures.bag_kg + figures.shed_kg
    idle: Floats = there - np.floor(there / scoop_kg + 1e-9) * scoop_kg
    idle[list(straights)] = 0.0
    return np.maximum(idle, 0.0)


def only_there(figures: Figures, basket: Wholes) -> Figures:
    """The same season without straight bags of which the basket and the shed hold none."""
    there_kg = basket * figures.bag_kg + figures.shed_kg
    enough = there_kg >= figures.measure_kg * (1 - 1e-9)
    return replace(
        figures,
        straight=tuple(tuple(i for i in bags if enough[i]) for bags in figures.straight),
    )
