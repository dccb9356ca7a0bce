/**
 * How paper, hatch, water, figures and painted sheets look. Our own small shaders: they work in the page's own
 * colors (sRGB in, sRGB out, no tone mapping), light is fixed to the picture as in a drawing, and whatever lies
 * under the water takes on its color by depth, so nothing needs sorting inside it.
 */

import { DoubleSide, FrontSide, BackSide, ShaderMaterial, Vector2, Vector3, type IUniform, type Texture } from 'three';
import type { Rgb } from './color.ts';

/** Shared by every material under the water; changed in place when the level moves. */
export interface WaterUniforms {
  readonly uLevel: IUniform<number>;
  readonly uWater: IUniform<Vector3>;
  readonly uDepth: IUniform<number>;
  /** Inside half-sizes at the floor, corner radius, tan(draft); of a round mold: 0, 0, its radius, tan(draft). */
  readonly uInside: IUniform<{ x: number; y: number; z: number; w: number }>;
  /** The picture in CSS px. */
  readonly uSize: IUniform<Vector2>;
  /** Weight of the pens: 1 in a large picture, less in a small one. */
  readonly uWeight: IUniform<number>;
  /** Device px per CSS px. */
  readonly uPx: IUniform<number>;
}

/** Depth at which water has given a thing two thirds of what it ever gives, mm. */
const WATER_DEPTH_MM = 45;
/** Most of the water's color a thing takes on. */
const WATER_SHARE = 0.32;

export function waterUniforms(): WaterUniforms {
  return { uLevel: { value: 0 }, uWater: { value: new Vector3() }, uDepth: { value: WATER_DEPTH_MM }, uInside: { value: { x: 1, y: 1, z: 0, w: 0 } }, uSize: { value: new Vector2(1, 1) }, uWeight: { value: 1 }, uPx: { value: 1 } };
}

const UNDER_WATER = /* glsl */ `
uniform float uLevel, uDepth; uniform vec3 uWater;
vec3 underWater(vec3 color, float z) {
  float depth = max(0., uLevel - z);
  return mix(color, uWater, ${WATER_SHARE} * (1. - exp(-depth / uDepth)));
}`;

const GRAIN = /* glsl */ `
float hash(vec3 p) { p = fract(p * .3183099 + .1); p *= 17.; return fract(p.x * p.y * p.z * (p.x + p.y + p.z)); }
float grain(vec3 x) {
  vec3 i = floor(x), f = fract(x); f = f * f * (3. - 2. * f);
  return mix(mix(mix(hash(i), hash(i + vec3(1,0,0)), f.x), mix(hash(i + vec3(0,1,0)), hash(i + vec3(1,1,0)), f.x), f.y),
             mix(mix(hash(i + vec3(0,0,1)), hash(i + vec3(1,0,1)), f.x), mix(hash(i + vec3(0,1,1)), hash(i + vec3(1,1,1)), f.x), f.y), f.z);
}`;

/** Distance to the mold's inner wall at a point, positive outside. */
const INSIDE = /* glsl */ `
uniform vec4 uInside;
float outside(vec3 p) {
  float lean = p.z * uInside.w;
  if (uInside.x == 0.) return length(p.xy) - uInside.z - lean;
  vec2 q = abs(p.xy) - uInside.xy - lean + uInside.z;
  return length(max(q, 0.)) + min(max(q.x, q.y), 0.) - uInside.z;
}`;

/** Vertex colors as they are; pushed back a hair so that ink on an edge stays whole. */
export function paperMaterial(): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1.5, polygonOffsetUnits: 2, vertexColors: true,
    vertexShader: 'varying vec3 vColor; varying vec3 vAt; void main() { vColor = color; vAt = position; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: `${GRAIN} varying vec3 vColor; varying vec3 vAt; void main() { gl_FragColor = vec4(vColor * (1. + .02 * (grain(vAt * .35) - .5)), 1.); }`,
  });
}

/** Slanted strokes at a fixed spacing of the picture, never scaled. */
export function hatchMaterial(ink: Rgb, water: WaterUniforms): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1, vertexColors: true,
    uniforms: { uInk: { value: new Vector3(...ink) }, uPx: water.uPx },
    vertexShader: 'varying vec3 vColor; void main() { vColor = color; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: `uniform vec3 uInk; uniform float uPx; varying vec3 vColor;
      void main() {
        float s = mod((gl_FragCoord.x - gl_FragCoord.y) * .7071, 5.2 * uPx);
        float stroke = 1. - smoothstep(.45 * uPx, .45 * uPx + .8, abs(s - 2.6 * uPx));
        gl_FragColor = vec4(mix(vColor, uInk, .42 * stroke), 1.);
      }`,
  });
}

/** Water's cut side and surface. Pushed back, so that a bed cut in the same face is not under water. */
export function veilMaterial(opacity: number): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, transparent: true, depthWrite: false, vertexColors: true, polygonOffset: true, polygonOffsetFactor: 3, polygonOffsetUnits: 24, uniforms: { uOpacity: { value: opacity } },
    vertexShader: 'varying vec3 vColor; void main() { vColor = color; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: 'uniform float uOpacity; varying vec3 vColor; void main() { gl_FragColor = vec4(vColor, uOpacity); }',
  });
}

/** A figure in plain wash: two tones, a little pigment grain, no gloss. */
export function figureMaterial(base: Rgb, shade: Rgb, water: WaterUniforms): ShaderMaterial {
  return washMaterial({ base, shade, water, bed: false });
}

/** Silt: stippled, and cut off where the mold ends (its inside then shows as a plain section). */
export function bedMaterial(base: Rgb, shade: Rgb, water: WaterUniforms): ShaderMaterial {
  return washMaterial({ base, shade, water, bed: true });
}

function washMaterial({ base, shade, water, bed }: { base: Rgb; shade: Rgb; water: WaterUniforms; bed: boolean }): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
    uniforms: { uBase: { value: new Vector3(...base) }, uShade: { value: new Vector3(...shade) }, uLevel: water.uLevel, uWater: water.uWater, uDepth: water.uDepth, uInside: water.uInside },
    vertexShader: `varying vec3 vNormal2, vOwn, vAt;
      void main() {
        vNormal2 = normalMatrix * normal; vOwn = position; vAt = (modelMatrix * vec4(position, 1.)).xyz;
        gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.);
      }`,
    fragmentShader: `${UNDER_WATER} ${GRAIN} ${INSIDE}
      uniform vec3 uBase, uShade; varying vec3 vNormal2, vOwn, vAt;
      void main() {
        ${bed ? 'if (outside(vAt) > .02) discard;' : ''}
        vec3 n = normalize(vNormal2) * (gl_FrontFacing ? 1. : -1.);
        float light = .5 + .5 * dot(n, normalize(vec3(-.45, .75, .5)));
        float wash = .5 * (grain(vOwn * .55) - .5) + .3 * (grain(vOwn * 2.3) - .5);
        float tone = smoothstep(.18, .78, light + .16 * wash);
        vec3 color = mix(uShade, uBase, tone) * (1. + .10 * wash);
        color = mix(color, vec3(1.), .16 * smoothstep(.82, 1., light));
        ${bed ? `
        vec3 cell = floor(vOwn * .5), at = fract(vOwn * .5) - .5;
        vec3 jog = .6 * (vec3(hash(cell), hash(cell + 7.), hash(cell + 13.)) - .5);
        float dot_ = 1. - smoothstep(.10, .17, length(at - jog));
        color = mix(gl_FrontFacing ? color : uBase, uShade * .72, .55 * dot_ * step(.35, hash(cell + 3.)));` : ''}
        gl_FragColor = vec4(underWater(color, vAt.z), 1.);
      }`,
  });
}

/** The same form a few px larger, turned inside out: an ink contour all round. */
export function contourMaterial(ink: Rgb, widthPx: number, water: WaterUniforms, bed = false): ShaderMaterial {
  return new ShaderMaterial({
    side: BackSide, polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 12, // behind every wash: thin forms keep their color
    uniforms: { uInk: { value: new Vector3(...ink) }, uWidth: { value: widthPx }, uWeight: water.uWeight, uSize: water.uSize, uLevel: water.uLevel, uWater: water.uWater, uDepth: water.uDepth, uInside: water.uInside },
    vertexShader: `uniform float uWidth, uWeight; uniform vec2 uSize; varying vec3 vAt;
      void main() {
        vAt = (modelMatrix * vec4(position, 1.)).xyz;
        vec4 p = projectionMatrix * modelViewMatrix * vec4(position, 1.);
        vec2 n = (projectionMatrix * vec4(normalMatrix * normal, 0.)).xy * uSize;
        if (dot(n, n) > 0.) p.xy += 2. * uWidth * uWeight * normalize(n) / uSize * p.w;
        gl_Position = p;
      }`,
    fragmentShader: `${UNDER_WATER} ${INSIDE} uniform vec3 uInk; varying vec3 vAt;
      void main() { ${bed ? 'if (outside(vAt) > .02) discard;' : ''} gl_FragColor = vec4(underWater(uInk, vAt.z + .5 * max(0., uLevel - vAt.z)), 1.); }`,
  });
}

/** A painted sheet: the artist's picture with its own transparency. */
export function artMaterial(art: Texture, water: WaterUniforms): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, transparent: true, depthWrite: false,
    uniforms: { uArt: { value: art }, uLevel: water.uLevel, uWater: water.uWater, uDepth: water.uDepth, uInside: water.uInside },
    vertexShader: 'varying vec2 vUv; varying vec3 vAt; void main() { vUv = uv; vAt = (modelMatrix * vec4(position, 1.)).xyz; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: `${UNDER_WATER} ${INSIDE} uniform sampler2D uArt; varying vec2 vUv; varying vec3 vAt;
      void main() {
        vec4 art = texture2D(uArt, vUv);
        if (art.a < .004 || outside(vAt) > 0.) discard;
        gl_FragColor = vec4(underWater(art.rgb / max(art.a, .004), vAt.z), art.a);
      }`,
  });
}

/** A plane without art yet: a loose wash with a wet edge, a hand's width short of the wall. */
export function placeholderMaterial(ink: Rgb, strength: number, water: WaterUniforms): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide, transparent: true, depthWrite: false,
    uniforms: { uInk: { value: new Vector3(...ink) }, uStrength: { value: strength }, uLevel: water.uLevel, uWater: water.uWater, uDepth: water.uDepth, uInside: water.uInside },
    vertexShader: 'varying vec3 vAt; void main() { vAt = (modelMatrix * vec4(position, 1.)).xyz; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: `${UNDER_WATER} ${GRAIN} ${INSIDE} uniform vec3 uInk; uniform float uStrength; varying vec3 vAt;
      void main() {
        float d = -outside(vAt) - 3. - 5. * (grain(vec3(vAt.xy * .06, vAt.z)) - .5) - 1.6 * (grain(vec3(vAt.xy * .3, vAt.z)) - .5);
        float body = smoothstep(0., .9, d);
        float edge = body * (1. - smoothstep(.4, 2.4, d));
        float bloom = grain(vec3(vAt.xy * .035, vAt.z + 4.)) * .6 + grain(vec3(vAt.xy * .11, vAt.z)) * .4;
        float a = uStrength * (body * (.2 + .8 * smoothstep(.3, .75, bloom)) + 1.5 * edge);
        if (a < .003) discard;
        gl_FragColor = vec4(underWater(uInk, vAt.z), a);
      }`,
  });
}

/** The shadow on the table; `uHalf`: half-sizes, corner radius, softness, mm. */
export function shadowMaterial(strength: number): ShaderMaterial {
  return new ShaderMaterial({
    side: FrontSide, transparent: true, depthWrite: false,
    uniforms: { uHalf: { value: { x: 1, y: 1, z: 0, w: 1 } }, uStrength: { value: strength } },
    vertexShader: 'varying vec2 vAt; void main() { vAt = position.xy; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.); }',
    fragmentShader: `uniform vec4 uHalf; uniform float uStrength; varying vec2 vAt;
      void main() {
        vec2 q = abs(vAt) - uHalf.xy + uHalf.z;
        float d = length(max(q, 0.)) + min(max(q.x, q.y), 0.) - uHalf.z;
        float s = 1. - smoothstep(-uHalf.w, uHalf.w, d);
        gl_FragColor = vec4(0., 0., 0., uStrength * s * s);
      }`,
  });
}
