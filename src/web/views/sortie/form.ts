/** The form of a sortie: its JSON Schema and its data together as the fields, groups and lists that stand on the page. */
import { keyWords, upperFirst } from '../../../present/names.ts';

/** What is used of a JSON Schema. */
export interface Shape {
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly units?: readonly string[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape;
  readonly anyOf?: readonly Shape[];
  readonly enum?: readonly string[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly additionalProperties?: Shape | boolean;
}

interface Named {
  /** Keys and indices with dots between them; the same as in a fault. */
  readonly path: string;
  readonly label: string;
  readonly help: string;
  readonly required: boolean;
  /** It stands in the text. */
  readonly present: boolean;
}

export interface Field extends Named {
  readonly kind: 'field';
  readonly type: 'text' | 'whole number' | 'yes or no';
  readonly value: string;
  /** The only values there are; null where others can be written. */
  readonly choices: readonly string[] | null;
  /** Values that can be written as words, such as "optimum". */
  readonly suggestions: readonly string[];
  /** What holds where it is left out; empty where the schema does not say. */
  readonly ifLeftOut: string;
}

export interface Group extends Named {
  readonly kind: 'group';
  readonly shape: Shape;
  readonly children: readonly Part[];
}

export interface List extends Named {
  readonly kind: 'list';
  readonly item: Shape;
  readonly items: readonly Part[];
}

/** One of several forms of the same thing, such as the steps of a leg; the first key tells which. */
export interface Choice extends Named {
  readonly kind: 'choice';
  readonly option: string;
  readonly options: Readonly<Record<string, Shape>>;
  readonly children: readonly Part[];
}

/** Keys that a user names, each with a value. */
export interface Pairs extends Named {
  readonly kind: 'pairs';
  readonly fields: readonly Field[];
}

export type Part = Field | Group | List | Choice | Pairs;

/** A key as words; those of the trade that have a hyphen get it. */
function labelOf(key: string): string {
  return upperFirst(keyWords(key)).replace('Take off', 'Take-off').replace('Level off', 'Level-off');
}

/** The parts of an object at a path; what has one value only is left out. */
export function partsOf(shape: Shape, data: unknown, path: string): Part[] {
  return Object.entries(shape.properties ?? {})
    .filter(([key, of]) => !(of.const !== undefined && shape.required?.includes(key)))
    .map(([key, of]) =>
      partOf(of, isRecord(data) ? data[key] : undefined, {
        path: path === '' ? key : `${path}.${key}`,
        label: labelOf(key),
        required: shape.required?.includes(key) ?? false,
      }),
    );
}

/** Keys by which the forms of a choice are told apart, each with its form; null where a shape is no such choice. */
export function optionsOf(shape: Shape): Record<string, Shape> | null {
  if (!shape.anyOf?.every(({ properties }) => properties)) return null;
  return Object.fromEntries(shape.anyOf.map((option) => [Object.keys(option.properties ?? {})[0], option]));
}

function partOf(shape: Shape, data: unknown, of: Pick<Named, 'path' | 'label' | 'required'>): Part {
  const named = { ...of, help: helpOf(shape), present: data !== undefined && data !== null };
  const options = optionsOf(shape);
  if (options) return choiceOf(options, data, named);
  // A value alone or a list of them: as it is written.
  const list = Array.isArray(data) ? shape.anyOf?.find(({ items }) => items) : undefined;
  if (list?.items) return listOf(list, list.items, data, named);
  if (shape.items) return listOf(shape, shape.items, data, named);
  if (shape.properties) {
    const children = named.present ? partsOf(shape, data, of.path) : [];
    return { kind: 'group', ...named, shape, children };
  }
  const value = shape.additionalProperties;
  if (typeof value === 'object') return { kind: 'pairs', ...named, fields: pairsOf(value, data, of.path) };
  return fieldOf(shape, data, named);
}

function choiceOf(options: Record<string, Shape>, data: unknown, named: Named): Choice {
  const option = Object.keys(options).find((key) => isRecord(data) && key in data) ?? '';
  const parts = option === '' ? [] : partsOf(options[option], data, named.path);
  const [only] = parts;
  const children = parts.length === 1 && only.kind === 'group' ? only.children : parts;
  return { kind: 'choice', ...named, option, options, children };
}

/** What is said of plain values is said once, for the list. */
function listOf(shape: Shape, item: Shape, data: unknown, named: Named): List {
  const items = (Array.isArray(data) ? data : []).map((value: unknown, index): Part => {
    const part = partOf(item, value, {
      path: `${named.path}.${index}`,
      label: `${index + 1}`,
      required: true,
    });
    return part.kind === 'field' ? { ...part, help: '', label: `${named.label} ${index + 1}` } : part;
  });
  return {
    kind: 'list',
    ...named,
    help: helpOf(shape) || (item.properties ? '' : helpOf(item)),
    item,
    items,
  };
}

function pairsOf(shape: Shape, data: unknown, path: string): Field[] {
  return Object.entries(isRecord(data) ? data : {}).map(([key, value]) =>
    fieldOf(shape, value, {
      path: `${path}.${key}`,
      label: labelOf(key),
      help: helpOf(shape),
      required: true,
      present: true,
    }),
  );
}

function fieldOf(shape: Shape, data: unknown, named: Named): Field {
  const all = [shape, ...(shape.anyOf ?? [])];
  const words = all.flatMap((one) => [
    ...(one.enum ?? []),
    ...(one.const === undefined ? [] : [String(one.const)]),
  ]);
  const open = shape.anyOf !== undefined || words.length === 0;
  const types: Readonly<Record<string, Field['type']>> = { boolean: 'yes or no', integer: 'whole number' };
  return {
    kind: 'field',
    ...named,
    type: types[String(shape.type)] ?? 'text',
    value: named.present ? String(data) : '',
    choices: open ? null : words,
    suggestions: open ? words : [],
    ifLeftOut: shape.default === undefined ? '' : String(shape.default),
  };
}

/** What the schema says of a value, with the units that it can be written in. */
function helpOf(shape: Shape): string {
  const described = [shape, ...(shape.anyOf ?? [])].filter(({ description }) => description);
  const units = [shape, ...(shape.anyOf ?? [])]
    .flatMap((one) => one.units ?? [])
    .filter((unit) => unit !== '1');
  const sentence = upperFirst(described[0]?.description ?? '').replace(/ Units: .*$/, '');
  const full = sentence === '' || sentence.endsWith('.') ? sentence : `${sentence}.`;
  return units.length === 0 ? full : `${full} Units: ${units.join(', ')}.`.trim();
}

/** What one item of a list is called, by the key of the list. */
const itemWords: Readonly<Record<string, string>> = {
  bases: 'base',
  tankers: 'tanker',
  legs: 'leg',
  through: 'waypoint',
  fly: 'step',
  checks: 'check',
  checklist: 'step',
  fuel: 'fuel',
  temperatureOffset: 'temperature offset',
};

export function itemWord({ path }: List): string {
  return itemWords[path.slice(path.lastIndexOf('.') + 1)] ?? 'item';
}

/** What is said in a part beside its name, in a line: its values, or the names of what it lists. */
export function summaryOf(part: Part): string {
  if (part.kind === 'field') return part.value;
  if (part.kind === 'pairs') return part.fields.map(({ label, value }) => `${label} ${value}`).join(', ');
  if (part.kind === 'list') return part.items.map(nameOf).join(', ');
  const name = nameFieldOf(part);
  return part.children
    .filter((child) => child.kind === 'field' && child.type === 'text' && child !== name)
    .map(summaryOf)
    .filter((value) => value !== '')
    .join(', ');
}

/** What an item of a list is called: by its name, else by its kind, else by its values. */
export function nameOf(part: Part): string {
  if (part.kind === 'choice') return upperFirst(part.option) || `Step ${part.label}`;
  if (part.kind !== 'group') return summaryOf(part);
  const name = nameFieldOf(part);
  return (name && summaryOf(name)) || summaryOf(part) || part.label;
}

function nameFieldOf(part: Group | Choice): Part | undefined {
  return part.children.find(({ path }) => path === `${part.path}.name` || path === `${part.path}.text`);
}

function isRecord(data: unknown): data is Record<string, unknown> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
