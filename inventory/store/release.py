"""Which schema this program writes."""

SCHEMA_VERSION = 1
"""Stands in ``PRAGMA user_version``; one more with every migration in ``migrations/versions``."""
