import type { CutPlanView } from "../../workshop/timber/views.ts";
import type { Note } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { DeskForm } from "../common/DeskForm.tsx";
import { common } from "../common/messages.ts";
import { woodTyped } from "../common/tradeMessages.ts";
import { figureOf, figures } from "./figures.ts";
import { forms } from "./formMessages.ts";
import { cuts as words } from "./messages.ts";

const toNumber = (typed: string) => Number(typed.replace(",", "."));

/** Names of one or more words, then so many numbers; by semicolons. */
function listOf(typed: string, numbers: number): readonly { name: string; sizes: readonly number[] }[] | string {
  const read = typed
    .split(";")
    .map((one) => one.trim().split(/\s+/))
    .filter((one) => one[0] !== "")
    .map((one) => ({
      name: one.slice(0, -numbers).join(" "),
      sizes: one.slice(-numbers).map(toNumber),
      typed: one.join(" "),
    }));
  const bad = read.find(({ name, sizes }) => name === "" || sizes.some((size) => !(size > 0)));
  return bad ? bad.typed : read;
}

/** A board as it left the saw, which may differ from the plan: its pieces, each kept for the unit it was sawn for. */
export function SawnSoForm({ board }: { readonly board: CutPlanView["boards"][number] }) {
  const planned = board.cuts
    .map(({ piece, from_mm, to_mm, width_mm }) => `${piece} ${Math.round(to_mm - from_mm)} ${Math.round(width_mm)}`)
    .join("; ");
  const unitOf = new Map(board.cuts.map(({ piece, unit }) => [piece, unit]));
  return (
    <DeskForm
      form={`timber sawn so ${board.board} ${planned}`}
      fields={{
        into: {
          label: words.into,
          wide: true,
          first: planned,
          hint: forms.saw.otherwise,
        },
      }}
      write={words.write}
      entries={(typed) => {
        const pieces = listOf(typed.text("into"), 2);
        if (typeof pieces === "string" || pieces.length === 0)
          return forms.badPiece(String(pieces), planned.split(";")[0] ?? "");
        const { thickness_mm, ringAngle_deg } = board;
        const units = [...new Set(pieces.flatMap(({ name }) => unitOf.get(name) ?? []))];
        return [
          {
            kind: "sawn",
            piece: board.board,
            into: pieces.map(({ name: piece, sizes }) => ({
              ...{ piece, length_mm: sizes[0]!, width_mm: sizes[1]!, thickness_mm, ringAngle_deg },
            })),
          },
          ...units.map(
            (unit): Note => ({
              kind: "meant",
              unit,
              pieces: pieces.flatMap(({ name }) => (unitOf.get(name) === unit ? [name] : [])),
            }),
          ),
        ];
      }}
      done={() => words.done}
    >
      <p className="caution">
        <CautionMark />
        <span>{common.dangers.dust}</span>
      </p>
    </DeskForm>
  );
}

/** What the case of a unit is to be made of. */
export function PanelsForm({ open }: { readonly open: readonly string[] }) {
  const example = "top 380 300 18; front 380 95 18";
  return (
    <DeskForm
      form="timber case panels"
      fields={{
        unit: { label: forms.unit, list: open },
        species: { label: forms.species },
        panels: {
          label: forms.panels.panels,
          wide: true,
          hint: forms.panels.panelsHint(example),
        },
        staves: { label: forms.panels.staves, kind: "number", unit: forms.panels.stavesUnit, optional: true },
        figure: { label: forms.panels.figure, first: "", choices: figures },
        matched: {
          label: forms.panels.matched,
          optional: true,
          hint: forms.panels.matchedHint,
        },
        staved_mm: { label: forms.panels.wideFrom, kind: "number", unit: "mm", optional: true },
      }}
      write={forms.writePanels}
      entries={(typed) => {
        const panels = listOf(typed.text("panels"), 3);
        if (typeof panels === "string" || panels.length === 0) return forms.panels.badPanel(String(panels), example);
        const matched = typed
          .text("matched")
          .split(",")
          .map((one) => one.trim())
          .filter(Boolean);
        const unknown = matched.find((name) => !panels.some((panel) => panel.name === name));
        if (unknown !== undefined) return forms.panels.unknown(unknown);
        const [staves, from_mm] = [typed.optional("staves"), typed.optional("staved_mm") ?? 0];
        return [
          {
            kind: "case-panels",
            unit: typed.text("unit"),
            panels: panels.map(({ name: panel, sizes: [length_mm, width_mm, thickness_mm] }) => ({
              ...{ panel, species: woodTyped(typed.text("species")) },
              ...{ length_mm: length_mm!, width_mm: width_mm!, thickness_mm: thickness_mm! },
              ...(staves !== undefined && width_mm! >= from_mm && { staves }),
              ...figureOf(typed.text("figure")),
              ...(matched.includes(panel) && { matched: "faces" }),
            })),
          },
        ];
      }}
      done={(typed) => forms.panels.done(typed.text("unit"))}
    />
  );
}
