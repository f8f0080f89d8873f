"""Tables of water and of aqueous glycol, and the script that renews them from a general-purpose library."""
