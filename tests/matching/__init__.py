"""Tests of matching."""
