/** Files written into a folder: each is there whole or as it was before. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import writeFileAtomic from 'write-file-atomic';

export type NewFile = readonly [name: string, content: string | Buffer];

/** Writes files that are made already, so that nothing is written where one cannot be made. Returns their paths. */
export async function writeFiles(folder: string, files: readonly NewFile[]): Promise<string[]> {
  mkdirSync(folder, { recursive: true });
  const paths: string[] = [];
  for (const [name, content] of files) {
    const path = join(folder, name);
    await writeFileAtomic(path, content);
    paths.push(path);
  }
  return paths;
}
