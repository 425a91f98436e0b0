"""The open garden and what works beside it: document, recovery, clipboard, background jobs."""
