import type { PieceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { get, type WorkshopHead } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { common } from "../common/messages.ts";
import { DeskForm, namesOf } from "./DeskForm.tsx";
import { figureOf, figures } from "./figures.ts";
import { marksIn } from "./marks.ts";
import { places, planning } from "./messages.ts";
import { newInstrument } from "./newInstrument.ts";
import { postPhoto } from "./postPhoto.ts";

/** The forms by which work on timber is written down. */

const cautions = { rags: places.cautionRags, dust: common.dangers.dust ?? "" };

export const finishChoices = [
  { value: "oil", label: "Hardening oil" },
  { value: "wax", label: "Wax" },
  { value: "shellac", label: "Shellac" },
  { value: "lacquer", label: "Lacquer" },
  { value: "varnish", label: "Varnish" },
];

export function PlaceForm({ first }: { readonly first?: string }) {
  return (
    <DeskForm
      form="timber place"
      fields={{
        place: { label: "Name of the place", hint: "Such as case shop, warm chamber, hot plate", first: first ?? "" },
        what: {
          label: "What it is",
          first: "room",
          choices: [
            { value: "room", label: "A room" },
            { value: "chamber", label: "A warm chamber" },
            { value: "plate", label: "A hot plate: one face lies on it" },
            { value: "amplifier", label: "On a warm amplifier" },
            { value: "outside", label: "Outside, under a roof" },
          ],
        },
        set_C: { label: "What it is set to", kind: "number", unit: "°C", optional: true, hint: "Of what is warmed" },
        holds: { label: "Pieces that find room in it", kind: "number", unit: "pieces", optional: true },
      }}
      write="Write the place down"
      entries={(typed) => {
        const what = typed.text("what") as "room" | "chamber" | "plate" | "amplifier" | "outside";
        const set_C = typed.optional("set_C");
        const holds = typed.optional("holds");
        const lies = what === "plate" || what === "amplifier";
        if (lies && set_C === undefined) return "A plate needs what it is set to: the wood on it goes by that.";
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
      done={(typed) => `${typed.text("place")} is on record. Log its air next.`}
    />
  );
}

export function AirForm({ shelf }: { readonly shelf: TimberShelfView }) {
  return (
    <DeskForm
      form="timber air"
      fields={{
        place: { label: "Place", list: shelf.places.map(({ place }) => place) },
        temperature_C: { label: "Temperature", kind: "number", unit: "°C" },
        humidity_pct: { label: "Humidity", kind: "number", unit: "%" },
        instrument: { label: "Read with", list: shelf.instruments },
      }}
      write="Log the air"
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
      done={(typed) => `Air of ${typed.text("place")} logged.`}
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
        piece: { label: "Its number", hint: "As it will be written on its end" },
        species: { label: "Species", list: shelf.species },
        length_mm: { label: "Length", kind: "number", unit: "mm" },
        width_mm: { label: "Width", kind: "number", unit: "mm", hint: "Across the grain" },
        thickness_mm: { label: "Thickness", kind: "number", unit: "mm" },
        ringAngle_deg: { label: "Ring angle", kind: "number", unit: "°", hint: "0 rings along the face, 90 upright" },
        seller: { label: "From whom" },
        claimed_pct: { label: "Moisture the seller claims", kind: "number", unit: "%", optional: true },
        papers: { label: "Papers that came with it", optional: true, hint: "By commas" },
        density_kg_m3: {
          label: "Density",
          kind: "number",
          unit: "kg/m³",
          optional: true,
          hint: "Only of a species that the list lacks",
        },
        place: { label: "Where it stands", list: shelf.places.map(({ place }) => place) },
        defects: { label: planning.defects, wide: true, optional: true, hint: planning.defectsHint },
        figure: { label: planning.figure, first: "", choices: figures },
        seen: { label: "Anything else seen", optional: true },
      }}
      write="Receive it"
      entries={(typed) => {
        const [claimed_pct, density_kg_m3] = [typed.optional("claimed_pct"), typed.optional("density_kg_m3")];
        const defects = marksIn(typed.text("defects"));
        if (typeof defects === "string") return planning.badMark(defects);
        const isMarked = defects.length > 0 || typed.text("figure") !== "";
        return [
          {
            kind: "blank",
            piece: typed.text("piece"),
            species: typed.text("species"),
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
      done={(typed) => `${typed.text("piece")} is on the shelf. Weigh it, and put an offcut of it in the oven.`}
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
        pieces: { label: "Pieces", hint: "Scanned or typed, one after another", first: one ? pieces[0]! : "" },
        place: { label: "To", list: places },
      }}
      write="Write the move down"
      entries={(typed) => [{ kind: "stood", pieces: namesOf(typed.text("pieces")), place: typed.text("place") }]}
      done={(typed) => `${typed.text("pieces")}: now at ${typed.text("place")}.`}
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
        finish: { label: "Finish", first: "oil", choices: finishChoices },
        product: { label: "What the tin says", optional: true },
        turn_h: { label: "To be turned after", kind: "number", unit: "h", optional: true },
        hardens_h: { label: "Hard after", kind: "number", unit: "h", first: "72" },
      }}
      write="Write the coat down"
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
      done={() => "The coat is written down; the gap check is to be made again once it is hard."}
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
        length_mm: { label: "Length now", kind: "number", unit: "mm", first: String(card.length_mm) },
        width_mm: { label: "Width now", kind: "number", unit: "mm", first: String(card.width_mm) },
        thickness_mm: { label: "Thickness now", kind: "number", unit: "mm", first: String(card.thickness_mm) },
      }}
      write="Write its new size down"
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
      done={() => "Its new size is on record. Weigh it again: its dry wood is less now."}
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
        cut: { label: "Cut and weighed on", hint: "Date and clock, such as 2027-03-01 10:10" },
        wet_g: { label: "Mass then", kind: "number", unit: "g" },
        ovenDry_g: {
          label: "Mass out of the oven",
          kind: "number",
          unit: "g",
          hint: "Once it no longer falls, at 103 °C",
        },
        instrument: { label: "Balance", list: instruments, first: instruments.length === 1 ? instruments[0]! : "" },
      }}
      write="Write the offcut down"
      entries={(typed) => {
        const cut = new Date(`${typed.text("cut").replace(" ", "T")}${typed.text("cut").length <= 16 ? ":00" : ""}Z`);
        if (Number.isNaN(cut.getTime())) return "The date can’t be read: write it like 2027-03-01 10:10.";
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
      done={() => "Its oven-dry mass is known now; every weighing of it tells its moisture."}
    />
  );
}

export function FlawForm({ piece }: { readonly piece: string }) {
  return (
    <DeskForm
      form={`timber flaw ${piece}`}
      fields={{
        flaw: {
          label: "What it is",
          first: "crack",
          choices: [
            { value: "crack", label: "A crack: its length" },
            { value: "bow", label: "A bow: its rise" },
            { value: "cup", label: "A cup: its rise" },
            { value: "twist", label: "A twist: its rise" },
          ],
        },
        length_mm: { label: "How much", kind: "number", unit: "mm" },
        found: { label: "At which work it was found", list: ["on the plate", "sanding", "soak", "at the customer"] },
      }}
      write="Write the flaw down"
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
      done={() => "The flaw is on record, and counts in the look-back."}
    >
      <label className="field photo-field">
        <span className="select-label">Photo, if there is one</span>
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
          label: "Panels: number, length, width in mm",
          wide: true,
          hint: `One after another with semicolons, such as ${example}`,
        },
        thickness_mm: { label: "Their thickness", kind: "number", unit: "mm", first: String(card.thickness_mm) },
      }}
      write="Write the panels down"
      entries={(typed) => {
        const panels = typed
          .text("into")
          .split(";")
          .map((one) => one.trim().split(/\s+/))
          .filter((one) => one[0] !== "");
        const bad = panels.find((one) => one.length !== 3 || one.slice(1).some((size) => !(toNumber(size) > 0)));
        if (panels.length === 0 || bad)
          return `“${bad?.join(" ") ?? ""}” can’t be read as a panel: write its number, length and width, such as ${example}.`;
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
      done={() => "The panels stand on the shelf under their own numbers, as moist as the board was."}
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
      fields={{ unit: { label: "Unit", list: units } }}
      write="Keep it for this unit"
      entries={(typed) => [{ kind: "meant", pieces: [...pieces], unit: typed.text("unit") }]}
      done={(typed) => `Kept for unit ${typed.text("unit")}: its destination says how dry it should be.`}
    />
  );
}

/** Air of a year between the driest and the dampest month, as a customer can tell it. */
export function ClimateForm({ place }: { readonly place: string }) {
  return (
    <DeskForm
      form={`timber climate ${place}`}
      fields={{
        dryMonth: { label: "Driest month", kind: "number", hint: "1 to 12", first: "1" },
        dry_pct: { label: "Humidity of the room then", kind: "number", unit: "%" },
        dry_C: { label: "Its temperature then", kind: "number", unit: "°C", first: "21" },
        damp_pct: { label: "Humidity in the dampest month", kind: "number", unit: "%" },
        damp_C: { label: "Its temperature then", kind: "number", unit: "°C", first: "22" },
        basis: { label: "Who says so", hint: "Told by the customer, or guessed from what" },
      }}
      write="Write the climate down"
      entries={(typed) => {
        const dryest = typed.number("dryMonth");
        if (!Number.isInteger(dryest) || dryest < 1 || dryest > 12) return "The driest month is a number from 1 to 12.";
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
      done={() => `The air of ${place} is on record.`}
    />
  );
}

export function JoinForm({ unit }: { readonly unit: string }) {
  const example = "top A-1.1 centre 4.5 warm; bottom A-2.1 centre 4.5";
  return (
    <DeskForm
      form={`timber join ${unit}`}
      fields={{
        case: { label: "Name of the case", first: `C-${unit}` },
        panels: {
          label: "Panels: name, piece, held at, room in mm",
          wide: true,
          hint: `One after another with semicolons; held at edges, centre or free; “warm” where the amplifier warms its inner face. Such as ${example}`,
        },
      }}
      write="Write the case down"
      entries={(typed) => {
        const panels = typed
          .text("panels")
          .split(";")
          .map((one) => one.trim())
          .filter(Boolean)
          .map((one) => /^(.+?)\s+(\S+)\s+(edges|centre|free)\s+([\d.,]+)(\s+warm)?$/.exec(one) ?? one);
        const bad = panels.find((one) => typeof one === "string");
        if (panels.length === 0 || bad !== undefined)
          return `“${bad ?? ""}” can’t be read as a panel: write it like ${example}.`;
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
      done={(typed) => `Case ${typed.text("case")} is the case of ${unit} now.`}
    />
  );
}

export function OpenedForm({ unit }: { readonly unit: string }) {
  return (
    <DeskForm
      form={`timber opened ${unit}`}
      fields={{ why: { label: "What for" } }}
      write="Write down that it was opened"
      entries={(typed) => [{ kind: "rework", unit, touched: [{ case: "closure" }], why: typed.text("why") }]}
      done={() => "Written down. Earth bond and soak are to be proven again."}
    />
  );
}
