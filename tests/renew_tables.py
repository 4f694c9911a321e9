"""Works the parser's tables out afresh after a change of the grammar: `python tests/renew_tables.py`."""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "compiler"))

from pastedown.syntax.language import parser_from  # noqa: E402
from pastedown.syntax.tables import TABLES_SUFFIX, tables_text  # noqa: E402


def renewed_tables(grammar_file: Path) -> str:
    """The tables as they have to stand beside the grammar."""
    return tables_text(parser_from(grammar_file), grammar_file.read_text(encoding="utf-8"))


if __name__ == "__main__":
    grammar_file = ROOT / "grammar" / "album.lark"
    tables = grammar_file.with_suffix(TABLES_SUFFIX)
    # Put in place whole: a compiler that runs meanwhile reads the old ones or the new ones.
    draft = tables.with_suffix(".draft")
    draft.write_text(renewed_tables(grammar_file), encoding="utf-8")
    draft.replace(tables)
