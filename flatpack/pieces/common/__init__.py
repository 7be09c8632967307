"""What several design families share: parts that are set out alike."""
