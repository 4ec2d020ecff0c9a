// The yarns she works with: each with its letter, its name and its colour on the screen.
import { note } from "../deciding";
import { Ball } from "../tray";

export interface PaletteYarn {
  letter: string;
  name: string;
  hex: string;
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

export function Palette({ yarns }: { yarns: PaletteYarn[] }) {
  const another = () => {
    const letter = [...LETTERS].find((one) => yarns.every((yarn) => yarn.letter !== one)) ?? "Z";
    void note(
      { table: "yarn", key: "letter", value: letter, number: yarns.length },
      { table: "yarn", key: "hex", value: "#B8B2A6", number: yarns.length },
    );
  };
  return (
    <>
      <h2>Your yarns</h2>
      <ul class="palette">
        {yarns.map((yarn, number) => (
          <li>
            <label class="dye">
              <Ball hex={yarn.hex} />
              <span class="hidden">Colour of {yarn.letter || yarn.name}</span>
              <input
                type="color"
                value={yarn.hex || "#B8B2A6"}
                onChange={(event) =>
                  void note({ table: "yarn", key: "hex", value: event.currentTarget.value, number })
                }
              />
            </label>
            <label>
              <b>{yarn.letter}</b> <span class="hidden">name</span>
              <input
                value={yarn.name}
                size={9}
                onChange={(event) =>
                  void note({ table: "yarn", key: "colour", value: event.currentTarget.value, number })
                }
              />
            </label>
          </li>
        ))}
        <li>
          <button type="button" onClick={another}>
            Another yarn
          </button>
        </li>
      </ul>
    </>
  );
}
