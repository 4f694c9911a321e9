"""The parser's tables, worked out once and kept beside the grammar, because working them out takes longer than reading
a recipe with them.

The file says for which grammar and which lark it was made; where either is another, the tables are worked out afresh.
It is plain JSON, so that nothing in it can be run.
"""

import hashlib
import io
import json
import pickle
from pathlib import Path
from typing import Any

import lark
from lark import Lark

TABLES_SUFFIX = ".tables.json"


def tables_text(parser: Lark, grammar: str) -> str:
    """The text of the tables file for a parser made from `grammar`."""
    kept = io.BytesIO()
    parser.save(kept)
    # Written by lark one line above; reading it back is how lark offers its tables as plain values.
    content: dict[str, Any] = pickle.loads(kept.getvalue())
    # Classes of this package, and the grammar's place on this machine, are put back when the tables are read.
    content["data"]["options"] |= {"lexer": None, "transformer": None, "source_path": None}
    content["data"]["parser"]["lexer_conf"]["lexer_type"] = None
    content["made_for"] = _made_for(grammar)
    return json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=True) + "\n"


def read_tables(grammar_file: Path, lexer: type, transformer: object) -> Lark | None:
    """The parser from the tables beside a grammar file; None where there are none for this grammar and this lark, or
    the file is half written or damaged."""
    tables = grammar_file.with_suffix(TABLES_SUFFIX)
    if not tables.is_file():
        return None
    try:
        content = json.loads(tables.read_text(encoding="utf-8"), object_pairs_hook=_with_whole_numbers)
    except ValueError:
        return None
    if not isinstance(content, dict) or content.get("made_for") != _made_for(grammar_file.read_text(encoding="utf-8")):
        return None
    content["data"]["options"]["lexer"] = lexer
    content["data"]["parser"]["lexer_conf"]["lexer_type"] = lexer
    return Lark._load_from_dict(content["data"], content["memo"], transformer=transformer)  # type: ignore[no-any-return, no-untyped-call]


def _made_for(grammar: str) -> str:
    return f"lark {lark.__version__}, {hashlib.sha256(grammar.encode()).hexdigest()}"


def _with_whole_numbers(pairs: list[tuple[str, Any]]) -> dict[str | int, Any]:
    """JSON writes every key as a text; those of states and of word classes are numbers."""
    return {int(key) if key.isdigit() else key: value for key, value in pairs}
