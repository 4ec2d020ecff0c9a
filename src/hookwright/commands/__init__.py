"""What each command does, a module a command, imported when it is called."""
