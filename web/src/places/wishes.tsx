// What she wishes of the stripes, as sentences that are true or not.
import { useState } from "preact/hooks";
import { note } from "../deciding";
import type { Shade } from "./colours";

export interface Wish {
  key: string;
  kind: "YES_NO" | "PAIRS" | "TEXTS";
  says: string;
  now: boolean | [string, string][] | string[] | null;
}

interface Props {
  wishes: Wish[];
  palette: Shade[];
}

export function Wishes({ wishes, palette }: Props) {
  const set = (key: string, value: unknown) => void note({ table: "stripes", key, value });
  const simple = wishes.filter((wish) => wish.kind === "YES_NO");
  const pairs = wishes.filter((wish) => wish.kind === "PAIRS");
  const lists = wishes.filter((wish) => wish.kind === "TEXTS");
  const isNothing = wishes.every((wish) => !wish.now || (Array.isArray(wish.now) && !wish.now.length));
  const called = (label: string) => palette.find((one) => one.label === label)?.name || label;
  return (
    <>
      <h2>What you wish</h2>
      {isNothing && <p class="quiet">Nothing yet: the orders have the clearest edges there are.</p>}
      <ul class="wishes">
        {pairs.flatMap((wish) =>
          ((wish.now ?? []) as [string, string][]).map((pair) => (
            <li>
              <label>
                <input
                  type="checkbox"
                  checked
                  onChange={() =>
                    set(wish.key, ((wish.now ?? []) as [string, string][]).filter((one) => one !== pair))
                  }
                />
                {called(pair[0])} and {called(pair[1])}: {wish.says}
              </label>
            </li>
          )),
        )}
        {lists.flatMap((wish) =>
          ((wish.now ?? []) as string[]).map((label) => (
            <li>
              <label>
                <input
                  type="checkbox"
                  checked
                  onChange={() => set(wish.key, (wish.now as string[]).filter((one) => one !== label))}
                />
                {called(label)}: {wish.says}
              </label>
            </li>
          )),
        )}
        {simple.filter((wish) => wish.now === true).map((wish) => (
          <Simple wish={wish} set={set} />
        ))}
      </ul>
      <details class="another">
        <summary>Wish something</summary>
        <Another pairs={pairs} lists={lists} palette={palette} set={set} />
        <ul class="wishes">
          {simple.filter((wish) => wish.now !== true).map((wish) => (
            <Simple wish={wish} set={set} />
          ))}
        </ul>
      </details>
    </>
  );
}

function Simple({ wish, set }: { wish: Wish; set: (key: string, value: unknown) => void }) {
  return (
    <li>
      <label>
        <input
          type="checkbox"
          checked={wish.now === true}
          onChange={(event) => set(wish.key, event.currentTarget.checked)}
        />
        {sentence(wish.says)}
      </label>
    </li>
  );
}

function sentence(says: string): string {
  const words = says.replace(/^whether /, "");
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

function Another(props: {
  pairs: Wish[];
  lists: Wish[];
  palette: Shade[];
  set: (key: string, value: unknown) => void;
}) {
  const { palette } = props;
  const [one, setOne] = useState(palette[0]?.label ?? "");
  const [other, setOther] = useState(palette[1]?.label ?? "");
  const [key, setKey] = useState(props.pairs[0]?.key ?? "");
  const wish = [...props.pairs, ...props.lists].find((found) => found.key === key);
  const add = () => {
    if (!wish) return;
    if (wish.kind === "PAIRS" && one !== other)
      props.set(key, [...((wish.now ?? []) as [string, string][]), [one, other]]);
    if (wish.kind === "TEXTS")
      props.set(key, [...new Set([...((wish.now ?? []) as string[]), one])]);
  };
  return (
    <p class="buttons another-wish">
      <Pick label="Yarn" value={one} choose={setOne} all={palette.map((shade) => [shade.label, shade.name])} />
      {wish?.kind === "PAIRS" && (
        <>
          and
          <Pick label="Other yarn" value={other} choose={setOther} all={palette.map((shade) => [shade.label, shade.name])} />
        </>
      )}
      :
      <Pick
        label="Wish"
        value={key}
        choose={setKey}
        all={[...props.pairs, ...props.lists].map((found) => [found.key, found.says])}
      />
      <button type="button" onClick={add}>
        Wish it
      </button>
    </p>
  );
}

function Pick(props: {
  label: string;
  value: string;
  all: [string, string][];
  choose: (value: string) => void;
}) {
  return (
    <select
      aria-label={props.label}
      value={props.value}
      onChange={(event) => props.choose(event.currentTarget.value)}
    >
      {props.all.map(([value, name]) => (
        <option value={value}>{name || value}</option>
      ))}
    </select>
  );
}
