import { type FormEvent, useState } from "react";
import type { BodyOf } from "../../claims/evidence.ts";
import type { PromiseView } from "../../workshop/views.ts";
import { post } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { day } from "../common/calendar.ts";
import { Choice, FormEnd } from "../common/fields.tsx";
import { useBy } from "../common/useBy.ts";
import { useSending } from "../common/useSending.ts";
import { words } from "./messages.ts";

const shares = [80, 95, 50] as const;

/** Gives the customer a date: the day that so many runs keep, written down with what it was worked out from. */
export function GiveDate({ promise, now }: { readonly promise: PromiseView; readonly now: string }) {
  const [by, setBy] = useBy();
  const [share, setShare] = useState<string>("80");
  const [isOpen, setOpen] = useState(false);
  const [isTried, setTried] = useState(false);
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (by.trim() === "") return;
    void sending.send(async () => {
      const { entry } = await post<{ entry: { body: BodyOf<"promise"> } }>(
        `/api/promises/${encodeURIComponent(promise.order)}`,
        { by: by.trim(), share_pct: Number(share) },
      );
      return words.given(promise.order, day(entry.body.date, now));
    });
  };
  const dates: Readonly<Record<string, string>> = { "50": promise.p50, "80": promise.p80, "95": promise.p95 };
  return (
    <details className="give-date" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {words.give}
        <span className="visually-hidden"> {promise.order}</span>
      </summary>
      {isOpen && (
        <form onSubmit={submit} noValidate>
          <Choice
            legend={words.giveShare}
            value={share}
            options={shares.map((one) => ({
              value: String(one),
              label: `${words.inHundred(one)}: ${day(dates[String(one)]!, now)}`,
            }))}
            onChange={setShare}
          />
          <By need="release" value={by} onChange={setBy} isTried={isTried} />
          <FormEnd write={words.giveIt} sending={sending} />
        </form>
      )}
    </details>
  );
}
