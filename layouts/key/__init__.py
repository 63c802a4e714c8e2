"""The teacher's key."""
