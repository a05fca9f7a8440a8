"""Findings in, a document out."""
