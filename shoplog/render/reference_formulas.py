"""The reference of formulas: one page a trade module, from the declarations alone."""

from __future__ import annotations

import ast
import inspect
import re
import sys
import textwrap
from collections.abc import Callable, Iterable, Iterator
from doctest import DocTestParser
from typing import Any, get_args, get_origin

from shoplog.calc.results import Result
from shoplog.calc.show import show
from shoplog.log import report_of_text
from shoplog.trade.declare import In, Offer, Parameter, Size, readable_fields
from shoplog.trade.offers import OFFERS

__all__ = ["example_call", "formula_pages", "kind_text", "sections"]

_SECTION = re.compile(r"^(\w+)\n-{3,}$", re.MULTILINE)
_PARAMETER = re.compile(r"^(\w+) : (.+?) \[([^\]]+)\]$")
# What an equation may call besides its parameters: then its line of code is the equation.
_MATHEMATICS = frozenset(("pi", "atan", "tan", "sin", "cos", "sqrt", "degrees", "radians"))


def formula_pages() -> dict[str, str]:
    """A page a topic: its text, by its file name."""
    topics: dict[str, list[Offer]] = {}
    for offer in OFFERS.values():
        topics.setdefault(offer.topic, []).append(offer)
    pages = {f"{topic}.md": _topic_page(topic, offers) for topic, offers in topics.items()}
    return {"index.md": _index(topics), **pages}


def _index(topics: dict[str, list[Offer]]) -> str:
    lines = ["# Formulas", "", "What a calculation block may call, by subject.", ""]
    for topic, offers in sorted(topics.items()):
        lines += [f"## {topic.capitalize()}", "", "| formula | what it gives |", "|---|---|"]
        lines += [f"| [`{o.name}`]({topic}.md#{o.name}) | {_cell(o.summary)} |" for o in offers]
        lines.append("")
    return "\n".join(lines)


def _topic_page(topic: str, offers: list[Offer]) -> str:
    about = inspect.getdoc(sys.modules[offers[0].function.__module__]) or ""
    lines = [f"# {topic.capitalize()}", "", about, ""]
    for offer in offers:
        lines += _formula(offer)
    records = dict.fromkeys(record for offer in offers for record in _records(offer.returns))
    if records:
        lines += ["## What comes back", "", "The fields are read with a point: `choice.speed`.", ""]
    for record in records:
        lines += _record(record)
    return "\n".join(lines)


def _formula(offer: Offer) -> list[str]:
    doc = sections(offer.function)
    about = doc[""].partition("\n\n")
    lines = [f"## {offer.name} {{#{offer.name}}}", "", about[0], ""]
    lines += ["```text", _signature(offer), "```", ""]
    if about[2]:
        lines += [_prose(about[2]), ""]
    body = _equation(offer.function)
    if body:
        lines += ["As it is worked out:", "", "```text", body, "```", ""]
    lines += _parameters(offer, doc.get("Parameters", ""))
    lines += ["**Gives**", "", _returns(offer, doc.get("Returns", "")), ""]
    for name in ("Notes", "Raises"):
        if name in doc:
            title = "It refuses" if name == "Raises" else name
            text = _raises(doc[name]) if name == "Raises" else _prose(doc[name])
            lines += [f"**{title}**", "", text, ""]
    lines += _example(offer)
    lines += [line for text in offer.cautions for line in _caution(text)]
    return [*lines, f"*Source: {offer.source}.*", ""]


def _caution(text: str) -> Iterator[str]:
    yield from ('!!! warning "Caution"', "", f"    {text[0].upper()}{text[1:]}.", "")


def sections(function: Callable[..., Any]) -> dict[str, str]:
    """A docstring's sections by their title; what comes before the first is under `""`."""
    parts = _SECTION.split(inspect.getdoc(function) or "")
    titled = zip(parts[1::2], parts[2::2], strict=True)
    return {"": parts[0].strip(), **{title: text.strip() for title, text in titled}}


def _prose(text: str) -> str:
    return text.replace("*", r"\*").replace("[=", r"\[=")


def _cell(text: str) -> str:
    return _prose(" ".join(text.split())).replace("|", r"\|")


def _signature(offer: Offer) -> str:
    given = ", ".join(_parameter_text(parameter) for parameter in offer.parameters)
    gives = " or ".join(kind_text(kind) for kind in offer.returns)
    line = f"{offer.name}({given}) → {gives}"
    if len(line) <= 88:
        return line
    inner = "".join(f"    {_parameter_text(parameter)},\n" for parameter in offer.parameters)
    return f"{offer.name}(\n{inner}) → {gives}"


def _parameter_text(parameter: Parameter) -> str:
    kinds = " or ".join(kind_text(kind) for kind in parameter.kinds)
    if parameter.required:
        return f"{parameter.name}: {kinds}"
    default = {None: "not given", "": '""'}.get(parameter.default, f"{parameter.default}")
    return f"{parameter.name}: {kinds} = {default}"


def kind_text(kind: Any) -> str:
    """What a parameter or a result is: a unit, or what a page calls such a value."""
    if isinstance(kind, In):
        return kind.unit or "plain number"
    if get_origin(kind) is list:
        return f"list of {kind_text(get_args(kind)[0])}"
    named = {str: "text", bool: "true or false", int: "whole number", Size: "size with limits"}
    name: str = named.get(kind, getattr(kind, "__name__", str(kind)))
    return name


def _parameters(offer: Offer, text: str) -> list[str]:
    told = dict(_entries(text))
    lines = ["| argument | unit or kind | range |", "|---|---|---|"]
    for parameter in offer.parameters:
        kinds = " or ".join(kind_text(kind) for kind in parameter.kinds)
        lines.append(f"| `{parameter.name}` | {kinds} | {_cell(told.get(parameter.name, ''))} |")
    return [*lines, ""]


def _entries(text: str) -> Iterator[tuple[str, str]]:
    """The parameters of a docstring section, with what is said of each."""
    name = ""
    told: list[str] = []
    for line in text.splitlines():
        found = _PARAMETER.match(line)
        if found:
            if name:
                yield name, " ".join(told)
            name, told = found[1], []
        else:
            told.append(line.strip())
    if name:
        yield name, " ".join(told)


def _returns(offer: Offer, text: str) -> str:
    told = " ".join(line.strip() for line in text.splitlines()[1:])
    names = [f"[{record.__name__}](#{_anchor(record)})" for record in _records(offer.returns)]
    kinds = names or [f"`{kind_text(kind)}`" for kind in offer.returns]
    return f"{', '.join(kinds)}: {_prose(told)}"


def _raises(text: str) -> str:
    told = [line.strip() for line in text.splitlines() if line.startswith(" ")]
    return _prose(" ".join(told))


def _records(kinds: Iterable[Any]) -> list[type]:
    return [kind for kind in kinds if hasattr(kind, "__dataclass_fields__") and type(kind) is type]


def _anchor(record: type) -> str:
    return "record" + re.sub(r"(?=[A-Z])", "-", record.__name__).casefold()


def _record(record: type) -> list[str]:
    about = (inspect.getdoc(record) or "").replace("\n", " ")
    told = _field_docs(record)
    lines = [f"### {record.__name__} {{#{_anchor(record)}}}", "", _prose(about), ""]
    lines += ["| field | unit or kind | what it is |", "|---|---|---|"]
    for name, kinds in readable_fields(record).items():
        what = " or ".join(kind_text(kind) for kind in kinds if kind is not type(None))
        lines.append(f"| `{name}` | {what} | {_cell(told.get(name, ''))} |")
    return [*lines, ""]


def _field_docs(record: type) -> dict[str, str]:
    """What is said of each field: the text below it, or a property's first sentence."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(record))).body[0]
    assert isinstance(tree, ast.ClassDef)
    told: dict[str, str] = {}
    for node, after in zip(tree.body, [*tree.body[1:], None], strict=True):
        match node, after:
            case ast.FunctionDef(name=name), _:
                told[name] = ast.get_docstring(node) or ""
            case (
                ast.AnnAssign(target=ast.Name(id=name)),
                ast.Expr(value=ast.Constant(value=str(text))),
            ):
                told[name] = text
    return told


def _equation(function: Callable[..., Any]) -> str:
    """The last line of a body, where it is a closed form in the parameters."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(function))).body[0]
    assert isinstance(tree, ast.FunctionDef)
    last = tree.body[-1]
    if not isinstance(last, ast.Return) or not isinstance(last.value, ast.BinOp | ast.Call):
        return ""
    known = {argument.arg for argument in tree.args.args} | _MATHEMATICS
    names = {node.id for node in ast.walk(last.value) if isinstance(node, ast.Name)}
    fields = any(isinstance(node, ast.Attribute) for node in ast.walk(last.value))
    return ast.unparse(last.value) if names <= known and not fields else ""


def _example(offer: Offer) -> list[str]:
    """An example as a page would write it, with what it gives; in Python where no page can."""
    call = example_call(offer)
    item = report_of_text(f"```calc\nexample = {call}\n```\n").blocks[0].items[0]
    if isinstance(item, Result):
        return ["**Example**", "", "```text", call, f"= {show(item.value).both}", "```", ""]
    lines = sections(offer.function)["Examples"].strip().splitlines()
    return ["**Example**, in Python", "", "```pycon", *lines, "```", ""]


def example_call(offer: Offer) -> str:
    """The first example of a docstring, as a page would write it.

    >>> example_call(OFFERS["spindle_speed"])
    'spindle_speed(cutting_speed=30 m/min, diameter=10 mm)'
    """
    given: dict[str, ast.expr] = {}
    for example in DocTestParser().get_examples(sections(offer.function)["Examples"]):
        tree = ast.parse(example.source)
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == offer.name:
                return _written_call(offer, node, given)
        given |= _assigned(tree)
    raise ValueError(f"the docstring of {offer.name} has no example that calls it")


def _assigned(tree: ast.Module) -> dict[str, ast.expr]:
    """What a line of an example gives names to: `hole, shaft = Size(…), Size(…)`."""
    found: dict[str, ast.expr] = {}
    for node in tree.body:
        if not isinstance(node, ast.Assign):
            continue
        match node.targets[0], node.value:
            case ast.Name(id=name), value:
                found[name] = value
            case ast.Tuple(elts=names), ast.Tuple(elts=values) if len(names) == len(values):
                found |= {ast.unparse(n): v for n, v in zip(names, values, strict=True)}
    return found


def _written_call(offer: Offer, call: ast.Call, names: dict[str, ast.expr]) -> str:
    given = dict(zip((p.name for p in offer.parameters), call.args, strict=False))
    given |= {word.arg: word.value for word in call.keywords if word.arg}
    kinds = {parameter.name: parameter.kinds for parameter in offer.parameters}
    texts = {name: _written(kinds.get(name, ()), node, names) for name, node in given.items()}
    sizes = all(kind == (Size,) for kind in kinds.values())
    if len(kinds) == 1 or sizes:
        return f"{offer.name}({', '.join(texts.values())})"
    return f"{offer.name}({', '.join(f'{name}={text}' for name, text in texts.items())})"


def _written(kinds: tuple[Any, ...], node: ast.expr, names: dict[str, ast.expr]) -> str:
    """A Python expression of an example, as a page writes a value of one of these kinds."""
    match node:
        case ast.Name(id=name) if name in names:
            return _written(kinds, names[name], names)
        case ast.Constant(value=str(text)):
            return f'"{text}"'
        case ast.Call(func=ast.Attribute(attr="from_text"), args=[ast.Constant(value=str(text))]):
            return f'"{text}"'
        case ast.Call(func=ast.Name(id="limits_of"), args=[size, ast.Constant(value=str(name))]):
            return f"{ast.unparse(size)} mm {name}"
        case ast.Call(func=ast.Name(id="Size"), args=[size, lower, upper, *named]):
            limits = f"{_signed(upper)}/{_signed(lower)}"
            told = str(named[0].value) if named and isinstance(named[0], ast.Constant) else limits
            return f"{ast.unparse(size)} mm {told}"
        case ast.Call(func=ast.Name(id=name)) if name in OFFERS:
            return _written_call(OFFERS[name], node, names)
        case ast.Attribute(value=ast.Call() as record, attr=field):
            return f"{_written((), record, names)}.{field}"
        case ast.List(elts=items):
            inner = tuple(kind for one in kinds for kind in get_args(one)[:1])
            return f"[{', '.join(_written(inner, item, names) for item in items)}]"
    kind = next((one for one in kinds if isinstance(one, In)), None)
    unit = kind.unit if kind is not None and kind.unit != "tooth/rev" else ""
    return f"{ast.unparse(node)} {unit}".strip()


def _signed(node: ast.expr) -> str:
    text = ast.unparse(node)
    return text if text.startswith("-") else f"+{text}"
