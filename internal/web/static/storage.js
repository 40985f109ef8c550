// What the page keeps, and where: in this browser and nowhere else.

const prefix = 'wetrun.';

export function keep(name, value) {
  try {
    localStorage.setItem(prefix + name, JSON.stringify(value));
    return true;
  } catch {
    return false; // full or forbidden: the sheet then lasts as long as the page
  }
}

export function kept(name, otherwise) {
  try {
    return JSON.parse(localStorage.getItem(prefix + name)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

/** Forgets something that was kept. */
export function forget(name) {
  try {
    localStorage.removeItem(prefix + name);
  } catch {
    // nothing could be kept, so there is nothing to forget
  }
}

/** Hands a JSON file to the person. */
export function saveFile(name, content) {
  const url = URL.createObjectURL(new Blob([JSON.stringify(content, null, 1)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

/** Reads a sheet from a file; anything but a JSON object is refused. */
export async function readFile(file) {
  const content = JSON.parse(await file.text());
  if (content === null || typeof content !== 'object' || Array.isArray(content)) throw new Error('not a sheet');
  return content;
}
