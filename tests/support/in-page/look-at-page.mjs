/**
 * What a look at a page finds wrong, run inside it. Sets window.lookAtPage; each of its functions answers a list of sentences, empty
 * where nothing is wrong.
 */
const INTERACTIVE = 'a[href], button, input, select, textarea, summary, [tabindex]:not([tabindex="-1"])';

const nameOf = (element) => {
  const words = (element.getAttribute('aria-label') ?? element.textContent ?? '').trim().replaceAll(/\s+/g, ' ').slice(0, 40);
  const looks = element.getAttribute('class');
  return `<${element.localName}${element.id ? ` #${element.id}` : ''}${looks ? ` .${looks}` : ''}> "${words}"`;
};

const isForEyes = (element) =>
  element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !isForEarsOnly(element);

/** Said to a reader of the screen, and not seen. */
const isForEarsOnly = (element) => {
  for (let at = element; at; at = at.parentElement) {
    const { clipPath } = getComputedStyle(at);
    if (clipPath.startsWith('inset(50%')) return true;
    if (at.classList.contains('skip') && at !== document.activeElement) return true;
  }
  return false;
};

/** What of a rectangle is to be seen in what scrolls around it; undefined where that is nothing. */
const inScrollers = (element, { left, top, right, bottom }) => {
  for (let at = element; at && at !== document.documentElement; at = at.parentElement) {
    if (!/auto|scroll/.test(getComputedStyle(at).overflow)) continue;
    const box = at.getBoundingClientRect();
    [left, top] = [Math.max(left, box.left), Math.max(top, box.top)];
    [right, bottom] = [Math.min(right, box.right), Math.min(bottom, box.bottom)];
  }
  return right - left > 1 && bottom - top > 1 ? { left, top, right, bottom, height: bottom - top } : undefined;
};

const floats = (element) => {
  for (let at = element; at; at = at.parentElement) if (/fixed|sticky/.test(getComputedStyle(at).position)) return true;
  return false;
};

/** Every line of text that is seen, with where it stands. */
function textLines() {
  const lines = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (node.data.trim() === '' || element.closest('option, script, style, noscript') || !isForEyes(element)) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const rect of range.getClientRects())
      if (rect.width > 1 && rect.height > 1)
        lines.push({ element, rect, floats: floats(element), words: node.data.trim().slice(0, 40) });
  }
  return lines;
}

/** Text that leaves its box, the window or what cuts it off. */
function cutText() {
  const faults = new Set();
  const em = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
  for (const { element, rect, words } of textLines()) {
    let scrolls = false;
    const { whiteSpace, fontSize } = getComputedStyle(element);
    // Where spaces are kept, the last of a line hangs over its end.
    const slack = whiteSpace.startsWith('pre') ? Number.parseFloat(fontSize) * 0.4 : 1.5;
    for (let at = element; at && at !== document.documentElement; at = at.parentElement) {
      const style = getComputedStyle(at);
      if (style.display === 'inline' || style.display === 'contents') continue;
      const box = at.getBoundingClientRect();
      const over = Math.max(box.left - rect.left, rect.right - box.right);
      const across = Math.max(box.top - rect.top, rect.bottom - box.bottom);
      const isBox =
        /button|summary|input|select/.test(at.localName) || at.classList.contains('button') || at.classList.contains('word');
      if (/hidden|clip/.test(style.overflowX) && over > slack) faults.add(`"${words}" is cut by ${nameOf(at)}`);
      if (/hidden|clip/.test(style.overflowY) && across > 3 * em) faults.add(`"${words}" is cut by ${nameOf(at)}`);
      if (isBox && (over > slack || across > 3 * em)) faults.add(`"${words}" leaves ${nameOf(at)}`);
      if (/auto|scroll/.test(`${style.overflowX} ${style.overflowY}`)) {
        scrolls = true;
        break;
      }
      if (over > slack && !(at instanceof SVGElement)) faults.add(`"${words}" leaves ${nameOf(at)} by ${Math.round(over)} px`);
    }
    if (!scrolls && (rect.left < -1 || rect.right > document.documentElement.clientWidth + 1))
      faults.add(`"${words}" leaves the window`);
  }
  return [...faults];
}

/** Text and controls that lie over one another. */
function overlaps() {
  const things = textLines()
    .filter(({ floats: isOver }) => !isOver)
    .map((line) => ({ ...line, rect: inScrollers(line.element, line.rect) }))
    .filter(({ rect }) => rect);
  for (const element of document.querySelectorAll('input, select, textarea, button, a.button, summary')) {
    if (!isForEyes(element) || floats(element) || element.closest('svg')) continue;
    things.push({ element, rect: element.getBoundingClientRect(), words: nameOf(element), isControl: true });
  }
  things.sort((a, b) => a.rect.top - b.rect.top);
  const faults = new Set();
  for (const [at, one] of things.entries()) {
    for (let next = at + 1; next < things.length && things[next].rect.top < one.rect.bottom; next++) {
      const other = things[next];
      if (one.element === other.element && !one.isControl) continue;
      if ((one.isControl && one.element.contains(other.element)) || (other.isControl && other.element.contains(one.element)))
        continue;
      const across = Math.min(one.rect.right, other.rect.right) - Math.max(one.rect.left, other.rect.left);
      const down = Math.min(one.rect.bottom, other.rect.bottom) - other.rect.top;
      const least = Math.min(one.rect.height, other.rect.height);
      if (across > 2 && down > Math.max(2, least * 0.25) && !isTurned(one.element) && !isTurned(other.element))
        faults.add(`"${one.words}" and "${other.words}" overlap`);
    }
  }
  return [...faults];
}

function isTurned(element) {
  return element instanceof SVGGraphicsElement && Math.abs(element.getScreenCTM()?.b ?? 0) > 0.01;
}

const isSideways = () => {
  const over = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  return over > 0 ? [`the page scrolls sideways by ${over} px`] : [];
};

/** What Tab must come to, in the order of the document. */
function stops() {
  return [...document.querySelectorAll(INTERACTIVE)].filter(
    (element) =>
      element.tabIndex >= 0 &&
      !element.matches(':disabled') &&
      element.checkVisibility({ visibilityProperty: true }) &&
      !element.closest('[inert]'),
  );
}

/** Of what Tab would come to: what shows itself in another order, and what is worked by pointer alone. */
function byKeyboardOdd() {
  const faults = [];
  for (const element of document.querySelectorAll('body *')) {
    const { order, flexDirection, display } = getComputedStyle(element);
    if (element.tabIndex > 0) faults.push(`${nameOf(element)} has a tabindex of its own`);
    if (order !== '0') faults.push(`${nameOf(element)} stands elsewhere than in the document`);
    if (display.includes('flex') && flexDirection.endsWith('reverse')) faults.push(`${nameOf(element)} turns its order round`);
    // What is tapped in a drawing is in the lists beside it too.
    if (window.clickedByPointer?.has(element) && !element.closest(`${INTERACTIVE}, label, svg`))
      faults.push(`${nameOf(element)} is worked by a pointer alone`);
  }
  return faults;
}

const channels = (colour) => (colour.match(/[\d.]+/g) ?? []).map(Number);
const luminance = ([r, g, b]) => {
  const linear = [r, g, b].map((part) => (part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4));
  return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
};
const groundOf = (element) => {
  for (let at = element; at; at = at.parentElement) {
    const [r, g, b, alpha = 1] = channels(getComputedStyle(at).backgroundColor);
    if (alpha === 1 && r !== undefined) return [r, g, b];
  }
  return [255, 255, 255];
};

const within = ([from, to], share) => from + (to - from) * share;

/** Where the focus is now, and whether somebody would see it there. */
function focused() {
  const element = document.activeElement;
  if (!element || element === document.body) return { at: -1, faults: [] };
  const faults = [];
  // A field that is there for the keyboard alone shows its focus on the button beside it.
  const shows = (isForEarsOnly(element) && element.nextElementSibling) || element;
  const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(shows);
  const [one, other] = [luminance(channels(outlineColor)), luminance(groundOf(shows.parentElement))].sort((a, b) => b - a);
  if (outlineStyle === 'none' || Number.parseFloat(outlineWidth) < 2) faults.push(`${nameOf(element)} does not show its focus`);
  else if ((one + 0.05) / (other + 0.05) < 3) faults.push(`${nameOf(element)} shows its focus too faintly`);
  const { left, right, top, bottom } = shows.getBoundingClientRect();
  const [across, down] = [
    [Math.max(left, 0), Math.min(right, innerWidth)],
    [Math.max(top, 0), Math.min(bottom, innerHeight)],
  ];
  const seen = [0.5, 0.1, 0.9].flatMap((x) =>
    [0.5, 0.15, 0.85].map((y) => document.elementFromPoint(within(across, x), within(down, y))),
  );
  const isHere = (hit) => hit && (shows.contains(hit) || hit.contains(shows));
  if (!seen.some(isHere)) faults.push(`${nameOf(element)} has the focus out of sight`);
  return { at: stops().indexOf(element), faults, name: nameOf(element) };
}

window.lookAtPage = {
  layout: () => [...isSideways(), ...cutText(), ...overlaps()],
  isSideways,
  byKeyboardOdd,
  focused,
  stops: () => stops().map(nameOf),
  /** Whether a page has been come to, and has all that it shows. */
  isAt: (path) =>
    location.pathname + location.search === path &&
    document.activeElement?.localName === 'h1' &&
    ![...document.querySelectorAll('[role=status]')].some(({ textContent }) => /^(Fetching|Wird geholt)/.test(textContent)),
  /** The next Tab is the first of the page. */
  toBeginning: () => {
    document.body.tabIndex = -1;
    document.body.focus();
    document.body.removeAttribute('tabindex');
  },
  open: () => document.querySelectorAll('details').forEach((one) => (one.open = true)),
  enlarge: (by) => (document.documentElement.style.fontSize = by),
};
