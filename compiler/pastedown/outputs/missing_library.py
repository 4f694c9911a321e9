"""What an output says when it needs a library that is not installed."""


class MissingLibrary(Exception):
    """An output cannot be made here. `package` is what to install; `sentence` says which output wanted it, and why."""

    def __init__(self, package: str, sentence: str) -> None:
        super().__init__(sentence)
        self.package = package
        self.sentence = sentence
