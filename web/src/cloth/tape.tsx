// The tape on the cloth, in her unit, by the gauge.
import { useEffect, useRef, useState } from "preact/hooks";
import { units } from "../standing";
import { camera } from "./standing";

const MM = { in: 25.4, cm: 10 };
/** From mark to mark, and how many to the next number, as tapes are divided. */
const STEPS: Record<"in" | "cm", [number, number][]> = {
  cm: [[0.1, 10], [0.5, 2], [1, 5], [5, 2], [10, 5], [50, 2]],
  in: [[0.125, 8], [0.25, 4], [0.5, 2], [1, 6], [6, 2], [12, 3]],
};
const LEAST_PX = 9;

export function Tape() {
  const place = useRef<HTMLDivElement>(null);
  const [wide, setWide] = useState(0);
  useEffect(() => {
    if (!place.current) return;
    const sized = new ResizeObserver(([entry]) => setWide(entry?.contentRect.width ?? 0));
    sized.observe(place.current);
    return () => sized.disconnect();
  }, []);
  const { x, scale } = camera.value;
  const unit = MM[units.value];
  const steps = STEPS[units.value];
  const [step, many] = steps.find(([one]) => one * unit * scale >= LEAST_PX) ?? [100, 1];
  const marks: { at: number; number: number; big: boolean }[] = [];
  const first = Math.max(0, Math.ceil(x / unit / step));
  for (let n = first; (n * step * unit - x) * scale < wide && marks.length < 400; n++)
    marks.push({ at: (n * step * unit - x) * scale, number: n * step, big: n % many === 0 });
  return (
    <div class="tape" ref={place} aria-hidden="true">
      <svg width={wide} height="30">
        {marks.map(({ at, number, big }) => (
          <g transform={`translate(${at.toFixed(1)} 0)`}>
            <path d={big ? "M0 0V12" : "M0 0V7"} />
            {big && number > 0 && at < wide - 24 && (
              <text y="25">{`${number}${number === many * step ? ` ${units.value}` : ""}`}</text>
            )}
          </g>
        ))}
      </svg>
    </div>
  );
}
