/** The light paper's tokens (shared look), for drawing in tests. */
import type { ViewColors } from '../../src/view/props.ts';

export const COLORS: ViewColors = {
  ground: '#E8ECE4', sheet: '#F8FAF4', ink: '#1C292D', ink2: '#545D59', rule: '#C6CEC0', teal: '#0B6166', onteal: '#F8FAF4',
  brick: '#922B21', brickwash: '#EFDAD4', water: '#D5E5DF', silt: '#DED8C4', hatch: '#3D5256',
};
