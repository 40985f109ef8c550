// The sheet is the request with gaps. It has the members of the operation's
// request, but may hold entries of lists that nobody has measured yet, and units
// that have no number beside them. request() leaves those out, and remembers
// which entry of the sheet each entry of the request came from.

import { read, write } from './pointer.js';

export class Sheet {
  /**
   * lists tells for each list of the sheet which members make an entry worth
   * sending: a drop with a label but nothing in the jug was not caught.
   */
  constructor(lists, tree = {}) {
    this.lists = lists;
    this.tree = tree;
    this.changed = () => {};
  }

  get(pointer) {
    return read(this.tree, pointer);
  }

  set(pointer, value) {
    write(this.tree, pointer, value);
    this.changed();
  }

  replace(tree) {
    this.tree = tree;
    this.changed();
  }

  add(list, entry) {
    this.set(list, [...(this.get(list) ?? []), entry]);
  }

  remove(list, index) {
    this.set(list, this.get(list).filter((_, i) => i !== index));
  }

  /** The request, and a function from a pointer into it to a pointer into the sheet. */
  request() {
    const moved = new Map();
    const body = this.#measured(this.tree, '', '', moved) ?? {};
    return { body, origin: (pointer) => origin(pointer.replace(/^#/, ''), moved) };
  }

  #measured(node, at, sentAt, moved) {
    if (Array.isArray(node)) {
      const kept = [];
      node.forEach((entry, i) => {
        const place = `${sentAt}/${kept.length}`;
        const value = this.#measured(entry, `${at}/${i}`, place, moved);
        const wanted = this.lists[at];
        if (value === undefined || (wanted && typeof value === 'object' && !wanted.some((member) => member in value))) return;
        moved.set(place, `${at}/${i}`);
        kept.push(value);
      });
      return kept.length > 0 ? kept : undefined;
    }
    if (node === null) return undefined;
    if (typeof node !== 'object') return node;
    const members = Object.entries(node)
      .map(([name, value]) => [name, this.#measured(value, `${at}/${name}`, `${sentAt}/${name}`, moved)])
      .filter(([, value]) => value !== undefined && value !== '');
    if (members.length === 0 || (members.length === 1 && members[0][0] === 'unit')) return undefined;
    return Object.fromEntries(members);
  }
}

function origin(pointer, moved) {
  for (let end = pointer.length; end > 0; end = pointer.lastIndexOf('/', end - 1)) {
    const from = moved.get(pointer.slice(0, end));
    if (from !== undefined) return from + pointer.slice(end);
  }
  return pointer;
}
