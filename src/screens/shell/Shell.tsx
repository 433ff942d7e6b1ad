import { type FormEvent, type ReactNode, useCallback, useEffect, useRef, useState } from "react";
import { Link, useLocation } from "wouter";
import { get, type WorkshopHead } from "../common/api.ts";
import { dayAndTime } from "../common/calendar.ts";
import { Papers } from "../common/Papers.tsx";
import { SignedInAs } from "../people/SignedInAs.tsx";
import { HandbookLink } from "./HandbookLink.tsx";
import { papersAt } from "./handbook.ts";
import { shell } from "./messages.ts";
import "./shell.css";
import { useScanner, type WhereTo } from "./useScanner.ts";
import { Wishes } from "./Wishes.tsx";

interface Props {
  readonly workshop?: WorkshopHead;
  /** The workshop's machine has stopped answering. */
  readonly isCut?: boolean;
  readonly children: ReactNode;
}

const places = [
  { to: "/", words: shell.morning },
  { to: "/promises", words: shell.promises },
  { to: "/units", words: shell.units },
  { to: "/valves", words: shell.valves },
  { to: "/timber", words: shell.timber },
  { to: "/notebook", words: shell.notebook },
];

/** The place one stands on; a unit's own pages lie within the units. */
const currentOf = (to: string, location: string) =>
  location === to
    ? "page"
    : (to === "/units" && location.startsWith("/unit/")) || location.startsWith(`${to}/`)
      ? "true"
      : undefined;

/** Where one stands, the ways on, and the one field that leads to any unit. */
export function Shell({ workshop, isCut = false, children }: Props) {
  const [location, navigate] = useLocation();
  const [serial, setSerial] = useState("");
  const page = useRef<HTMLElement>(null);
  const arrived = useRef(location);
  // The same scanner reads serial plates, valves, trays and the ends of boards; a code that names none is taken as a serial.
  const whereTo = useCallback<WhereTo>(
    (code) =>
      get<{ readonly path: string }>(`/api/codes/${encodeURIComponent(code)}`).then(
        ({ path }) =>
          () =>
            navigate(path),
        () => undefined,
      ),
    [navigate],
  );
  const open = useCallback(
    (code: string) => void whereTo(code).then((go) => (go ? go() : navigate(`/unit/${encodeURIComponent(code)}`))),
    [navigate, whereTo],
  );
  useScanner(open, whereTo);

  useEffect(() => {
    if (arrived.current === location) return;
    arrived.current = location;
    if (window.location.hash === "") window.scrollTo(0, 0);
    page.current?.focus({ preventScroll: true });
  }, [location]);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const code = serial.trim();
    if (code === "") return;
    setSerial("");
    open(code);
  };

  return (
    <>
      <a className="skip" href="#page">
        {shell.skip}
      </a>
      <header className="masthead">
        <div className="masthead-line">
          <p className="masthead-title">
            <span className="masthead-shop">{workshop?.title ?? shell.name}</span>
            {workshop && <time dateTime={workshop.now}>{dayAndTime(workshop.now)}</time>}
          </p>
          <nav aria-label={shell.nav}>
            {places.map(({ to, words }) => (
              <Link key={to} href={to} aria-current={currentOf(to, location)}>
                {words}
              </Link>
            ))}
            <HandbookLink />
          </nav>
          <search>
            <form className="serial" onSubmit={submit}>
              <label htmlFor="serial">{shell.serial}</label>
              <input
                id="serial"
                value={serial}
                placeholder={shell.serialHint}
                autoComplete="off"
                spellCheck={false}
                data-takes-codes
                onChange={(event) => setSerial(event.target.value)}
              />
              <button type="submit">{shell.open}</button>
            </form>
          </search>
        </div>
      </header>
      <div role="status">{isCut && <p className="cut">{shell.cut}</p>}</div>
      <main id="page" ref={page} tabIndex={-1}>
        {children}
      </main>
      <footer className="foot">
        <Papers of={papersAt(location)} />
        <div className="foot-ways">
          <SignedInAs />
          <Link href="/exchange">{shell.exchange}</Link>
        </div>
        <Wishes />
        <div className="foot-notes">
          {workshop?.demo && <p>{shell.demo}</p>}
          {workshop?.head && (
            <p className="tabular">
              <span title={workshop.head}>{shell.ledger(workshop.head)}</span>
            </p>
          )}
        </div>
      </footer>
    </>
  );
}
