// The yarn: every ball drawn, the last as full as it is used.
import { Ball } from "../tray";
import { seen, told } from "../standing";
import type { Length } from "../told";
import { yarnOf } from "../yarn";
import { useAnswer, useWords } from "./asking";
import { Told, Waiting } from "./waiting";

interface Colour {
  label: string;
  told: string;
  length: Length;
  balls: number | null;
  to_buy: number | null;
  last: number | null;
  ends: number;
  how: string[];
}

interface Size {
  name: string;
  colours: Colour[];
  basis: string;
  length: Length;
  cost: string[];
  lots: string[];
  short: string[];
}

interface Found {
  sizes: Size[];
  in_hand: { of: string; rows: number; width: Length | null; height: Length | null; limit: string }[];
  told: string[];
  findings: { message: string; why: string }[];
  words: [number, number][];
}

const MOST_DRAWN = 24;

export function YarnPlace() {
  const found = useAnswer<Found>("yarn");
  useWords(found?.words);
  if (!found) return <Waiting words="Every loop is being counted." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  const first = found.sizes[0];
  if (!first) return <p class="quiet">There are no rows yet, so there is no yarn to reckon.</p>;
  return (
    <>
      <h2>Balls to buy. The last ball is drawn as far as it is used</h2>
      <div class="scrolls" tabIndex={0} role="region" aria-label="Balls of each size">
        <table class="yarns">
          <thead>
            <tr>
              <th scope="col">Yarn</th>
              {found.sizes.map((size) => (
                <th scope="col">{size.name || "The piece"}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {first.colours.map((colour, at) => (
              <tr>
                <th scope="row">
                  <b>{colour.told || "The yarn"}</b>
                </th>
                {found.sizes.map((size) => (
                  <td>{size.colours[at] && <Balls colour={size.colours[at]} />}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Told all={found.findings} />
      {found.sizes.map((size) => (
        <p>
          {size.name && <b>{size.name}: </b>}
          {told(size.length)} in all, by {size.basis}.
          {size.cost.length > 0 && ` ${size.cost.join(", ")}.`} {size.lots.join(" ")}
        </p>
      ))}
      {found.in_hand.map((reach) => (
        <p>
          The balls in hand make {reach.rows} rows {reach.of}
          {reach.height ? `, ${told(reach.height)} high` : ""}
          {reach.limit ? `; then ${reach.limit} runs out` : ""}.
        </p>
      ))}
      {found.told.map((sentence) => (
        <p class="quiet">{sentence}</p>
      ))}
      <details>
        <summary>How it came about</summary>
        {first.colours.map((colour) => (
          <>
            <h3>{colour.told || "The yarn"}</h3>
            {colour.how.map((sentence) => (
              <p class="quiet">{sentence}</p>
            ))}
          </>
        ))}
      </details>
    </>
  );
}

function Balls({ colour }: { colour: Colour }) {
  const hex = seen.value ? yarnOf(seen.value, [colour.label]).hex : "";
  const number = Math.min(colour.balls ?? 0, MOST_DRAWN);
  return (
    <>
      <span class="ball-row">
        {Array.from({ length: number }, (_, at) => (
          <Ball hex={hex} filled={at === number - 1 ? (colour.last ?? 1) : 1} />
        ))}
      </span>
      {colour.balls != null && <b>{colour.balls} </b>}
      <span class="quiet">
        {told(colour.length)}
        {colour.to_buy != null && colour.to_buy !== colour.balls ? `, ${colour.to_buy} to buy` : ""}
      </span>
    </>
  );
}
