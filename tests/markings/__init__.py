"""Tests of the marking grammars."""
