/** Writes the generated tables of Sandmartin beside this script: `npx tsx decks/sandmartin/generate.ts`. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sandmartinTables } from './generator/tables.ts';

for (const [name, text] of sandmartinTables()) {
  writeFileSync(join(import.meta.dirname, name), text);
  console.log(`${name}: ${text.length} bytes`);
}
