// A cloth of the shelf as it hangs: laid out by the desk when it comes into sight.
import { useEffect, useRef } from "preact/hooks";
import { draw } from "./cloth/draw";
import { Piece, type PieceTold } from "./cloth/piece";
import { askInTurn } from "./flow";
import { page } from "./standing";

const YARNS = ["#33475B", "#B9C6CF", "#6C8F7B", "#D9A441", "#EFE9DC", "#7A3340"];
const pieces = new Map<string, Promise<Piece | null>>();
/** One cloth is laid out at a time, in the order they come into sight. */
let last: Promise<unknown> = Promise.resolve();

interface Sample {
  pieces?: PieceTold[];
}

function pieceOf(name: string): Promise<Piece | null> {
  let found = pieces.get(name);
  if (!found) {
    found = last.then(async () => {
      const told = await askInTurn<Sample>("sample", { kind: name }, () => page.peek() === "first");
      const first = told?.pieces?.[0];
      return first ? new Piece(first) : null;
    });
    last = found.catch(() => null);
    pieces.set(name, found);
  }
  return found;
}

export function Hanging({ name }: { name: string; terms: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const picture = canvas.current;
    if (!picture) return;
    const seen = new IntersectionObserver(([entry]) => {
      if (!entry?.isIntersecting) return;
      seen.disconnect();
      void pieceOf(name).then((piece) => piece && paint(picture, piece, name));
    });
    seen.observe(picture);
    return () => seen.disconnect();
  }, [name]);
  return <canvas class="hanging" ref={canvas} aria-hidden="true" />;
}

function paint(canvas: HTMLCanvasElement, piece: Piece, name: string): void {
  const dpr = devicePixelRatio || 1;
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  canvas.width = Math.round(width * dpr);
  canvas.height = Math.round(height * dpr);
  const ctx = canvas.getContext("2d");
  if (!ctx) return;
  ctx.scale(dpr, dpr);
  const edge = piece.stitch;
  const fits = Math.min(width / (piece.width + 2 * edge), height / (piece.height + 2 * edge));
  const scale = Math.max(fits, Math.min(7.5 / piece.stitch, width / (piece.width + 2 * edge)));
  const isRound = piece.courses.at(-1)?.closed ?? false;
  const used = isRound ? fits : scale;
  const x = (piece.width - width / used) / 2;
  const first = [...name].reduce((sum, letter) => sum + letter.charCodeAt(0), 0);
  const colours = piece.courses.map((course) => colourOf(piece, course.row, course.colour, first));
  draw(ctx, piece, colours, { x, y: -edge, scale: used }, width, height);
}

/** The yarns that a sample names; where it names none, one yarn for all of it. */
function colourOf(piece: Piece, row: number, yarn: string, first: number): string {
  const named = [...new Set(piece.courses.map((course) => course.colour).filter(Boolean))];
  const which = named.length > 1 ? Math.max(0, named.indexOf(yarn)) : 0;
  void row;
  return YARNS[(first + which * 2) % YARNS.length] ?? "#888888";
}
