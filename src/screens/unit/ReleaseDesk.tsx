import { type FormEvent, useState } from "react";
import type { UnitView } from "../../workshop/views.ts";
import { post, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { Field, FormEnd, Recalled } from "../common/fields.tsx";
import { Pick } from "../common/Pick.tsx";
import { StateSign, StopSign } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { NotYours } from "../people/NotYours.tsx";
import { useMay, useSession } from "../people/session.ts";
import { desk } from "./messages.ts";

type Missing = UnitView["release"]["missing"];
type Answer = UnitView["release"];

export function MissingList({ missing }: { readonly missing: Missing }) {
  return (
    <ul className="missing">
      {missing.map((claim) => (
        <li key={claim.claim}>
          <StateSign state={claim.state} />
          <span>
            <a href={`#claim-${claim.claim}`}>{claim.title}</a>
            <span className="missing-because">{inWords(claim.because)}</span>
          </span>
        </li>
      ))}
    </ul>
  );
}

function AskRelease({ unit }: { readonly unit: string }) {
  const [by, setBy] = useBy();
  const [asked, setAsked] = useState(false);
  const [answer, setAnswer] = useState<Answer>();
  const sending = useSending();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (by.trim() === "") return;
    setAnswer(undefined);
    void sending.send(async () => {
      const got = await post<Answer>(`/api/units/${encodeURIComponent(unit)}/release`, { by: by.trim() });
      setAnswer(got);
      return got.granted ? desk.granted(unit) : "";
    });
  };
  return (
    <form className="desk-form" onSubmit={submit} noValidate>
      <p className="quiet">{desk.lead}</p>
      <div className="fields">
        <By need="release" value={by} onChange={setBy} isTried={asked} />
      </div>
      <FormEnd write={desk.ask(unit)} sending={sending} />
      <div role="alert">
        {answer && !answer.granted && (
          <div className="refused">
            <p className="refused-head">
              <StopSign />
              <strong>{desk.refused(answer.missing.length)}</strong>
            </p>
            <MissingList missing={answer.missing} />
          </div>
        )}
      </div>
    </form>
  );
}

function Concede({ unit, missing }: { readonly unit: string; readonly missing: Missing }) {
  const draft = useDraft(`${unit} concession`, { claim: missing[0]?.claim ?? "", reason: "" });
  const { claim, reason } = draft.typed;
  const { signedIn } = useSession();
  const { may } = useMay("owner");
  const [isOwner, setIsOwner] = useState(false);
  const [asked, setAsked] = useState(false);
  const sending = useSending();
  const chosen = missing.find((one) => one.claim === claim) ?? missing[0];
  const reasonError = reason.trim().length < 8 ? desk.reasonShort : undefined;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!chosen || reasonError) return;
    if (!isOwner) return sending.refuse(desk.ownerOnly);
    void sending
      .send(async () => {
        await writeDown(signedIn?.person ?? "owner", [
          { kind: "concession", unit, claim: chosen.claim, reason: reason.trim() },
        ]);
        return desk.conceded(chosen.title);
      })
      .then((done) => {
        if (!done) return;
        draft.clear();
        setAsked(false);
      });
  };
  if (!may) {
    return (
      <div className="concede">
        <p>{desk.concede}</p>
        <NotYours need="owner" />
      </div>
    );
  }
  return (
    <details className="concede" open={draft.isRecalled || undefined}>
      <summary>{desk.concede}</summary>
      <form className="desk-form" onSubmit={submit} noValidate>
        <p className="quiet">{desk.concedeNote}</p>
        <Recalled isRecalled={draft.isRecalled} clear={() => draft.clear()} />
        <div className="fields">
          <Pick
            label={desk.claim}
            value={chosen?.claim ?? ""}
            onChange={(claim) => draft.change({ claim })}
            options={missing.map((one) => ({ value: one.claim, label: one.title }))}
          />
          <Field
            label={desk.reason}
            value={reason}
            onChange={(now) => draft.change({ reason: now })}
            error={asked ? reasonError : undefined}
          />
        </div>
        <label className="choice-option">
          <input type="checkbox" checked={isOwner} onChange={(event) => setIsOwner(event.target.checked)} />
          <span>{desk.owner}</span>
        </label>
        <FormEnd write={desk.conceding} sending={sending} isMain={false} />
      </form>
    </details>
  );
}

export function ReleaseDesk({ unit }: { readonly unit: UnitView }) {
  const safe = new Set(unit.claims.filter((claim) => claim.safety).map((claim) => claim.claim));
  const concedable = unit.release.missing.filter((claim) => !safe.has(claim.claim));
  return (
    <section className="desk" id="release" aria-labelledby="release-name">
      <h2 id="release-name">{desk.title}</h2>
      {unit.released && !unit.back ? <p>{desk.granted(unit.unit)}</p> : <AskRelease unit={unit.unit} />}
      {(!unit.released || unit.back) && concedable.length > 0 && <Concede unit={unit.unit} missing={concedable} />}
    </section>
  );
}
