// Ink or white on a yarn colour: whichever stands out more.
// Source: WCAG 2.2, "relative luminance" and "contrast ratio".
export const INK = "#211E1B";

function channel(value: number): number {
  const part = value / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
}

export function luminance(hex: string): number {
  const number = Number.parseInt(hex.slice(1), 16);
  const [red, green, blue] = [number >> 16, (number >> 8) & 255, number & 255].map(channel);
  return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
}

function contrast(one: number, other: number): number {
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}

export function inkOn(hex: string): string {
  const ground = luminance(hex);
  return contrast(ground, luminance(INK)) >= contrast(ground, 1) ? INK : "#FFFFFF";
}

/** A colour nearer to black (below 0) or to white, by a part of the way. */
export function shade(hex: string, part: number): string {
  const number = Number.parseInt(hex.slice(1), 16);
  const goal = part < 0 ? 0 : 255;
  const [red, green, blue] = [number >> 16, (number >> 8) & 255, number & 255].map((value) =>
    Math.round(value + (goal - value) * Math.abs(part)),
  );
  return `rgb(${red},${green},${blue})`;
}

/** Wool as it comes off the sheep, where no colour is told: neither paper nor a yarn of hers. */
export const UNDYED = "#CFCCC6";
