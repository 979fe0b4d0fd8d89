"""What every test runs under: the same examples each time, and no clock in the verdict."""

from hypothesis import HealthCheck, settings

# A failure must come back on every machine: examples follow from the test itself, and a slow or
# busy machine is no failure.
settings.register_profile(
    "repeatable",
    derandomize=True,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("repeatable")
