"""Tables of the world, each row with its source; nothing here calculates."""
