/** `ramrise schema`: JSON Schemas of the files that are written by hand. */
import { deckJsonSchema } from '../files/deck-schema.ts';
import { sortieJsonSchema } from '../files/sortie-schema.ts';
import { WrongUsage } from './outcome.ts';
import { sayJson } from './text.ts';

const schemas: Readonly<Record<string, () => object>> = {
  sortie: sortieJsonSchema,
  deck: deckJsonSchema,
};

export function schema(kind: string): void {
  const found = schemas[kind];
  if (!found) throw new WrongUsage(`no schema "${kind}"; there is ${Object.keys(schemas).join(', ')}`);
  sayJson(found());
}
