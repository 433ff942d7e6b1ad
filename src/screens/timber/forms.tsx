import type { PieceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { get, type WorkshopHead } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { DeskForm, namesOf } from "../common/DeskForm.tsx";
import { common } from "../common/messages.ts";
import { woodName, woodTyped } from "../common/tradeMessages.ts";
import { figureOf, figures } from "./figures.ts";
import { forms as words } from "./formMessages.ts";
import { marksIn } from "./marks.ts";
import { places, planning } from "./messages.ts";
import { newInstrument } from "./newInstrument.ts";
import { postPhoto } from "./postPhoto.ts";

/** The forms by which work on timber is written down. */

const cautions = { rags: places.cautionRags, dust: common.dangers.dust ?? "" };

export const finishChoices = Object.entries(words.finishes).map(([value, label]) => ({ value, label }));

export function PlaceForm({ first }: { readonly first?: string }) {
  return (
    <DeskForm
      form="timber place"
      fields={{
        place: { label: words.place.place, hint: words.place.placeHint, first: first ?? "" },
        what: {
          label: words.place.what,
          first: "room",
          choices: (["room", "chamber", "plate", "amplifier", "outside"] as const).map((value) => ({
            value,
            label: words.place[value],
          })),
        },
        set_C: { label: words.place.set, kind: "number", unit: "°C", optional: true, hint: words.place.setHint },
        holds: { label: words.place.holds, kind: "number", unit: words.place.pieces, optional: true },
      }}
      write={words.place.write}
      entries={(typed) => {
        const what = typed.text("what") as "room" | "chamber" | "plate" | "amplifier" | "outside";
        const set_C = typed.optional("set_C");
        const holds = typed.optional("holds");
        const lies = what === "plate" || what === "amplifier";
        if (lies && set_C === undefined) return words.place.needsSet;
        return [
          {
            kind: "timber-place",
            place: typed.text("place"),
            what,
            faces: lies ? "one" : "both",
            ...(set_C !== undefined && { set_C }),
            ...(holds !== undefined && { holds: Math.round(holds) }),
          },
        ];
      }}
      done={(typed) => words.place.done(typed.text("place"))}
    />
  );
}

export function AirForm({ shelf }: { readonly shelf: TimberShelfView }) {
  return (
    <DeskForm
      form="timber air"
      fields={{
        place: { label: words.air.place, list: shelf.places.map(({ place }) => place) },
        temperature_C: { label: words.air.temperature, kind: "number", unit: "°C" },
        humidity_pct: { label: words.air.humidity, kind: "number", unit: "%" },
        instrument: { label: words.air.instrument, list: shelf.instruments },
      }}
      write={words.air.write}
      entries={async (typed) => {
        const { at, notes } = await withInstrument(shelf, typed.text("instrument"));
        return [
          ...notes,
          {
            kind: "air" as const,
            place: typed.text("place"),
            readings: [
              { at, temperature_C: typed.number("temperature_C"), humidity_pct: typed.number("humidity_pct") },
            ],
            instrument: typed.text("instrument"),
          },
        ];
      }}
      done={(typed) => words.air.done(typed.text("place"))}
    />
  );
}

/** The present moment, and the instrument's own entry where it is used here for the first time. */
async function withInstrument({ instruments }: Pick<TimberShelfView, "instruments">, name: string) {
  const { now: at } = await get<WorkshopHead>("/api/workshop");
  return { at, notes: instruments.includes(name) ? [] : [newInstrument(name, "air")] };
}

export function ReceiveForm({
  shelf,
  open,
}: {
  readonly shelf: TimberShelfView;
  readonly open: (piece: string) => void;
}) {
  return (
    <DeskForm
      form="timber receive"
      fields={{
        piece: { label: words.receive.piece, hint: words.receive.pieceHint },
        species: { label: words.species, list: shelf.species.map(woodName) },
        length_mm: { label: words.receive.length, kind: "number", unit: "mm" },
        width_mm: { label: words.receive.width, kind: "number", unit: "mm", hint: words.receive.widthHint },
        thickness_mm: { label: words.receive.thickness, kind: "number", unit: "mm" },
        ringAngle_deg: { label: words.receive.ringAngle, kind: "number", unit: "°", hint: words.receive.ringAngleHint },
        seller: { label: words.receive.seller },
        claimed_pct: { label: words.receive.claimed, kind: "number", unit: "%", optional: true },
        papers: { label: words.receive.papers, optional: true, hint: words.receive.papersHint },
        density_kg_m3: {
          label: words.receive.density,
          kind: "number",
          unit: "kg/m³",
          optional: true,
          hint: words.receive.densityHint,
        },
        place: { label: words.receive.place, list: shelf.places.map(({ place }) => place) },
        defects: { label: planning.defects, wide: true, optional: true, hint: planning.defectsHint },
        figure: { label: planning.figure, first: "", choices: figures },
        seen: { label: words.receive.seen, optional: true },
      }}
      write={words.receive.write}
      entries={(typed) => {
        const [claimed_pct, density_kg_m3] = [typed.optional("claimed_pct"), typed.optional("density_kg_m3")];
        const defects = marksIn(typed.text("defects"));
        if (typeof defects === "string") return planning.badMark(defects);
        const isMarked = defects.length > 0 || typed.text("figure") !== "";
        return [
          {
            kind: "blank",
            piece: typed.text("piece"),
            species: woodTyped(typed.text("species")),
            length_mm: typed.number("length_mm"),
            width_mm: typed.number("width_mm"),
            thickness_mm: typed.number("thickness_mm"),
            ringAngle_deg: typed.number("ringAngle_deg"),
            seller: typed.text("seller"),
            place: typed.text("place"),
            papers: typed
              .text("papers")
              .split(",")
              .map((one) => one.trim())
              .filter(Boolean),
            ...(claimed_pct !== undefined && { claimed_pct }),
            ...(density_kg_m3 !== undefined && { density_kg_m3 }),
            ...(typed.text("seen") !== "" && { seen: typed.text("seen") }),
          },
          ...(isMarked
            ? [
                {
                  kind: "board-marks" as const,
                  piece: typed.text("piece"),
                  defects: [...defects],
                  ...figureOf(typed.text("figure")),
                },
              ]
            : []),
        ];
      }}
      done={(typed) => words.receive.done(typed.text("piece"))}
      after={(typed) => open(typed.text("piece"))}
    />
  );
}

export function MoveForm({
  places,
  pieces,
}: {
  readonly places: readonly string[];
  readonly pieces?: readonly string[];
}) {
  const one = pieces?.length === 1;
  return (
    <DeskForm
      form={`timber move ${one ? pieces[0] : ""}`}
      fields={{
        pieces: { label: words.move.pieces, hint: words.move.piecesHint, first: one ? pieces[0]! : "" },
        place: { label: words.move.to, list: places },
      }}
      write={words.move.write}
      entries={(typed) => [{ kind: "stood", pieces: namesOf(typed.text("pieces")), place: typed.text("place") }]}
      done={(typed) => words.move.done(typed.text("pieces"), typed.text("place"))}
    />
  );
}

/** Where the work can hurt someone, beside its form. */
function Beside({ children }: { readonly children: string }) {
  return (
    <p className="caution">
      <CautionMark />
      <span>{children}</span>
    </p>
  );
}

export function CoatForm({ unit, pieces }: { readonly unit?: string; readonly pieces?: readonly string[] }) {
  return (
    <DeskForm
      form={`timber coat ${unit ?? pieces?.join(" ")}`}
      fields={{
        finish: { label: words.coat.finish, first: "oil", choices: finishChoices },
        product: { label: words.coat.product, optional: true },
        turn_h: { label: words.coat.turn, kind: "number", unit: "h", optional: true },
        hardens_h: { label: words.coat.hardens, kind: "number", unit: "h", first: "72" },
      }}
      write={words.coat.write}
      entries={(typed) => {
        const turn_h = typed.optional("turn_h");
        return [
          {
            kind: "coat",
            ...(unit !== undefined && { unit }),
            pieces: [...(pieces ?? [])],
            finish: typed.text("finish") as "oil" | "wax" | "shellac" | "lacquer" | "varnish",
            ...(typed.text("product") !== "" && { product: typed.text("product") }),
            ...(turn_h !== undefined && { turn_h }),
            hardens_h: typed.number("hardens_h"),
          },
        ];
      }}
      done={() => words.coat.done}
    >
      <Beside>{cautions.rags}</Beside>
    </DeskForm>
  );
}

export function MachineForm({ view }: { readonly view: PieceView }) {
  const { card, inCase } = view;
  return (
    <DeskForm
      form={`timber machine ${card.piece}`}
      fields={{
        length_mm: { label: words.machine.length, kind: "number", unit: "mm", first: String(card.length_mm) },
        width_mm: { label: words.machine.width, kind: "number", unit: "mm", first: String(card.width_mm) },
        thickness_mm: { label: words.machine.thickness, kind: "number", unit: "mm", first: String(card.thickness_mm) },
      }}
      write={words.machine.write}
      entries={(typed) => [
        {
          kind: "machined",
          piece: card.piece,
          length_mm: typed.number("length_mm"),
          width_mm: typed.number("width_mm"),
          thickness_mm: typed.number("thickness_mm"),
          ...(inCase?.unit !== undefined && { unit: inCase.unit }),
        },
      ]}
      done={() => words.machine.done}
    >
      <Beside>{cautions.dust}</Beside>
    </DeskForm>
  );
}

export function OffcutForm({
  piece,
  instruments,
}: {
  readonly piece: string;
  readonly instruments: readonly string[];
}) {
  return (
    <DeskForm
      form={`timber offcut ${piece}`}
      fields={{
        cut: { label: words.offcut.cut, hint: words.offcut.cutHint },
        wet_g: { label: words.offcut.wet, kind: "number", unit: "g" },
        ovenDry_g: {
          label: words.offcut.ovenDry,
          kind: "number",
          unit: "g",
          hint: words.offcut.ovenDryHint,
        },
        instrument: {
          label: words.offcut.balance,
          list: instruments,
          first: instruments.length === 1 ? instruments[0]! : "",
        },
      }}
      write={words.offcut.write}
      entries={(typed) => {
        const cut = new Date(`${typed.text("cut").replace(" ", "T")}${typed.text("cut").length <= 16 ? ":00" : ""}Z`);
        if (Number.isNaN(cut.getTime())) return words.offcut.badDate;
        return [
          {
            kind: "offcut",
            piece,
            cut: cut.toISOString(),
            wet_g: typed.number("wet_g"),
            ovenDry_g: typed.number("ovenDry_g"),
            instrument: typed.text("instrument"),
          },
        ];
      }}
      done={() => words.offcut.done}
    />
  );
}

export function FlawForm({ piece }: { readonly piece: string }) {
  return (
    <DeskForm
      form={`timber flaw ${piece}`}
      fields={{
        flaw: {
          label: words.flaw.what,
          first: "crack",
          choices: (["crack", "bow", "cup", "twist"] as const).map((value) => ({ value, label: words.flaw[value] })),
        },
        length_mm: { label: words.flaw.howMuch, kind: "number", unit: "mm" },
        found: { label: words.flaw.found, list: ["on the plate", "sanding", "soak", "at the customer"] },
      }}
      write={words.flaw.write}
      entries={async (typed) => {
        const photo = document.querySelector<HTMLInputElement>(`[data-photo="${CSS.escape(piece)}"]`)?.files?.[0];
        const photo_sha256 = photo && (await postPhoto(photo));
        return [
          {
            kind: "flaw" as const,
            piece,
            flaw: typed.text("flaw") as "crack" | "bow" | "cup" | "twist",
            length_mm: typed.number("length_mm"),
            found: typed.text("found"),
            ...(photo_sha256 !== undefined && { photo_sha256 }),
          },
        ];
      }}
      done={() => words.flaw.done}
    >
      <label className="field photo-field">
        <span className="field-label">{words.flaw.photo}</span>
        <input type="file" accept="image/jpeg,image/png,image/webp" data-photo={piece} />
      </label>
    </DeskForm>
  );
}

export function SawForm({ view }: { readonly view: PieceView }) {
  const { card } = view;
  const example = `${card.piece}.1 310 215; ${card.piece}.2 310 95`;
  return (
    <DeskForm
      form={`timber saw ${card.piece}`}
      fields={{
        into: {
          label: words.saw.into,
          wide: true,
          hint: words.oneAfterAnother(example),
        },
        thickness_mm: { label: words.saw.thickness, kind: "number", unit: "mm", first: String(card.thickness_mm) },
      }}
      write={words.writePanels}
      entries={(typed) => {
        const panels = typed
          .text("into")
          .split(";")
          .map((one) => one.trim().split(/\s+/))
          .filter((one) => one[0] !== "");
        const bad = panels.find((one) => one.length !== 3 || one.slice(1).some((size) => !(toNumber(size) > 0)));
        if (panels.length === 0 || bad) return words.badPanel(bad?.join(" ") ?? "", example);
        return [
          {
            kind: "sawn",
            piece: card.piece,
            into: panels.map(([name, length, width]) => ({
              piece: name!,
              length_mm: toNumber(length!),
              width_mm: toNumber(width!),
              thickness_mm: typed.number("thickness_mm"),
              ringAngle_deg: card.ringAngle_deg,
            })),
          },
        ];
      }}
      done={() => words.saw.done}
    >
      <Beside>{cautions.dust}</Beside>
    </DeskForm>
  );
}

const toNumber = (typed: string) => Number(typed.replace(",", "."));

export function KeepForm({ pieces, units }: { readonly pieces: readonly string[]; readonly units: readonly string[] }) {
  return (
    <DeskForm
      form={`timber keep ${pieces.join(" ")}`}
      fields={{ unit: { label: words.unit, list: units } }}
      write={words.keep.write}
      entries={(typed) => [{ kind: "meant", pieces: [...pieces], unit: typed.text("unit") }]}
      done={(typed) => words.keep.done(typed.text("unit"))}
    />
  );
}

/** Air of a year between the driest and the dampest month, as a customer can tell it. */
export function ClimateForm({ place }: { readonly place: string }) {
  return (
    <DeskForm
      form={`timber climate ${place}`}
      fields={{
        dryMonth: { label: words.climate.dryMonth, kind: "number", hint: words.climate.dryMonthHint, first: "1" },
        dry_pct: { label: words.climate.dry, kind: "number", unit: "%" },
        dry_C: { label: words.climate.temperature, kind: "number", unit: "°C", first: "21" },
        damp_pct: { label: words.climate.damp, kind: "number", unit: "%" },
        damp_C: { label: words.climate.dampTemperature, kind: "number", unit: "°C", first: "22" },
        basis: { label: words.climate.basis, hint: words.climate.basisHint },
      }}
      write={words.climate.write}
      entries={(typed) => {
        const dryest = typed.number("dryMonth");
        if (!Number.isInteger(dryest) || dryest < 1 || dryest > 12) return words.climate.badMonth;
        return [
          {
            kind: "climate",
            place,
            basis: `${typed.text("basis")}; even between the driest and the dampest month`,
            months: Array.from({ length: 12 }, (_, i) => {
              const share = (1 - Math.cos((2 * Math.PI * (i + 1 - dryest)) / 12)) / 2;
              const between = (dry: number, damp: number) => Number((dry + share * (damp - dry)).toFixed(1));
              return {
                month: i + 1,
                temperature_C: between(typed.number("dry_C"), typed.number("damp_C")),
                humidity_pct: between(typed.number("dry_pct"), typed.number("damp_pct")),
              };
            }),
          },
        ];
      }}
      done={() => words.climate.done(place)}
    />
  );
}

export function JoinForm({ unit }: { readonly unit: string }) {
  const example = "top A-1.1 centre 4.5 warm; bottom A-2.1 centre 4.5";
  return (
    <DeskForm
      form={`timber join ${unit}`}
      fields={{
        case: { label: words.join.case, first: `C-${unit}` },
        panels: {
          label: words.join.panels,
          wide: true,
          hint: words.join.panelsHint(example),
        },
      }}
      write={words.join.write}
      entries={(typed) => {
        const panels = typed
          .text("panels")
          .split(";")
          .map((one) => one.trim())
          .filter(Boolean)
          .map((one) => /^(.+?)\s+(\S+)\s+(edges|centre|free)\s+([\d.,]+)(\s+warm)?$/.exec(one) ?? one);
        const bad = panels.find((one) => typeof one === "string");
        if (panels.length === 0 || bad !== undefined) return words.join.badPanel(bad ?? "", example);
        return [
          {
            kind: "case" as const,
            case: typed.text("case"),
            panels: panels.map((one) => {
              const [, panel, piece, fixed, gap, warm] = one as RegExpExecArray;
              return {
                panel: panel!,
                piece: piece!,
                fixed: fixed as "edges" | "centre" | "free",
                gap_mm: toNumber(gap!),
                warm: warm !== undefined,
              };
            }),
          },
          { kind: "case-given" as const, case: typed.text("case"), unit },
        ];
      }}
      done={(typed) => words.join.done(typed.text("case"), unit)}
    />
  );
}

export function OpenedForm({ unit }: { readonly unit: string }) {
  return (
    <DeskForm
      form={`timber opened ${unit}`}
      fields={{ why: { label: words.opened.why } }}
      write={words.opened.write}
      entries={(typed) => [{ kind: "rework", unit, touched: [{ case: "closure" }], why: typed.text("why") }]}
      done={() => words.opened.done}
    />
  );
}
