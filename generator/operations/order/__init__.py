"""Numbers put in order, and two compared."""
