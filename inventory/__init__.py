"""A repair bench's shelf: what lies on it, what it is rated for, and what can stand in for what."""

__version__ = "0.1.0"
