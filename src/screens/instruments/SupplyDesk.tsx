import { type FormEvent, useState } from "react";
import type { LinkedView, SupplyView } from "../../workshop/instruments/linkViews.ts";
import { get, post, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { CautionMark } from "../common/Caution.tsx";
import { day, time } from "../common/calendar.ts";
import { Field, FormEnd, numberError, numberOf, Outcome } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { linked as words } from "./linkMessages.ts";
import { faultWords, freshId } from "./useLinks.ts";

type Setting = LinkedView["settings"][number];

const unitOf = (setting: string) => quantitySaid(setting).unit;

function settingWords(settings: SupplyView["settings"], known: readonly Setting[]): string {
  return known
    .flatMap(({ setting, decimals }) =>
      settings[setting] === undefined ? [] : [`${fixed(settings[setting], decimals)} ${unitOf(setting)}`],
    )
    .join(", ");
}

/** A programmable supply: what it stands at, what it may be set to, and its output. */
export function SupplyDesk({ one }: { readonly one: LinkedView }) {
  const { instrument, settings, supply, limitsBy, limitsAt, least_Hz, hasOutput } = one;
  const [by, setBy] = useBy();
  const first = Object.fromEntries(settings.map(({ setting }) => [setting, ""]));
  const draft = useDraft<string>(`wire supply ${instrument}`, { ...first, unit: "" });
  const [isClear, setClear] = useState(false);
  const sending = useSending();
  const path = `/api/instruments/${encodeURIComponent(instrument)}`;
  const who = by.trim();
  const unit = draft.typed.unit?.trim() ?? "";
  const common_ = { by: who, ...(unit !== "" && { unit }) };
  const hasFrequency = settings.some(({ setting }) => setting === "frequency_Hz");
  const told = async (work: () => Promise<string>) =>
    sending.send(async () => {
      try {
        return await work();
      } catch (fault) {
        throw new Error(faultWords(fault));
      }
    });
  const set = (event: FormEvent) => {
    event.preventDefault();
    if (who === "") return sending.refuse(`${common.by}: ${common.needed}`);
    const typed = settings.flatMap(({ setting }) => {
      const text = draft.typed[setting] ?? "";
      return text.trim() === "" ? [] : [{ setting, text }];
    });
    const bad = typed.map(({ text }) => numberError(text)).find(Boolean);
    if (bad || typed.length === 0) return sending.refuse(bad ?? common.needed);
    const wanted = Object.fromEntries(typed.map(({ setting, text }) => [setting, numberOf(text)]));
    void told(async () => {
      const now = await post<SupplyView>(`${path}/supply`, { ...common_, settings: wanted, id: freshId("set") });
      draft.clear({ ...first, unit });
      return words.done(settingWords(now.settings, settings));
    });
  };
  const output = (on: boolean) => {
    if (who === "") return sending.refuse(`${common.by}: ${common.needed}`);
    if (on && !isClear) return sending.refuse(words.clearNeeded);
    void told(async () => {
      await post<SupplyView>(`${path}/output`, { ...common_, on, id: freshId("set") });
      setClear(false);
      return on ? words.switchedOn : words.switchedOff;
    });
  };
  const ask = () =>
    void told(async () => {
      const now = await get<SupplyView>(`${path}/supply`);
      return words.done(settingWords(now.settings, settings));
    });
  return (
    <div className="supply-desk">
      <form onSubmit={set} noValidate>
        <h4>{words.supply}</h4>
        <p className="caution">
          <CautionMark />
          <span>{words.caution}</span>
        </p>
        <p className="supply-now">
          <span>
            {supply ? words.stands(settingWords(supply.settings, settings), time(supply.at)) : words.unknown}{" "}
            {supply?.isOn !== undefined && <strong>{supply.isOn ? words.on : words.off}</strong>}
          </span>
          <button type="button" disabled={sending.busy} onClick={ask}>
            {words.ask}
          </button>
        </p>
        {limitsBy === undefined ? (
          <p className="take-fault">{words.noLimits}</p>
        ) : (
          <>
            <div className="fields">
              {settings.map(({ setting, low, high }) => (
                <Field
                  key={setting}
                  label={words.settings[setting]}
                  {...(low !== undefined &&
                    high !== undefined && { hint: words.limits(plainNumber(low), plainNumber(high), unitOf(setting)) })}
                  unit={unitOf(setting)}
                  numeric
                  value={draft.typed[setting] ?? ""}
                  onChange={(now) => draft.change({ [setting]: now })}
                />
              ))}
              <Field
                label={words.feeds}
                hint={words.feedsHint}
                value={unit}
                onChange={(now) => draft.change({ unit: now })}
              />
              <By value={by} onChange={setBy} />
            </div>
            <p className="quiet small">
              {words.limitsBy(limitsBy, day(limitsAt ?? ""))} {hasFrequency && words.upward(plainNumber(least_Hz))}
            </p>
          </>
        )}
        {hasOutput && limitsBy !== undefined && (
          <label className="choice-option">
            <input type="checkbox" checked={isClear} onChange={(event) => setClear(event.target.checked)} />
            <span>{words.isClear}</span>
          </label>
        )}
        <div className="form-end">
          {limitsBy !== undefined && (
            <button type="submit" className="main" disabled={sending.busy}>
              {words.set}
            </button>
          )}
          {hasOutput && (
            <button type="button" className="stop" disabled={sending.busy} onClick={() => output(false)}>
              {words.switchOff}
            </button>
          )}
          {hasOutput && limitsBy !== undefined && (
            <button type="button" disabled={sending.busy} onClick={() => output(true)}>
              {words.switchOn}
            </button>
          )}
        </div>
        <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
      </form>
      <OwnerLimits one={one} />
    </div>
  );
}

/** What the owner lets it be set to. */
function OwnerLimits({ one }: { readonly one: LinkedView }) {
  const { instrument, settings } = one;
  const [by, setBy] = useBy();
  const blank = Object.fromEntries(
    settings.flatMap(({ setting, low, high }) => [
      [`${setting} low`, low === undefined ? "" : plainNumber(low)],
      [`${setting} high`, high === undefined ? "" : plainNumber(high)],
    ]),
  );
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({ ...blank, why: "" });
  const sending = useSending();
  const write = (event: FormEvent) => {
    event.preventDefault();
    const rows = settings.map(({ setting }) => ({
      setting,
      low: typed[`${setting} low`] ?? "",
      high: typed[`${setting} high`] ?? "",
    }));
    const bad = rows.map(({ low, high }) => numberError(low) ?? numberError(high)).find(Boolean);
    if (bad) return sending.refuse(bad);
    if (by.trim() === "") return sending.refuse(`${common.by}: ${common.needed}`);
    void sending.send(async () => {
      await writeDown(by.trim(), [
        {
          kind: "supply-limits",
          instrument,
          limits: Object.fromEntries(
            rows.map(({ setting, low, high }) => [setting, { low: numberOf(low), high: numberOf(high) }]),
          ),
          ...(typed.why?.trim() && { why: typed.why.trim() }),
        },
      ]);
      return words.limitsSet;
    });
  };
  const put = (name: string) => (now: string) => setTyped((before) => ({ ...before, [name]: now }));
  return (
    <details>
      <summary>
        {words.owner}: {words.limitsTitle}
      </summary>
      <form onSubmit={write} noValidate>
        <div className="fields">
          {settings.flatMap(({ setting }) => {
            const name = words.settings[setting];
            return (["low", "high"] as const).map((side) => (
              <Field
                key={`${setting} ${side}`}
                label={words[side](name)}
                unit={unitOf(setting)}
                numeric
                value={typed[`${setting} ${side}`] ?? ""}
                onChange={put(`${setting} ${side}`)}
              />
            ));
          })}
          <Field label={words.why} value={typed.why ?? ""} onChange={put("why")} />
          <By value={by} onChange={setBy} />
        </div>
        <FormEnd write={words.setLimits} sending={sending} isMain={false} />
      </form>
    </details>
  );
}
