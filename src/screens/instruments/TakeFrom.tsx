import { useState } from "react";
import { factorInto } from "../../measurement/inUnit.ts";
import type { TakenView } from "../../workshop/instruments/linkViews.ts";
import { post } from "../common/api.ts";
import { figureOf } from "./figureOf.ts";
import { linked as linkedWords, take as words } from "./linkMessages.ts";
import { faultWords, freshId, useLinks } from "./useLinks.ts";
import "./take.css";

/** A figure as an instrument gave it, in the unit of the field it is for. */
export interface Taken {
  /** Becomes the id of the entry, so that it is written down once. */
  readonly id: string;
  readonly instrument: string;
  /** As it is put into a field. */
  readonly value: string;
  readonly doubt: string;
}

interface Props {
  /** What the field holds. */
  readonly quantity: string;
  /** The one instrument that may be asked, where it is its own trial. */
  readonly only?: string;
  readonly onTaken: (taken: Taken) => void;
}

/** As many digits as the figure has. */
const digits = (value: number) => String(Number(value.toPrecision(9)));

/** A button for each linked instrument that reads what the field is for; none where there is no such instrument. */
export function TakeFrom({ quantity, only, onTaken }: Props) {
  const { data } = useLinks();
  const [busy, setBusy] = useState("");
  const [said, setSaid] = useState<{ readonly words: string; readonly isFault: boolean }>();
  const able = (data?.linked ?? []).flatMap((one) => {
    if (only !== undefined && only !== one.instrument) return [];
    const reads = one.quantities.map((known) => known.quantity);
    const found = reads.find((known) => known === quantity) ?? reads.find((known) => factorInto(known, quantity));
    return found === undefined ? [] : [{ ...one, reads: found, factor: factorInto(found, quantity)! }];
  });
  if (able.length === 0) return null;

  const take = async ({ instrument, title, reads, factor }: (typeof able)[number]) => {
    setBusy(instrument);
    setSaid(undefined);
    try {
      const path = `/api/instruments/${encodeURIComponent(instrument)}/read`;
      const { id, value, doubt, standing } = await post<TakenView>(path, { quantity: reads, id: freshId("m") });
      const [inUnit, doubtInUnit] = [value * factor, Number((doubt * factor).toPrecision(3))];
      onTaken({ id, instrument, value: digits(inUnit), doubt: digits(doubtInUnit) });
      const trial = standing.state === "good" ? "" : ` ${linkedWords.trial[standing.state]}.`;
      setSaid({ words: words.taken(figureOf(quantity, inUnit, doubtInUnit), title) + trial, isFault: trial !== "" });
    } catch (fault) {
      setSaid({ words: faultWords(fault), isFault: true });
    } finally {
      setBusy("");
    }
  };
  return (
    <div className="take-from">
      {able.map((one) => (
        <button key={one.instrument} type="button" disabled={busy !== ""} onClick={() => void take(one)}>
          {busy === one.instrument ? words.asking : words.from(one.title)}
        </button>
      ))}
      <p role="status" className={said?.isFault ? "take-fault" : "small quiet"}>
        {said?.words}
      </p>
    </div>
  );
}
