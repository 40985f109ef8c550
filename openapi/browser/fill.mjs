// Filling a sheet as a person does: every value of a request is typed into the
// entry of its name, or chosen there.
import { entry } from './page.mjs';

export async function fillSheet(page, sheet) {
  await page.evaluate(() => {
    const open = () => document.querySelectorAll('details:not([open])').forEach((fold) => (fold.open = true));
    open();
    new MutationObserver(open).observe(document.getElementById('steps'), { childList: true, subtree: true });
  });
  const picked = new Set();
  const kinds = new Map(await page.evaluate(() => [...document.querySelectorAll('[name]')].map((one) => [one.name, one.tagName])));
  for (const [pointer, value] of leaves(sheet)) {
    const kind = kinds.get(`calibrations#${pointer}`);
    if (kind === 'SELECT') await entry(page, pointer).selectOption(typeof value === 'boolean' ? (value ? 'yes' : 'no') : value);
    else if (kind) await entry(page, pointer).fill(String(value));
    else {
      const { name, all } = column(page, pointer);
      if (!picked.has(name)) await all.selectOption(String(value));
      picked.add(name);
    }
  }
}

/** A unit that is picked once for a whole list. */
function column(page, pointer) {
  const name = `all calibrations#${pointer.replace(/\/\d+\//, '/')}`;
  return { name, all: page.locator(`[name="${name}"]`) };
}

function leaves(node, at = '') {
  if (typeof node !== 'object') return [[at, node]];
  return Object.entries(node).flatMap(([name, value]) => leaves(value, `${at}/${name}`));
}
