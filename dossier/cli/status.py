"""What a command gives back to whoever called it."""

DONE = 0
NOT_MET = 1
"""At least one check is not met; ``check`` alone says so."""
FAULT = 2
"""Something is wrong that the message explains."""
