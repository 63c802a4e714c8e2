"""Division by short division, and how it ends."""
