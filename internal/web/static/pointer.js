// JSON pointers (RFC 6901). The service names a member of a request by one, and
// the page uses the very same as the name of the field.

export function parts(pointer) {
  return pointer.split('/').slice(1).map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** The pointer one level up; of '/a' it is ''. */
export function parent(pointer) {
  return pointer.slice(0, Math.max(0, pointer.lastIndexOf('/')));
}

/** The pointer with every index as a star: one name for all entries of a list. */
export function pattern(pointer) {
  return pointer.replace(/\/\d+(?=\/|$)/g, '/*');
}

export function read(tree, pointer) {
  return parts(pointer).reduce((node, part) => (node === undefined || node === null ? undefined : node[part]), tree);
}

/** Writes a value and makes what is missing on the way; undefined removes the member. */
export function write(tree, pointer, value) {
  const path = parts(pointer);
  const last = path.pop();
  let node = tree;
  path.forEach((part, i) => {
    if (node[part] === undefined) node[part] = /^\d+$/.test(path[i + 1] ?? last) ? [] : {};
    node = node[part];
  });
  if (value === undefined) delete node[last];
  else node[last] = value;
}
