// The tray: the yarns as balls, and what does not close yet.
import { shade, UNDYED } from "./colour";
import { loud, place, quiet, seen } from "./standing";
import type { Yarn } from "./told";

export function Ball({ hex, filled = 1 }: { hex: string; filled?: number }) {
  const colour = hex || UNDYED;
  const [dark, light] = [shade(colour, -0.28), shade(colour, 0.25)];
  return (
    <svg class="ball" viewBox="0 0 48 48" aria-hidden="true">
      <g transform={filled < 1 ? `translate(24 24) scale(${Math.max(0.35, Math.cbrt(filled))}) translate(-24 -24)` : undefined}>
        <circle cx="24" cy="24" r="20.5" fill={colour} stroke="var(--line)" stroke-width="1.2" />
        <g fill="none" stroke-width="1.5" stroke={dark}>
          <path d="M6 19C14 8 33 5 42 15M4.5 26C15 13 36 11 44 22M6.5 33C18 19 37 18 43.5 30" />
          <path d="M9 37C20 25 34 27 40 36M16 43C22 36 31 36 35 41" />
          <path d="M30 5C22 14 19 30 24 44" stroke={light} />
        </g>
      </g>
    </svg>
  );
}

export function Tray({ next }: { next: () => void }) {
  const all = seen.value?.yarns ?? [];
  // Yarns that nothing tells apart are one ball.
  const yarns = all.filter(
    (yarn, at) => all.findIndex((one) => called(one) === called(yarn) && one.hex === yarn.hex) === at,
  );
  const goes = "yarn";
  return (
    <footer class="tray" aria-label="The tray">
      <ul class="balls">
        {yarns.slice(0, 12).map((yarn) => (
          <li>
            <button type="button" aria-label={called(yarn)} onClick={() => (place.value = goes)}>
              <Ball hex={yarn.hex} />
              <span>{called(yarn)}</span>
            </button>
          </li>
        ))}
      </ul>
      <ToMend next={next} />
    </footer>
  );
}

function called(yarn: Yarn): string {
  return [yarn.letter, yarn.name].filter(Boolean).join(" ") || "Yarn";
}

function ToMend({ next }: { next: () => void }) {
  const now = seen.value;
  if (!now) return null;
  const [errors, advice] = [loud.value.length, quiet.value.length];
  const rows = now.decided.pattern ?? "";
  const words = errors ? rows : `${rows.slice(0, 1).toUpperCase()}${rows.slice(1)}`;
  const go = () => {
    place.value = "pattern";
    next();
  };
  return (
    <div class="to-mend">
      <b class={errors ? "red" : ""}>{words}</b>
      {(errors > 0 || advice > 0) && (
        <button type="button" class="word-button" onClick={go}>
          {errors && advice ? `${advice} to consider · ` : ""}
          {!errors && advice ? `${advice} to consider · ` : ""}
          next: F8
        </button>
      )}
    </div>
  );
}
