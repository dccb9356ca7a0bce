/** What a command says while a test runs: stdout and stderr of this process, its working folder stubbed. */
import { afterEach, beforeEach, vi } from 'vitest';

export interface Said {
  out: string;
  err: string;
}

/** Listens anew before each test of the file it is called in. */
export function listening(folder: string): Said {
  const said: Said = { out: '', err: '' };
  beforeEach(() => {
    [said.out, said.err] = ['', ''];
    vi.stubEnv('INIT_CWD', folder);
    vi.spyOn(process.stdout, 'write').mockImplementation(((text: string, done?: () => void) => {
      said.out += text;
      done?.();
      return true;
    }) as typeof process.stdout.write);
    vi.spyOn(console, 'error').mockImplementation((text: string) => void (said.err += `${text}\n`));
  });
  afterEach(() => {
    vi.restoreAllMocks();
    vi.unstubAllEnvs();
  });
  return said;
}
