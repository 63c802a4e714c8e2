"""Page plans become PDF bytes."""
