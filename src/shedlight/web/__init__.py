"""Floor 7: the page in the browser, served to this machine only; it computes nothing itself."""
