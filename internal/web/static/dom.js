// Elements without a framework: el('p', {class: 'hint'}, 'text', child).
// Attributes that are undefined, null or false are left out; on… takes a listener.

const svgNames = new Set(['svg', 'g', 'title', 'desc', 'rect', 'line', 'circle', 'path', 'text', 'defs', 'pattern']);

export function el(name, attributes = {}, ...children) {
  return fill(document.createElement(name), attributes, children);
}

/** The same for the elements of a drawing. */
export function svg(name, attributes = {}, ...children) {
  if (!svgNames.has(name)) throw new Error(`not an element of a drawing: ${name}`);
  return fill(document.createElementNS('http://www.w3.org/2000/svg', name), attributes, children);
}

function fill(element, attributes, children) {
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...children.flat(Infinity).filter((child) => child !== undefined && child !== null && child !== false));
  return element;
}

/** Puts new children in the place of all that an element holds. */
export function put(element, ...children) {
  element.replaceChildren(...children.flat(Infinity).filter((child) => child !== undefined && child !== null && child !== false));
}

/** Takes a person to an element: unfolds what hides it, scrolls, and sets the focus. */
export function goTo(element) {
  if (!element) return;
  for (let fold = element.closest('details'); fold; fold = fold.parentElement?.closest('details')) fold.open = true;
  const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
  const tall = element.offsetHeight > innerHeight / 2; // its beginning is what matters
  element.scrollIntoView({ behavior: calm ? 'auto' : 'smooth', block: tall ? 'start' : 'center' });
  if (element.tabIndex < 0 && !element.hasAttribute('tabindex')) element.setAttribute('tabindex', '-1');
  element.focus({ preventScroll: true });
}
