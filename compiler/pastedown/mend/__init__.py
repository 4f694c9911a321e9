"""The smallest change that makes a refused design go together."""
