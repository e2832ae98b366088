"""The report of a finished cook: its story, the figures of it, what it teaches, a page, a picture, a few lines."""
