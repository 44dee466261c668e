/** Plain data as YAML text that fits into a text that is there: in one line where it is short, else a line for each entry. */
import { stringify } from 'yaml';

export type Scalar = string | number | boolean;
export type Value = Scalar | readonly Value[] | { readonly [key: string]: Value };

const longest = 100;

/** In one line, for use inside brackets too; words that could be read as something else stand in quotes. */
export function flowText(value: Value): string {
  if (typeof value === 'string') return value.includes('\n') ? JSON.stringify(value) : plainOrQuoted(value);
  if (isList(value)) return `[${value.map(flowText).join(', ')}]`;
  if (typeof value !== 'object') return String(value);
  const pairs = Object.entries(value).map(([key, of]) => `${plainOrQuoted(key)}: ${flowText(of)}`);
  return pairs.length === 0 ? '{}' : `{ ${pairs.join(', ')} }`;
}

/** A line for each entry, the first where the text stands, the others indented by so many spaces. */
export function blockText(value: Value, indent: number): string {
  const between = `\n${' '.repeat(indent)}`;
  if (isList(value)) return value.map((item) => `- ${itemText(item, indent + 2)}`).join(between);
  if (typeof value !== 'object') return flowText(value);
  return Object.entries(value)
    .map(([key, of]) => pairText(key, of, indent))
    .join(between);
}

/** A key and its value in a map whose keys are indented by so many spaces. */
export function pairText(key: string, value: Value, indent: number): string {
  return `${plainOrQuoted(key)}:${afterKey(value, indent)}`;
}

/** What follows "key:" where the key is indented by so many spaces. */
export function afterKey(value: Value, indent: number): string {
  if (!isLong(value)) return ` ${flowText(value)}`;
  return `\n${' '.repeat(indent + 2)}${blockText(value, indent + 2)}`;
}

function itemText(value: Value, indent: number): string {
  return isLong(value) ? blockText(value, indent) : flowText(value);
}

function isLong(value: Value): boolean {
  if (typeof value !== 'object') return false;
  if (isList(value) && value.some((item) => typeof item === 'object')) return true;
  return flowText(value).length > longest || Object.values(value).some(isLong);
}

function isList(value: Value): value is readonly Value[] {
  return Array.isArray(value);
}

/** The library knows which words need quotes inside brackets; it wraps them as a list of one. */
function plainOrQuoted(text: string): string {
  return stringify([text], { collectionStyle: 'flow', lineWidth: 0 }).trim().slice(2, -2);
}
