"""Screws: thread limits, what goes into which hole, drives, strength."""
