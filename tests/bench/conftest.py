"""What all tests of this folder start from."""

from __future__ import annotations

from tests.store.copies import copied_shelves

__all__ = ["copied_shelves"]
