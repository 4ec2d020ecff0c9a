// Stitches as yarn: each a post from where it stands to its top, with the yarn that goes over
// it, and a link of the braid along the tops. Near, every strand; far, the cloth alone.
import { shade } from "../colour";
import type { Piece } from "./piece";

/** Below so many pixels a stitch is a patch of its colour. */
const STRANDS_FROM = 4.5;
const FINE_FROM = 9;
const PLIES_FROM = 18;

export interface Camera {
  /** What lies at the left and upper edge, in millimetres. */
  x: number;
  y: number;
  /** Pixels a millimetre. */
  scale: number;
}

export function draw(
  ctx: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D,
  piece: Piece,
  colours: string[],
  camera: Camera,
  width: number,
  height: number,
): void {
  const reach = piece.stitch * 4;
  const nodes = piece.within(
    camera.x - reach,
    camera.y - reach,
    camera.x + width / camera.scale + reach,
    camera.y + height / camera.scale + reach,
  );
  const wide = piece.stitch * camera.scale;
  ctx.lineCap = wide < STRANDS_FROM ? "butt" : "round";
  ctx.lineJoin = "round";
  let below: { pen: RowPen; colour: string } | null = null;
  for (let from = 0; from < nodes.length; ) {
    const course = piece.courseOf[nodes[from] ?? 0] ?? 0;
    let to = from + 1;
    while (to < nodes.length && piece.courseOf[nodes[to] ?? 0] === course) to++;
    const pen = new RowPen(ctx, piece, camera, nodes.slice(from, to), course);
    const colour = colours[course] ?? "#888888";
    if (wide < STRANDS_FROM) {
      pen.patches(colour, wide);
    } else {
      pen.strands(colour, wide);
      // The tops of the row below lie over the feet of this one.
      below?.pen.tops(below.colour, wide);
      below = { pen, colour };
    }
    from = to;
  }
  below?.pen.tops(below.colour, wide);
}

class RowPen {
  private readonly isBack: boolean;

  constructor(
    private readonly ctx: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D,
    private readonly piece: Piece,
    private readonly camera: Camera,
    private readonly nodes: number[],
    private readonly course: number,
  ) {
    this.isBack = course % 2 === 0;
  }

  private px(n: number): number {
    return ((this.piece.x[n] ?? 0) - this.camera.x) * this.camera.scale;
  }

  private py(n: number): number {
    return ((this.piece.y[n] ?? 0) - this.camera.y) * this.camera.scale;
  }

  patches(colour: string, wide: number): void {
    const tint = this.isBack ? shade(colour, -0.07) : colour;
    this.posts(tint, wide * 1.16, 0);
    this.along(shade(colour, -0.3), Math.max(0.5, wide * 0.16), 0);
  }

  strands(colour: string, wide: number): void {
    const dark = shade(colour, -0.45);
    this.posts(dark, wide * 0.98, 0);
    this.posts(shade(colour, -0.2), wide * 0.8, 0);
    this.posts(colour, wide * 0.5, -0.1 * wide);
    if (wide >= PLIES_FROM) this.plies(shade(colour, -0.24), wide);
    if (wide >= FINE_FROM) this.posts(shade(colour, 0.22), Math.max(0.7, wide * 0.08), -0.2 * wide);
    this.overs(dark, wide, 0.36);
    this.overs(shade(colour, -0.06), wide, 0.26);
    this.overs(shade(colour, 0.16), wide, 0.1);
  }

  /** The braid along the tops. */
  tops(colour: string, wide: number): void {
    const lift = this.isBack ? 0 : 0.1;
    this.braid(shade(colour, -0.45), wide, 0.38);
    this.braid(shade(colour, lift - 0.08), wide, 0.28);
    this.braid(shade(colour, lift + 0.14), wide, 0.09);
  }

  /** Near by, the plies of the yarn wind about each post. */
  private plies(style: string, wide: number): void {
    const { ctx, piece } = this;
    ctx.strokeStyle = style;
    ctx.lineWidth = Math.max(0.7, wide * 0.05);
    ctx.beginPath();
    for (const n of this.nodes) {
      for (const foot of piece.feet(n)) {
        if (!piece.isNear(n, foot)) continue;
        const [x, y] = [this.px(n), this.py(n)];
        const [dx, dy] = [this.px(foot) - x, this.py(foot) - y];
        const long = Math.hypot(dx, dy) || 1;
        const [ux, uy] = [(-dy / long) * wide * 0.36, (dx / long) * wide * 0.36];
        const [rx, ry] = [(dx / long) * wide * 0.16, (dy / long) * wide * 0.16];
        for (let at = 0.3; at < long / wide; at += 0.3) {
          const [mx, my] = [x + (dx / long) * at * wide, y + (dy / long) * at * wide];
          ctx.moveTo(mx - ux - rx, my - uy - ry);
          ctx.lineTo(mx + ux + rx, my + uy + ry);
        }
      }
    }
    ctx.stroke();
  }

  /** The posts of the stitches, each from what it stands on. */
  private posts(style: string, thick: number, aside: number): void {
    const { ctx, piece } = this;
    ctx.strokeStyle = style;
    ctx.lineWidth = thick;
    ctx.beginPath();
    for (const n of this.nodes) {
      if (piece.chain[n] && !this.stands(n)) continue;
      for (const foot of piece.feet(n)) {
        if (!piece.isNear(n, foot)) continue;
        ctx.moveTo(this.px(foot) + aside, this.py(foot));
        ctx.lineTo(this.px(n) + aside, this.py(n));
      }
    }
    ctx.stroke();
  }

  private stands(n: number): boolean {
    return this.piece.feet(n).length > 0;
  }

  /** The yarn that goes over a tall stitch, slanting the way the row was worked. */
  private overs(style: string, wide: number, thick: number): void {
    const { ctx, piece } = this;
    const slant = this.isBack ? -1 : 1;
    ctx.strokeStyle = style;
    ctx.lineWidth = wide * thick;
    ctx.beginPath();
    for (const n of this.nodes) {
      for (const foot of piece.feet(n)) {
        if (!piece.isNear(n, foot)) continue;
        const [x, y] = [this.px(n), this.py(n)];
        const [dx, dy] = [this.px(foot) - x, this.py(foot) - y];
        const long = Math.hypot(dx, dy);
        if (long < wide * 1.25) continue;
        const [mx, my] = [x + dx * 0.5, y + dy * 0.5];
        const [ux, uy] = [(-dy / long) * slant, (dx / long) * slant];
        const [rx, ry] = [(dx / long) * wide * 0.16, (dy / long) * wide * 0.16];
        ctx.moveTo(mx - ux * wide * 0.34 + rx, my - uy * wide * 0.34 + ry);
        ctx.lineTo(mx + ux * wide * 0.34 - rx, my + uy * wide * 0.34 - ry);
      }
    }
    ctx.stroke();
  }

  /** The tops: links of two arms, from each stitch to the next. */
  private braid(style: string, wide: number, thick: number): void {
    const { ctx } = this;
    ctx.strokeStyle = style;
    ctx.lineWidth = wide * thick;
    ctx.beginPath();
    this.eachLink((x0, y0, x1, y1) => {
      const [dx, dy] = [x1 - x0, y1 - y0];
      const long = Math.hypot(dx, dy) || 1;
      const [ux, uy] = [-dy / long, dx / long];
      const [mx, my] = [x0 + dx / 2, y0 + dy / 2];
      const bow = wide * 0.3;
      ctx.moveTo(x0, y0);
      ctx.quadraticCurveTo(mx + ux * bow, my + uy * bow, x1 + dx * 0.12, y1 + dy * 0.12);
      ctx.moveTo(x0, y0);
      ctx.quadraticCurveTo(mx - ux * bow, my - uy * bow, x1 + dx * 0.12, y1 + dy * 0.12);
    });
    ctx.stroke();
  }

  private along(style: string, thick: number, down: number): void {
    const { ctx } = this;
    ctx.strokeStyle = style;
    ctx.lineWidth = thick;
    ctx.beginPath();
    this.eachLink((x0, y0, x1, y1) => {
      ctx.moveTo(x0, y0 + down);
      ctx.lineTo(x1, y1 + down);
    });
    ctx.stroke();
  }

  private eachLink(call: (x0: number, y0: number, x1: number, y1: number) => void): void {
    const course = this.piece.courses[this.course];
    if (!course) return;
    const last = course.first + course.number - 1;
    for (const n of this.nodes) {
      const next = n < last ? n + 1 : course.closed ? course.first : -1;
      if (next >= 0 && this.piece.isNear(n, next)) call(this.px(n), this.py(n), this.px(next), this.py(next));
    }
  }
}
