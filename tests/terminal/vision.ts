/** What is needed to judge colours: contrast on a ground, and how far two are apart for each kind of colour vision. */
type Triple = readonly [number, number, number];

const linear = (channel: number): number => (channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4);

export const linearOf = (rgb: string): Triple => {
  const part = (at: number) => linear(Number.parseInt(rgb.slice(at, at + 2), 16) / 255);
  return [part(1), part(3), part(5)];
};

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Relative luminance and contrast ratio of WCAG 2.1, 1.4.3 (memory); with the 0.04045 of IEC 61966-2-1 for its 0.03928. */
export const luminance = (rgb: string): number => dot([0.2126, 0.7152, 0.0722], linearOf(rgb));
export function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

type Matrix = readonly [Triple, Triple, Triple];

/**
 * Simulation of colour vision deficiency at full severity, on linear RGB: Machado, Oliveira and Fernandes, "A
 * physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15(6), 2009, table for severity 1.0
 * (memory; that each row sums to 1, so that greys stay grey, is checked).
 */
export const VISIONS = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const satisfies Record<string, Matrix>;
export type Vision = keyof typeof VISIONS;

const within = (share: number): number => Math.min(1, Math.max(0, share));
const through = (matrix: Matrix, from: Triple): Triple => [
  within(dot(matrix[0], from)),
  within(dot(matrix[1], from)),
  within(dot(matrix[2], from)),
];

/** Linear sRGB to XYZ (IEC 61966-2-1, memory) and XYZ to CIELAB at D65 (CIE 15, memory). */
const TO_XYZ: Matrix = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
];
const WHITE: Triple = [0.9505, 1, 1.089];
const cube = (t: number): number => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);

export function labOf(rgb: string, vision: Vision = "usual"): Triple {
  const seen = through(VISIONS[vision], linearOf(rgb));
  const [x, y, z] = TO_XYZ.map((row, i) => cube(dot(row, seen) / (WHITE[i] ?? 1))) as [number, number, number];
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** The CIE 1976 colour difference: about 2 is just to be seen side by side. */
export function difference(a: string, b: string, vision: Vision): number {
  const [p, q] = [labOf(a, vision), labOf(b, vision)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}
