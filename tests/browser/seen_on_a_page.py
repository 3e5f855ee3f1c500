"""What a page shows: what is lost on it, where the keyboard is, and in what colours it is drawn."""

IDS = """() => {
    const ids = [...document.querySelectorAll('[id]')].map(one => one.id);
    const naming = '[aria-labelledby], label[for], [aria-controls]';
    const named = [...document.querySelectorAll(naming)].filter(one => !one.closest('.md-nav'))
        .flatMap(one => (one.getAttribute('aria-labelledby') || one.getAttribute('for')
            || one.getAttribute('aria-controls')).split(/\\s+/));
    return [ids.filter((id, at) => ids.indexOf(id) !== at), named.filter(id => !ids.includes(id))];
}"""
OVER_THE_EDGE = """() => {
    const scrolls = element => {
        for (let one = element; one && one !== document.body; one = one.parentElement)
            if (/auto|scroll/.test(getComputedStyle(one).overflowX)) return true;
        return false;
    };
    return [...document.querySelectorAll('article *')].filter(element => {
        const box = element.getBoundingClientRect();
        return box.width > 1 && box.right > document.documentElement.clientWidth + 1
            && !element.closest('svg, .shoplog-told') && !scrolls(element.parentElement);
    }).map(element => element.outerHTML.slice(0, 90));
}"""
CUT_OFF = """() => [...document.querySelectorAll('article [class*=shoplog], [class*=shoplog] *')]
    .filter(element => !element.closest('svg, .shoplog-told') && element.clientWidth
        && /hidden|clip/.test(getComputedStyle(element).overflowX)
        && element.scrollWidth > element.clientWidth + 1)
    .map(element => element.outerHTML.slice(0, 90))"""
OVERLAPPING = """() => {
    const words = [];
    const blocks = document.querySelectorAll('.shoplog-block, .shoplog-page, div.shoplog-problem');
    for (const block of blocks) {
        const walk = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
        while (walk.nextNode()) {
            const node = walk.currentNode;
            if (!node.data.trim() || node.parentElement.closest('svg, math, select')) continue;
            if (getComputedStyle(node.parentElement).clipPath !== 'none') continue;
            if (!node.parentElement.checkVisibility({visibilityProperty: true})) continue;
            const range = document.createRange();
            range.selectNodeContents(node);
            for (const box of range.getClientRects())
                if (box.width > 1) words.push([node, box]);
        }
    }
    words.sort((one, other) => one[1].top - other[1].top);
    const found = [];
    for (let at = 0; at < words.length; at++)
        for (let next = at + 1; next < words.length; next++) {
            const [[one, a], [other, b]] = [words[at], words[next]];
            if (b.top >= a.bottom) break;
            const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const down = Math.min(a.bottom, b.bottom) - b.top;
            // Lines of one text lie within each other by their leading.
            if (one !== other && across > 2 && down > Math.min(a.height, b.height) * 0.45)
                found.push([one.data.trim().slice(0, 40), other.data.trim().slice(0, 40)]);
        }
    return found;
}"""
# What WCAG 2.2, 1.4.12 lets a reader set.
SPACED = """article * { line-height: 1.5 !important; letter-spacing: 0.12em !important;
    word-spacing: 0.16em !important; } article p { margin-bottom: 2em !important; }"""


def lost(page):
    """What is over the edge, cut off, or over other words."""
    beyond = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    beyond = [f"{beyond} px beyond the side"] if beyond > 0 else []
    found = [page.evaluate(script) for script in (OVER_THE_EDGE, CUT_OFF, OVERLAPPING)]
    return beyond + [one for each in found for one in each]


# ---- the keyboard ----

FOCUSED = """() => {
    const one = document.activeElement;
    if (!one || one === document.body) return null;
    const style = getComputedStyle(one), box = one.getBoundingClientRect();
    const left = Math.max(0, box.left), right = Math.min(innerWidth, box.right);
    const top = Math.max(0, box.top), bottom = Math.min(innerHeight, box.bottom);
    const hits = [0.1, 0.5, 0.9].flatMap(x => [0.1, 0.5, 0.9].map(y =>
        document.elementFromPoint(left + (right - left) * x, top + (bottom - top) * y)));
    return {
        at: one.dataset.stop ||= `other ${window.others = 1 + (window.others || 0)}`,
        ours: !!one.closest('.shoplog-block, .shoplog-problem, .shoplog-page'),
        name: one.outerHTML.slice(0, 100),
        outline: [style.outlineStyle, parseFloat(style.outlineWidth), style.outlineColor],
        seen: bottom > top && hits.some(hit => hit && one.contains(hit)),
    };
}"""
REACHABLE = """() => {
    const within = '.shoplog-block, .shoplog-problem, .shoplog-page';
    return [...document.querySelectorAll('*')].filter(one => one.closest(within)
        && one.matches('a[href], button, summary, input, select, [tabindex="0"]')
        && !one.disabled && one.checkVisibility({visibilityProperty: true})
        && !(one.type === 'radio' && !one.checked)
    ).map((one, number) => one.dataset.stop = `stop ${number}`);
}"""


def walk(page, key, most=400):
    """What has the focus, key after key, until it leaves the page or comes round again.

    Not only round to the first: the theme's link to the top comes and goes as one scrolls.
    """
    seen = set()
    for _ in range(most):
        page.keyboard.press(key)
        found = page.evaluate(FOCUSED)
        if found is None or found["at"] in seen:
            return
        seen.add(found["at"])
        yield found
    raise AssertionError(f"{key} does not come out of the page after {most} times")


# ---- forced colours ----

FORCED = """() => {
    const ground = getComputedStyle(document.body).backgroundColor;
    const brush = new OffscreenCanvas(1, 1).getContext('2d', {willReadFrequently: true});
    const plain = colour => {
        for (brush.fillStyle of [ground, colour]) brush.fillRect(0, 0, 1, 1);
        return `rgb(${brush.getImageData(0, 0, 1, 1).data.slice(0, 3).join(', ')})`;
    };
    const seen = (selector, property) => [...document.querySelectorAll(selector)]
        .filter(one => one.checkVisibility())
        .map(one => [plain(getComputedStyle(one)[property]), ground]);
    return {
        words: seen('svg text', 'fill'),
        outlines: seen('.shoplog-outline > *, .shoplog-thin > *, .shoplog-dimension > *', 'stroke'),
        hatching: seen('.shoplog-hatch', 'stroke'),
        marks: seen('svg [class^=shoplog-went]', 'fill'),
        borders: seen(
            '.shoplog-block:not(.shoplog-setups-page), div.shoplog-problem', 'borderLeftColor'),
        signs: seen('.shoplog-verdict strong, .shoplog-caution strong', 'color'),
    };
}"""
