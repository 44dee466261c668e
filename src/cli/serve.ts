/** `ramrise serve`: the application on this machine, until it is stopped. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { openInBrowser, serve as serveFolder } from '../service/serve.ts';
import { Refusal, WrongUsage } from './outcome.ts';
import { say, sayJson } from './text.ts';

export interface ServeOptions {
  readonly port?: string;
  readonly open?: boolean;
  readonly json?: boolean;
}

const usualPort = 4747;

export async function serve(options: ServeOptions): Promise<void> {
  const folder = fileURLToPath(new URL('./web', import.meta.url));
  if (!existsSync(folder)) throw new Refusal('the application is not built: run "npm run build"');
  const { address } = await listen(folder, portOf(options.port));
  const opened = options.open === true && openInBrowser(address);
  if (options.json) sayJson({ address });
  else say(`Ramrise at ${address}${opened ? ', opened in the browser' : ''}; Ctrl+C ends it.`);
}

/** The usual port, or any that is free where another program has it; a port that was asked for is not exchanged. */
async function listen(folder: string, asked: number | null): ReturnType<typeof serveFolder> {
  try {
    return await serveFolder(folder, asked ?? usualPort);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    if (asked !== null) throw new Refusal(`port ${asked} is taken by another program`);
    return serveFolder(folder, 0);
  }
}

function portOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const port = Number(text);
  if (!/^\d+$/.test(text) || port > 65535) throw new WrongUsage(`--port is 0 to 65535, not "${text}"`);
  return port;
}
