// The colours: what she wishes, good orders as hung strips, and one that is laid by hand.
import { useEffect, useState } from "preact/hooks";
import { write } from "../deciding";
import { ask } from "../flow";
import { proposed } from "../pages";
import { place, say } from "../standing";
import type { Change } from "../told";
import { useAnswer, useWords } from "./asking";
import { ByHand, type StripeHeld } from "./by_hand";
import { StripOf } from "./strip";
import { Told, Waiting } from "./waiting";
import { type Wish, Wishes } from "./wishes";
import { Palette, type PaletteYarn } from "./palette";

export interface Order {
  stripes: StripeHeld[];
  proven: boolean;
  breaches: string[];
  reasons: string[];
  line: string;
  times: number;
  rows: number;
  runs: [number, number, string][];
  ends: number;
  told: string[];
  changes: Change[];
  not_written: string;
}

export interface Shade {
  label: string;
  name: string;
  hex: string;
  grey: string;
}

interface Found {
  palette: Shade[];
  yarns: PaletteYarn[];
  wishes: Wish[];
  words: [number, number][];
  rules: { rule: string; says: string }[];
  orders: Order[];
  own: Order[];
  clash: string[];
  findings: { message: string; why: string }[];
  told: string[];
}

const NAMES = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth"];

export function Colours() {
  const [seed, setSeed] = useState(1);
  const found = useAnswer<Found>("colours", { seed });
  const [chosen, setChosen] = useState<Order | null>(null);
  useWords(found?.words);
  useEffect(() => {
    proposed.value = chosen?.changes.length ? chosen.changes : null;
  }, [chosen]);
  if (!found) return <Waiting words="Orders are being looked for." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  const hex = (label: string) => found.palette.find((one) => one.label === label)?.hex ?? "";
  const own = found.own[0];
  const gallery = [...(own ? [own] : []), ...found.orders];
  const choose = (order: Order) => {
    setChosen(order);
    say(`${order.line} ${order.breaches.join(" ")}`);
  };
  return (
    <>
      <Palette yarns={found.yarns} />
      {found.palette.length > 1 && <Wishes wishes={found.wishes} palette={found.palette} />}
      <Told all={found.findings} />
      {found.clash.length > 0 && (
        <p class="red">These cannot all hold: {found.clash.join(" ")}</p>
      )}
      {gallery.length > 0 && (
        <>
          <div class="with-button">
            <h2>Orders</h2>
            <button type="button" class="word-button" onClick={() => setSeed(seed + 1)}>
              Others
            </button>
          </div>
          <ul class="orders">
            {gallery.map((order, at) => (
              <OrderOf
                order={order}
                name={own ? (at === 0 ? "As written" : (NAMES[at - 1] ?? "")) : (NAMES[at] ?? "")}
                isChosen={order === chosen}
                hex={hex}
                choose={() => choose(order)}
              />
            ))}
          </ul>
        </>
      )}
      {(chosen ?? gallery[0]) && (
        <Chosen order={(chosen ?? gallery[0]) as Order} palette={found.palette} choose={choose} />
      )}
      {found.told.map((sentence) => (
        <p class="quiet">{sentence}</p>
      ))}
    </>
  );
}

function OrderOf(props: {
  order: Order;
  name: string;
  isChosen: boolean;
  hex: (label: string) => string;
  choose: () => void;
}) {
  const { order } = props;
  return (
    <li>
      <button type="button" class="order" aria-pressed={props.isChosen} onClick={props.choose}>
        <StripOf runs={order.runs} hex={props.hex} />
        <b>{props.name}</b>
        <span>{order.reasons[0] ?? ""}</span>
        {order.breaches[0] && <span class="red">{order.breaches[0]}</span>}
      </button>
    </li>
  );
}

function Chosen(props: { order: Order; palette: Shade[]; choose: (order: Order) => void }) {
  const { order } = props;
  const [said, setSaid] = useState("");
  const moved = async (stripes: StripeHeld[]) => {
    const given = { stripes, times: order.times };
    const told = await ask<{ order?: Order }>("colours", given);
    if (told.order) props.choose(told.order);
    else setSaid(told.refused ?? "");
  };
  const written = () => {
    write(order.changes, "The order is written into the pattern.");
    place.value = "pattern";
  };
  return (
    <section aria-label="The order at hand">
      <h2>
        {order.rows} rows{order.times > 1 ? `, the sequence ${order.times} times` : ""}. Take hold
        of a stripe to move it
      </h2>
      <ByHand stripes={order.stripes} palette={props.palette} moved={(stripes) => void moved(stripes)} />
      <p role="status">{said}</p>
      {order.breaches.map((sentence) => (
        <p class="red">{sentence}</p>
      ))}
      {order.reasons.map((sentence) => (
        <p class="quiet">{sentence}</p>
      ))}
      {order.not_written ? (
        <p>{order.not_written}</p>
      ) : (
        <button type="button" class="go" onClick={written} disabled={order.changes.length === 0}>
          Write this order
        </button>
      )}
    </section>
  );
}
