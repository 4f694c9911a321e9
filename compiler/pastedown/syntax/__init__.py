"""From text to tree. The only folder that uses lark."""
