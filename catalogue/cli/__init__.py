"""The command line: parse, ask, print. It holds no rule, and each command loads only what it uses."""
