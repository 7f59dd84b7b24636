"""Alembic's folder: the environment and one file a schema version."""
