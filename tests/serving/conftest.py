"""Callers with settings of their own, as at the door; and live servers."""

from tests.door.conftest import asking, furnished

__all__ = ["asking", "furnished"]
