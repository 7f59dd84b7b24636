"""The bench, function by function."""
