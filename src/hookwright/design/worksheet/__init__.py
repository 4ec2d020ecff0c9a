"""The worksheet of a project: what a designer notes beside her pattern, as TOML."""
