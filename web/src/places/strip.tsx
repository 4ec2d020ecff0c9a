// An order of stripes as it hangs: the piece itself in its colours, where it is laid out, else
// plain bands.
import { useEffect, useRef } from "preact/hooks";
import { draw } from "../cloth/draw";
import { piece } from "../cloth/standing";
import { UNDYED } from "../colour";

/** As many of every order, so that they can be compared. */
const ROWS = 32;

export function StripOf(props: {
  runs: [number, number, string][];
  hex: (label: string) => string;
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const key = JSON.stringify(props.runs.slice(0, 60));
  useEffect(() => {
    if (canvas.current) paint(canvas.current, props);
  }, [key, piece.value]);
  return <canvas class="strip-picture" ref={canvas} aria-hidden="true" />;
}

function paint(
  canvas: HTMLCanvasElement,
  { runs, hex }: { runs: [number, number, string][]; hex: (label: string) => string },
): void {
  const dpr = devicePixelRatio || 1;
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  canvas.width = Math.round(width * dpr);
  canvas.height = Math.round(height * dpr);
  const ctx = canvas.getContext("2d");
  if (!ctx) return;
  ctx.scale(dpr, dpr);
  const all = runs.at(-1)?.[1] ?? 0;
  const rows = Math.max(8, Math.min(all, ROWS));
  const colourOf = (row: number) => {
    const run = runs.find(([first, last]) => first <= row && row <= last);
    return hex((run ?? runs[0])?.[2] ?? "") || UNDYED;
  };
  const hanging = piece.value;
  const courses = hanging?.courses.filter((course) => course.row > 0) ?? [];
  if (hanging && courses.length >= 8 && !courses[0]?.closed) {
    const colours = hanging.courses.map((course) => colourOf(Math.max(1, course.row)));
    const pitch = hanging.height / courses.length;
    const scale = height / (pitch * Math.min(rows, courses.length));
    const wide = width / scale;
    const x = Math.max(0, Math.min(hanging.width - wide, hanging.stitch * 2));
    draw(ctx, hanging, colours, { x: wide > hanging.width ? 0 : x, y: 0, scale }, width, height);
    return;
  }
  for (let row = 1; row <= rows; row++) {
    ctx.fillStyle = colourOf(row);
    ctx.fillRect(0, ((row - 1) * height) / rows, width, height / rows + 1);
  }
}
