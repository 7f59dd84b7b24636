"""Tests of the family sheets."""
