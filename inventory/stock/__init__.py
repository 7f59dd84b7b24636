"""Stock arithmetic: demand, reorder levels, what to pull, what wears."""
