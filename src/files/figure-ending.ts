/** Of the name of a figure that is packed (figure-pack.ts), apart from the code that unpacks it. */
export const PACKED_ENDING = '.figure';
