// Which cloth hangs, how it is looked at, and what is lit in it.
import { signal } from "@preact/signals";
import type { Camera } from "./draw";
import type { Piece } from "./piece";

export const pieces = signal<Piece[]>([]);
export const piece = signal<Piece | null>(null);
export const isAtRest = signal(false);
export const camera = signal<Camera>({ x: 0, y: 0, scale: 2 });
/** Stitches that are ringed. */
export const lit = signal<number[]>([]);
/** Which stitch the pointer is on; -1 for none. */
export const under = signal(-1);
/** Counts up whenever another piece hangs, or the same in other colours. */
export const hung = signal(0);
/** Whether a cloth is being laid; why none can be, where that is so. */
export const laying = signal(false);
export const whyNone = signal("");
