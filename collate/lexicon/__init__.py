"""What the engine knows of Middle English, manuscripts and dates."""
