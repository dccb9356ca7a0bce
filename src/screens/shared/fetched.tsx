/** A part of the page that is fetched when it is first shown. Where it can't be, that is said in its place, and all else stays. */
import { lazy, type ComponentType, type LazyExoticComponent } from 'react';

export function fetched<Props>(bring: () => Promise<ComponentType<Props>>): LazyExoticComponent<ComponentType<Props>> {
  return lazy(async () => ({ default: await bring().catch((): ComponentType<Props> => NotFetched) }));
}

function NotFetched() {
  return <p role="alert">This part of the page could not be fetched. Check the connection and reload the page; your piece is kept in this browser.</p>;
}
