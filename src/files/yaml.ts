/** YAML files against a schema, every fault with its line and column. */
import { isMap, isScalar, LineCounter, type Pair, parseDocument } from 'yaml';
import { z } from 'zod';
import { quantity } from '../core/quantities/quantities.ts';
import { readQuantity, unitNames } from '../core/quantities/values.ts';
import type { Faults, Place } from './faults.ts';

export type Path = readonly PropertyKey[];

/** The value at a path of plain data; undefined where there is none. */
export function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

/** What was read, and where in the file each path stands. */
export interface YamlFile<T> {
  readonly value: T | null;
  /** The file as plain data, whether it fits the schema or not; null where it is not YAML. */
  readonly raw: unknown;
  /** Place of a path, or of the nearest enclosing one that is there. */
  readonly place: (path: Path) => Place;
}

/** Reads a YAML text against a schema; `value` is null and `faults` has the reasons where it does not fit. */
export function readYaml<T>(text: string, file: string, schema: z.ZodType<T>, faults: Faults): YamlFile<T> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };

  function place(path: Path): Place {
    for (let length = path.length; length > 0; length--) {
      const node = document.getIn(path.slice(0, length) as string[], true) as
        | { range?: number[] }
        | undefined;
      if (node?.range) return at(node.range[0]);
    }
    return { file, line: 1, column: 1 };
  }

  /** Place of a key itself, for keys that should not be there. */
  function keyPlace(path: Path, key: string): Place {
    const node = path.length === 0 ? document.contents : document.getIn(path as string[], true);
    if (!isMap(node)) return place(path);
    const pair = node.items.find((item: Pair) => isScalar(item.key) && item.key.value === key);
    const range = (pair?.key as { range?: number[] } | undefined)?.range;
    return range ? at(range[0]) : place(path);
  }

  for (const error of document.errors) faults.add(at(error.pos[0]), '', error.message);
  if (document.errors.length > 0) return { value: null, raw: null, place };

  const raw: unknown = document.toJS();
  const parsed = schema.safeParse(raw);
  if (parsed.success) return { value: parsed.data, raw, place };
  for (const issue of parsed.error.issues.flatMap(meant)) {
    const path = issue.path.map(String).join('.');
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys) {
        const full = path === '' ? key : `${path}.${key}`;
        faults.add(keyPlace(issue.path, key), full, `unknown key "${key}"`);
      }
    } else {
      const missing = issue.path.length > 0 && valueAt(raw, issue.path) === undefined;
      faults.add(place(issue.path), path, missing ? missingWords(issue.message) : issue.message);
    }
  }
  return { value: null, raw, place };
}

/** What the schema says of a value that is not there, unless it says only that there is none. */
function missingWords(message: string): string {
  return message.startsWith('Invalid input') ? 'is missing' : `is missing (${message})`;
}

/**
 * The issues of the one option of a union that has the keys written, where there is just one; else the issue itself. So a
 * step with a fault inside is not told that it is no step.
 */
function meant(issue: z.core.$ZodIssue): z.core.$ZodIssue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const options = issue.errors.filter((issues) => issues.every(({ path }) => path.length > 0));
  if (options.length !== 1) return [issue];
  return options[0].flatMap((inner) => meant({ ...inner, path: [...issue.path, ...inner.path] }));
}

/**
 * A value with its unit as a text ("620 K"), read as the SI value of the quantity that a key names. Ratios may be plain
 * numbers.
 */
export function quantityText(key: string) {
  const of = quantity(key);
  const units = unitNames(of).join(', ');
  const expected = `${of.name}: write a number and its unit, in quotation marks or plain (${units})`;
  const error = ({ input }: { readonly input?: unknown }): string =>
    typeof input === 'number' ? `${of.name} ${input} has no unit; write one of ${units}` : expected;
  const text = z.string({ error });
  const input = of.dimension === 'ratio' ? z.union([z.number(), text], { error }) : text;
  return input
    .transform((value, context): number => {
      try {
        return readQuantity(String(value), key);
      } catch (error) {
        context.addIssue({ code: 'custom', message: (error as Error).message });
        return z.NEVER;
      }
    })
    .meta({ description: `${of.sentence} Units: ${units}.`, units: unitNames(of) });
}
