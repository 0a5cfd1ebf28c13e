"""Fixtures shared by every test, and one fixed profile for the property tests."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "dryfit",
    derandomize=True,
    deadline=None,
    max_examples=100,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("dryfit")
