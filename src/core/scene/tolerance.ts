/** Heights this close are one stop, mm (design: a twentieth of a millimeter is below what a bench can level). */
export const STOP_TOLERANCE_MM = 0.05;
