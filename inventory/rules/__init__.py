"""Judging one part offered for another: verdicts with sentences and sources."""
