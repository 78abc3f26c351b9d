"""`python -m tests.drills` lists the drills."""
import ast
from pathlib import Path

for path in sorted(Path(__file__).parent.glob("[a-z]*.py")):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    if any(isinstance(node, ast.FunctionDef) and node.name == "main" for node in tree.body):
        summary = (ast.get_docstring(tree) or "").split("\n")[0]
        print(f"python -m tests.drills.{path.stem:12} {summary}")
