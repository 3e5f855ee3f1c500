"""What gives way first in a cut: every limit of a setup, and what would mend it."""
