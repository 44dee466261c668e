/**
 * Changes of a YAML text that leave every other character as it is. Paths are keys and indices with dots between them, such
 * as "legs.1.through.0.at".
 */
import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
} from 'yaml';
import { afterKey, blockText, flowText, pairText, type Scalar, type Value } from './yaml-text.ts';

type Key = string | number;
type Collection = Extract<Node, { items: unknown[] }>;

let read: { readonly text: string; readonly document: Document } | null = null;

/** The text as a document, read once while it is asked for again; not to be changed. */
export function documentOf(text: string): Document {
  if (read?.text !== text) read = { text, document: parseDocument(text) };
  return read.document;
}

/** The text with another value at a path; a value that is not there yet is added. */
export function setScalar(text: string, path: string, value: Scalar): string {
  const keys = keysOf(path);
  const node = documentOf(text).getIn(keys, true);
  if ((isScalar(node) || isAlias(node)) && node.range) {
    const [start, end] = node.range;
    const written = isScalar(node) ? inStyleOf(node, value) : flowText(value);
    return (
      text.slice(0, start) + (start === end && text[start - 1] === ':' ? ' ' : '') + written + text.slice(end)
    );
  }
  return addValue(text, path, value);
}

/** The text with one more item at the end of a list, which is added where there is none. */
export function addItem(text: string, path: string, value: Value): string {
  const document = parseDocument(text);
  const list = document.getIn(keysOf(path), true);
  const keys = [...keysOf(path), isSeq(list) ? list.items.length : 0];
  return checked(document, added(text, document, keys, value), () => put(document, keys, value));
}

/** The text with a value at a path where none is. */
export function addValue(text: string, path: string, value: Value): string {
  const keys = keysOf(path);
  const document = parseDocument(text);
  return checked(document, added(text, document, keys, value), () => put(document, keys, value));
}

/** The text with another value, of whichever form, at a path. */
export function replaceAt(text: string, path: string, value: Value): string {
  const keys = keysOf(path);
  const document = parseDocument(text);
  const { parent, index } = entryAt(document, keys);
  if (!parent) return addValue(text, path, value);
  const [start] = rangeOf(partsOf(parent.items[index]).at(-1) as Node);
  const column = columnOfKey(text, document, keys);
  const written = column === null ? ` ${flowText(value)}` : afterKey(value, column);
  const changed = text.slice(0, start).trimEnd() + written + text.slice(endOf(parent, index));
  return checked(document, changed, () => document.setIn(keys, document.createNode(value)));
}

/** The text without what stands at a path, and without the comment right above it. */
export function removeAt(text: string, path: string): string {
  const keys = keysOf(path);
  const document = parseDocument(text);
  const { parent, index } = entryAt(document, keys);
  if (!parent) return text;
  return checked(document, without(text, parent, index), () => document.deleteIn(keys));
}

/** The text with two neighbours of a list in each other's place, each with the comment right above it. */
export function swapWithNext(text: string, path: string, index: number): string {
  const document = parseDocument(text);
  const list = document.getIn(keysOf(path), true);
  if (!isSeq(list) || index < 0 || index + 1 >= list.items.length) return text;
  return checked(document, swapped(text, list as Collection, index), () => {
    const [first, second] = list.items.slice(index);
    list.items.splice(index, 2, second, first);
  });
}

/** Offset of what stands at a path, or of the nearest part around it that is there. */
export function offsetOf(text: string, path: string): number {
  const document = documentOf(text);
  for (let keys = keysOf(path); keys.length > 0; keys = keys.slice(0, -1)) {
    const node = document.getIn(keys, true) as Node | undefined;
    if (node?.range) return node.range[0];
  }
  return 0;
}

function keysOf(path: string): Key[] {
  if (path === '') return [];
  return path.split('.').map((key) => (/^\d+$/.test(key) ? Number(key) : key));
}

/** In the quotes of the old value unless it was empty, or in new ones where words would be read as something else. */
function inStyleOf(old: { type?: string; value: unknown }, value: Scalar): string {
  if (typeof value !== 'string') return String(value);
  if (old.value === '') return flowText(value);
  if (old.type === 'QUOTE_DOUBLE') return JSON.stringify(value);
  if (old.type === 'QUOTE_SINGLE' && !value.includes('\n')) return `'${value.replaceAll("'", "''")}'`;
  if (old.type === 'BLOCK_LITERAL' || old.type === 'BLOCK_FOLDED') return `${flowText(value)}\n`;
  const asNumber = typeof old.value === 'number' && value.trim() !== '' && Number.isFinite(Number(value));
  return asNumber ? value.trim() : flowText(value);
}

/**
 * The changed text where it says what the change of the data says; else the data written anew, with all comments. Texts in
 * unusual styles end there.
 */
function checked(document: Document, changed: string | null, change: () => void): string {
  change();
  const wanted = JSON.stringify(document.toJS());
  if (changed !== null) {
    const result = parseDocument(changed);
    if (result.errors.length === 0 && JSON.stringify(result.toJS()) === wanted) return changed;
  }
  return document.toString({ lineWidth: 0 });
}

/** Puts a value into the data; what of its path is not a list or a map yet becomes one. */
function put(document: Document, keys: readonly Key[], value: Value): void {
  for (let length = 1; length <= keys.length; length++) {
    const path = keys.slice(0, length);
    const node = document.getIn(path, true);
    if (isAlias(node)) document.setIn(path, document.createNode(node.toJS(document)));
    else if (length < keys.length && isCollection(node)) continue;
    else {
      document.setIn(path, document.createNode(nested(keys.slice(length), value)));
      return;
    }
  }
}

/** The text with a value added in the innermost collection of its path that is there; null where there is none. */
function added(text: string, document: Document, keys: readonly Key[], value: Value): string | null {
  for (let length = keys.length - 1; length >= 0; length--) {
    const above = keys.slice(0, length);
    const node = length === 0 ? document.contents : (document.getIn(above, true) as Node | undefined);
    if (node === undefined) continue;
    const inner = nested(keys.slice(length + 1), value);
    if (isScalar(node) && node.value === null && node.range) {
      const column = columnOfKey(text, document, above);
      if (column === null) return null;
      return (
        text.slice(0, node.range[0]).trimEnd() +
        afterKey(nested(keys.slice(length), value), column) +
        text.slice(node.range[1])
      );
    }
    if (!isCollection(node)) return null;
    if (node.items.length === 0) {
      const column = columnOfKey(text, document, above);
      const whole = nested(keys.slice(length), value);
      const [start, end] = rangeOf(node as Node);
      if (column === null) return text.slice(0, start) + flowText(whole) + text.slice(end);
      return text.slice(0, start).trimEnd() + afterKey(whole, column) + text.slice(end);
    }
    return appended(text, node as Collection, keys[length], inner);
  }
  return null;
}

/** Column of the key that ends a path, where it and its value stand outside brackets; else null. */
function columnOfKey(text: string, document: Document, path: readonly Key[]): number | null {
  for (let length = 0; length < path.length; length++) {
    const node = length === 0 ? document.contents : document.getIn(path.slice(0, length), true);
    if (!isCollection(node) || node.flow) return null;
  }
  const parent = path.length <= 1 ? document.contents : document.getIn(path.slice(0, -1), true);
  return isMap(parent) ? columnAt(text, rangeOf(parent as Node)[0]) : null;
}

function appended(text: string, into: Collection, key: Key, value: Value): string {
  const last = into.items.length - 1;
  const list = isSeq(into);
  if (into.flow) {
    const at = endOf(into, last);
    return `${text.slice(0, at)}, ${list ? flowText(value) : `${flowText(key)}: ${flowText(value)}`}${text.slice(at)}`;
  }
  const column = columnAt(text, rangeOf(into)[0]);
  const at = lineEnd(text, endOf(into, last));
  const neighbour = into.items[last];
  const inLine = isCollection(neighbour) && neighbour.flow === true;
  const item = inLine ? flowText(value) : blockText(value, column + 2);
  const entry = list ? `- ${item}` : pairText(String(key), value, column);
  return `${text.slice(0, at)}\n${' '.repeat(column)}${entry}${text.slice(at)}`;
}

function without(text: string, parent: Collection, index: number): string | null {
  const count = parent.items.length;
  const [start, end] = rangeOf(parent);
  if (count === 1) {
    const empty = isSeq(parent) ? '[]' : '{}';
    if (parent.flow) return text.slice(0, start) + empty + text.slice(end);
    return `${text.slice(0, start).trimEnd()} ${empty}${text.slice(endOf(parent, 0))}`;
  }
  if (parent.flow) {
    const [from, to] =
      index === 0
        ? [startOf(text, parent, 0), startOf(text, parent, 1)]
        : [endOf(parent, index - 1), endOf(parent, index)];
    return text.slice(0, from) + text.slice(to);
  }
  if (index > 0) {
    const { lead, from, to } = linesOf(text, parent, index);
    return text.slice(0, from) + (lead.trim() === '' ? '' : lead) + text.slice(to);
  }
  const next = linesOf(text, parent, 1);
  return text.slice(0, startOf(text, parent, 0)) + next.body.trimStart() + text.slice(next.to);
}

function swapped(text: string, list: Collection, index: number): string {
  if (list.flow) {
    const [a, b] = [index, index + 1].map((i) => [startOf(text, list, i), endOf(list, i)] as const);
    const [first, second] = [text.slice(...a), text.slice(...b)];
    return text.slice(0, a[0]) + second + text.slice(a[1], b[0]) + first + text.slice(b[1]);
  }
  const second = linesOf(text, list, index + 1);
  if (index === 0) {
    const start = startOf(text, list, 0);
    const first = `\n${' '.repeat(columnAt(text, start))}${text.slice(start, second.from)}`;
    return text.slice(0, start) + second.body.trimStart() + second.lead + first + text.slice(second.to);
  }
  const first = linesOf(text, list, index);
  return (
    text.slice(0, first.from) + first.lead + second.body + second.lead + first.body + text.slice(second.to)
  );
}

interface Lines {
  readonly from: number;
  readonly to: number;
  /** Blank lines, and comments that a blank line parts from the entry. */
  readonly lead: string;
  /** The entry and the comments right above it, beginning with the end of the line before. */
  readonly body: string;
}

/** The lines of an entry of a block collection that is not its first. */
function linesOf(text: string, of: Collection, index: number): Lines {
  const from = lineEnd(text, endOf(of, index - 1));
  const to = lineEnd(text, endOf(of, index));
  const above = text.slice(from, startOf(text, of, index));
  const blank = [...above.matchAll(/\n[ \t\r]*(?=\n)/g)].at(-1);
  const parted = blank ? blank.index + blank[0].length : 0;
  return { from, to, lead: text.slice(from, from + parted), body: text.slice(from + parted, to) };
}

function entryAt(document: Document, keys: readonly Key[]): { parent: Collection | null; index: number } {
  const above = keys.slice(0, -1);
  const node = above.length === 0 ? document.contents : document.getIn(above, true);
  const key = keys.at(-1);
  if (isSeq(node) && typeof key === 'number' && key < node.items.length) {
    return { parent: node as Collection, index: key };
  }
  if (!isMap(node)) return { parent: null, index: -1 };
  const index = node.items.findIndex((pair) => isScalar(pair.key) && String(pair.key.value) === String(key));
  return { parent: index < 0 ? null : (node as Collection), index };
}

function nested(keys: readonly Key[], value: Value): Value {
  return keys.reduceRight<Value>(
    (inner, key) => (typeof key === 'number' ? [inner] : { [key]: inner }),
    value,
  );
}

/** Offset of an entry: of its dash in a block list, else of its key or value. */
function startOf(text: string, of: Collection, index: number): number {
  const item = of.items[index];
  const start = rangeOf(partsOf(item)[0])[0];
  return isSeq(of) && !of.flow ? text.lastIndexOf('-', start - 1) : start;
}

/** Offset behind the last character of an entry. */
function endOf(of: Collection, index: number): number {
  const last = partsOf(of.items[index]).at(-1) as Node;
  if (!isCollection(last) || last.flow || last.items.length === 0) return rangeOf(last)[1];
  return endOf(last as Collection, last.items.length - 1);
}

/** Key and value of a pair, or the one node of a list's item. */
function partsOf(item: unknown): Node[] {
  if (!isPair<Node, Node | null>(item)) return [item as Node];
  return item.value ? [item.key, item.value] : [item.key];
}

function rangeOf(node: Node): [number, number] {
  const [start, end] = node.range ?? [0, 0];
  return [start, end];
}

function columnAt(text: string, offset: number): number {
  return offset - (text.lastIndexOf('\n', offset - 1) + 1);
}

/** Offset of the end of the line on which an entry ends before `offset`. */
function lineEnd(text: string, offset: number): number {
  if (text[offset - 1] === '\n') return offset - 1;
  const end = text.indexOf('\n', offset);
  return end < 0 ? text.length : end;
}
