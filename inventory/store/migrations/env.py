"""Runs the migrations on the connection that was handed in; never opens one of its own."""

from alembic import context

from inventory.store.migrate import version_table

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    transactional_ddl=True,
    transaction_per_migration=False,
    version_table=version_table(connection),
)
context.run_migrations()
