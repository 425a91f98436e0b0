"""The open garden and what goes with it: document, findings, recovery, clipboard, background jobs."""
