import { useQuery, useQueryClient } from "@tanstack/react-query";
import { Suspense, useEffect, useState } from "react";
import { Route, Switch, useLocation } from "wouter";
import { get, type WorkshopHead } from "./common/api.ts";
import { Behind } from "./common/Behind.tsx";
import { decode } from "./common/decode.ts";
import { fetchedWith } from "./common/fetchedWith.tsx";
import { PageBoundary } from "./common/PageBoundary.tsx";
import { Empty, Waiting } from "./common/Waiting.tsx";
import { MorningPage } from "./morning/MorningPage.tsx";
import { door } from "./people/doorMessages.ts";
import { checkSession, useKnown } from "./people/session.ts";
import { shell } from "./shell/messages.ts";
import { Shell } from "./shell/Shell.tsx";

// A bench that never opens one of these carries neither it nor its words.
const UnitPage = fetchedWith(["unit", "links"], () => import("./unit/UnitPage.tsx"));
const UnitsPage = fetchedWith(["units"], () => import("./units/UnitsPage.tsx"));
const HumPage = fetchedWith(["hum", "bench"], () => import("./hum/HumPage.tsx"));
const BenchPage = fetchedWith(["bench", "links"], () => import("./bench/BenchPage.tsx"));
const ProbePage = fetchedWith(["probe", "links"], () => import("./probe/ProbePage.tsx"));
const TraysPage = fetchedWith(["valves"], () => import("./valves/TraysPage.tsx"));
const TrayPage = fetchedWith(["valves", "links"], () => import("./valves/TrayPage.tsx"));
const SellerPage = fetchedWith(["valves"], () => import("./valves/SellerPage.tsx"));
const ShelfPage = fetchedWith(["timber", "timberForms", "trade"], () => import("./timber/ShelfPage.tsx"));
const WeighPage = fetchedWith(["timber", "links"], () => import("./timber/WeighPage.tsx"));
const PlacesPage = fetchedWith(["timber", "timberForms", "trade"], () => import("./timber/PlacesPage.tsx"));
const CutsPage = fetchedWith(["timber", "timberForms", "trade"], () => import("./timber/CutsPage.tsx"));
const PiecePage = fetchedWith(["timber", "timberForms", "trade"], () => import("./timber/PiecePage.tsx"));
const CasePage = fetchedWith(["timber", "timberForms", "trade"], () => import("./timber/CasePage.tsx"));
const SafetyPage = fetchedWith(["safety", "links"], () => import("./safety/SafetyPage.tsx"));
const LimitsPage = fetchedWith(["safety"], () => import("./safety/LimitsPage.tsx"));
const InstrumentsPage = fetchedWith(
  ["instruments", "links", "studies"],
  () => import("./instruments/InstrumentsPage.tsx"),
);
const GaugePage = fetchedWith(["studies"], () => import("./instruments/GaugePage.tsx"));
const UnitChartsPage = fetchedWith(["studies"], () => import("./instruments/UnitChartsPage.tsx"));
const BudgetPage = fetchedWith(["studies"], () => import("./instruments/BudgetPage.tsx"));
const CostsPage = fetchedWith(["costs", "trade"], () => import("./costs/CostsPage.tsx"));
const ChecksPage = fetchedWith(["checks", "trade"], () => import("./checks/ChecksPage.tsx"));
const ListeningPage = fetchedWith(["listening", "series"], () => import("./listening/ListeningPage.tsx"));
const SeriesPage = fetchedWith(["listening", "series", "notebook"], () => import("./listening/SeriesPage.tsx"));
const AnswerPage = fetchedWith(["series"], () => import("./listening/AnswerPage.tsx"));
const SwitchPage = fetchedWith(["series"], () => import("./listening/SwitchPage.tsx"));
const SoaksPage = fetchedWith(["soaks", "trade"], () => import("./soaks/SoaksPage.tsx"));
const WhatIfPage = fetchedWith(["whatIf"], () => import("./promises/WhatIfPage.tsx"));
const KeptPage = fetchedWith(["kept", "whatIf"], () => import("./promises/KeptPage.tsx"));
const LookBackPage = fetchedWith(["lookback", "trade"], () => import("./lookback/LookBackPage.tsx"));
const NotebookIndexPage = fetchedWith(["notebook"], () => import("./notebook/NotebookIndexPage.tsx"));
const NotebookPage = fetchedWith(["notebook"], () => import("./notebook/NotebookPage.tsx"));
const ExchangePage = fetchedWith(["exchange"], () => import("./exchange/ExchangePage.tsx"));
const PeoplePage = fetchedWith(["people"], () => import("./people/PeoplePage.tsx"));
const CustomersPage = fetchedWith(["people"], () => import("./people/CustomersPage.tsx"));
const ShopPage = fetchedWith(["shop"], () => import("./shop/ShopPage.tsx"));
const OrdersPage = fetchedWith(["orders"], () => import("./orders/OrdersPage.tsx"));
const OrderPage = fetchedWith(["orders", "timber", "timberForms", "trade"], () => import("./orders/OrderPage.tsx"));
const WorkPage = fetchedWith(["work", "soaks"], () => import("./work/WorkPage.tsx"));
const PackPage = fetchedWith(["work"], () => import("./work/PackPage.tsx"));
const ReturnPage = fetchedWith(["work"], () => import("./work/ReturnPage.tsx"));
const SupplyPage = fetchedWith(["supply"], () => import("./supply/SupplyPage.tsx"));
const PromisesPage = fetchedWith(["promises"], () => import("./promises/PromisesPage.tsx"));

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
  [/^\/unit\/([^/]+)\/supply$/, shell.titles.supply],
  [/^\/unit\/([^/]+)\/work$/, shell.titles.work],
  [/^\/unit\/([^/]+)\/pack$/, shell.titles.pack],
  [/^\/unit\/([^/]+)\/return$/, shell.titles.back],
  [/^\/shop$/, () => shell.titles.shop],
  [/^\/orders$/, () => shell.orders],
  [/^\/order\/([^/]+)$/, shell.titles.order],
  [/^\/safety$/, () => shell.titles.limits],
  [/^\/instruments$/, () => shell.titles.instruments],
  [/^\/instruments\/gauge$/, () => shell.titles.gauge],
  [/^\/instruments\/units$/, () => shell.titles.unitCharts],
  [/^\/instruments\/budget$/, () => shell.titles.budget],
  [/^\/costs$/, () => shell.titles.costs],
  [/^\/checks$/, () => shell.titles.checks],
  [/^\/listening\/([^/]+)/, (series) => series],
  [/^\/listening$/, () => shell.titles.listening],
  [/^\/soaks$/, () => shell.titles.soaks],
  [/^\/timber\/piece\/([^/]+)$/, shell.titles.piece],
  [/^\/timber/, () => shell.timber],
  [/^\/valves\/([^/]+)/, shell.titles.tray],
  [/^\/valves$/, () => shell.valves],
  [/^\/notebook\/([^/]+)$/, shell.titles.notebook],
  [/^\/notebook$/, () => shell.notebook],
  [/^\/unit\/([^/]+)$/, shell.titles.unit],
  [/^\/promises$/, () => shell.promises],
  [/^\/promises\/what-if$/, () => shell.titles.whatIf],
  [/^\/promises\/kept$/, () => shell.titles.kept],
  [/^\/look-back$/, () => shell.titles.lookBack],
  [/^\/units$/, () => shell.units],
  [/^\/exchange$/, () => shell.exchange],
  [/^\/people$/, () => shell.titles.people],
  [/^\/customers$/, () => door.customers],
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
  const [location] = useLocation();
  const asked = useQuery({ queryKey: ["/api/workshop"], queryFn: () => get<WorkshopHead>("/api/workshop") });
  return (
    <Shell workshop={asked.data} isCut={isCut}>
      <Behind />
      <PageBoundary key={location}>
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
              <UnitsPage asked={asked} />
            </Route>
            <Route path="/unit/:unit">{({ unit }) => <UnitPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/hum">{({ unit }) => <HumPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/bench">{({ unit }) => <BenchPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/probe">{({ unit }) => <ProbePage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/case">{({ unit }) => <CasePage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/safety">{({ unit }) => <SafetyPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/supply">{({ unit }) => <SupplyPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/work">{({ unit }) => <WorkPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/pack">{({ unit }) => <PackPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/unit/:unit/return">{({ unit }) => <ReturnPage unit={decode(unit)} key={unit} />}</Route>
            <Route path="/shop">
              <ShopPage />
            </Route>
            <Route path="/orders">
              <OrdersPage />
            </Route>
            <Route path="/order/:order">{({ order }) => <OrderPage order={decode(order)} key={order} />}</Route>
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
            <Route path="/listening/:series">
              {({ series }) => <SeriesPage series={decode(series)} key={series} />}
            </Route>
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
            <Route path="/valves/:batch/seller">
              {({ batch }) => <SellerPage batch={decode(batch)} key={batch} />}
            </Route>
            <Route>
              <Empty title={shell.notFoundTitle}>{shell.notFound}</Empty>
            </Route>
          </Switch>
        </Suspense>
      </PageBoundary>
    </Shell>
  );
}
