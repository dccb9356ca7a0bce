import { createElement, Suspense } from 'react';
import { renderToPipeableStream } from 'react-dom/server';
import { PassThrough } from 'node:stream';
import { text } from 'node:stream/consumers';
import { expect, it } from 'vitest';
import { fetched } from '../../../src/screens/shared/fetched.tsx';

const Greeting = ({ name }: { readonly name: string }) => createElement('b', null, `Hello ${name}`);

/** The markup once everything has come. */
async function shown(Part: ReturnType<typeof fetched<{ readonly name: string }>>): Promise<string> {
  const out = new PassThrough();
  const stream = renderToPipeableStream(createElement('main', null, createElement('i', null, 'beside it'), createElement(Suspense, null, createElement(Part, { name: 'newt' }))), { onAllReady: () => stream.pipe(out) });
  return text(out);
}

it('shows the part once it has come', async () => {
  expect(await shown(fetched(async () => Greeting))).toContain('<b>Hello newt</b>');
});

it('says in its place that it could not be fetched, and leaves what stands beside it', async () => {
  const page = await shown(fetched<{ readonly name: string }>(() => Promise.reject(new TypeError('Failed to fetch dynamically imported module'))));
  expect(page).toContain('This part of the page could not be fetched.');
  expect(page).toContain('<i>beside it</i>');
});
