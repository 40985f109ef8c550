// Filling a sheet as a person does: every value of a request is typed into the
// entry of its name, or chosen there.
import { entry } from './page.mjs';

export async function fillSheet(page, sheet) {
  for (const [pointer, value] of leaves(sheet)) {
    const field = entry(page, pointer);
    if ((await field.count()) === 0) {
      // A unit that is picked once for a whole list.
      const column = page.locator(`[name="all calibrations#${pointer.replace(/\/\d+\//, '/')}"]`);
      if ((await column.count()) === 0) throw new Error(`no entry for ${pointer}`);
      await column.selectOption(String(value));
      continue;
    }
    await field.evaluate((element) => {
      for (let fold = element.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true;
    });
    if ((await field.evaluate((element) => element.tagName)) === 'SELECT') await field.selectOption(typeof value === 'boolean' ? (value ? 'yes' : 'no') : value);
    else await field.fill(String(value));
  }
}

function leaves(node, at = '') {
  if (typeof node !== 'object') return [[at, node]];
  return Object.entries(node).flatMap(([name, value]) => leaves(value, `${at}/${name}`));
}
