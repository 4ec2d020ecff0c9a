// A piece as the desk lays it out: where every stitch lies, and which lies under a point.
import { UNDYED } from "../colour";
import type { Seen } from "../told";
import { yarnOf } from "../yarn";

export interface Course {
  first: number;
  number: number;
  closed: boolean;
  row: number;
  label: string;
  colour: string;
  start: number;
}

export interface PieceTold {
  part: string;
  reason: string;
  measured: boolean;
  width_mm: number;
  names: string[];
  spans: [number, number][];
  x: string;
  y: string;
  chain: string;
  leg: string;
  name: string;
  words: string;
  courses: Course[];
}

function bytes(base64: string): ArrayBuffer {
  const text = atob(base64);
  const found = new Uint8Array(text.length);
  for (let at = 0; at < text.length; at++) found[at] = text.charCodeAt(at);
  return found.buffer;
}

const CELL = 6;
/** Longer than so many stitches no leg is: a row that does not close lies askew. */
const LONGEST = 8;

export class Piece {
  readonly part: string;
  readonly reason: string;
  readonly measured: boolean;
  /** How wide a stitch is, in millimetres. */
  readonly stitch: number;
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly chain: Uint8Array;
  readonly name: Uint16Array;
  readonly names: string[];
  readonly words: Int32Array;
  readonly spans: [number, number][];
  readonly courses: Course[];
  readonly courseOf: Uint32Array;
  /** The legs of each stitch: `legs[legFirst[n] .. legFirst[n + 1]]`. */
  readonly legs: Int32Array;
  readonly legFirst: Uint32Array;
  readonly width: number;
  readonly height: number;
  readonly size: number;
  private readonly across: number;
  private readonly down: number;
  private readonly cellFirst: Uint32Array;
  private readonly inCell: Uint32Array;
  private readonly cell: number;

  constructor(told: PieceTold) {
    this.part = told.part;
    this.reason = told.reason;
    this.measured = told.measured;
    this.stitch = told.width_mm;
    this.names = told.names;
    this.spans = told.spans;
    this.courses = told.courses;
    this.x = new Float32Array(bytes(told.x));
    this.y = new Float32Array(bytes(told.y));
    this.chain = new Uint8Array(bytes(told.chain));
    this.name = new Uint16Array(bytes(told.name));
    this.words = new Int32Array(bytes(told.words));
    this.size = this.x.length;
    this.width = this.x.reduce((most, value) => Math.max(most, value), 0);
    this.height = this.y.reduce((most, value) => Math.max(most, value), 0);
    this.courseOf = new Uint32Array(this.size);
    for (const [at, course] of this.courses.entries())
      this.courseOf.fill(at, course.first, course.first + course.number);
    [this.legs, this.legFirst] = legsOf(new Int32Array(bytes(told.leg)), this.size);
    this.cell = this.stitch * CELL;
    this.across = Math.max(1, Math.ceil(this.width / this.cell) + 1);
    this.down = Math.max(1, Math.ceil(this.height / this.cell) + 1);
    [this.cellFirst, this.inCell] = this.sorted();
  }

  private cellOf(x: number, y: number): number {
    const column = Math.min(this.across - 1, Math.max(0, Math.floor(x / this.cell)));
    const row = Math.min(this.down - 1, Math.max(0, Math.floor(y / this.cell)));
    return row * this.across + column;
  }

  private sorted(): [Uint32Array, Uint32Array] {
    const first = new Uint32Array(this.across * this.down + 1);
    for (let n = 0; n < this.size; n++) {
      const cell = this.cellOf(this.x[n] ?? 0, this.y[n] ?? 0) + 1;
      first[cell] = (first[cell] ?? 0) + 1;
    }
    for (let cell = 1; cell < first.length; cell++)
      first[cell] = (first[cell] ?? 0) + (first[cell - 1] ?? 0);
    const next = first.slice();
    const sorted = new Uint32Array(this.size);
    for (let n = 0; n < this.size; n++) {
      const cell = this.cellOf(this.x[n] ?? 0, this.y[n] ?? 0);
      const at = next[cell] ?? 0;
      sorted[at] = n;
      next[cell] = at + 1;
    }
    return [first, sorted];
  }

  /** The stitches in a rectangle, in working order. */
  within(left: number, top: number, right: number, bottom: number): number[] {
    const found: number[] = [];
    const columns = [left, right].map((x) => Math.floor(x / this.cell));
    const rows = [top, bottom].map((y) => Math.floor(y / this.cell));
    const clamp = (value: number, most: number) => Math.min(most - 1, Math.max(0, value));
    for (let row = clamp(rows[0] ?? 0, this.down); row <= clamp(rows[1] ?? 0, this.down); row++) {
      const from = row * this.across + clamp(columns[0] ?? 0, this.across);
      const to = row * this.across + clamp(columns[1] ?? 0, this.across);
      for (let at = this.cellFirst[from] ?? 0; at < (this.cellFirst[to + 1] ?? 0); at++)
        found.push(this.inCell[at] ?? 0);
    }
    return found.sort((one, other) => one - other);
  }

  /** The stitch under a point; -1 where there is none. */
  at(x: number, y: number): number {
    const reach = this.stitch * 3;
    let best = -1;
    let nearest = (this.stitch * 1.2) ** 2;
    for (const n of this.within(x - reach, y - reach, x + reach, y + reach)) {
      const far = this.farFrom(n, x, y);
      if (far < nearest) [best, nearest] = [n, far];
    }
    return best;
  }

  private farFrom(n: number, x: number, y: number): number {
    let found = Number.POSITIVE_INFINITY;
    for (const foot of this.feet(n)) {
      const [x0, y0] = [this.x[foot] ?? 0, this.y[foot] ?? 0];
      const [dx, dy] = [(this.x[n] ?? 0) - x0, (this.y[n] ?? 0) - y0];
      const part = ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy || 1);
      const on = Math.min(1, Math.max(0.12, part));
      found = Math.min(found, (x - x0 - on * dx) ** 2 + (y - y0 - on * dy) ** 2);
    }
    return Math.min(found, ((this.x[n] ?? 0) - x) ** 2 + ((this.y[n] ?? 0) - y) ** 2);
  }

  /** Whether two stitches lie so near that yarn may run between them. */
  isNear(n: number, other: number): boolean {
    const [dx, dy] = [(this.x[n] ?? 0) - (this.x[other] ?? 0), (this.y[n] ?? 0) - (this.y[other] ?? 0)];
    return dx * dx + dy * dy < (this.stitch * LONGEST) ** 2;
  }

  feet(n: number): Int32Array {
    return this.legs.subarray(this.legFirst[n], this.legFirst[n + 1]);
  }

  /** Where the words of each row stand now, and its colour. */
  takeWords(courses: Course[]): void {
    for (const [at, course] of this.courses.entries()) {
      const now = courses[at];
      if (now) Object.assign(course, { start: now.start, label: now.label, colour: now.colour });
    }
  }

  /** The rows that a place in the text makes. */
  coursesOf(start: number): Course[] {
    return this.courses.filter((course) => course.start === start);
  }

  /** Where a row has its left end, and the left end of what it stands on. */
  leftEnd(course: Course): { x: number; top: number; bottom: number } {
    let end = course.first;
    for (const n of course.closed ? range(course) : [course.first, course.first + course.number - 1])
      if ((this.x[n] ?? 0) < (this.x[end] ?? 0)) end = n;
    const bottom = this.y[end] ?? 0;
    const foot = this.feet(end)[0];
    return { x: this.x[end] ?? 0, top: foot === undefined ? bottom : (this.y[foot] ?? bottom), bottom };
  }
}

export function* range(course: Course): Generator<number> {
  for (let n = course.first; n < course.first + course.number; n++) yield n;
}

function legsOf(pairs: Int32Array, size: number): [Int32Array, Uint32Array] {
  const first = new Uint32Array(size + 1);
  for (let at = 0; at < pairs.length; at += 2) {
    const n = (pairs[at] ?? 0) + 1;
    first[n] = (first[n] ?? 0) + 1;
  }
  for (let n = 1; n <= size; n++) first[n] = (first[n] ?? 0) + (first[n - 1] ?? 0);
  const next = first.slice();
  const legs = new Int32Array(pairs.length / 2);
  for (let at = 0; at < pairs.length; at += 2) {
    const n = pairs[at] ?? 0;
    const place = next[n] ?? 0;
    legs[place] = pairs[at + 1] ?? 0;
    next[n] = place + 1;
  }
  return [legs, first];
}

/** The colour of every row. */
export function coloursOf(piece: Piece, seen: Pick<Seen, "yarns"> | null): string[] {
  let before = "";
  return piece.courses.map((course, at) => {
    const own = course.colour || (at === 0 ? (piece.courses[1]?.colour ?? "") : before);
    before = own;
    return (seen && yarnOf(seen, [own]).hex) || UNDYED;
  });
}
