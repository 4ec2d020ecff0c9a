// The fabric itself: moved, looked at closer, pointed at.
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { INK } from "../colour";
import { cursor, laidSoFar, note, printedRows, say, seen, size, units } from "../standing";
import type { Writing } from "../writing/editor";
import { light } from "../writing/lit";
import { fit, follow, keepHanging, roomIs } from "./hanging";
import { coloursOf, type Piece, range } from "./piece";
import { camera, hung, isAtRest, laying, lit, piece, under, whyNone } from "./standing";
import { Tape } from "./tape";
import { Tiles } from "./tiles";

export function Fabric({ writing }: { writing: Writing | null }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(keepHanging, []);
  useEffect(() => (canvas.current ? drawing(canvas.current) : undefined), []);
  useEffect(() => effect(() => follow(rowAtHand()?.start ?? -1)), []);
  useEffect(() => effect(() => litByWord()), []);
  const hanging = piece.value;
  return (
    <>
      {hanging?.measured && <Tape />}
      <div class="hang">
        <canvas
          ref={canvas}
          tabIndex={0}
          role="img"
          data-rest={isAtRest.value}
          aria-label={described(hanging)}
          onKeyDown={keyed}
          onPointerDown={grabbed}
          onPointerMove={(event) => pointed(event, writing)}
          onPointerLeave={() => left(writing)}
          onDblClick={() => fit("one")}
        />
        {!hanging && <Bare />}
      </div>
      <Caption hanging={hanging} />
    </>
  );
}

/** What stands where no cloth hangs: that it is being laid, or why there is none. */
function Bare() {
  if (laying.value)
    return (
      <p class="quiet empty" role="status">
        The cloth is being laid{howFar()}.
      </p>
    );
  const rows = seen.value?.rows.length ?? 0;
  return (
    <p class="quiet none">
      {rows === 0
        ? "No cloth hangs yet. It begins with the first row."
        : whyNone.value || "Nothing here is told stitch by stitch, so no cloth is laid."}
    </p>
  );
}

function described(hanging: Piece | null): string {
  if (!hanging) return laying.value ? "The cloth is being laid" : "No cloth hangs";
  const rows = hanging.courses.filter((course) => course.row > 0).length;
  return `The fabric, ${rows} rows, ${hanging.size} stitches; the table tells it in words. Plus and minus look closer and further, arrows move it.`;
}

function Caption({ hanging }: { hanging: Piece | null }) {
  const at = under.value;
  const course = hanging && at >= 0 ? hanging.courses[hanging.courseOf[at] ?? 0] : null;
  const rows = hanging?.courses.filter((one) => one.row > 0).length ?? 0;
  const here = rowAtHand();
  const courses = hanging && here ? hanging.coursesOf(here.start) : [];
  const sizes = seen.value?.sizes ?? [];
  const name = sizes.length > 1 ? `${sizes[size.value] ?? ""}, ` : "";
  const stitch = hanging && at >= 0 ? (hanging.names[hanging.name[at] ?? 0] ?? "") : "";
  const told = course
    ? `${course.label || "Foundation"}, ${stitch} ${at - course.first + 1} of ${course.number}`
    : courses[0]
      ? `${name}${courses[0].label.toLowerCase()} of ${rows}`
      : `${name}${rows} rows`;
  return (
    <div class="caption">
      <span>
        {hanging ? told : ""}
        {hanging && !isAtRest.value ? `, coming to rest${howFar()}` : ""}
      </span>
      <span class="looks" role="group" aria-label="How close">
        <button type="button" onClick={() => fit("whole")}>
          whole
        </button>
        <button type="button" onClick={() => fit("near")}>
          some rows
        </button>
        <button type="button" onClick={() => fit("one")}>
          one stitch
        </button>
      </span>
    </div>
  );
}

function howFar(): string {
  const share = laidSoFar.value?.share ?? 0;
  return share > 0 && share < 1 ? ` (${Math.round(share * 100)} %)` : "";
}

function rowAtHand() {
  const at = cursor.value;
  return printedRows(seen.value?.rows ?? []).findLast((row) => row.start <= at && at <= row.end + 1);
}

// ---- drawing

function drawing(canvas: HTMLCanvasElement): () => void {
  const ctx = canvas.getContext("2d");
  let tiles: Tiles | null = null;
  let asked = 0;
  let shownHung = -1;
  const frame = () => {
    asked = 0;
    const hanging = piece.value;
    const dpr = devicePixelRatio || 1;
    const [width, height] = [canvas.clientWidth, canvas.clientHeight];
    if (!ctx || !width) return;
    if (canvas.width !== Math.round(width * dpr)) canvas.width = Math.round(width * dpr);
    if (canvas.height !== Math.round(height * dpr)) canvas.height = Math.round(height * dpr);
    ctx.setTransform(dpr, 0, 0, dpr, 0, 0);
    ctx.clearRect(0, 0, width, height);
    if (!hanging) return;
    if (!tiles || tiles.piece !== hanging || shownHung !== hung.value) {
      const colours = coloursOf(hanging, seen.value);
      if (!tiles || tiles.piece !== hanging || tiles.colours.join() !== colours.join())
        tiles = new Tiles(hanging, colours);
      shownHung = hung.value;
    }
    if (!tiles.show(ctx, camera.value, width, height, dpr)) again();
    overlay(ctx, hanging);
    canvas.dataset.lit = String(lit.value.length);
  };
  const again = () => {
    if (!asked) asked = requestAnimationFrame(frame);
  };
  const stop = effect(() => {
    void [camera.value, piece.value, hung.value, lit.value, cursor.value, under.value, seen.value];
    again();
  });
  const sized = new ResizeObserver(() => {
    roomIs(canvas.clientWidth, canvas.clientHeight);
    again();
  });
  sized.observe(canvas);
  roomIs(canvas.clientWidth, canvas.clientHeight);
  const wheel = (event: WheelEvent) => turned(event, canvas);
  canvas.addEventListener("wheel", wheel, { passive: false });
  return () => {
    stop();
    sized.disconnect();
    canvas.removeEventListener("wheel", wheel);
    cancelAnimationFrame(asked);
  };
}

/** The row at hand between two thin lines, and rings round what is lit. */
function overlay(ctx: CanvasRenderingContext2D, hanging: Piece): void {
  const row = rowAtHand();
  const { x, y, scale } = camera.value;
  const px = (n: number) => ((hanging.x[n] ?? 0) - x) * scale;
  const py = (n: number) => ((hanging.y[n] ?? 0) - y) * scale;
  const courses = row ? hanging.coursesOf(row.start) : [];
  const [first, last] = [courses[0], courses.at(-1)];
  if (first && last) {
    const before = hanging.courses[hanging.courses.indexOf(first) - 1];
    for (const course of [before, last]) {
      if (!course) continue;
      for (const [colour, thick] of [["#FCFCFA", 3], [INK, 1.1]] as const) {
        ctx.strokeStyle = colour;
        ctx.lineWidth = thick;
        ctx.beginPath();
        for (const n of range(course)) ctx.lineTo(px(n), py(n));
        if (course.closed) ctx.closePath();
        ctx.stroke();
      }
    }
  }
  const wide = Math.max(6, hanging.stitch * scale * (lit.value.length > 3 ? 0.55 : 0.9));
  for (const [colour, thick] of [["#FCFCFA", 5], ["#1D4E80", 2.2]] as const) {
    ctx.strokeStyle = colour;
    ctx.lineWidth = thick;
    for (const n of lit.value.slice(0, 400)) {
      const foot = hanging.feet(n)[0] ?? n;
      const [cx, cy] = [(px(n) + px(foot)) / 2, (py(n) + py(foot)) / 2];
      const high = Math.max(wide, Math.hypot(px(n) - px(foot), py(n) - py(foot)) * 0.75);
      ctx.beginPath();
      ctx.ellipse(cx, cy, wide, high, 0, 0, 2 * Math.PI);
      ctx.stroke();
    }
  }
}

// ---- words and stitches

/** The word that is explained lights the stitches it makes. */
function litByWord(): void {
  const open = note.value;
  const hanging = piece.value;
  if (!hanging || open?.kind !== "word") {
    if (under.peek() < 0) lit.value = [];
    return;
  }
  const { start, end } = open.word;
  const wanted = new Set<number>();
  hanging.spans.forEach(([from, to], at) => {
    if (from >= 0 && from <= start && end <= to) wanted.add(at);
  });
  const smallest = Math.min(...[...wanted].map((at) => width(hanging.spans[at])));
  const found: number[] = [];
  for (let n = 0; n < hanging.size && found.length < 2000; n++) {
    const at = hanging.words[n] ?? -1;
    if (wanted.has(at) && width(hanging.spans[at]) === smallest) found.push(n);
  }
  lit.value = found;
}

function width(span: [number, number] | undefined): number {
  return span ? span[1] - span[0] : 0;
}

function pointed(event: PointerEvent, writing: Writing | null): void {
  const hanging = piece.value;
  if (!hanging || event.buttons) return;
  const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
  const { x, y, scale } = camera.value;
  const n = hanging.at((event.clientX - box.left) / scale + x, (event.clientY - box.top) / scale + y);
  if (n === under.value) return;
  under.value = n;
  if (n < 0) {
    left(writing);
    return;
  }
  const span = hanging.spans[hanging.words[n] ?? -1];
  const row = hanging.courses[hanging.courseOf[n] ?? 0]?.start ?? -1;
  lit.value = [n];
  light(writing, span && span[0] >= 0 ? span : null, row);
}

function left(writing: Writing | null): void {
  under.value = -1;
  lit.value = [];
  light(writing, null, -1);
}

// ---- moving about

function grabbed(event: PointerEvent): void {
  const canvas = event.currentTarget as HTMLCanvasElement;
  const from = { ...camera.value };
  const [x0, y0] = [event.clientX, event.clientY];
  canvas.setPointerCapture(event.pointerId);
  const moved = (now: PointerEvent) => {
    camera.value = {
      ...from,
      x: from.x - (now.clientX - x0) / from.scale,
      y: from.y - (now.clientY - y0) / from.scale,
    };
  };
  const done = () => {
    canvas.removeEventListener("pointermove", moved);
    canvas.removeEventListener("pointerup", done);
    canvas.removeEventListener("pointercancel", done);
  };
  canvas.addEventListener("pointermove", moved);
  canvas.addEventListener("pointerup", done);
  canvas.addEventListener("pointercancel", done);
}

function turned(event: WheelEvent, canvas: HTMLCanvasElement): void {
  event.preventDefault();
  const box = canvas.getBoundingClientRect();
  if (event.ctrlKey || event.metaKey) {
    closer(Math.exp(-event.deltaY * 0.01), event.clientX - box.left, event.clientY - box.top);
    return;
  }
  const now = camera.value;
  camera.value = { ...now, x: now.x + event.deltaX / now.scale, y: now.y + event.deltaY / now.scale };
}

function closer(times: number, atX?: number, atY?: number): void {
  const hanging = piece.value;
  const canvas = document.querySelector<HTMLCanvasElement>(".hang canvas");
  if (!hanging || !canvas) return;
  const [px, py] = [atX ?? canvas.clientWidth / 2, atY ?? canvas.clientHeight / 2];
  const now = camera.value;
  const least = (0.5 * Math.min(canvas.clientWidth, canvas.clientHeight)) / Math.max(hanging.width, hanging.height);
  const scale = Math.min(160 / hanging.stitch, Math.max(least, now.scale * times));
  camera.value = {
    scale,
    x: now.x + px / now.scale - px / scale,
    y: now.y + py / now.scale - py / scale,
  };
}

function keyed(event: KeyboardEvent): void {
  const now = camera.value;
  const step = 80 / now.scale;
  const moves: Record<string, [number, number]> = {
    ArrowLeft: [-step, 0],
    ArrowRight: [step, 0],
    ArrowUp: [0, -step],
    ArrowDown: [0, step],
  };
  const move = moves[event.key];
  if (move && !event.altKey) camera.value = { ...now, x: now.x + move[0], y: now.y + move[1] };
  else if (event.key === "+" || event.key === "=") closer(1.3);
  else if (event.key === "-") closer(1 / 1.3);
  else if (event.key === "0") fit("whole");
  else return;
  event.preventDefault();
  if (!move) say(`${Math.round(camera.value.scale * 10) / 10} pixels a millimetre in ${units.value}`.replace(/ in (in|cm)$/, ""));
}
