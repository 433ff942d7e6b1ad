import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { PieceView, TimberShelfView } from "../../workshop/timber/views.ts";
import { get, Trouble, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { decode } from "../common/decode.ts";
import { Field, numberError, numberOf, Outcome } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useKept } from "../common/useKept.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { TakeFrom } from "../instruments/TakeFrom.tsx";
import { useTaken } from "../instruments/useTaken.ts";
import { hasSerial, joinBalance } from "./balancePort.ts";
import { weigh as words } from "./messages.ts";
import { newInstrument } from "./newInstrument.ts";
import { useShelf } from "./useShelf.ts";
import "./timber.css";

export default function WeighPage() {
  const asked = useShelf();
  return (
    <Answer asked={asked} what={words.what}>
      {(shelf) => <Weigh shelf={shelf} />}
    </Answer>
  );
}

interface Aside {
  readonly piece: string;
  readonly mass: string;
  readonly why: string;
}

const asideKey = "stillglow.timber aside";

function keptAside(): readonly Aside[] {
  try {
    return JSON.parse(localStorage.getItem(asideKey) ?? "[]") as Aside[];
  } catch {
    return [];
  }
}

/** Piece, mass, Enter. What is refused is kept aside with its reason, and the next piece can be weighed meanwhile. */
export function Weigh({ shelf }: { readonly shelf: TimberShelfView }) {
  const { typed: line, change } = useDraft("weighing", { piece: "", mass: "" });
  const { piece, mass } = line;
  const setPiece = (now: string) => change({ piece: now });
  const setMass = (now: string) => change({ mass: now });
  const [by, setBy] = useBy();
  const guess = shelf.instruments.find((one) => /balance|scale/i.test(one)) ?? "";
  const [balance, setBalance] = useKept("stillglow.balance", guess);
  const [aside, setAside] = useState(keptAside);
  const [done, setDone] = useState<readonly { piece: string; mass_g: number }[]>([]);
  const [port, setPort] = useState<string>();
  const [isTried, setTried] = useState(false);
  const taken = useTaken();
  const pieceField = useRef<HTMLFormElement>(null);
  const sending = useSending();

  const focus = (name: "piece" | "mass") =>
    pieceField.current?.querySelector<HTMLInputElement>(`.weigh-${name} input`)?.focus();
  const keepAside = (now: readonly Aside[]) => {
    setAside(now);
    try {
      localStorage.setItem(asideKey, JSON.stringify(now));
    } catch {
      // A browser that keeps nothing still shows them until it is closed.
    }
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: only on arrival
  useEffect(() => {
    const named = decode(location.hash.slice(1));
    // A mass typed for another piece must not be written down for this one.
    if (named !== "" && named !== piece) change({ piece: named, mass: "" });
    focus(named === "" && piece === "" ? "piece" : "mass");
  }, []);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    const name = piece.trim();
    if (name === "") return focus("piece");
    if (mass.trim() === "") return focus("mass");
    const problem = numberError(mass);
    if (problem !== undefined || by.trim() === "" || balance.trim() === "") {
      sending.refuse(problem ?? (by.trim() === "" ? `${common.by}: ${common.needed}` : words.noBalance));
      return;
    }
    const mass_g = numberOf(mass);
    const typed = mass;
    void sending
      .send(async () => {
        try {
          await writeDown(by.trim(), [
            ...(shelf.instruments.includes(balance.trim()) ? [] : [newInstrument(balance.trim(), "balance")]),
            { ...taken.idOf(typed, balance.trim()), kind: "weighing", piece: name, mass_g, instrument: balance.trim() },
          ]);
        } catch (fault) {
          if (fault instanceof Trouble && fault.status === 422) {
            keepAside([{ piece: name, mass: typed, why: fault.message }, ...aside]);
          }
          throw fault;
        }
        setDone((before) => [{ piece: name, mass_g }, ...before].slice(0, 12));
        return words.done(name, plainMass(mass_g));
      })
      .then((isDone) => {
        setTried(false);
        // Refused for what it says, it lies aside: the desk is free for the next piece.
        const isAside = !isDone && keptAside()[0]?.mass === typed && keptAside()[0]?.piece === name;
        if (!isDone && !isAside) return;
        setPiece("");
        setMass("");
        taken.forget();
        focus("piece");
      });
  };
  const join = async () => {
    try {
      await joinBalance(
        (printed) => {
          if (!printed) return setPort(words.garbled);
          if (printed.isUnsteady) return setPort(words.unsteady(plainMass(printed.mass_g)));
          setPort(words.connected);
          setMass(String(printed.mass_g));
          focus("mass");
        },
        () => setPort(words.lost),
      );
      setPort(words.connected);
    } catch {
      setPort(words.nothing);
    }
  };
  const due = shelf.pieces
    .filter(({ nextWeighing }) => nextWeighing !== undefined)
    .toSorted((a, b) => (a.nextWeighing!.at < b.nextWeighing!.at ? -1 : 1))
    .slice(0, 6);
  return (
    <article className="timber weigh-desk">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <form className="weigh-line" ref={pieceField} onSubmit={submit} noValidate>
        <div className="weigh-piece">
          <Field
            label={words.piece}
            value={piece}
            onChange={setPiece}
            list={shelf.pieces.map((one) => one.piece)}
            {...(isTried && piece.trim() === "" && { error: common.needed })}
          />
        </div>
        <div className="weigh-mass">
          <Field
            label={words.mass}
            value={mass}
            onChange={setMass}
            numeric
            unit="g"
            {...(isTried && mass.trim() !== "" && numberError(mass) !== undefined && { error: numberError(mass)! })}
          />
          <TakeFrom
            quantity="mass_g"
            onTaken={(figure) => {
              taken.take(figure);
              setBalance(figure.instrument);
              setMass(figure.value);
              focus("mass");
            }}
          />
        </div>
        <button type="submit" className="main" disabled={sending.busy}>
          {words.write}
        </button>
      </form>
      <Outcome busy={sending.busy} said={sending.said} error={sending.error} />
      {done[0] && <Told weighed={done[0]} key={`${done[0].piece} ${done.length}`} />}
      <div className="weigh-terms fields">
        <Field
          label={words.balance}
          hint={words.balanceHint}
          value={balance}
          onChange={setBalance}
          list={shelf.instruments}
        />
        <By value={by} onChange={setBy} />
        <div>
          {hasSerial() ? (
            <button type="button" onClick={() => void join()}>
              {words.connect}
            </button>
          ) : (
            <p className="quiet small">{words.noSerial}</p>
          )}
          {port && <p role="status">{port}</p>}
        </div>
      </div>
      {aside.length > 0 && (
        <section aria-labelledby="aside-name">
          <h2 id="aside-name">{words.aside}</h2>
          <p className="quiet">{words.asideHow}</p>
          <ul className="aside-list">
            {aside.map((one, i) => (
              <li key={`${one.piece} ${one.mass} ${one.why}`}>
                <p>
                  <strong>
                    {one.piece}, {one.mass} g.
                  </strong>{" "}
                  {one.why}
                </p>
                <p className="form-end">
                  <button
                    type="button"
                    onClick={() => {
                      setPiece(one.piece);
                      setMass(one.mass);
                      keepAside(aside.filter((_, at) => at !== i));
                      focus("mass");
                    }}
                  >
                    {words.mend}
                  </button>
                  <button type="button" onClick={() => keepAside(aside.filter((_, at) => at !== i))}>
                    {words.drop}
                  </button>
                </p>
              </li>
            ))}
          </ul>
        </section>
      )}
      <div className="weigh-below">
        {due.length > 0 && (
          <section aria-labelledby="due-name">
            <h2 id="due-name">{words.nextUp}</h2>
            <ol className="due-list">
              {due.map((one) => (
                <li key={one.piece}>
                  <button
                    type="button"
                    onClick={() => {
                      setPiece(one.piece);
                      focus("mass");
                    }}
                  >
                    {one.piece}
                  </button>
                  <span>
                    <time dateTime={one.nextWeighing!.at}>{dayAndTime(one.nextWeighing!.at)}</time>
                    <span className="quiet">, {one.nextWeighing!.place}</span>
                  </span>
                </li>
              ))}
            </ol>
          </section>
        )}
        {done.length > 0 && (
          <section aria-labelledby="sitting-name">
            <h2 id="sitting-name">{words.todayTitle}</h2>
            <ul className="sitting">
              {done.map((one, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a piece may be weighed twice alike
                <li key={i}>
                  <Link href={`/timber/piece/${encodeURIComponent(one.piece)}`}>{one.piece}</Link>
                  <span className="figure">{plainMass(one.mass_g)} g</span>
                </li>
              ))}
            </ul>
          </section>
        )}
      </div>
    </article>
  );
}

/** What the weighing just written down means. */
function Told({ weighed }: { readonly weighed: { readonly piece: string; readonly mass_g: number } }) {
  const { piece, mass_g } = weighed;
  const path = `/api/timber/pieces/${encodeURIComponent(piece)}`;
  const { data } = useQuery({ queryKey: [path], queryFn: () => get<PieceView>(path) });
  if (!data) return null;
  const { moisture, advice, wanting } = data.card;
  const last = data.weighings.at(-1);
  const misfit = data.aside.find((one) => one.mass_g === mass_g && last && isSameMinute(one.at, last.at));
  if (misfit) {
    return (
      <p className="timber-note" role="status">
        {words.keptAside(plainMass(mass_g), misfit.why)}
      </p>
    );
  }
  const half_pct = moisture ? (moisture.high_pct - moisture.low_pct) / 2 : 0;
  const alone_pct = last?.mass_g === mass_g ? last.moisture_pct : undefined;
  if (moisture?.basis === "fitted" && alone_pct !== undefined && isFarOff(alone_pct - moisture.mean_pct, half_pct)) {
    const holds = `${fixed(moisture.mean_pct, 1)} ± ${fixed(half_pct, 1)}`;
    return (
      <p className="timber-note" role="status">
        {words.unexplained(plainMass(mass_g), fixed(alone_pct, 1), holds)}
      </p>
    );
  }
  return (
    <p className="weigh-told" role="status">
      {moisture && moisture.basis === "fitted" && (
        <span className="pencil">{words.holds(fixed(moisture.mean_pct, 1), fixed(half_pct, 1))} </span>
      )}
      {wanting ?? advice}
    </p>
  );
}

/** Beyond the course's own doubt, and further than an offcut may stand off its board. */
const isFarOff = (off_pct: number, half_pct: number) => Math.abs(off_pct) > Math.max(2 * half_pct, 1);

const isSameMinute = (one: string, other: string) => Math.abs(Date.parse(one) - Date.parse(other)) < 60_000;

const plainMass = (mass_g: number) => (mass_g >= 1000 ? fixed(mass_g, 1) : plainNumber(mass_g));
