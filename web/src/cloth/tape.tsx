// The tape on the cloth, in her unit, by the gauge.
import { useEffect, useRef, useState } from "preact/hooks";
import { units } from "../standing";
import { camera } from "./standing";

const MM = { in: 25.4, cm: 10 };
const STEPS = [0.25, 0.5, 1, 2, 5, 10, 20, 50, 100];
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
  const step = STEPS.find((one) => one * unit * scale >= LEAST_PX) ?? 100;
  const marks: { at: number; number: number; big: boolean }[] = [];
  const first = Math.max(0, Math.ceil(x / unit / step));
  for (let n = first; (n * step * unit - x) * scale < wide && marks.length < 400; n++)
    marks.push({ at: (n * step * unit - x) * scale, number: n * step, big: n % 5 === 0 });
  return (
    <div class="tape" ref={place} aria-hidden="true">
      <svg width={wide} height="30">
        {marks.map(({ at, number, big }) => (
          <g transform={`translate(${at.toFixed(1)} 0)`}>
            <path d={big ? "M0 0V12" : "M0 0V7"} />
            {big && number > 0 && at < wide - 24 && (
              <text y="25">{`${number}${number === 5 * step ? ` ${units.value}` : ""}`}</text>
            )}
          </g>
        ))}
      </svg>
    </div>
  );
}
