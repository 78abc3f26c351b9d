"""`python -m tests.bench` lists the benches."""
import ast
from pathlib import Path

for path in sorted(Path(__file__).parent.glob("[a-z]*.py")):
    summary = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))).split("\n")[0]
    print(f"python -m tests.bench.{path.stem:12} {summary}")
