"""Finding what could stand in, and putting it in order."""
