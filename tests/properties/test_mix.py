"""What stirring keeps, whatever is stirred."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from halfpail.domain.band import mix_bands
from halfpail.domain.matter import PRIMARY, Nutrient
from halfpail.domain.mix import Mix, Part, guarantee, one_scoop_more, stir
from tests.unit.domain.bags import bag

percents = st.integers(0, 300).map(lambda tenths: Fraction(tenths, 10))
densities = st.integers(30, 160).map(lambda hundredths: Fraction(hundredths, 100))
prices = st.integers(0, 900).map(lambda cents: Fraction(cents, 100))


@st.composite
def parts(draw: st.DrawFn) -> list[Part]:
    return [
        Part(
            bag=bag(
                f"bag {number}",
                *(draw(percents) for _ in PRIMARY),
                density=draw(densities),
                usable=Fraction(draw(st.integers(0, 10)), 10),
                price_per_kg=draw(prices),
            ),
            scoops=draw(st.integers(1, 12)),
        )
        for number in range(draw(st.integers(1, 5)))
    ]


scoops_l = st.integers(1, 40).map(lambda tenths: Fraction(tenths, 10))


@given(parts(), scoops_l)
def test_mass_is_kept(given_parts: list[Part], scoop_l: Fraction):
    mix = stir(given_parts, scoop_l)
    masses = [p.scoops * scoop_l * p.bag.density.typical for p in given_parts]
    assert mix.mass_kg == sum(masses)
    for nutrient in PRIMARY:
        held = sum(
            mass * p.bag.label.analysis.of(nutrient)
            for mass, p in zip(masses, given_parts, strict=True)
        )
        assert mix.mass_kg * mix.analysis.of(nutrient) == held


@given(parts(), scoops_l, st.randoms(use_true_random=False))
def test_the_order_of_the_bags_does_not_matter(given_parts, scoop_l, random):
    shuffled = list(given_parts)
    random.shuffle(shuffled)
    one, other = stir(given_parts, scoop_l), stir(shuffled, scoop_l)
    assert _numbers(one) == _numbers(other)


@given(parts(), scoops_l, st.integers(2, 9))
def test_more_rounds_leave_the_mix_as_it_is(given_parts, scoop_l, rounds):
    once = stir(given_parts, scoop_l)
    often = stir([Part(bag=p.bag, scoops=p.scoops * rounds) for p in given_parts], scoop_l)
    assert often.analysis == once.analysis
    assert often.usable_n == once.usable_n
    assert often.cost_per_kg == once.cost_per_kg
    assert often.mass_kg == rounds * once.mass_kg


@given(parts(), scoops_l, st.integers(0, 30))
def test_bands_hold_the_number(given_parts, scoop_l, error_percent):
    mix = stir(given_parts, scoop_l)
    bands = mix_bands(mix, Fraction(error_percent, 100))
    for band in (
        *bands.shares.values(),
        bands.mass_kg,
        bands.usable_n,
        bands.cost_per_kg,
        bands.p2o5_per_usable_n,
    ):
        assert band is None or band.low <= band.value <= band.high


@given(parts(), scoops_l)
def test_one_more_scoop_moves_towards_that_bag(given_parts, scoop_l):
    mix = stir(given_parts, scoop_l)
    for part in given_parts:
        more = one_scoop_more(mix, part.bag)
        for nutrient in PRIMARY:
            of_bag = part.bag.label.analysis.of(nutrient)
            before, after = mix.analysis.of(nutrient), more.analysis.of(nutrient)
            assert abs(of_bag - after) <= abs(of_bag - before)
            assert (before - of_bag) * (after - of_bag) >= 0


@given(parts(), scoops_l)
def test_a_printed_grade_is_never_more_than_the_mix(given_parts, scoop_l):
    made = stir(given_parts, scoop_l).analysis.grade
    for step in (Fraction(1), Fraction(1, 10)):
        printed = guarantee(made, step)
        for name in ("n", "p2o5", "k2o"):
            assert 0 <= getattr(made, name) - getattr(printed, name) < step


def _numbers(mix: Mix) -> tuple[object, ...]:
    shares = tuple(mix.analysis.of(nutrient) for nutrient in Nutrient)
    return mix.mass_kg, mix.volume_l, shares, mix.usable_n, mix.cost
