// Sizes as outlines to one scale, with their numbers.
import { told } from "../standing";
import type { Length } from "../told";

export function Outlines({ sizes }: { sizes: { name: string; width: Length; height: Length }[] }) {
  const most = Math.max(...sizes.map((one) => Math.max(one.width.mm, one.height.mm * 1.1)), 1);
  const scale = 240 / most;
  const high = Math.max(...sizes.map((one) => one.height.mm), 1) * scale;
  return (
    <svg
      class="outlines"
      viewBox={`-4 -22 300 ${Math.ceil(high) + 56}`}
      role="img"
      aria-label={sizes.map((one) => `${one.name || "The piece"}: ${told(one.width)} by ${told(one.height)}`).join("; ")}
    >
      {sizes.toReversed().map((one) => (
        <g>
          <rect x="0" y={high - one.height.mm * scale} width={one.width.mm * scale} height={one.height.mm * scale} />
          {one.name && (
            <text x={one.width.mm * scale - 6} y={high - one.height.mm * scale + 18} text-anchor="end">
              {one.name}
            </text>
          )}
        </g>
      ))}
      {sizes[0] && (
        <text x="0" y={high + 22}>
          {told(sizes.at(-1)?.width)} wide, {told(sizes.at(-1)?.height)} high
        </text>
      )}
    </svg>
  );
}
