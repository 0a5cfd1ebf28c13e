"""What the environment may decide, and what is refused."""

from dataclasses import fields

import pytest
from gunicorn.util import parse_address

from service.settings import TABLE, BadSetting, Settings, read_settings


def test_an_empty_environment_serves_this_machine_only() -> None:
    settings = read_settings({})
    assert (settings.port, settings.bind) == (8000, "127.0.0.1")
    assert (settings.workers, settings.threads) == (2, 4)
    assert (settings.max_body, settings.max_parts) == (1_048_576, 500)
    assert settings.reference_url.endswith("/.dryfit/reference.sqlite")


def test_a_value_that_is_set_but_empty_takes_its_default() -> None:
    assert read_settings({"PORT": ""}).port == 8000


# The port is written behind it, so an address of IPv6 stands in brackets (RFC 3986, 3.2.2).
@pytest.mark.parametrize("text", ["::1", "[::1]"])
def test_an_address_of_ipv6_can_be_listened_on(text: str) -> None:
    bind = read_settings({"DRYFIT_BIND": text}).bind
    assert parse_address(f"{bind}:8000") == ("::1", 8000)


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("PORT", "0"),
        ("PORT", "65536"),
        ("PORT", "80a"),
        ("PORT", "-1"),
        ("PORT", "\u0663"),
        ("PORT", "9" * 5000),
        ("PORT", "000000000080" + "9" * 5),
        ("DRYFIT_BIND", "two words"),
        ("DRYFIT_BIND", "127.0.0.1:80"),
        ("DRYFIT_BIND", "localhost:80"),
        ("DRYFIT_REFERENCE_URL", "reference.sqlite"),
        ("DRYFIT_REFERENCE_URL", "mysql://here/it"),
        ("DRYFIT_WORKERS", "0"),
        ("DRYFIT_THREADS", "many"),
        ("DRYFIT_MAX_BODY", "100"),
        ("DRYFIT_MAX_PARTS", "0"),
        ("DRYFIT_DEADLINE", "0"),
        ("DRYFIT_PROXIES", "-1"),
        ("DRYFIT_RATE", "600"),
        ("DRYFIT_RATE", "0/minute"),
        ("DRYFIT_RATE", "6/minutes"),
        ("DRYFIT_RATE_POST", "10 per minute"),
        ("DRYFIT_RATE_STORE", "redis"),
        ("DRYFIT_RATE_STORE", "memcached://here"),
        ("DRYFIT_ORIGINS", "*"),
        ("DRYFIT_ORIGINS", "https://dryfit.test/"),
        ("DRYFIT_ORIGINS", "http\x3a//*.dryfit.test"),
        ("DRYFIT_ORIGINS", "https://dryfit.test, https://dryfit.test"),
        ("DRYFIT_ORIGINS", "null"),
        ("DRYFIT_LOG", "loud"),
        ("DRYFIT_METRICS", "on"),
        ("DRYFIT_SECURITY_CONTACT", "me"),
        ("DRYFIT_SECURITY_CONTACT", "mailto:a\nb"),
    ],
)
def test_nonsense_is_refused_by_name(name: str, text: str) -> None:
    with pytest.raises(BadSetting, match=f"^{name} must be "):
        read_settings({name: text})


def test_every_field_has_one_line_in_the_table() -> None:
    assert [setting.field for setting in TABLE] == [field.name for field in fields(Settings)]
    assert len({setting.name for setting in TABLE}) == len(TABLE)
    assert all(setting.meaning for setting in TABLE)
