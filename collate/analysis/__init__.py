"""What a difference means."""
