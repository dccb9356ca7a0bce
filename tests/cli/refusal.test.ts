/** How a command says no: a refusal in one line, a fault of the program as what it is, neither taken for a plan. */
import { expect, it } from 'vitest';
import { orRefused, Refusal } from '../../src/cli/refusal.ts';
import { listening } from './said.ts';

const said = listening('.');

it('passes a code on, refuses in one line, and takes a fault for neither a plan nor a halt', async () => {
  expect(await orRefused(async () => 1)).toBe(1);
  expect(said.err).toBe('');
  expect(await orRefused(async () => { throw new Refusal('--pdf: found\n"x"'); })).toBe(2);
  expect(said.err).toBe('--pdf: found "x"\n');
  said.err = '';
  expect(await orRefused(async () => { throw new TypeError('no such thing'); })).toBe(3);
  expect(said.err).toMatch(/^Something went wrong in here, not in your file: no such thing\. Your file is as it was, and there is no answer\.\nTypeError: no such thing\n/);
  expect(said.out).toBe('');
});
