"""From the text on a part to what it says, mark by mark."""
