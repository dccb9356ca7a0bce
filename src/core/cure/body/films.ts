/**
 * What air takes from a face. Still air is natural convection and radiation, both of which grow with the difference to
 * the room (their formulas: film.ts); tabulated over the surface's temperature, with the room's held.
 */
import { faceDownH, faceUpH, radiationH, uprightFaceH } from '../film.ts';
import { FACING_ASIDE, FACING_DOWN, FACING_UP, type OuterFaces } from './faces.ts';

/** A film of its own, or still air past a face of some size: height of upright faces, area by perimeter of level ones. */
export type BodyFilm = { readonly hWPerM2K: number } | { readonly stillAirMm: number };

export interface BodyFilms {
  readonly up: BodyFilm;
  readonly down: BodyFilm;
  readonly aside: BodyFilm;
}

/** Films of one room temperature, indexed by `FACING_…`. */
export interface FilmTables {
  readonly roomC: number;
  readonly tables: readonly Float64Array[];
}

/** Span of surface temperatures about the room's, K; beyond it the film is that of its end. Resin chars before. */
const LOWEST_K = -60;
const HIGHEST_K = 340;
/** Within 1/4 K of the room, where hardly any heat passes, straight lines fall short of the film by up to a fifth; beyond 1 K by under 0.2 %. */
const PER_K = 4;
const ENTRIES = (HIGHEST_K - LOWEST_K) * PER_K + 1;
/** Surface temperature and film depend on one another. Each round leaves a fiftieth of the difference. */
const ROUNDS = 3;

export function filmTables(films: BodyFilms, roomC: number): FilmTables {
  const tables: Float64Array[] = [];
  tables[FACING_UP] = tabulated(films.up, roomC, faceUpH, faceDownH);
  tables[FACING_DOWN] = tabulated(films.down, roomC, faceDownH, faceUpH);
  tables[FACING_ASIDE] = tabulated(films.aside, roomC, uprightFaceH, uprightFaceH);
  return { roomC, tables };
}

/**
 * Takes from `flowW` what each outer face loses at these temperatures. Where `byKelvin` is given, it receives each
 * face's loss per kelvin of its cell. Returns the whole loss, W.
 */
export function takeLosses(outer: OuterFaces, films: FilmTables, temperatureC: Float64Array, flowW: Float64Array, byKelvin: Float64Array | null): number {
  const { count, cell, areaM2, innerWPerM2K, facing } = outer;
  const { roomC, tables } = films;
  let whole = 0;
  for (let f = 0; f < count; f++) {
    const c = cell[f];
    const table = tables[facing[f]];
    const inner = innerWPerM2K[f];
    const over = temperatureC[c] - roomC;
    let surface = over;
    let h = 0;
    let slope = 0;
    for (let round = 0; round < ROUNDS; round++) {
      let at = (surface - LOWEST_K) * PER_K;
      at = at < 0 ? 0 : at > ENTRIES - 1 ? ENTRIES - 1 : at;
      let k = at | 0;
      if (k === ENTRIES - 1) k = ENTRIES - 2;
      slope = table[k + 1] - table[k];
      h = table[k] + (at - k) * slope;
      surface = (over * inner) / (inner + h);
    }
    const loss = areaM2[f] * h * surface;
    whole += loss;
    flowW[c] -= loss;
    if (byKelvin !== null) {
      const grows = Math.max(0, h + slope * PER_K * surface);
      byKelvin[f] = (areaM2[f] * inner * grows) / (inner + grows);
    }
  }
  return whole;
}

type FilmFormula = (surfaceC: number, roomC: number, lengthM: number) => number;

/** A face that is cooler than the room drives the air as its opposite does when it is warmer. */
function tabulated(film: BodyFilm, roomC: number, warmer: FilmFormula, cooler: FilmFormula): Float64Array {
  const table = new Float64Array(ENTRIES);
  for (let i = 0; i < ENTRIES; i++) {
    const faceC = roomC + LOWEST_K + i / PER_K;
    if ('hWPerM2K' in film) table[i] = film.hWPerM2K;
    else table[i] = (faceC < roomC ? cooler : warmer)(faceC, roomC, film.stillAirMm / 1e3) + radiationH(faceC, roomC);
  }
  return table;
}
