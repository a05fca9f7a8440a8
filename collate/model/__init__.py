"""The nouns: what the stages hand to one another."""
