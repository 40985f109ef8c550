// The sheet is the request with gaps. It has the members of the operation's
// request, but may hold entries of lists that nobody has measured yet, and units
// that have no number beside them. request() leaves those out, and remembers
// which entry of the sheet each entry of the request came from.

import { read, write } from './pointer.js';

const mostConfirmed = 20; // that the service takes

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

  /** Takes another sheet: one of its own, or a request, in which confirmed is a list of pointers. */
  replace({ confirmed, ...tree }) {
    this.tree = tree;
    const itself = this.request();
    if (Array.isArray(confirmed)) for (const pointer of confirmed) this.#confirm(String(pointer), itself);
    else if (confirmed) tree.confirmed = confirmed;
    this.changed();
  }

  /**
   * Confirms an entry, or a list of them, that was asked about by its pointer into a
   * request: it is right for as long as it stays as it was there.
   */
  confirm(pointer, asked) {
    this.#confirm(pointer, asked);
    this.changed();
  }

  #confirm(pointer, { body, origin }) {
    write(this.tree, '/confirmed', { ...this.get('/confirmed'), [origin(pointer)]: numbersAt(body, pointer.replace(/^#/, '')) });
  }

  add(list, entry) {
    this.set(list, [...(this.get(list) ?? []), entry]);
  }

  remove(list, index) {
    this.set(list, this.get(list).filter((_, i) => i !== index));
  }

  /** The request, and a function from a pointer into it to a pointer into the sheet. */
  request() {
    const { confirmed = {}, ...tree } = this.tree;
    const moved = new Map();
    const body = this.#measured(tree, '', '', moved) ?? {};
    // What was confirmed and has changed since is not confirmed any more.
    const sent = new Map([...moved].map(([place, from]) => [from, place]));
    const still = Object.entries(confirmed).filter(([at, was]) => {
      const place = follow(at, sent);
      return follow(place, moved) === at && numbersAt(body, place) === was;
    });
    if (still.length > 0) {
      this.tree.confirmed = Object.fromEntries(still);
      body.confirmed = still.slice(-mostConfirmed).map(([at]) => `#${follow(at, sent)}`);
    } else delete this.tree.confirmed;
    return { body, origin: (pointer) => follow(pointer.replace(/^#/, ''), moved) };
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

/** What an entry, or a list of them, is as a text, without what it is called: nobody asks about that. */
function numbersAt(body, pointer) {
  return JSON.stringify(read(body, pointer) ?? null, (name, value) => (['label', 'position'].includes(name) ? undefined : value));
}

/** Where a pointer leads by the longest part of it that was moved. */
function follow(pointer, moved) {
  for (let end = pointer.length; end > 0; end = pointer.lastIndexOf('/', end - 1)) {
    const from = moved.get(pointer.slice(0, end));
    if (from !== undefined) return from + pointer.slice(end);
  }
  return pointer;
}
