"""Decides what stands beside what."""
