"""Floor 1: what is known. Duty, site, transformer and bushing, read, validated and written."""
