// What a cook's eyes and thumb meet on the page as it is now. Each function returns a list of faults, in words.

const plain = (text) => (text ?? '').replace(/\s+/g, ' ').trim();
const called = (e) => `${e.tagName.toLowerCase()}.${e.className?.baseVal ?? e.className} “${plain(e.getAttribute('aria-label') ?? e.textContent).slice(0, 40)}”`;
const quiet = (e) => e.closest('.quiet') !== null;
const open = (e) => e.checkVisibility() && !e.closest('[inert]') && !quiet(e);
const shown = (selector) => [...document.querySelectorAll(selector)].filter(open);

/// Boxes with words of their own in them.
const worded = () => shown('body *').filter((e) => !(e instanceof SVGElement) && [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && plain(n.data) !== ''));

/// The box around the words themselves, line by line.
function lines(e) {
    return [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE && plain(n.data) !== '').flatMap((n) => {
        const range = document.createRange();
        range.selectNodeContents(n);
        return [...range.getClientRects()];
    });
}

/// Scrolling sideways, words cut off, and words over other words.
function misfits() {
    const faults = [];
    // Lines that are drawn only once they come into sight are looked at too.
    for (const line of document.querySelectorAll('.line')) line.style.contentVisibility = 'visible';
    const wide = document.documentElement.clientWidth;
    const scroller = document.querySelector('.over') ?? document.documentElement;
    for (const e of new Set([document.documentElement, scroller]))
        if (e.scrollWidth > e.clientWidth) faults.push(`scrolls sideways: ${e.scrollWidth} px in ${e.clientWidth} px`);
    // A table of figures may be moved sideways on its own. Source: WCAG 2.2, 1.4.10, its note on data tables.
    const words = worded().filter((e) => !e.closest('.table--figures td, .table--figures th')).map((e) => ({ e, rects: lines(e) }));
    for (const { e, rects } of words) {
        if (rects.some((r) => r.left < -0.5 || r.right > wide + 0.5)) faults.push(`off the screen: ${called(e)}`);
        for (let box = e; box && box !== document.body; box = box.parentElement) {
            const style = getComputedStyle(box);
            if (style.overflowX === 'visible' && style.overflowY === 'visible') continue;
            const frame = box.getBoundingClientRect();
            const scrolls = /auto|scroll/.test(style.overflowY);
            if (rects.some((r) => r.left < frame.left - 1 || r.right > frame.right + 1 || (!scrolls && (r.top < frame.top - 2 || r.bottom > frame.bottom + 2)))) faults.push(`cut off: ${called(e)}`);
            break;
        }
    }
    for (const e of shown('input, select')) {
        const style = getComputedStyle(e);
        const inside = e.clientHeight - parseFloat(style.paddingTop) - parseFloat(style.paddingBottom);
        if (e.type !== 'checkbox' && inside < parseFloat(style.fontSize)) faults.push(`too low for its words: ${called(e)}`);
        if (e.type === 'text' && e.inputMode === 'decimal' && e.scrollWidth > e.clientWidth + 1) faults.push(`figure cut off: ${e.value} in ${called(e.closest('.field'))}`);
    }
    // What stays in place while the room scrolls may cover it; everything else may not.
    const flowing = words.filter(({ e }) => !e.closest('.top, .over__top, .doors, .toast'));
    const rects = flowing.flatMap(({ e, rects }) => rects.map((r) => ({ e, r }))).sort((a, b) => a.r.top - b.r.top);
    rects.forEach((a, at) => {
        for (const b of rects.slice(at + 1)) {
            if (b.r.top >= a.r.bottom) break;
            const across = Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left);
            const down = Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top);
            // The line box of large digits reaches a little above and below them.
            if (across > 2 && down > 0.35 * Math.min(a.r.height, b.r.height)) faults.push(`over each other: ${called(a.e)} and ${called(b.e)}`);
        }
    });
    return [...new Set(faults)];
}

const LARGE = '.button--main, .door, .choice > .chip, .pour__tick, .timer .button, .start .button';

/// Targets smaller than a wet thumb: 56 px high for what is pressed in a hurry, 48 px for everything else.
function smallTargets() {
    return shown('button, a[href], input, select, textarea, summary').flatMap((e) => {
        const target = e.type === 'checkbox' ? e.closest('label') : e;
        const { width, height } = target.getBoundingClientRect();
        const least = e.matches(LARGE) ? 56 : 48;
        return height < least - 0.01 || width < 48 - 0.01 ? [`${width.toFixed(1)} × ${height.toFixed(1)} px, wants ${least}: ${called(e)}`] : [];
    });
}

const RESULTS = '.pour__grams, .add__grams, .answer__figure, .timer__clock .big, .on-scale, .sum .big';

/// A colour as the browser paints it: red, green, blue of 0 to 1, and how opaque.
function paint(colour) {
    const dot = Object.assign(document.createElement('canvas'), { width: 1, height: 1 }).getContext('2d', { willReadFrequently: true });
    dot.fillStyle = colour;
    dot.fillRect(0, 0, 1, 1);
    return [...dot.getImageData(0, 0, 1, 1).data].map((part) => part / 255);
}

/// Relative luminance. Source: WCAG 2.2, definition of relative luminance (sRGB).
function luminance(rgb) {
    const [r, g, b] = rgb.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/// What lies behind an element: the first ground that is painted.
function ground(e) {
    for (let box = e; box; box = box.parentElement) {
        const [r, g, b, opaque] = paint(getComputedStyle(box).backgroundColor);
        if (opaque === 1) return [r, g, b];
        if (opaque > 0) throw new Error(`half a ground: ${called(box)}`);
    }
    return paint(getComputedStyle(document.documentElement).backgroundColor).slice(0, 3);
}

/// The contrast of an element's words. Source: WCAG 2.2, definition of contrast ratio.
function contrast(e) {
    const [light, dark] = [luminance(paint(getComputedStyle(e).color).slice(0, 3)), luminance(ground(e))].sort((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
}

/// Every result read from the stove: its size in px and its contrast.
const results = () => shown(RESULTS).map((e) => ({ what: called(e), px: parseFloat(getComputedStyle(e).fontSize), contrast: contrast(e) }));
