/** What the form does to the text of a sortie. */
import { addItem, addValue, removeAt, replaceAt, setScalar } from '../../yaml-edit.ts';
import type { Value } from '../../yaml-text.ts';
import { type Choice, type Field, type Group, type List, optionsOf, type Shape } from './form.ts';

/** The text with what was written in a field; one that may be left out is taken away when it is emptied. */
export function write(text: string, field: Field, written: string): string {
  if (written === '' && !field.required) return field.present ? removeAt(text, field.path) : text;
  if (field.type === 'yes or no') return setScalar(text, field.path, written === 'true');
  const whole = field.type === 'whole number' && /^-?\d+$/.test(written);
  return setScalar(text, field.path, whole ? Number(written) : written);
}

/** The text with one more item of a list; `option` names the kind where there are several. */
export function extend(text: string, data: unknown, list: List, option = ''): string {
  return addItem(text, list.path, freshItem(data, list, option));
}

/** The text with a group that was left out. */
export function include(text: string, data: unknown, group: Group): string {
  return addValue(text, group.path, freshValue(group.shape, lastLike(data, group.path)));
}

/** The text with another of the forms that a value can have. */
export function choose(text: string, data: unknown, choice: Choice, option: string): string {
  const alike = lastLike(data, choice.path, (value) => option in value);
  return replaceAt(text, choice.path, freshValue(choice.options[option], alike));
}

function freshItem(data: unknown, { path, item }: List, option: string): Value {
  const options = optionsOf(item);
  if (!options) return freshValue(item, lastLike(data, `${path}.0`));
  return freshValue(
    options[option],
    lastLike(data, `${path}.0`, (value) => option in value),
  );
}

/** The last value of the same kind in the sortie: another waypoint for a waypoint, whichever leg it is of. */
function lastLike(
  data: unknown,
  path: string,
  fits: (value: Readonly<Record<string, unknown>>) => boolean = () => true,
): unknown {
  let found: unknown[] = [data];
  for (const key of path.split('.')) {
    found = found.flatMap((value) => {
      if (Array.isArray(value) && /^\d+$/.test(key)) return value;
      return typeof value === 'object' && value !== null ? [(value as Record<string, unknown>)[key]] : [];
    });
  }
  return found.filter((value) => typeof value === 'object' && value !== null && fits(value as never)).at(-1);
}

/** Name and place are of one alone: they are to be written anew. */
const ownKeys = ['name', 'at', 'text'];

/** What must be written, with the values of another of its kind where there is one, else empty. */
function freshValue(shape: Shape, alike: unknown): Value {
  if (shape.properties) {
    const like = (alike ?? {}) as Readonly<Record<string, unknown>>;
    const keys = Object.keys(shape.properties).filter(
      (key) => shape.required?.includes(key) || (like[key] !== undefined && !Array.isArray(like[key])),
    );
    return Object.fromEntries(
      keys.map((key) => {
        const own = ownKeys.includes(key) && !(key === 'at' && like.name === undefined);
        return [key, freshValue(shape.properties?.[key] as Shape, own ? undefined : like[key])];
      }),
    );
  }
  if (shape.items) return Array.isArray(alike) ? (alike as Value) : [];
  if (alike !== undefined) return alike as Value;
  return shape.enum?.[0] ?? '';
}
