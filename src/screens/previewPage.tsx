import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { cloneElement, isValidElement, type ReactNode, useEffect, useState } from "react";
import { createRoot } from "react-dom/client";
import { Trouble } from "./common/api.ts";
import { TroubleNote, Waiting } from "./common/Waiting.tsx";
import "./common/base.css";
import { Checks } from "./checks/ChecksPage.tsx";
import * as checks from "./checks/examples.ts";
import { Costs } from "./costs/CostsPage.tsx";
import * as costs from "./costs/examples.ts";
import * as hum from "./hum/examples.ts";
import { HumHearing } from "./hum/HumHearing.tsx";
import { HumUnderWay } from "./hum/HumUnderWay.tsx";
import BudgetPage from "./instruments/BudgetPage.tsx";
import * as instruments from "./instruments/examples.ts";
import { GaugeStudies } from "./instruments/GaugePage.tsx";
import { Instruments } from "./instruments/InstrumentsPage.tsx";
import * as studies from "./instruments/studyExamples.ts";
import { UnitCharts } from "./instruments/UnitChartsPage.tsx";
import { toldAnswer } from "./languages/sentences/told.ts";
import { languageInUse } from "./languages/spoken.ts";
import { Answering } from "./listening/AnswerPage.tsx";
import { answered, listed, shown, sits, switched } from "./listening/examples.ts";
import { Listening } from "./listening/ListeningPage.tsx";
import { Series } from "./listening/SeriesPage.tsx";
import { Switching } from "./listening/SwitchPage.tsx";
import * as lookBack from "./lookback/examples.ts";
import { LookBack } from "./lookback/LookBackPage.tsx";
import * as morning from "./morning/examples.ts";
import { MorningCard } from "./morning/MorningCard.tsx";
import * as notebook from "./notebook/examples.ts";
import { Notebook } from "./notebook/Notebook.tsx";
import { NotebookIndex } from "./notebook/NotebookIndex.tsx";
import { Limits } from "./notebook/ReleaseDesk.tsx";
import * as orders from "./orders/examples.ts";
import { Order } from "./orders/OrderPage.tsx";
import { Orders } from "./orders/OrdersPage.tsx";
import { Customers } from "./people/CustomersPage.tsx";
import * as people from "./people/examples.ts";
import { People, Register } from "./people/PeoplePage.tsx";
import { Pretending } from "./people/Pretending.tsx";
import { SignInForm } from "./people/SignIn.tsx";
import * as probe from "./probe/examples.ts";
import { ProbeCard } from "./probe/ProbeCard.tsx";
import * as promises from "./promises/examples.ts";
import { Kept } from "./promises/KeptPage.tsx";
import { PromiseBook } from "./promises/PromiseBook.tsx";
import { WhatIf } from "./promises/WhatIfPage.tsx";
import * as whatIf from "./promises/whatIfExamples.ts";
import * as safety from "./safety/examples.ts";
import { SafetyLimits } from "./safety/LimitsPage.tsx";
import { SafetySheet } from "./safety/SafetyPage.tsx";
import { Shell } from "./shell/Shell.tsx";
import * as shop from "./shop/examples.ts";
import { ShopSetUp } from "./shop/ShopPage.tsx";
import * as soaks from "./soaks/examples.ts";
import { Soaks } from "./soaks/SoaksPage.tsx";
import { Supply } from "./supply/SupplyPage.tsx";
import { UnitCase } from "./timber/CasePage.tsx";
import { Cuts } from "./timber/CutsPage.tsx";
import * as timber from "./timber/examples.ts";
import { Piece } from "./timber/PiecePage.tsx";
import { Places } from "./timber/PlacesPage.tsx";
import { TimberShelf } from "./timber/ShelfPage.tsx";
import { Weigh } from "./timber/WeighPage.tsx";
import * as unit from "./unit/examples.ts";
import { UnitFolder } from "./unit/UnitFolder.tsx";
import * as units from "./units/examples.ts";
import { UnitList } from "./units/UnitList.tsx";
import * as valves from "./valves/examples.ts";
import { SellerSheet } from "./valves/SellerSheet.tsx";
import { SetList } from "./valves/Sets.tsx";
import { Tray } from "./valves/TrayPage.tsx";
import { Trays } from "./valves/TraysPage.tsx";
import * as work from "./work/examples.ts";
import { Pack } from "./work/PackPage.tsx";
import { Return } from "./work/ReturnPage.tsx";
import { Work } from "./work/WorkPage.tsx";

type Hearing = typeof hum.decided;

function hearing(view: Hearing, channel = "left"): ReactNode {
  const spectra = view.recordings.map(({ recording }) => hum.spectrumOf(view, recording, channel));
  return (
    <HumHearing
      hearing={view}
      fitted={{ V1: "T-001", V2: "T-117" }}
      spectra={{ channel, onChannel: () => {}, spectra }}
    />
  );
}

/** Every screen in every state it can be in, by name. */
const examples: Readonly<Record<string, () => ReactNode>> = {
  "unit-many": () => <UnitFolder unit={unit.manyGaps} />,
  "unit-complete": () => <UnitFolder unit={unit.complete} />,
  "unit-released": () => <UnitFolder unit={unit.released} />,
  "unit-untouched": () => <UnitFolder unit={unit.untouched} />,
  "unit-bare": () => <UnitFolder unit={unit.bare} />,
  "unit-very-long": () => <UnitFolder unit={unit.veryLong} />,
  "unit-waiting": () => <Waiting what="the folder of unit 0231" />,
  "unit-error": () => (
    <TroubleNote
      error={new Trouble("0499; no unit of this serial is in the ledger; check the label", "unit", 422)}
      again={() => {}}
      alone
    />
  ),
  "hum-decided": () => hearing(hum.decided),
  "hum-cannot-tell": () => hearing(hum.cannotTell),
  "hum-none": () => hearing(hum.none),
  "hum-not-separable": () => hearing(hum.notSeparable),
  "hum-together": () => hearing(hum.together),
  "hum-under-way": () => <HumUnderWay unit="0231" underWay={{ share: 0.36, what: "reading r3" }} />,
  "hum-many": () => hearing(hum.manyLines),
  "morning-usual": () => <MorningCard morning={morning.usual} />,
  "morning-quiet": () => <MorningCard morning={morning.quietDay} />,
  "morning-bare": () => <MorningCard morning={morning.bareShop} />,
  "morning-busy": () => <MorningCard morning={morning.busy} />,
  "instruments-usual": () => <Instruments view={instruments.usual} />,
  "instruments-none": () => <Instruments view={instruments.none} />,
  "instruments-many": () => <Instruments view={instruments.many} />,
  "gauge-usual": () => <GaugeStudies view={studies.gaugeUsual} />,
  "gauge-none": () => <GaugeStudies view={studies.gaugeNone} />,
  "unit-charts-usual": () => <UnitCharts view={studies.chartsUsual} />,
  "unit-charts-none": () => <UnitCharts view={studies.chartsNone} />,
  "budget-blank": () => <BudgetPage />,
  "budget-answered": () => <BudgetPage first={studies.budgetAnswer} />,
  "safety-half": () => <SafetySheet sheet={safety.half} />,
  "safety-refuted": () => <SafetySheet sheet={safety.refuted} />,
  "safety-proven": () => <SafetySheet sheet={safety.proven} />,
  "safety-bare": () => <SafetySheet sheet={safety.bare} />,
  "safety-limits": () => <SafetyLimits view={safety.limits} />,
  "safety-no-limits": () => <SafetyLimits view={safety.noLimits} />,
  "costs-usual": () => <Costs costs={costs.usual} />,
  "costs-none": () => <Costs costs={costs.none} />,
  "costs-missing": () => <Costs costs={costs.missing} />,
  "checks-usual": () => <Checks checks={checks.usual} />,
  "checks-few": () => <Checks checks={checks.few} />,
  "checks-none": () => <Checks checks={checks.none} />,
  "listening-plan": () => <Listening index={{ ...listed, series: [], models: [] }} />,
  "listening-answered": () => <Listening index={listed} answers={answered} />,
  "listening-running": () => <Series view={sits} />,
  "listening-closed": () => <Series view={shown} />,
  "listening-answer": () => <Answering view={sits} />,
  "listening-switch": () => <Switching view={sits} given={switched} />,
  "soaks-usual": () => <Soaks soaks={soaks.usual} />,
  "soaks-none": () => <Soaks soaks={soaks.none} />,
  "promises-few": () => <PromiseBook now={promises.now} promises={promises.few} />,
  "promises-one": () => <PromiseBook now={promises.now} promises={promises.one} />,
  "promises-many": () => <PromiseBook now={promises.now} promises={promises.many} />,
  "promises-none": () => <PromiseBook now={promises.now} promises={[]} />,
  "what-if": () => (
    <WhatIf
      options={whatIf.options}
      now={promises.now}
      ask={() => {}}
      answer={whatIf.answer}
      ordering={whatIf.ordering}
    />
  ),
  "what-if-unasked": () => <WhatIf options={whatIf.noOptions} now={promises.now} ask={() => {}} />,
  "promises-kept": () => <Kept kept={whatIf.kept} />,
  "promises-none-kept": () => <Kept kept={whatIf.noneKept} />,
  "look-back": () => <LookBack view={lookBack.many} />,
  "look-back-none": () => <LookBack view={lookBack.none} />,
  "people-register": () => (
    <Pretending session={people.owner}>
      <People session={people.owner}>
        <Register people={people.register} />
      </People>
    </Pretending>
  ),
  "people-oneself": () => (
    <Pretending session={people.visitor}>
      <People session={people.visitor}>{null}</People>
    </Pretending>
  ),
  "people-none": () => <People session={people.nobody}>{null}</People>,
  "people-sign-in": () => <SignInForm />,
  "people-may-not": () => (
    <Pretending session={people.visitor}>
      <UnitFolder unit={unit.manyGaps} />
    </Pretending>
  ),
  "customers-few": () => (
    <Pretending session={people.owner}>
      <Customers customers={people.customers} inAll={people.customers.length} />
    </Pretending>
  ),
  "customers-none": () => <Customers customers={[]} inAll={0} />,
  "units-many": () => <UnitList units={units.workshop.units} />,
  "units-none": () => <UnitList units={[]} />,
  "notebook-three": () => <Notebook notebook={notebook.three} outlooks={notebook.outlooks} />,
  "notebook-one": () => <Notebook notebook={notebook.one} outlooks={notebook.shelfOutlook} />,
  "notebook-many": () => <Notebook notebook={notebook.many} />,
  "notebook-release": () => <Limits draft={notebook.release} />,
  "notebook-models": () => <NotebookIndex index={notebook.index} />,
  "notebook-none": () => <NotebookIndex index={notebook.noModels} />,
  "notebook-very-long": () => <Notebook notebook={notebook.long} />,
  "notebook-waiting": () => <Waiting what="the notebook of Holm" />,
  "notebook-error": () => (
    <TroubleNote
      error={new Trouble("Holm; models in the notebook are Ebb and Neap; check the name", "model", 422)}
      again={() => {}}
    />
  ),
  "probe-fresh": () => <ProbeCard card={probe.fresh} windows={probe.windows} suspects={probe.unread} />,
  "probe-half": () => <ProbeCard card={probe.halfDead} windows={probe.windows} />,
  "probe-good": () => <ProbeCard card={probe.good} windows={probe.windows} suspects={probe.allGood} />,
  "probe-faulty": () => <ProbeCard card={probe.faulty} windows={probe.windows} suspects={probe.accused} />,
  "probe-shorted": () => <ProbeCard card={probe.shorted} windows={probe.windows} suspects={probe.unread} />,
  "probe-trouble": () => <ProbeCard card={probe.fresh} windows={probe.trouble} suspects={probe.unread} />,
  "probe-bare": () => <ProbeCard card={probe.bare} />,
  "probe-one": () => <ProbeCard card={probe.oneOnly} />,
  "probe-waiting": () => <Waiting what="the probe card of unit 0231" />,
  "shop-empty": () => <ShopSetUp view={shop.empty} />,
  "shop-usual": () => <ShopSetUp view={shop.usual} />,
  "orders-few": () => <Orders view={orders.few} open={() => {}} />,
  "orders-none": () => <Orders view={orders.none} open={() => {}} />,
  "order-one": () => <Order view={orders.one} />,
  "work-usual": () => <Work view={work.usual} />,
  "pack-not-released": () => <Pack view={work.notReleased} />,
  "pack-ready": () => <Pack view={work.toPack} />,
  "pack-packed": () => <Pack view={work.packed} />,
  "return-here": () => <Return view={work.cameBack} reserve={work.reserve} />,
  "return-never-left": () => <Return view={work.neverLeft} />,
  "supply-destination": () => <Supply unit={unit.manyGaps} />,
  "trays-many": () => <Trays trays={valves.shelf} open={() => {}} />,
  "trays-none": () => <Trays trays={valves.noTrays} open={() => {}} />,
  "tray-leaning": () => <Tray tray={valves.leaning} first={valves.chosen} />,
  "tray-steady": () => <Tray tray={valves.steady} />,
  "tray-on-heat": () => <Tray tray={valves.onHeat} />,
  "tray-untouched": () => <Tray tray={valves.untouched} />,
  "tray-bare": () => <Tray tray={valves.bare} />,
  "tray-one": () => <Tray tray={valves.one} first="T-101" />,
  "tray-many": () => <Tray tray={valves.many} />,
  "tray-sets": () => <SetList sets={valves.sets} now={valves.shelf.now} />,
  "tray-seller": () => <SellerSheet tray={valves.leaning} />,
  "tray-waiting": () => <Waiting what="tray B-31" />,
  "timber-shelf": () => <TimberShelf shelf={timber.shelf} open={() => {}} />,
  "timber-none": () => <TimberShelf shelf={timber.none} open={() => {}} />,
  "timber-one": () => <TimberShelf shelf={timber.one} open={() => {}} />,
  "timber-computing": () => <TimberShelf shelf={timber.computing} open={() => {}} />,
  "timber-many": () => <TimberShelf shelf={timber.many} open={() => {}} />,
  "timber-very-long": () => <TimberShelf shelf={timber.veryLong} open={() => {}} />,
  "timber-places": () => <Places shelf={timber.shelf} runs={timber.runs} cracks={timber.cracks} early={timber.early} />,
  "timber-no-places": () => <Places shelf={timber.none} />,
  "timber-cuts": () => <Cuts plan={timber.cuts} />,
  "timber-weigh": () => <Weigh shelf={timber.shelf} />,
  "timber-piece": () => <Piece view={timber.piece} shelf={timber.shelf} />,
  "timber-approach": () => <Piece view={timber.approach} shelf={timber.shelf} />,
  "timber-case": () => <UnitCase view={timber.refuted} />,
  "timber-case-proven": () => <UnitCase view={timber.proven} />,
  "timber-no-case": () => <UnitCase view={timber.noCase} />,
  "timber-waiting": () => <Waiting what="the timber shelf" />,
  "timber-error": () => (
    <TroubleNote
      error={new Trouble("A-999; no piece of that number is on record", "piece", 422)}
      again={() => {}}
      alone
    />
  ),
};

/** An example's answers as they come over the wire: told in the language in use. */
function Told({ example }: { readonly example: ReactNode }) {
  const [told, setTold] = useState<ReactNode>();
  useEffect(() => {
    if (!isValidElement<Readonly<Record<string, unknown>>>(example)) return;
    void toldAnswer("example", example.props).then((props) => setTold(cloneElement(example, props)));
  }, [example]);
  return told;
}

function Examples() {
  const [name, setName] = useState(location.hash.slice(1));
  useEffect(() => {
    const turn = () => setName(location.hash.slice(1));
    window.addEventListener("hashchange", turn);
    return () => window.removeEventListener("hashchange", turn);
  }, []);
  const shown = examples[name];
  if (shown) return <div key={name}>{languageInUse() === "en" ? shown() : <Told example={shown()} />}</div>;
  return (
    <>
      <h1>Examples of the screens</h1>
      <ul>
        {Object.keys(examples).map((one) => (
          <li key={one}>
            <a href={`#${one}`} data-example={one}>
              {one}
            </a>
          </li>
        ))}
      </ul>
    </>
  );
}

const root = document.getElementById("root");
if (!root) throw new Error("The page has no element with the id root");
createRoot(root).render(
  <QueryClientProvider client={new QueryClient()}>
    <Shell workshop={units.workshop}>
      <Examples />
    </Shell>
  </QueryClientProvider>,
);
