"""The invented shop that ``salvage demo`` shows."""
