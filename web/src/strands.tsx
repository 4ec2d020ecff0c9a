// Yarn runs from each written row into the rows of cloth that it makes; where a row does not
// close, the yarn is cut.
import { effect, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { camera, hung, piece } from "./cloth/standing";
import { shade, UNDYED } from "./colour";
import { note, printedRows, seen, view, words } from "./standing";
import type { Writing } from "./writing/editor";
import { yarnOf } from "./yarn";

interface Strand {
  key: string;
  hex: string;
  /** Where it leaves the page, and how thick. */
  from: number;
  thick: number;
  /** Where it enters the cloth. */
  top: number;
  bottom: number;
  isCut: boolean;
}

const MOST = 80;
const TWIST_EVERY = 9;
/** On broader strands lines across would look like a net. */
const MOST_TWIST = 14;

export function Strands({ writing }: { writing: Writing }) {
  const place = useRef<HTMLDivElement>(null);
  const strands = useSignal<Strand[]>([]);
  const width = useSignal(76);
  useEffect(() => {
    let asked = 0;
    const draw = () => {
      asked = 0;
      const box = place.current?.getBoundingClientRect();
      if (!box?.width) return;
      width.value = box.width;
      strands.value = strandsIn(writing, box);
    };
    const again = () => {
      if (!asked) asked = requestAnimationFrame(draw);
    };
    const stop = effect(() => {
      void [camera.value, piece.value, hung.value, seen.value, note.value, view.value, words.value];
      again();
    });
    const scrolled = writing.view.scrollDOM;
    scrolled.addEventListener("scroll", again, { passive: true });
    const sized = new ResizeObserver(again);
    sized.observe(scrolled);
    if (place.current) sized.observe(place.current);
    return () => {
      stop();
      cancelAnimationFrame(asked);
      scrolled.removeEventListener("scroll", again);
      sized.disconnect();
    };
  }, [writing]);
  return (
    <div class="strands" ref={place} aria-hidden="true">
      <svg>
        {strands.value.filter((one) => !one.isCut).map((one) => (
          <Whole strand={one} width={width.value} key={one.key} />
        ))}
        {strands.value.filter((one) => one.isCut).map((one) => (
          <Cut strand={one} width={width.value} key={one.key} />
        ))}
      </svg>
    </div>
  );
}

function strandsIn(writing: Writing, box: DOMRect): Strand[] {
  const now = seen.value;
  const hanging = piece.value;
  const canvas = document.querySelector<HTMLCanvasElement>(".hang canvas");
  if (!now || !hanging || !canvas || view.value !== "fabric") return [];
  const { view: editor } = writing;
  const cloth = canvas.getBoundingClientRect();
  const paper = editor.scrollDOM.getBoundingClientRect();
  const y = (mm: number) => cloth.top - box.top + (mm - camera.value.y) * camera.value.scale;
  const found: Strand[] = [];
  for (const row of printedRows(now.rows)) {
    if (row.end > editor.state.doc.length) continue;
    const block = editor.lineBlockAt(row.end);
    const line = editor.coordsAtPos(row.end);
    const bottom = line ? line.bottom : editor.documentTop + block.bottom;
    const from = bottom - box.top - 13;
    const isSeen = bottom > paper.top + 12 && bottom < paper.bottom + 40;
    const courses = hanging.coursesOf(row.start);
    if (!isSeen || !courses.length || found.length > MOST) continue;
    const isCut = row.rows.some((one) => !one.agrees);
    const runs = runsOf(courses);
    for (const [at, run] of runs.slice(0, 12).entries()) {
      const first = run[0];
      const last = run.at(-1);
      if (!first || !last) continue;
      const [top, low] = [y(hanging.leftEnd(first).top), y(hanging.leftEnd(last).bottom)];
      if (top > box.height + 60) break;
      const thick = Math.min(22, Math.max(3, Math.abs(low - top))) / Math.min(3, runs.length);
      found.push({
        key: `${row.start}:${at}`,
        hex: yarnOf(now, [first.colour]).hex || UNDYED,
        from: from - (Math.min(3, runs.length) - 1 - Math.min(at, 2)) * thick,
        thick,
        top: Math.min(top, low),
        bottom: Math.max(top, low),
        isCut: isCut && at === 0,
      });
    }
  }
  return found;
}

/** Rows behind one another in one colour. */
function runsOf<T extends { colour: string }>(courses: T[]): T[][] {
  const found: T[][] = [];
  for (const course of courses) {
    const last = found.at(-1);
    if (last?.[0] && last[0].colour === course.colour) last.push(course);
    else found.push([course]);
  }
  return found;
}

const ease = (u: number) => u * u * u * (u * (6 * u - 15) + 10);
const slope = (u: number) => 30 * u * u * (u - 1) * (u - 1);

/** A point in the middle of a strand, the way across it there, and half how thick it is. */
function across(strand: Strand, width: number, u: number) {
  const goal = (strand.top + strand.bottom) / 2;
  const part = ease(u);
  const [x, y] = [width * u, strand.from + (goal - strand.from) * part];
  const climb = ((goal - strand.from) * slope(u)) / width;
  const long = Math.hypot(1, climb);
  const half = (strand.thick + (strand.bottom - strand.top - strand.thick) * part) / 2;
  const upright = Math.min(1, Math.max(0, (half - 8) / 16)); // broad ones hang straight down
  return { x, y, nx: (-climb / long) * (1 - upright), ny: 1 / long + (1 - 1 / long) * upright, half };
}

/** The two edges of a strand, from one side to the other; yarn is as thick where it climbs. */
function edges(strand: Strand, width: number, until: number) {
  const upper: string[] = [];
  const lower: string[] = [];
  for (let step = 0; step <= 32; step++) {
    const { x, y, nx, ny, half } = across(strand, width, (until * step) / 32);
    upper.push(`${(x - nx * half).toFixed(1)} ${(y - ny * half).toFixed(1)}`);
    lower.unshift(`${(x + nx * half).toFixed(1)} ${(y + ny * half).toFixed(1)}`);
  }
  return { upper: upper.join("L"), lower: lower.join("L") };
}

function Whole({ strand, width }: { strand: Strand; width: number }) {
  const { upper, lower } = edges(strand, width, 1);
  return (
    <g>
      <path d={`M${upper}L${lower}Z`} fill={strand.hex} />
      <path class="strand-edge" d={`M${upper}M${lower}`} />
      <path class="twist" d={twist(strand, width, 1)} stroke={shade(strand.hex, -0.22)} />
    </g>
  );
}

/** Short slanting lines across the strand, evenly along it. */
function twist(strand: Strand, width: number, until: number): string {
  let drawn = "";
  let before = across(strand, width, 0);
  let [long, next] = [0, 5];
  for (let u = 0.004; u <= until; u += 0.004) {
    const now = across(strand, width, u);
    long += Math.hypot(now.x - before.x, now.y - before.y);
    if (long >= next) {
      next += TWIST_EVERY;
      before = now;
      const { x, y, nx, ny, half } = now;
      if (half > MOST_TWIST) continue;
      const [ax, ay] = [nx * half + ny * half * 0.6, ny * half - nx * half * 0.6];
      drawn += `M${(x - ax).toFixed(1)} ${(y - ay).toFixed(1)}L${(x + ax).toFixed(1)} ${(y + ay).toFixed(1)}`;
    }
    before = now;
  }
  return drawn;
}

function Cut({ strand, width }: { strand: Strand; width: number }) {
  const { upper, lower } = edges(strand, width, 0.14);
  const x = width * 0.14 - 1;
  const [top, ply] = [strand.from - strand.thick / 2, strand.thick / 3];
  const tips = [[-9, 24], [1, 29], [12, 22]].map(([down = 0, out = 0], at) => {
    const y = top + at * ply;
    const tip = y + ply / 2 + down;
    return `M${x} ${y}C${x + 9} ${y} ${x + out * 0.6} ${tip - 3} ${x + out} ${tip}C${x + out * 0.55} ${tip + 2.5} ${x + 9} ${y + ply} ${x} ${y + ply}`;
  });
  const goal = (strand.top + strand.bottom) / 2;
  const path = Array.from({ length: 21 }, (_, step) => {
    const u = 0.4 + (0.6 * step) / 20;
    return `${(width * u).toFixed(1)} ${(strand.from + (goal - strand.from) * ease(u)).toFixed(1)}`;
  });
  return (
    <g>
      <path d={`M${upper}L${lower}Z`} fill={strand.hex} />
      {tips.map((tip) => (
        <path class="ply" d={tip} fill={strand.hex} />
      ))}
      <path class="missing" d={`M${path.join("L")}`} />
    </g>
  );
}
