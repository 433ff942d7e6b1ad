import { useQuery, useQueryClient } from "@tanstack/react-query";
import { lazy, Suspense, useEffect, useState } from "react";
import { Route, Switch, useLocation } from "wouter";
import { get, type WorkshopHead } from "./common/api.ts";
import { decode } from "./common/decode.ts";
import { Answer, Empty, Waiting } from "./common/Waiting.tsx";
import { words as exchangeWords } from "./exchange/messages.ts";
import { HumPage } from "./hum/HumPage.tsx";
import { words as instrumentWords } from "./instruments/messages.ts";
import {
  budget as budgetWords,
  gauge as gaugeWords,
  unitCharts as unitChartWords,
} from "./instruments/studyMessages.ts";
import { series as listeningWords } from "./listening/seriesMessages.ts";
import { words as lookBackWords } from "./lookback/messages.ts";
import { MorningPage } from "./morning/MorningPage.tsx";
import { words as peopleWords } from "./people/messages.ts";
import { checkSession, useKnown } from "./people/session.ts";
import { words as keptWords } from "./promises/keptMessages.ts";
import { PromisesPage } from "./promises/PromisesPage.tsx";
import { words as whatIfWords } from "./promises/whatIfMessages.ts";
import { shell } from "./shell/messages.ts";
import { Shell } from "./shell/Shell.tsx";
import { words as soakWords } from "./soaks/messages.ts";
import { UnitPage } from "./unit/UnitPage.tsx";
import { words as unitsWords } from "./units/messages.ts";
import { UnitList } from "./units/UnitList.tsx";

/** Fetched when first opened: no one needs it to see the morning card. */
const BenchPage = lazy(async () => ({ default: (await import("./bench/BenchPage.tsx")).BenchPage }));

// A bench that never opens these need not carry them.
const ProbePage = lazy(() => import("./probe/ProbePage.tsx"));
const TraysPage = lazy(() => import("./valves/TraysPage.tsx"));
const TrayPage = lazy(() => import("./valves/TrayPage.tsx"));
const SellerPage = lazy(() => import("./valves/SellerPage.tsx"));
const ShelfPage = lazy(() => import("./timber/ShelfPage.tsx"));
const WeighPage = lazy(() => import("./timber/WeighPage.tsx"));
const PlacesPage = lazy(() => import("./timber/PlacesPage.tsx"));
const CutsPage = lazy(() => import("./timber/CutsPage.tsx"));
const PiecePage = lazy(() => import("./timber/PiecePage.tsx"));
const CasePage = lazy(() => import("./timber/CasePage.tsx"));
const SafetyPage = lazy(() => import("./safety/SafetyPage.tsx"));
const LimitsPage = lazy(() => import("./safety/LimitsPage.tsx"));
const InstrumentsPage = lazy(() => import("./instruments/InstrumentsPage.tsx"));
const GaugePage = lazy(() => import("./instruments/GaugePage.tsx"));
const UnitChartsPage = lazy(() => import("./instruments/UnitChartsPage.tsx"));
const BudgetPage = lazy(() => import("./instruments/BudgetPage.tsx"));
const CostsPage = lazy(() => import("./costs/CostsPage.tsx"));
const ChecksPage = lazy(() => import("./checks/ChecksPage.tsx"));
const ListeningPage = lazy(() => import("./listening/ListeningPage.tsx"));
const SeriesPage = lazy(() => import("./listening/SeriesPage.tsx"));
const AnswerPage = lazy(() => import("./listening/AnswerPage.tsx"));
const SwitchPage = lazy(() => import("./listening/SwitchPage.tsx"));
const SoaksPage = lazy(() => import("./soaks/SoaksPage.tsx"));
const WhatIfPage = lazy(() => import("./promises/WhatIfPage.tsx"));
const KeptPage = lazy(() => import("./promises/KeptPage.tsx"));
const LookBackPage = lazy(() => import("./lookback/LookBackPage.tsx"));
const NotebookIndexPage = lazy(() => import("./notebook/NotebookIndexPage.tsx"));
const NotebookPage = lazy(() => import("./notebook/NotebookPage.tsx"));
const ExchangePage = lazy(() => import("./exchange/ExchangePage.tsx"));
const PeoplePage = lazy(() => import("./people/PeoplePage.tsx"));
const CustomersPage = lazy(() => import("./people/CustomersPage.tsx"));

/** Fetches afresh whenever the ledger has grown, here or at another bench, and when a lost line is back; says whether it is lost. */
function useLedgerNews(): boolean {
  const client = useQueryClient();
  const [isCut, setCut] = useState(false);
  const { session, isLost } = useKnown();
  const who = isLost ? undefined : (session?.signedIn?.person ?? "");
  useEffect(() => {
    // Nobody is told anything until somebody is signed in again.
    if (who === undefined) return;
    const events = new EventSource("/api/events");
    let last = "";
    events.onmessage = ({ data }) => {
      // The first word after opening only says where the ledger stands.
      if (last !== "" && last !== data) void client.invalidateQueries();
      last = data;
    };
    let wasCut = false;
    events.onerror = () => {
      // A line that was refused, and not only cut, is one whose session ended.
      if (events.readyState === EventSource.CLOSED) void checkSession();
      wasCut = true;
      setCut(true);
    };
    events.onopen = () => {
      if (wasCut) void client.invalidateQueries();
      wasCut = false;
      setCut(false);
    };
    return () => events.close();
  }, [client, who]);
  return isCut;
}

const titles: readonly (readonly [RegExp, (unit: string) => string])[] = [
  [/^\/unit\/([^/]+)\/hum$/, shell.titles.hum],
  [/^\/unit\/([^/]+)\/bench$/, shell.titles.bench],
  [/^\/unit\/([^/]+)\/probe$/, shell.titles.probe],
  [/^\/unit\/([^/]+)\/case$/, shell.titles.case],
  [/^\/unit\/([^/]+)\/safety$/, shell.titles.safety],
  [/^\/safety$/, () => shell.titles.limits],
  [/^\/instruments$/, () => instrumentWords.title],
  [/^\/instruments\/gauge$/, () => gaugeWords.title],
  [/^\/instruments\/units$/, () => unitChartWords.title],
  [/^\/instruments\/budget$/, () => budgetWords.title],
  [/^\/costs$/, () => shell.titles.costs],
  [/^\/checks$/, () => shell.titles.checks],
  [/^\/listening\/([^/]+)/, (series) => series],
  [/^\/listening$/, () => listeningWords.title],
  [/^\/soaks$/, () => soakWords.title],
  [/^\/timber\/piece\/([^/]+)$/, shell.titles.piece],
  [/^\/timber/, () => shell.timber],
  [/^\/valves\/([^/]+)/, shell.titles.tray],
  [/^\/valves$/, () => shell.valves],
  [/^\/notebook\/([^/]+)$/, shell.titles.notebook],
  [/^\/notebook$/, () => shell.notebook],
  [/^\/unit\/([^/]+)$/, shell.titles.unit],
  [/^\/promises$/, () => shell.promises],
  [/^\/promises\/what-if$/, () => whatIfWords.title],
  [/^\/promises\/kept$/, () => keptWords.title],
  [/^\/look-back$/, () => lookBackWords.title],
  [/^\/units$/, () => shell.units],
  [/^\/exchange$/, () => exchangeWords.title],
  [/^\/people$/, () => peopleWords.title],
  [/^\/customers$/, () => peopleWords.customers],
  [/^\/$/, () => shell.morning],
];

function useTitle() {
  const [location] = useLocation();
  useEffect(() => {
    const named = titles.flatMap(([pattern, title]) => {
      const found = pattern.exec(location);
      return found ? [title(decode(found[1] ?? ""))] : [];
    })[0];
    document.title = [named, shell.name].filter(Boolean).join(" · ");
  }, [location]);
}

export function App() {
  const isCut = useLedgerNews();
  useTitle();
  const asked = useQuery({ queryKey: ["/api/workshop"], queryFn: () => get<WorkshopHead>("/api/workshop") });
  return (
    <Shell workshop={asked.data} isCut={isCut}>
      <Suspense fallback={<Waiting what={shell.page} />}>
        <Switch>
          <Route path="/">
            <MorningPage />
          </Route>
          <Route path="/promises">
            <PromisesPage workshop={asked.data} />
          </Route>
          <Route path="/promises/what-if">
            <WhatIfPage workshop={asked.data} />
          </Route>
          <Route path="/promises/kept">
            <KeptPage />
          </Route>
          <Route path="/look-back">
            <LookBackPage />
          </Route>
          <Route path="/units">
            <Answer asked={asked} what={unitsWords.what}>
              {({ units }) => <UnitList units={units} />}
            </Answer>
          </Route>
          <Route path="/unit/:unit">{({ unit }) => <UnitPage unit={decode(unit)} key={unit} />}</Route>
          <Route path="/unit/:unit/hum">{({ unit }) => <HumPage unit={decode(unit)} key={unit} />}</Route>
          <Route path="/unit/:unit/bench">
            {({ unit }) => (
              <Suspense fallback={<Waiting what={shell.page} />}>
                <BenchPage unit={decode(unit)} key={unit} />
              </Suspense>
            )}
          </Route>
          <Route path="/unit/:unit/probe">{({ unit }) => <ProbePage unit={decode(unit)} key={unit} />}</Route>
          <Route path="/unit/:unit/case">{({ unit }) => <CasePage unit={decode(unit)} key={unit} />}</Route>
          <Route path="/unit/:unit/safety">{({ unit }) => <SafetyPage unit={decode(unit)} key={unit} />}</Route>
          <Route path="/safety">
            <LimitsPage />
          </Route>
          <Route path="/instruments">
            <InstrumentsPage />
          </Route>
          <Route path="/instruments/gauge">
            <GaugePage />
          </Route>
          <Route path="/instruments/units">
            <UnitChartsPage />
          </Route>
          <Route path="/instruments/budget">
            <BudgetPage />
          </Route>
          <Route path="/costs">
            <CostsPage />
          </Route>
          <Route path="/checks">
            <ChecksPage />
          </Route>
          <Route path="/listening">
            <ListeningPage />
          </Route>
          <Route path="/listening/:series">{({ series }) => <SeriesPage series={decode(series)} key={series} />}</Route>
          <Route path="/listening/:series/answer">
            {({ series }) => <AnswerPage series={decode(series)} key={series} />}
          </Route>
          <Route path="/listening/:series/switch">
            {({ series }) => <SwitchPage series={decode(series)} key={series} />}
          </Route>
          <Route path="/soaks">
            <SoaksPage />
          </Route>
          <Route path="/timber">
            <ShelfPage />
          </Route>
          <Route path="/timber/weigh">
            <WeighPage />
          </Route>
          <Route path="/timber/places">
            <PlacesPage />
          </Route>
          <Route path="/timber/cuts">
            <CutsPage />
          </Route>
          <Route path="/timber/piece/:piece">{({ piece }) => <PiecePage piece={decode(piece)} key={piece} />}</Route>
          <Route path="/valves">
            <TraysPage />
          </Route>
          <Route path="/people">
            <PeoplePage />
          </Route>
          <Route path="/exchange">
            <ExchangePage workshop={asked.data} />
          </Route>
          <Route path="/customers">
            <CustomersPage />
          </Route>
          <Route path="/notebook">
            <NotebookIndexPage />
          </Route>
          <Route path="/notebook/:model">{({ model }) => <NotebookPage model={decode(model)} key={model} />}</Route>
          <Route path="/valves/:batch">{({ batch }) => <TrayPage batch={decode(batch)} key={batch} />}</Route>
          <Route path="/valves/:batch/seller">{({ batch }) => <SellerPage batch={decode(batch)} key={batch} />}</Route>
          <Route>
            <Empty title={shell.notFoundTitle}>{shell.notFound}</Empty>
          </Route>
        </Switch>
      </Suspense>
    </Shell>
  );
}
