"""YAML of which nothing can run or grow: every fault has its kind and its place."""

from __future__ import annotations

import pytest
import yaml

from shoplog.log.strict_yaml import Reference, TooDeep, Unread, Unreadable, compose


def test_a_text_becomes_nodes_and_an_empty_one_nothing() -> None:
    assert compose("", 3) is None
    root = compose("part: shaft\nmates: [gear]\n", 3)
    assert isinstance(root, yaml.MappingNode)
    assert [key.value for key, _ in root.value] == ["part", "mates"]


@pytest.mark.parametrize(
    ("text", "kind", "place"),
    [
        ("a: &name x\nb: *name\n", Reference, (0, 3, 5)),
        ("b: *name\n", Reference, (0, 3, 5)),
        ("a: [[[x]]]\n", TooDeep, (0, 5, 1)),
        ("a: [x\n", Unreadable, (0, 3, 1)),
        ("a: 'x\n", Unreadable, (0, 3, 1)),
        ("a: b: c\n", Unreadable, (0, 4, 1)),
        ("a: x\nb: \x07\n", Unreadable, (1, 3, 1)),
        ("a: %x\n", Unreadable, (0, 3, 1)),
        ("a: 1\n---\nb: 2\n", Unreadable, (1, 0, 1)),
    ],
)
def test_what_is_not_read_is_told_with_its_place(
    text: str, kind: type[Unread], place: tuple[int, int, int]
) -> None:
    with pytest.raises(Unread) as raised:
        compose(text, 3)
    fault = raised.value
    assert (type(fault), (fault.line, fault.column, fault.width)) == (kind, place)


def test_a_text_that_grows_without_end_is_refused_before_it_is_built() -> None:
    text = "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a]\n" for n in range(40))
    with pytest.raises(Reference) as raised:
        compose(text, 20)
    assert raised.value.sign == "&a"


def test_a_depth_that_would_end_a_recursion_is_refused() -> None:
    with pytest.raises(TooDeep):
        compose("[" * 5000, 20)
