import { DeskForm } from "../common/DeskForm.tsx";
import { forms } from "./formMessages.ts";
import { measuredIn } from "./measured.ts";

const example = "0 200 12 197.6 8; 90 150 12 148.8 8";

/** A wood that the catalogue lacks, by pieces measured at two moistures, or by coefficients with their doubt. */
export function OwnWoodForm() {
  const { wood: words } = forms;
  const coefficient = (label: string, hint: string) =>
    ({ label, hint, kind: "number", unit: "% / %", optional: true }) as const;
  return (
    <DeskForm
      form="timber own wood"
      fields={{
        species: { label: forms.species, hint: words.speciesHint },
        density_kg_m3: { label: forms.receive.density, kind: "number", unit: "kg/m³", hint: words.densityHint },
        densityDoubt_kg_m3: {
          ...{ label: words.densityDoubt, kind: "number", unit: "kg/m³", optional: true, hint: words.tenth },
        },
        measured: { label: words.measured, wide: true, optional: true, hint: words.measuredHint(example) },
        tangential_pct_per_pct: coefficient(words.tangential, words.coefficientHint),
        tangentialDoubt_pct_per_pct: coefficient(words.tangentialDoubt, words.doubtHint),
        radial_pct_per_pct: coefficient(words.radial, words.radialHint),
        radialDoubt_pct_per_pct: coefficient(words.radialDoubt, words.doubtHint),
        basis: { label: words.basis, optional: true },
      }}
      write={words.write}
      entries={(typed) => {
        const measured = measuredIn(typed.text("measured"));
        if (typeof measured === "string") return words.badPiece(measured, "0 200 12 197.6 8");
        const names = [
          ...(["densityDoubt_kg_m3", "tangential_pct_per_pct", "tangentialDoubt_pct_per_pct"] as const),
          ...(["radial_pct_per_pct", "radialDoubt_pct_per_pct"] as const),
        ];
        const given = Object.fromEntries(
          names.flatMap((name) => {
            const value = typed.optional(name);
            return value === undefined ? [] : [[name, value]];
          }),
        );
        return [
          {
            kind: "wood",
            species: typed.text("species"),
            density_kg_m3: typed.number("density_kg_m3"),
            ...given,
            ...(measured.length > 0 && { measured: [...measured] }),
            ...(typed.text("basis") !== "" && { basis: typed.text("basis") }),
          },
        ];
      }}
      done={(typed) => words.done(typed.text("species"))}
    />
  );
}
