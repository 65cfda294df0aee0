"""What manuscript.toml says: of the whole book, of its pages, of tablature, of its tracks."""
