"""Transcripts in, words out."""
