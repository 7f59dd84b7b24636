"""Runs the migrations on the connection that was handed in; never opens one of its own."""

from alembic import context

context.configure(
    connection=context.config.attributes["connection"],
    transactional_ddl=True,
    transaction_per_migration=False,
)
context.run_migrations()
