import type { SafetySheetView } from "../../workshop/safety/views.ts";
import { Field } from "../common/fields.tsx";
import { plainNumber } from "../common/number.ts";
import { useComputed } from "../common/useComputed.ts";
import { useNumbers } from "../common/useNumbers.ts";
import { words } from "./messages.ts";

interface StoreAnswer {
  readonly most_ohm: number;
  readonly rating_W: number;
  readonly energy_J: number;
  readonly charge_mC: number;
  readonly guide: { readonly class1_V: number; readonly class2_V: number };
}

const blank = { capacitance_uF: "", start_V: "", limit_V: "60", time_s: "60", bleeder_kohm: "" };

/** What empties a store of charge in time: its bleeder, and how long the one that is there takes. */
export function Stores({ stores }: Pick<SafetySheetView, "stores">) {
  const [first] = stores;
  const store = useComputed<StoreAnswer>("safety.store");
  const falls = useComputed<{ readonly time_s: number }>("safety.discharge");
  const { typed, field, submit } = useNumbers(
    {
      ...blank,
      ...(first && { capacitance_uF: String(Number(first.capacitance_uF.toPrecision(4))) }),
      ...(first?.bleeder_ohm !== undefined && { bleeder_kohm: String(first.bleeder_ohm / 1000) }),
    },
    ["bleeder_kohm"],
  );
  const reckon = submit(({ time_s, bleeder_kohm, ...charged }) => {
    void store.ask({ ...charged, time_s });
    if (bleeder_kohm !== undefined) void falls.ask({ ...charged, bleeder_ohm: bleeder_kohm * 1000 });
  });
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
      <form noValidate onSubmit={reckon}>
        <div className="fields">
          <Field label={words.capacitance} unit="µF" {...field("capacitance_uF")} />
          <Field label={words.startVoltage} unit="V" {...field("start_V")} />
          <Field label={words.safeVoltage} unit="V" {...field("limit_V")} />
          <Field label={words.within} unit="s" {...field("time_s")} />
          <Field label={words.bleederNow} unit="kΩ" {...field("bleeder_kohm")} />
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
            {falls.answer && words.falls(`${plainNumber(falls.answer.time_s)} s`, `${typed.limit_V} V`)}{" "}
            {words.class(`${plainNumber(answer.guide.class1_V)} V`, `${plainNumber(answer.guide.class2_V)} V`)}
          </p>
        )}
      </div>
    </section>
  );
}
