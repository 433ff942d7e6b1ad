import { type FormEvent, useState } from "react";
import type { SafetySheetView } from "../../workshop/safety/views.ts";
import { Field, numberError, numberOf } from "../common/fields.tsx";
import { plainNumber } from "../common/number.ts";
import { useComputed } from "../listening/useComputed.ts";
import { words } from "./messages.ts";

interface StoreAnswer {
  readonly most_ohm: number;
  readonly rating_W: number;
  readonly energy_J: number;
  readonly charge_mC: number;
  readonly guide: { readonly class1_V: number; readonly class2_V: number };
}

const blank = { capacitance: "", start: "", limit: "60", time: "60", bleeder: "" };

/** What empties a store of charge in time: its bleeder, and how long the one that is there takes. */
export function Stores({ stores }: Pick<SafetySheetView, "stores">) {
  const [first] = stores;
  const [typed, setTyped] = useState({
    ...blank,
    ...(first && { capacitance: String(Number(first.capacitance_uF.toPrecision(4))) }),
    ...(first?.bleeder_ohm !== undefined && { bleeder: String(first.bleeder_ohm / 1000) }),
  });
  const [tried, setTried] = useState(false);
  const store = useComputed<StoreAnswer>("safety.store");
  const falls = useComputed<{ readonly time_s: number }>("safety.discharge");
  const errors = Object.fromEntries(
    Object.entries(typed).map(([name, text]) => [name, numberError(text, name !== "bleeder")]),
  );
  const field = (name: keyof typeof blank, unit: string) => ({
    value: typed[name],
    onChange: (text: string) => setTyped((before) => ({ ...before, [name]: text })),
    unit,
    numeric: true,
    narrow: true,
    ...(tried && errors[name] ? { error: errors[name]! } : {}),
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (Object.values(errors).some(Boolean)) return;
    const common = {
      capacitance_uF: numberOf(typed.capacitance),
      start_V: numberOf(typed.start),
      limit_V: numberOf(typed.limit),
    };
    void store.ask({ ...common, time_s: numberOf(typed.time) });
    if (typed.bleeder.trim() !== "") void falls.ask({ ...common, bleeder_ohm: numberOf(typed.bleeder) * 1000 });
  };
  const { answer } = store;
  return (
    <section aria-labelledby="stores-name">
      <h2 id="stores-name">{words.stores}</h2>
      <p>{words.storesLead}</p>
      {first ? (
        <p className="small">
          {words.store}: {first.part}. {first.bleeder === undefined && words.noBleeder}
        </p>
      ) : (
        <p className="small quiet">{words.storesNone}</p>
      )}
      <form noValidate onSubmit={submit}>
        <div className="fields">
          <Field label={words.capacitance} {...field("capacitance", "µF")} />
          <Field label={words.startVoltage} {...field("start", "V")} />
          <Field label={words.safeVoltage} {...field("limit", "V")} />
          <Field label={words.within} {...field("time", "s")} />
          <Field label={words.bleederNow} {...field("bleeder", "kΩ")} />
        </div>
        <button type="submit" disabled={store.busy}>
          {words.reckon}
        </button>
        <div role="alert">
          {(store.error ?? falls.error) && <p className="outcome-error">{store.error ?? falls.error}</p>}
        </div>
      </form>
      <div role="status">
        {answer && (
          <p className="pencil safety-stores">
            {words.bleeder(`${plainNumber(answer.most_ohm / 1000)} kΩ`, `${plainNumber(answer.rating_W)} W`)}{" "}
            {words.holds(`${plainNumber(answer.energy_J)} J`, `${plainNumber(answer.charge_mC)} mC`)}{" "}
            {falls.answer && words.falls(`${plainNumber(falls.answer.time_s)} s`, `${typed.limit} V`)}{" "}
            {words.class(`${plainNumber(answer.guide.class1_V)} V`, `${plainNumber(answer.guide.class2_V)} V`)}
          </p>
        )}
      </div>
    </section>
  );
}
