// The cloth in tiles: each is drawn once and kept, so that moving about costs nothing. What is
// not drawn yet shows as the whole cloth, drawn small.
import { type Camera, draw } from "./draw";
import type { Piece } from "./piece";

const SIDE = 256;
const MOST = 600;
const WHOLE = 1400;
/** Milliseconds of a frame that tiles may take. */
const BUDGET = 6;

export class Tiles {
  private readonly kept = new Map<string, OffscreenCanvas>();
  private whole: OffscreenCanvas | null = null;
  private wholeScale = 1;

  constructor(
    readonly piece: Piece,
    readonly colours: string[],
  ) {}

  /** Draw what a camera sees; false as long as tiles are missing. */
  show(ctx: CanvasRenderingContext2D, camera: Camera, width: number, height: number, dpr: number): boolean {
    const level = Math.ceil(Math.log2(camera.scale * dpr) * 2) / 2;
    const scale = 2 ** level;
    const side = SIDE / scale;
    const [left, top] = [Math.floor(camera.x / side), Math.floor(camera.y / side)];
    const right = Math.floor((camera.x + width / camera.scale) / side);
    const bottom = Math.floor((camera.y + height / camera.scale) / side);
    this.showWhole(ctx, camera);
    const begun = performance.now();
    let isWhole = true;
    for (let row = top; row <= bottom; row++) {
      for (let column = left; column <= right; column++) {
        if (this.isOutside(column * side, row * side, side)) continue;
        const name = `${level}:${column}:${row}`;
        let tile = this.kept.get(name);
        if (!tile) {
          if (performance.now() - begun > BUDGET) {
            isWhole = false;
            continue;
          }
          tile = this.drawn(name, { x: column * side, y: row * side, scale });
        }
        const at = (value: number) => value * camera.scale;
        const [x, y] = [at(column * side - camera.x), at(row * side - camera.y)];
        ctx.clearRect(x, y, at(side), at(side));
        ctx.drawImage(tile, x, y, at(side), at(side));
      }
    }
    return isWhole;
  }

  private isOutside(x: number, y: number, side: number): boolean {
    const edge = this.piece.stitch * 2;
    return (
      x > this.piece.width + edge || y > this.piece.height + edge || x + side < -edge || y + side < -edge
    );
  }

  private drawn(name: string, camera: Camera): OffscreenCanvas {
    const tile = new OffscreenCanvas(SIDE, SIDE);
    const ctx = tile.getContext("2d");
    if (ctx) draw(ctx, this.piece, this.colours, camera, SIDE, SIDE);
    this.kept.set(name, tile);
    if (this.kept.size > MOST) {
      const oldest = this.kept.keys().next().value;
      if (oldest !== undefined) this.kept.delete(oldest);
    }
    return tile;
  }

  private showWhole(ctx: CanvasRenderingContext2D, camera: Camera): void {
    const { piece } = this;
    const edge = piece.stitch * 2;
    if (!this.whole) {
      this.wholeScale = Math.min(WHOLE / (piece.width + 2 * edge), WHOLE / (piece.height + 2 * edge));
      const [wide, high] = [piece.width, piece.height].map((mm) =>
        Math.max(1, Math.ceil((mm + 2 * edge) * this.wholeScale)),
      );
      this.whole = new OffscreenCanvas(wide ?? 1, high ?? 1);
      const small = this.whole.getContext("2d");
      const all = { x: -edge, y: -edge, scale: this.wholeScale };
      if (small) draw(small, piece, this.colours, all, wide ?? 1, high ?? 1);
    }
    const grown = camera.scale / this.wholeScale;
    ctx.drawImage(
      this.whole,
      (-edge - camera.x) * camera.scale,
      (-edge - camera.y) * camera.scale,
      this.whole.width * grown,
      this.whole.height * grown,
    );
  }
}
