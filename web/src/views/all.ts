// The ways to look at the cloth. A later one comes in as one more line here.
import type { JSX } from "preact";
import { Fabric } from "../cloth/fabric";
import type { Writing } from "../writing/editor";
import { Chart } from "./drawn";
import { Schematic } from "./schematic";
import { Stripes } from "./stripes";
import { Table } from "./table";

export interface View {
  name: string;
  title: string;
  View: (props: { writing: Writing | null }) => JSX.Element;
}

export const VIEWS: View[] = [
  { name: "fabric", title: "Fabric", View: Fabric },
  { name: "chart", title: "Chart", View: Chart },
  { name: "schematic", title: "Schematic", View: Schematic },
  { name: "stripes", title: "Stripes", View: Stripes },
  { name: "table", title: "Table", View: Table },
];
