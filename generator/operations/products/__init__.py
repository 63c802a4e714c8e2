"""Multiplication, decimals through whole numbers."""
