"""The tree as the rules see it: tracked files, parsed modules, and the functions in them."""

import ast
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "halfpail"
SELF_REFERENCE = {"self", "cls"}

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Place:
    """A function and where it stands."""

    module: Path
    name: str
    node: Function
    public: bool

    def __str__(self) -> str:
        """Path, line and name, as an editor opens it."""
        return f"{self.module.relative_to(ROOT)}:{self.node.lineno} {self.name}"

    @property
    def docstring(self) -> str:
        return ast.get_docstring(self.node) or ""

    @property
    def body_lines(self) -> int:
        """Lines of the body without its docstring."""
        body = self.node.body[1:] if self.docstring else self.node.body
        if not body:
            return 0
        return (self.node.end_lineno or 0) - body[0].lineno + 1

    @property
    def parameters(self) -> list[ast.arg]:
        arguments = self.node.args
        named = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
        return [one for one in named if one.arg not in SELF_REFERENCE]


@cache
def tracked() -> tuple[Path, ...]:
    """Every file that git tracks or would add."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    paths = (ROOT / name for name in listed.split("\0") if name)
    return tuple(sorted(path for path in paths if path.is_file()))


@cache
def text_of(path: Path) -> str:
    """The text of a file; nothing where it is not text."""
    try:
        return path.read_text("utf-8")
    except UnicodeDecodeError:
        return ""


@cache
def modules(under: Path = SOURCE) -> tuple[Path, ...]:
    return tuple(sorted(under.rglob("*.py")))


@cache
def parsed(module: Path) -> ast.Module:
    return ast.parse(text_of(module))


def functions(module: Path) -> Iterator[Place]:
    """Every function of a module, nested ones too."""
    yield from _within(module, parsed(module), "", public=not module.stem.startswith("_"))


def _within(module: Path, parent: ast.AST, prefix: str, *, public: bool) -> Iterator[Place]:
    for node in ast.iter_child_nodes(parent):
        if isinstance(node, Function):
            named = public and not node.name.startswith("_")
            yield Place(module=module, name=prefix + node.name, node=node, public=named)
            yield from _within(module, node, f"{prefix}{node.name}.", public=False)
        elif isinstance(node, ast.ClassDef):
            named = public and not node.name.startswith("_")
            yield from _within(module, node, f"{prefix}{node.name}.", public=named)
        else:
            yield from _within(module, node, prefix, public=public)
