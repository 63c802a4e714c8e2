"""From a spec and a seed to a pack: what is chosen, why a rung is empty, codes and the record."""
