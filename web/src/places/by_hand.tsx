// One sequence of stripes to move by hand: with the pointer, with keys, or with buttons. Each
// move is said.
import { useEffect, useRef, useState } from "preact/hooks";
import { UNDYED } from "../colour";
import { say } from "../standing";
import type { Shade } from "./colours";

export type StripeHeld = [string, number];

const MOST_ROWS = 99;

interface Props {
  stripes: StripeHeld[];
  palette: Shade[];
  moved: (stripes: StripeHeld[]) => void;
}

export function ByHand({ stripes, palette, moved }: Props) {
  const [now, setNow] = useState(stripes);
  const [at, setAt] = useState(0);
  const [held, setHeld] = useState<StripeHeld[] | null>(null);
  const bar = useRef<HTMLDivElement>(null);
  useEffect(() => setNow(stripes), [JSON.stringify(stripes)]);
  const called = (label: string) => palette.find((one) => one.label === label)?.name || label;
  const lay = (next: StripeHeld[], place: number) => {
    setNow(next);
    setAt(place);
    const [before, after] = [next[place - 1], next[place + 1]];
    const beside = [before, after].filter((one) => one !== undefined).map(([label]) => called(label));
    const [label, rows] = next[place] ?? ["", 0];
    say(`${called(label)}, ${rows} rows, now ${beside.length > 1 ? `between ${beside.join(" and ")}` : `beside ${beside.join("")}`}.`);
  };
  const move = (by: number) => {
    const goal = at + by;
    if (goal < 0 || goal >= now.length) return now;
    const next = [...now];
    const [one] = next.splice(at, 1);
    if (one) next.splice(goal, 0, one);
    lay(next, goal);
    bar.current?.querySelectorAll<HTMLElement>("button")[goal]?.focus();
    return next;
  };
  const grow = (by: number) => {
    const next = now.map(([label, rows], n): StripeHeld =>
      n === at ? [label, Math.min(MOST_ROWS, Math.max(1, rows + by))] : [label, rows],
    );
    lay(next, at);
    return next;
  };
  const keyed = (event: KeyboardEvent) => {
    if (event.key === " ") {
      if (held) {
        setHeld(null);
        moved(now);
        say("Laid down.");
      } else {
        setHeld(now);
        say(`${called(now[at]?.[0] ?? "")} in hand. Arrows move it, up and down give it rows, Space lays it down.`);
      }
    } else if (held && event.key === "Escape") {
      setNow(held);
      setHeld(null);
      say("Put back.");
    } else if (held && event.key in ARROWS) {
      const [sideways, rows] = ARROWS[event.key] ?? [0, 0];
      if (sideways) move(sideways);
      else grow(rows);
    } else return;
    event.preventDefault();
  };
  const dragged = (event: PointerEvent, from: number) =>
    drag(event, from, now, bar.current, (next, place) => lay(next, place), moved);
  const total = now.reduce((sum, [, rows]) => sum + rows, 0);
  const [label, rows] = now[at] ?? ["", 0];
  return (
    <>
      <div class="sequence" ref={bar} role="group" aria-label="The sequence, stripe by stripe">
        {now.map(([one, number], n) => (
          <button
            type="button"
            class={held && n === at ? "held" : ""}
            style={{ flexGrow: number / total }}
            aria-pressed={n === at}
            onFocus={() => !held && setAt(n)}
            onKeyDown={keyed}
            onPointerDown={(event) => dragged(event, n)}
          >
            <i style={{ background: palette.find((shade) => shade.label === one)?.hex || UNDYED }} />
            <b aria-hidden="true">{one}</b>
            <span aria-hidden="true">{number}</span>
            <span class="hidden">{`${called(one)}, ${number} rows, stripe ${n + 1} of ${now.length}`}</span>
          </button>
        ))}
      </div>
      <p class="buttons">
        <span>
          <b>{called(label)}</b>, {rows} rows
        </span>
        <button type="button" onClick={() => moved(move(-1))}>
          Earlier
        </button>
        <button type="button" onClick={() => moved(move(1))}>
          Later
        </button>
        <button type="button" onClick={() => moved(grow(-1))}>
          One row less
        </button>
        <button type="button" onClick={() => moved(grow(1))}>
          One row more
        </button>
      </p>
    </>
  );
}

const ARROWS: Record<string, [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Take a stripe along with the pointer; it lies where the pointer lets it go. */
function drag(
  event: PointerEvent,
  from: number,
  stripes: StripeHeld[],
  bar: HTMLElement | null,
  lay: (next: StripeHeld[], place: number) => void,
  moved: (stripes: StripeHeld[]) => void,
): void {
  if (!bar || event.button !== 0) return;
  const button = event.currentTarget as HTMLElement;
  button.setPointerCapture(event.pointerId);
  const edges = [...bar.children].map((child) => child.getBoundingClientRect());
  let [place, next] = [from, stripes];
  const over = (now: PointerEvent) => {
    const found = edges.findIndex((box) => now.clientX < box.right);
    const goal = found < 0 ? edges.length - 1 : found;
    if (goal === place) return;
    next = [...stripes];
    const [one] = next.splice(from, 1);
    if (one) next.splice(goal, 0, one);
    place = goal;
    lay(next, place);
  };
  const done = () => {
    bar.removeEventListener("pointermove", over);
    bar.removeEventListener("pointerup", done);
    bar.removeEventListener("pointercancel", done);
    if (place !== from) moved(next);
  };
  bar.addEventListener("pointermove", over);
  bar.addEventListener("pointerup", done);
  bar.addEventListener("pointercancel", done);
}
