"""Templates at true size: from a cut piece to the sheets of printer paper that show it."""
