"""From transcriptions of several copies of one text to a critical apparatus."""
