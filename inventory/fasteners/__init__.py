"""Screws: thread limits, what goes into which hole, drives, strength."""

from __future__ import annotations

from inventory.fasteners.answers import answer

__all__ = ["answer"]
