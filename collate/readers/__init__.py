"""Bytes in, transcripts out."""
